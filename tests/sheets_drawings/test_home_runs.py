"""Wiring as it is drawn: never longer than its estimate, and beside the measures."""

from itertools import pairwise

import strategies
from drawn import dimensions_of
from laws import law, planned

from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.lower import dimension_ends
from powerplan.sheets.scene import Line

ROOM_MM = (250.0, 190.0)
LEAST_MM = 0.8


def pieces_of(view):
    """Every straight piece of ink of the measures. [m]"""
    for item in dimensions_of(view):
        ends = dimension_ends(item)
        yield from ((ends[0], ends[1]), (item.start, ends[0]), (item.end, ends[1]))


def on_each_other(one, other, least):
    """Whether two upright or level pieces run along each other closer than ``least``."""
    for axis in (0, 1):
        if one[0][axis] == one[1][axis] and other[0][axis] == other[1][axis]:
            low = max(min(p[1 - axis] for p in piece) for piece in (one, other))
            high = min(max(p[1 - axis] for p in piece) for piece in (one, other))
            if high - low > least and abs(one[0][axis] - other[0][axis]) < least:
                return True
    return False


@law(strategies.rooms(), usual=7, many=150)
def test_wiring_is_drawn_no_longer_than_its_estimate_and_under_no_measure(spec):
    plan = planned(spec)
    view = floor_box_view(plan, ROOM_MM)
    ways = [
        item.points
        for item in view.items
        if isinstance(item, Line) and item.layer == "home_run" and len(item.points) > 2
    ]
    wired = [box for box in plan.boxes if box.wiring_m is not None and box.wired_from != "panel"]
    assert len(ways) <= len(wired)
    drawn = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for way in ways for a, b in pairwise(way))
    assert drawn <= sum(box.wiring_m for box in wired) + 1e-6
    least = LEAST_MM * view.scale / 1000
    own = list(pieces_of(view))
    for piece in (piece for way in ways for piece in pairwise(way)):
        assert not any(on_each_other(piece, other, least) for other in own)
