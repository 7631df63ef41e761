"""The scale of a drawing in words."""

from __future__ import annotations

NO_SCALE = "no scale"

_TO_THE_FOOT = {4: "3", 6: "2", 8: "1 1/2", 12: "1", 16: "3/4", 24: "1/2", 32: "3/8", 48: "1/4"}
_TO_THE_FOOT |= {64: "3/16", 96: "1/8", 128: "3/32", 192: "1/16"}


def scale_text(scale: int, units: str) -> str:
    """Return a scale in words: 1/4" = 1'-0", or 1:50; a scale of 1 is no scale.

    Parameters
    ----------
    scale : int
        How many times larger the room is than its drawing.
    units : str
        ft-in, in, mm or m.
    """
    if scale <= 1:
        return NO_SCALE
    if units in ("ft-in", "in") and scale in _TO_THE_FOOT:
        return f'{_TO_THE_FOOT[scale]}" = 1\'-0"'
    return f"1:{scale}"
