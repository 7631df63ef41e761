"""What each reader is told: views of a plan."""
