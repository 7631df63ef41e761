"""Moving parts of mechanisms: floor that they sweep, which no opening keeps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from powerplan.engineering.seating.frames import Outline, bounds, polygon
from powerplan.engineering.seating.openings import ARM_STRIP, CLEAR, Opening, wide_enough
from powerplan.engineering.seating.rects import spans_less
from powerplan.engineering.seating.seated import SeatedRow
from powerplan.engineering.seating.shapes import floor_less
from powerplan.model.geometry import Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class SweptPart:
    """A piece of floor that a moving part of a chair sweeps. ``least_gap_m`` is the least room
    under it anywhere in its travel, None where nobody measured. [m]"""

    chair: str
    name: str
    outline: Outline
    least_gap_m: float | None


def swept_parts(rows: Iterable[SeatedRow]) -> tuple[SweptPart, ...]:
    """Return what the moving parts of all chairs sweep, in the room.

    Parameters
    ----------
    rows : iterable of SeatedRow
        Every row of the room. [m]
    """
    return tuple(
        SweptPart(
            chair=chair.id,
            name=part.id,
            outline=chair.frame.outline(
                tuple((chair.spot[0] + u, chair.spot[1] + v) for u, v in outline)
            ),
            least_gap_m=part.least_gap_m,
        )
        for row in rows
        for chair in row.chairs
        for part in chair.kind.parts
        for outline in part.outlines
    )


def openings_left(
    openings: Sequence[Opening], parts: Sequence[SweptPart], least_gap_m: float
) -> tuple[Opening, ...]:
    """Return what is left of openings where parts sweep too low for a cord.

    Parameters
    ----------
    openings : sequence of Opening
        Openings as if nothing moved in them. [m]
    parts : sequence of SweptPart
        What moves. [m]
    least_gap_m : float
        The least gap that is open to a cord. [m]
    """
    low = [part for part in parts if not wide_enough(part.least_gap_m, least_gap_m)]
    found: list[Opening] = []
    for opening in openings:
        floor = polygon(opening.outline)
        met = [part.outline for part in low if polygon(part.outline).intersection(floor).area > 0]
        found.extend(_cut(opening, met) if met else [opening])
    return tuple(found)


def _cut(opening: Opening, parts: Sequence[Outline]) -> Iterator[Opening]:
    """The pieces that are left of an opening; a strip keeps the widest way beside the parts."""
    rect = opening.rect if opening.kind == CLEAR else _beside(opening, parts)
    for outline in floor_less(opening.outline, parts, opening.frame):
        yield Opening(
            chair=opening.chair,
            kind=opening.kind,
            rect=rect,
            frame=opening.frame,
            bent=outline,
        )


def _beside(opening: Opening, parts: Sequence[Outline]) -> Rect:
    """The widest stretch of a strip that no part crosses anywhere."""
    rect = opening.rect
    boxes = [bounds((tuple(map(opening.frame.place, part)),)) for part in parts]
    if opening.kind == ARM_STRIP:
        spans = spans_less(
            (rect.back_m, rect.front_m), [(box.back_m, box.front_m) for box in boxes]
        )
        back_m, front_m = max(spans, key=_length_m, default=(rect.back_m, rect.back_m))
        return Rect(left_m=rect.left_m, right_m=rect.right_m, back_m=back_m, front_m=front_m)
    spans = spans_less((rect.left_m, rect.right_m), [(box.left_m, box.right_m) for box in boxes])
    left_m, right_m = max(spans, key=_length_m, default=(rect.left_m, rect.left_m))
    return Rect(left_m=left_m, right_m=right_m, back_m=rect.back_m, front_m=rect.front_m)


def _length_m(span: tuple[float, float]) -> float:
    return span[1] - span[0]
