"""A tape of amperes for each circuit: what is on it, chair by chair, and where its limit cuts."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.model.geometry import Rect
from powerplan.model.lengths import amps_text, plural
from powerplan.model.plan import CircuitUse, PlacedChair, Plan
from powerplan.sheets.amounts import amps_parts
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.local import local_of
from powerplan.sheets.scene import Text, View

_FACTOR = "continuous_factor"
_STEP_MM = 31.0
_HIGH_MM = 8.0
_CUT_MM = 4.0
_TITLE_MM = 7.5
_TICK_MM = 1.2
_LONG_TICK_MM = 2.2
_SIDE_MM = 14.0
_LEAST_MM = 60.0
_MOST_MM = 230.0
_HAIR_A = 1e-6
_EVERY_A = 5


class _Piece(NamedTuple):
    """A length of the tape: what it stands for, from where to where. [A]"""

    key: str
    lines: tuple[str, ...]
    start_a: float
    end_a: float
    there: bool


def load_view(plan: Plan, room_mm: tuple[float, float]) -> View | None:
    """Return the tapes of every circuit, one under the other; None where there is no circuit.

    Drawn at scale 1: a metre is a metre of paper.

    Parameters
    ----------
    plan : Plan
        The plan.
    room_mm : tuple of float
        Width and height of paper. [mm]
    """
    if not plan.circuits:
        return None
    tapes = [(use, _pieces(plan, use)) for use in plan.circuits]
    most_a = max([1.0, *(_reach_a(use, pieces) for use, pieces in tapes)])
    length_mm = min(_MOST_MM, max(_LEAST_MM, room_mm[0] - 2 * _SIDE_MM))
    sketch = Sketch(1, Rect(left_m=-1.0, right_m=2.0, back_m=-99.0, front_m=1.0), local_of(plan))
    for number, (use, pieces) in enumerate(tapes):
        _Tape(sketch, -number * _STEP_MM, length_mm / most_a).draw(use, pieces)
    told = "; ".join(_told(use) for use in plan.circuits)
    described = f"{plural(len(tapes), 'tape')} of amperes, zero at the left. {told}."
    return sketch.view("What each circuit carries", described)


def _reach_a(use: CircuitUse, pieces: list[_Piece]) -> float:
    return max([use.breaker_a or 0.0, *(piece.end_a for piece in pieces)])


def _told(use: CircuitUse) -> str:
    limit = "a breaker that is not known" if use.breaker_a is None else amps_text(use.breaker_a)
    more = "" if use.load_known else ", and what is already on it is not known"
    return f"Circuit {use.id} asks {amps_text(use.asks_a, up=True)} of {limit}{more}"


def _pieces(plan: Plan, use: CircuitUse) -> list[_Piece]:
    """What is there already, then chair by chair in the order of the plan."""
    factor = next((n.value for n in plan.rules.numbers if n.name == _FACTOR), 1.0)
    chairs = [chair for chair in plan.chairs if chair.circuit == use.id]
    asked = [_asked_a(chair, factor) for chair in chairs]
    there_a = use.asks_a - sum(asked) if use.load_known else 0.0
    named = [("there", "already on it", there_a)] if there_a > _HAIR_A else []
    named += [(chair.id, chair.id, part) for chair, part in zip(chairs, asked, strict=True)]
    parts_a = [part for _, _, part in named]
    told = amps_parts(parts_a, use.asks_a if use.load_known else sum(asked))
    pieces = []
    at = 0.0
    for (key, words, part_a), amount in zip(named, told, strict=True):
        pieces.append(_Piece(key, (words, amount), at, at + part_a, key == "there"))
        at += part_a
    return pieces


def _asked_a(chair: PlacedChair, factor: float) -> float:
    """A chair's length of the tape: its lasting part with the factor on, and the rest. [A]"""
    return factor * chair.continuous_a + (chair.input_a - chair.continuous_a)


class _Tape:
    """One tape: its lower edge stands at ``low_mm``. [mm, mm/A]"""

    def __init__(self, sketch: Sketch, low_mm: float, mm_per_a: float) -> None:
        self._sketch = sketch
        self._low, self._high = low_mm / 1000, (low_mm + _HIGH_MM) / 1000
        self._m_per_a = mm_per_a / 1000

    def draw(self, use: CircuitUse, pieces: list[_Piece]) -> None:
        """Draw the tape of one circuit."""
        self._title(use)
        for piece in pieces:
            self._piece(use, piece)
        end_a = max([0.0, *(piece.end_a for piece in pieces)])
        self._limit(use, end_a)
        self._ticks(max(end_a, use.breaker_a or 0.0))

    def _title(self, use: CircuitUse) -> None:
        words = (
            f"circuit {use.id}{' (new)' if use.new else ''}: asks {amps_text(use.asks_a, up=True)}"
        )
        if not use.load_known:
            words += " for the chairs; what is already on it is NOT KNOWN"
        at = (0.0, self._high + _TITLE_MM / 1000)
        self._sketch.words(Text(at=at, words=words, layer="text", height_mm=2.5, anchor="lm"))

    def _piece(self, use: CircuitUse, piece: _Piece) -> None:
        rect = self._rect(piece.start_a, piece.end_a)
        layer = "load_there" if piece.there else "load"
        self._sketch.line(rect.outline, layer, closed=True)
        self._sketch.hatch(rect, layer, spacing_mm=2.0, crossed=piece.there)
        key = f"{use.id} {piece.key}"
        self._sketch.label(key, piece.lines, (rect.middle,), on=True, clear_mm=4.2, height_mm=1.8)

    def _rect(self, start_a: float, end_a: float) -> Rect:
        per = self._m_per_a
        return Rect(left_m=start_a * per, right_m=end_a * per, back_m=self._low, front_m=self._high)

    def _limit(self, use: CircuitUse, end_a: float) -> None:
        if use.breaker_a is None:
            at = (end_a * self._m_per_a, (self._low + self._high) / 2)
            unknown = ("limit NOT KNOWN:", "read the breaker")
            self._sketch.label(f"limit {use.id}", unknown, (at,), clear_mm=1.0)
            return
        x_m, cut = use.breaker_a * self._m_per_a, _CUT_MM / 1000
        self._sketch.line(((x_m, self._low - cut), (x_m, self._high + cut)), "limit")
        told = (f"limit {amps_text(use.breaker_a)}",)
        self._sketch.label(f"limit {use.id}", told, ((x_m, self._high + cut),), clear_mm=0.5)
        if use.breaker_a - end_a > _HAIR_A:
            left = self._rect(end_a, use.breaker_a)
            self._sketch.line(left.outline, "load", closed=True)
            words = f"{amps_text(use.breaker_a - end_a, down=True)} left"
            lines = (words,) if use.load_known else (f"{words}, less", "what is already on it")
            key = f"left {use.id}"
            self._sketch.label(key, lines, (left.middle,), on=True, clear_mm=4.2, height_mm=1.8)

    def _ticks(self, end_a: float) -> None:
        """Amperes under the tape, every fifth with its number."""
        for amps in range(int(end_a + _HAIR_A) + 1):
            long = amps % _EVERY_A == 0
            foot = self._low - (_LONG_TICK_MM if long else _TICK_MM) / 1000
            x_m = amps * self._m_per_a
            self._sketch.line(((x_m, self._low), (x_m, foot)), "load")
            if long:
                at = (x_m, foot - 0.0026)
                words = Text(at=at, words=f"{amps} A", layer="text", height_mm=1.8, mask=True)
                self._sketch.words(words)
