"""The errors a person can meet, and what each means."""

from __future__ import annotations


class PowerplanError(Exception):
    """Any fault this program knows by name."""


class PlanFileError(PowerplanError, ValueError):
    """What was written cannot be planned; carries every fault found.

    Parameters
    ----------
    faults : list of str
        One sentence a fault, each with file, line, what was found and what is wanted.
    """

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(faults))
        self.faults = tuple(faults)


class RecordError(PowerplanError, ValueError):
    """A plan record that cannot be read: not our form, or a value of the wrong kind."""


class RulebookError(PowerplanError, ValueError):
    """A rule set that is not known, or that holds a number without a source."""


class JudgeDisagreesError(PowerplanError):
    """The planner made a plan that the judge refuses: our fault, never the user's."""
