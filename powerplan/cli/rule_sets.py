"""The rule set that is taken where a command names none, and what help says of the choice."""

DEFAULT = "us-nec-2023"
HELP = f"{DEFAULT} (taken where none is said) or iec-60364-2009."
