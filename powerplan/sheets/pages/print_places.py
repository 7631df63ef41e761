"""Places on the floor of a row in words, told from what is chalked there."""

from __future__ import annotations

from powerplan.model.geometry import Point
from powerplan.model.lengths import at_mark_m, length_text
from powerplan.model.plan import PlacedChair
from powerplan.model.spec import Wall
from powerplan.sheets.pages.print_rows import SetRow
from powerplan.sheets.pages.print_swings import STRAIGHT_M, aside, from_a_wall, from_line
from powerplan.sheets.pages.print_told import Places

_FAR_M = 1.2


def place_words(point: Point, row: SetRow, places: Places) -> str:
    """Return where a place is, from what is chalked for the row: its line and the nearest chair's
    middle on it; of a turned or curved row as it is taped there. [m]"""
    if not row.square:
        return places.taped(point, row).words
    return f"{_ahead(point, row, places)}, {_aside(point, row, places)}"


def bend_words(old: Point, new: Point, row: SetRow, places: Places) -> str:
    """Return a place by what is new about it after another; by its letter where it has one. [m]"""
    if not row.square:
        return places.named(new, row) or place_words(new, row, places)
    (x, y), (to_x, to_y) = (places.spot(at, row) for at in (old, new))
    if abs(to_x - x) < STRAIGHT_M:
        return _ahead(new, row, places)
    if abs(to_y - y) < STRAIGHT_M:
        return _aside(new, row, places)
    return place_words(new, row, places)


def off_line(ahead_m: float, units: str) -> str:
    """Return how far ahead of a line something is, in a column that says which line. [m]"""
    if abs(ahead_m) < STRAIGHT_M:
        return "on it"
    return f"{length_text(abs(ahead_m), units)} {'ahead' if ahead_m > 0 else 'behind'}"


def _ahead(point: Point, row: SetRow, places: Places) -> str:
    """How far ahead of the line of a square row a place is, or from which wall."""
    plan = places.plan
    units, spot = plan.spec.project.units, places.spot(point, row)
    ahead_m = spot[1] - at_mark_m(row.chalk.left[1], units)
    if abs(ahead_m) > _FAR_M:
        return from_a_wall(spot, (Wall.BACK, Wall.SCREEN), plan)
    return from_line(ahead_m, units)


def _aside(point: Point, row: SetRow, places: Places) -> str:
    """How far along the line a place is from the nearest chair's middle, or from which wall."""
    plan = places.plan
    units, spot = plan.spec.project.units, places.spot(point, row)
    middle_m, chair = _nearest(spot[0], row, units)
    if abs(spot[0] - middle_m) > _FAR_M:
        return from_a_wall(spot, (Wall.LEFT, Wall.RIGHT), plan)
    return aside(spot[0] - middle_m, f"{chair.id}'s middle", units)


def _nearest(x_m: float, row: SetRow, units: str) -> tuple[float, PlacedChair]:
    """The chair whose middle is nearest along the line, and where that is marked. [m]"""
    marks = [(at_mark_m(chair.x_m, units), chair) for chair in row.chairs]
    return min(marks, key=lambda mark: (abs(mark[0] - x_m), mark[0]))
