"""What each reader is told, page by page."""
