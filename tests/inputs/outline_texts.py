"""Plan files of rooms with corners, and one fault at a time in them."""

import re
from collections.abc import Sequence

from plan_texts import EVERY_KEY

# From the left and from the back, in inches, and the wall that goes on from there.
Corners = Sequence[tuple[float, float, str | None]]

# 20 ft by 15 ft 6 in, with a corner taken out at the front left and a slanted wall beside it.
BAY: Corners = (
    (0, 0, "back"),
    (240, 0, "right"),
    (240, 186, "screen"),
    (72, 186, "bay"),
    (48, 144, None),
    (0, 144, "left"),
)


def corner_tables(corners: Corners) -> str:
    """Corners as tables of a plan file."""
    told = []
    for left, back, wall in corners:
        name = f'wall = "{wall}"\n' if wall else ""
        told.append(f'[[room.corner]]\nfrom_left = "{left} in"\nfrom_back = "{back} in"\n{name}')
    return "\n".join(told) + "\n"


def cornered(corners: Corners = BAY, room: str = "", more: str = "", text: str = EVERY_KEY) -> str:
    """The plan file with corners in place of a width and depth; ``room`` is more of [room]."""
    text = re.sub(r"(\[room\]\n)width.*\ndepth.*\n", rf"\1{room}", text)
    at = text.index("[door.hall]")
    return text[:at] + corner_tables(corners) + text[at:] + more


def with_door(text: str, wall: str, place: str) -> str:
    """The plan file with its door on another wall."""
    old = 'wall = "right"\nfrom_back = "11 ft" '
    assert old in text
    return text.replace(old, f'wall = "{wall}"\n{place} ')
