"""The command that answers: all three answers from one plan file, and a picture of the room."""

from __future__ import annotations

from powerplan.cli.planned import plan_command

_HELP = """\b
Example:
  powerplan den.toml

All three answers from one plan file, and a picture of the room.
"""

command = plan_command("plan", _HELP)
