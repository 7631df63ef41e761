"""Where a floor box may sit, and where it is marked."""
