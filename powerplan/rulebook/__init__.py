"""Rule sets as data, each number with its source."""
