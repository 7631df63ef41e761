"""Which scale a drawing is made at, and how people say it."""

from __future__ import annotations

FEET_SCALES = (24, 48, 64, 96)
METER_SCALES = (20, 50, 100)
ROW_FEET_SCALES = (24, 32, 48)
ROW_METER_SCALES = (20, 25, 50)


def scales(units: str) -> tuple[int, ...]:
    """Return the scales of a drawing office, largest drawing first.

    Parameters
    ----------
    units : str
        ft-in, in, mm or m.
    """
    return FEET_SCALES if units in ("ft-in", "in") else METER_SCALES


def row_scales(units: str) -> tuple[int, ...]:
    """Return the scales of the drawing of one row, largest first: a step closer to one another.

    Parameters
    ----------
    units : str
        ft-in, in, mm or m.
    """
    return ROW_FEET_SCALES if units in ("ft-in", "in") else ROW_METER_SCALES


def choose_scale(width_m: float, depth_m: float, room_mm: tuple[float, float], units: str) -> int:
    """Return the scale that makes the largest drawing that fits; where none fits, the smallest.

    Parameters
    ----------
    width_m, depth_m : float
        What is drawn. [m]
    room_mm : tuple of float
        Width and height of paper. [mm]
    units : str
        ft-in, in, mm or m.
    """
    for scale in scales(units):
        wide_mm, high_mm = width_m * 1000 / scale, depth_m * 1000 / scale
        if wide_mm <= room_mm[0] and high_mm <= room_mm[1]:
            return scale
    return scales(units)[-1]
