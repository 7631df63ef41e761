"""The command that answers: how do the cords run, and what is to be bought?"""

from __future__ import annotations

from powerplan.cli.planned import plan_command

_HELP = """\b
Example:
  powerplan cords den.toml

How do the cords run, and what is to be bought?
"""

command = plan_command("cords", _HELP)
