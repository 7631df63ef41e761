"""The words that every room shares."""
