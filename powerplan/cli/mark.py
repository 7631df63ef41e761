"""The command that answers: where do the floor boxes go?"""

from __future__ import annotations

from powerplan.cli.planned import plan_command

_HELP = """\b
Example:
  powerplan mark den.toml

Where do the floor boxes go?
"""

command = plan_command("mark", _HELP)
