"""What is printed on paper, without making a file of it."""

from powerplan.sheets.layout import sheets_of_paper
from powerplan.sheets.paper import LETTER
from powerplan.sheets.printed import SetOfSheets
from powerplan.sheets.typeset.ink import Letters


def first_sheets(sheets: SetOfSheets) -> dict[str, str]:
    """The words of the first sheet of each page."""
    told: dict[str, str] = {}
    for sheet in sheets_of_paper(sheets, LETTER):
        words = " ".join(ink.words for ink in sheet.ink if isinstance(ink, Letters))
        told.setdefault(sheet.page.number, words)
    return told
