"""The bends of cords in turned and curved rows, chalked before the first chair is brought up."""

from __future__ import annotations

from powerplan.model.geometry import Point
from powerplan.model.lengths import joined
from powerplan.sheets.keep_off import Key, key_of
from powerplan.sheets.pages.print_rows import row_of
from powerplan.sheets.pages.print_tags import in_bags, tag_text
from powerplan.sheets.pages.print_told import Places
from powerplan.sheets.pages.print_words import capital
from powerplan.sheets.parts import Items, Part, Table

_HEAD = ("place", "of", "first measure", "second measure")
_CAPTION = (
    "Where cords bend, and where they enter a chair, in rows that are turned or curved: chalked "
    "before the first chair"
)


def bends(places: Places, numbers: dict[str, int]) -> list[Part]:
    """Return where each bend of a turned or curved row is taped, and each place where a cord enters
    one of its chairs; nothing where there is none.

    Parameters
    ----------
    places : Places
        Where places are told to be.
    numbers : dict
        The number on each cord's tag, by its id.
    """
    found = _of_cords(places, numbers)
    if not found:
        return []
    lines, swung = [], False
    for (row_id, _), (name, point, tags) in found.items():
        row = next(row for row in places.rows if row.id == row_id)
        taped = places.taped(point, row)
        swung |= taped.swung
        cords = tag_text(tags[0]) if len(tags) == 1 else f"cords {joined(list(map(str, tags)))}"
        lines.append((capital(name), cords, taped.first, taped.second))
    return [
        Table(caption=_CAPTION, head=_HEAD, rows=tuple(lines)),
        Items(lead="How they are taped:", items=tuple(_how(places, swung=swung))),
    ]


def _of_cords(
    places: Places, numbers: dict[str, int]
) -> dict[tuple[str, Key], tuple[str, Point, list[int]]]:
    """Each place by its row: what it is called, where it is, and the tags of its cords; bends
    first, in the order of their letters."""
    plan, chairs = places.plan, {chair.id for chair in places.plan.chairs}
    bent = dict[tuple[str, Key], tuple[str, Point, list[int]]]()
    enters = dict[tuple[str, Key], tuple[str, Point, list[int]]]()
    for cord in in_bags(plan):
        row = row_of(cord, places.rows, plan)
        if row.square:
            continue
        for (row_id, key), letter in places.letters.items():
            at = next((p for p in places.bends_of(cord) if key_of(p) == key), None)
            if row_id == row.id and at is not None:
                bent.setdefault((row_id, key), (f"bend {letter}", at, []))[2].append(
                    numbers[cord.id]
                )
        if cord.to in chairs:
            end = cord.path_m[-1]
            name = f"{cord.to}'s inlet"
            enters.setdefault((row.id, key_of(end)), (name, end, []))[2].append(numbers[cord.id])
    order = {key: number for number, key in enumerate(places.letters)}
    return dict(sorted(bent.items(), key=lambda one: order[one[0]])) | enters


def _how(places: Places, *, swung: bool) -> list[str]:
    rows = [row for row in places.rows if not row.square]
    told = []
    if any(row.curved for row in rows):
        told.append(
            "A chair's rear line runs through the marks of its two rear corners, and on past them. "
            "Ahead, behind, left and right are as that chair looks: measure along it, then square "
            "off it."
        )
    if any(not row.curved for row in rows):
        told.append(
            "In a turned row the line is its chalk line: measure along it from the chair's mark, "
            "then square off it, behind or ahead as its chairs look."
        )
    if swung:
        told.append(
            "From two marks: swing a tape from each, and mark where they meet, on the side that "
            "the table says, seen along the way the chairs look."
        )
    if places.letters:
        told.append(
            "Write its letter at each bend, and lay each cord from letter to letter as its way "
            "says. The lengths between them prove the marks."
        )
    return told
