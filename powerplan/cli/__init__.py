"""A person at a terminal: the command group, exit codes, one small module a command."""
