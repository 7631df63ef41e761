"""A set of printed sheets, before any writer lays it out."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.sheets.parts import Part


class SheetPage(NamedTuple):
    """One page of a set, for one reader; a writer may spread it over several sheets of paper.

    A title may end in a warning after a full stop, which is no part of its name.
    """

    number: str
    title: str
    reader: str
    parts: tuple[Part, ...]

    @property
    def name(self) -> str:
        """What the page is called where it is referred to: its number, and its title alone."""
        return f"{self.number} {self.title.partition('. ')[0]}"

    def block(self, part: int, of: int) -> str:
        """Return the heading as it stands in the title block, where room is short: the warning
        first, and then which of its sheets this is only at the top.

        Parameters
        ----------
        part, of : int
            Which sheet of the page, counted from 1, and how many it has.
        """
        _, _, warning = self.title.partition(". ")
        return f"{warning}. {self.name}" if warning else self.heading(part, of)

    def heading(self, part: int, of: int) -> str:
        """Return the name with which of the page's own sheets this is, and the warning.

        Parameters
        ----------
        part, of : int
            Which sheet of the page, counted from 1, and how many it has.
        """
        _, stop, warning = self.title.partition(". ")
        which = f", {part} of {of}" if of > 1 else ""
        return f"{self.name}{which}{stop}{warning}"


class SetOfSheets(NamedTuple):
    """All that is printed for one plan, and what stands in the title block of every sheet.

    ``plan_hash`` is the SHA-256 of the plan file; ``units`` is ft-in, in, mm or m;
    ``scale_words`` is the scale of the floor-box drawing, as in ``1/4" = 1'-0"``.
    """

    project: str
    revision: str
    date: str
    program: str
    rules: str
    plan_hash: str
    caution: str
    units: str
    scale_words: str
    pages: tuple[SheetPage, ...]
