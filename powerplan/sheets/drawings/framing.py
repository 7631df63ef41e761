"""What lies under the floor and under decks: joists, and what is known of them."""

from __future__ import annotations

from powerplan.model.geometry import Point, Rect
from powerplan.model.lengths import length_text
from powerplan.model.spec import Framing
from powerplan.sheets.drawings.sketch import Sketch


def draw_joists(
    sketch: Sketch,
    framing: Framing,
    rect: Rect,
    decks: tuple[Rect, ...] = (),
    outline: tuple[Point, ...] = (),
) -> None:
    """Draw both sides of each joist, or its middle where its width is unknown.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    framing : Framing
        What is known of them.
    rect : Rect
        The floor or the deck that lies on them. [m]
    decks : tuple of Rect
        Decks that cover them. [m]
    outline : tuple of Point
        The walls that they end at, where those are no rectangle. [m]
    """
    if framing.build != "joists" or framing.first_joist_m is None or not framing.spacing_m:
        return
    if framing.joists_run is None:
        return
    ahead = framing.joists_run == "back to screen"
    size = rect.width_m if ahead else rect.depth_m
    at = framing.first_joist_m
    half = (framing.joist_width_m or 0.0) / 2
    while at < size:
        for side in sorted({-half, half}):
            if 0 < at + side < size:
                _joist_line(sketch, rect, ahead, at + side, decks, outline)
        at += framing.spacing_m


def _joist_line(
    sketch: Sketch,
    rect: Rect,
    ahead: bool,
    at: float,
    decks: tuple[Rect, ...],
    outline: tuple[Point, ...],
) -> None:
    place = (rect.left_m if ahead else rect.back_m) + at
    spans = [(rect.back_m, rect.front_m) if ahead else (rect.left_m, rect.right_m)]
    if outline:
        spans = _inside(outline, place, 0 if ahead else 1)
    for deck in decks:
        low, high = (deck.left_m, deck.right_m) if ahead else (deck.back_m, deck.front_m)
        if not low < place < high:
            continue
        cover = (deck.back_m, deck.front_m) if ahead else (deck.left_m, deck.right_m)
        spans = [
            part
            for span in spans
            for part in ((span[0], min(span[1], cover[0])), (max(span[0], cover[1]), span[1]))
            if part[0] < part[1]
        ]
    for low, high in spans:
        sketch.line(
            ((place, low), (place, high)) if ahead else ((low, place), (high, place)), "joist"
        )


def _inside(outline: tuple[Point, ...], place: float, axis: int) -> list[tuple[float, float]]:
    """The parts of a straight line across (or along) the room that lie within its walls. [m]"""
    met = []
    for one, other in zip(outline, (*outline[1:], outline[0]), strict=True):
        low, high = sorted((one, other), key=lambda end: end[axis])
        if low[axis] <= place < high[axis]:
            part = (place - low[axis]) / (high[axis] - low[axis])
            met.append(low[1 - axis] + (high[1 - axis] - low[1 - axis]) * part)
    met.sort()
    return list(zip(met[::2], met[1::2], strict=True))


def say_framing(sketch: Sketch, what: str, framing: Framing, rect: Rect, units: str) -> None:
    """Say in a deck or the floor what is known of its framing.

    Parameters
    ----------
    sketch : Sketch
        The drawing.
    what : str
        What it is the framing of.
    framing : Framing
        What is known.
    rect : Rect
        Where it is said. [m]
    units : str
        How lengths print.
    """
    lines = _framing_words(what, framing, units)
    front, back = rect.front_m, rect.back_m
    anchors = [
        (rect.left_m + rect.width_m * across, back + (front - back) * up)
        for up in (0.92, 0.8, 0.68, 0.08)
        for across in (0.8, 0.2, 0.5)
    ]
    sketch.label(f"framing {what}", lines, anchors, on=True, height_mm=1.8)


def _framing_words(what: str, framing: Framing, units: str) -> tuple[str, ...]:
    if framing.build == "slab":
        return (f"{what}: slab", "scan before cutting")
    known = framing.spacing_m is not None and framing.first_joist_m is not None
    if framing.build is None or framing.joists_run is None or not known:
        built = "framing" if framing.build is None else "where its joists lie"
        return (f"{what}: {built} unknown", "scan before cutting")
    assert framing.spacing_m is not None
    assert framing.first_joist_m is not None
    first = length_text(framing.first_joist_m, units)
    edge = "left" if framing.joists_run == "back to screen" else "back"
    return (
        f"{what}: joists {length_text(framing.spacing_m, units)} apart,",
        f"the first {first} from the {edge}",
    )
