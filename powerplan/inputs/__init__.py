"""The outside world: plan files and records as written, turned into the model."""
