"""The command that answers: does the job need a new circuit?"""

from __future__ import annotations

from powerplan.cli.planned import plan_command

_HELP = """\b
Example:
  powerplan decide den.toml

Does the job need a new circuit?
"""

command = plan_command("decide", _HELP)
