"""How an outline is proved with a tape: from corner to corner, inside the room."""

from __future__ import annotations

import math
from itertools import combinations

import shapely

from powerplan.model.faces import STUDS
from powerplan.model.geometry import Point
from powerplan.model.plan import Plan
from powerplan.sheets.off_walls import printed_corners
from powerplan.sheets.words import fine_text

_HAIR_M = 1e-6


def corners_told(plan: Plan, within: str) -> str:
    """Return how far each corner is from the first, on the faces that measures print to, to prove
    an outline with a tape.

    Parameters
    ----------
    plan : Plan
        A plan of a room with corners.
    within : str
        By how much they may differ, in words.
    """
    room, units = plan.spec.room, plan.spec.project.units
    corners = printed_corners(room)
    face = "stud to stud" if room.print_to == STUDS else "finish to finish"
    names = [
        f"where {line.label} begins after {before.label}"
        for before, line in zip((room.walls[-1], *room.walls[:-1]), room.walls, strict=True)
    ]
    told: dict[int, list[str]] = {}
    for start, end in proof_lines(corners):
        away = fine_text(math.dist(corners[start], corners[end]), units)
        told.setdefault(start, []).append(f"{away} to {names[end]}")
    lines = ". ".join(f"From {names[start]}: {'; '.join(to)}" for start, to in told.items())
    return (
        f"Then prove the corners, each in a straight line inside the room, {face}. {lines}. "
        f"If one differs by more than {within}, stop and call."
    )


def proof_lines(corners: tuple[Point, ...]) -> tuple[tuple[int, int], ...]:
    """Return the lines from corner to corner that prove an outline whose walls are measured too.

    They lie inside it and cross nowhere, from the first corner where that can be seen from there;
    together with the walls they part it into triangles, and so leave nothing free to move.

    Parameters
    ----------
    corners : tuple of Point
        Where its walls begin, in order. [m]
    """
    inside = shapely.Polygon(corners).buffer(_HAIR_M, join_style="mitre")
    chosen: list[tuple[int, int]] = []
    for start, end in combinations(range(len(corners)), 2):
        line = shapely.LineString((corners[start], corners[end]))
        crossed = any(
            not {start, end} & {one, other}
            and line.crosses(shapely.LineString((corners[one], corners[other])))
            for one, other in chosen
        )
        beside = end - start in (1, len(corners) - 1)
        if (start == 0 or not beside) and not crossed and inside.covers(line):
            chosen.append((start, end))
    return tuple(chosen)
