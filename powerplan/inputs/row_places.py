"""Where a row's middle stands between the finished walls."""

from __future__ import annotations

from fractions import Fraction

from powerplan.inputs import written as w
from powerplan.inputs.frame import Frame
from powerplan.inputs.inside import near
from powerplan.inputs.reading import Reading, grid_m, micro
from powerplan.inputs.tables import Table
from powerplan.model.spec import WallLine


def center_x_m(reading: Reading, table: Table[w.Row]) -> Fraction | None:
    """Return how far a row's middle is from the left of the finished room: as written, or in the
    middle of the room, and that is then noted as assumed. [m]"""
    frame, center = reading.frame, table.it.center_from_left
    if frame is None or reading.width_m is None or not table.sound("center_from_left"):
        return None
    if center is not None:
        return frame.inside((center, Fraction(0)))[0]
    reading.assume(f"row {table.name}", "stands in the middle of the room, left to right")
    if frame.room.measured_to == "studs":
        return Fraction(frame.room.width_m) / 2
    return reading.width_m / 2


def check_stands(reading: Reading, table: Table[w.Row], center: Fraction | None) -> None:
    """Note a row whose middle is outside the walls, and say from which wall its headrests count
    where another one stands nearer behind it."""
    frame, headrest = reading.frame, table.it.headrest_to_wall
    if frame is None or not frame.cornered or center is None or headrest is None:
        return
    spot = (grid_m(center), grid_m(headrest))
    if not near(frame.room.outline, spot):
        words = "the middle of the row is outside the room's walls; headrest_to_wall counts from "
        words += f"the rearmost wall ({frame.room.back_wall})"
        reading.faults.add(table.at("headrest_to_wall"), words)
        return
    behind = _wall_behind(frame, spot)
    if behind is not None and micro(behind[0]) > 0:
        words = f"headrest_to_wall counts from the rearmost wall ({frame.room.back_wall}); "
        words += f"straight behind the row's middle {behind[1].label} stands "
        words += f"{reading.text(behind[0])} nearer"
        reading.assume(f"row {table.name}", words)


def _wall_behind(frame: Frame, spot: tuple[float, float]) -> tuple[Fraction, WallLine] | None:
    """The first wall straight behind a place, and how far from the back of the room it is. [m]"""
    x, y = spot
    found = []
    for line in frame.room.walls:
        (x1, y1), (x2, y2) = line.start, line.end
        if x1 <= x <= x2 and x1 < x2:
            at = y1 + (x - x1) * (y2 - y1) / (x2 - x1)
            if at <= y:
                found.append((Fraction(at), line))
    return max(found, key=lambda one: one[0], default=None)
