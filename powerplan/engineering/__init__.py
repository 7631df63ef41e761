"""One trade a room; pure functions of the spec and the rule set."""
