"""A tape of amperes for each circuit: what is on it, chair by chair, and where its limit cuts."""

from __future__ import annotations

from math import ceil
from typing import NamedTuple

from powerplan.model.geometry import Rect
from powerplan.model.lengths import amps_text, joined, plural
from powerplan.model.plan import CircuitUse, Plan
from powerplan.sheets.amounts import amps_parts, asked_a
from powerplan.sheets.drawings.sketch import Sketch
from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.labels import LINE_STEP
from powerplan.sheets.local import local_of
from powerplan.sheets.patches import Patch
from powerplan.sheets.scene import Text, View

_MOST_TAPES = 3
_STEP_MM = 31.0
_HIGH_MM = 8.0
_CUT_MM = 4.0
_TITLE_MM = 7.5
_TICK_MM = 1.2
_LONG_TICK_MM = 2.2
_SIDE_MM = 14.0
_LEAST_MM = 60.0
_MOST_MM = 230.0
_NAME_MM = 1.8
_NAME_STEP_MM = _NAME_MM * LINE_STEP
_AIR_MM = 0.8
_UNDER_MM, _LEVEL_MM = 9.4, 7.0
_HAIR_A = 1e-6
_EVERY_A = 5


class _Piece(NamedTuple):
    """A length of the tape: what it stands for, from where to where. [A]"""

    key: str
    lines: tuple[str, ...]
    start_a: float
    end_a: float
    there: bool


class _Told(NamedTuple):
    """What a tape tells: a circuit, what is on it, and what of its load nobody knows."""

    use: CircuitUse
    pieces: list[_Piece]
    unknown: str


def load_views(plan: Plan, room_mm: tuple[float, float]) -> tuple[View, ...]:
    """Return the tapes of every circuit, a few to a drawing, all of one length for an ampere.

    Drawn at scale 1: a meter is a meter of paper.

    Parameters
    ----------
    plan : Plan
        The plan.
    room_mm : tuple of float
        Width and height of paper. [mm]
    """
    tapes = [_Told(use, _pieces(plan, use), _unknown(plan, use)) for use in plan.circuits]
    most_a = max([1.0, *(_reach_a(tape) for tape in tapes)])
    length_mm = min(_MOST_MM, max(_LEAST_MM, room_mm[0] - 2 * _SIDE_MM))
    each = ceil(len(tapes) / (ceil(len(tapes) / _MOST_TAPES) or 1)) or 1
    parts = [tapes[start : start + each] for start in range(0, len(tapes), each)]
    return tuple(_load_view(plan, part, length_mm / most_a) for part in parts)


def _load_view(plan: Plan, tapes: list[_Told], mm_per_a: float) -> View:
    """Tapes one under the other."""
    sketch = Sketch(1, Rect(left_m=-1.0, right_m=2.0, back_m=-99.0, front_m=1.0), local_of(plan))
    low_mm = 0.0
    for told in tapes:
        tape = _Tape(sketch, low_mm, mm_per_a)
        tape.draw(*told)
        low_mm -= _STEP_MM + tape.under_mm
    sentences = "; ".join(map(_sentence, tapes))
    described = f"{plural(len(tapes), 'tape')} of amperes, zero at the left. {sentences}."
    named = "What each circuit carries"
    if len(tapes) < len(plan.circuits):
        named = f"What {_names(tapes)} carry" if len(tapes) > 1 else f"What {_names(tapes)} carries"
    return sketch.view(named, described)


def _names(tapes: list[_Told]) -> str:
    """Circuits of one drawing, by name."""
    word = "circuits" if len(tapes) > 1 else "circuit"
    return f"{word} {joined([tape.use.id for tape in tapes])}"


def _reach_a(tape: _Told) -> float:
    return max([tape.use.breaker_a or 0.0, *(piece.end_a for piece in tape.pieces)])


def _sentence(tape: _Told) -> str:
    use, unknown = tape.use, tape.unknown
    limit = "a breaker that is not known" if use.breaker_a is None else amps_text(use.breaker_a)
    more = f", and {unknown} is not known" if unknown else ""
    return f"Circuit {use.id} asks {amps_text(use.asks_a, up=True)} of {limit}{more}"


def _pieces(plan: Plan, use: CircuitUse) -> list[_Piece]:
    """What is known to be there already, then chair by chair in the order of the plan."""
    chairs = [chair for chair in plan.chairs if chair.circuit == use.id]
    asked = [asked_a(chair, plan) for chair in chairs]
    there_a = use.asks_a - sum(asked)
    words = "already on it" if use.load_known else "known to be on it"
    named = [("there", words, there_a)] if there_a > _HAIR_A else []
    named += [(chair.id, chair.id, part) for chair, part in zip(chairs, asked, strict=True)]
    told = amps_parts([part for _, _, part in named], use.asks_a)
    pieces = []
    at = 0.0
    for (key, words, part_a), amount in zip(named, told, strict=True):
        pieces.append(_Piece(key, (words, amount), at, at + part_a, key == "there"))
        at += part_a
    return pieces


def _unknown(plan: Plan, use: CircuitUse) -> str:
    """What of a circuit's load nobody knows; "" where all of it is known."""
    if use.load_known:
        return ""
    circuit = next((one for one in plan.spec.circuits if one.id == use.id), None)
    named = circuit.not_measured if circuit is not None else ()
    return joined(named) or "what is already on it"


class _Tape:
    """One tape: its lower edge stands at ``low_mm``. [mm, mm/A]"""

    def __init__(self, sketch: Sketch, low_mm: float, mm_per_a: float) -> None:
        self._sketch = sketch
        self._low, self._high = low_mm / 1000, (low_mm + _HIGH_MM) / 1000
        self._m_per_a = mm_per_a / 1000
        self._ends_mm: list[float] = []

    def draw(self, use: CircuitUse, pieces: list[_Piece], unknown: str) -> None:
        """Draw the tape of one circuit; ``unknown`` names what of its load is not known."""
        self._title(use, pieces, unknown)
        for piece in pieces:
            self._piece(use, piece)
        end_a = max([0.0, *(piece.end_a for piece in pieces)])
        whole = self._rect(0.0, max(end_a, use.breaker_a or 0.0))
        corners = map(self._sketch.paper, (whole.outline[0], whole.outline[2]))
        self._sketch.keep_free(Patch(*(part for corner in corners for part in corner)))
        self._limit(use, end_a, unknown)
        self._ticks(max(end_a, use.breaker_a or 0.0))

    @property
    def under_mm(self) -> float:
        """How much room the names under the tape take. [mm]"""
        return len(self._ends_mm) * _LEVEL_MM

    def _title(self, use: CircuitUse, pieces: list[_Piece], unknown: str) -> None:
        words = (
            f"circuit {use.id}{' (new)' if use.new else ''}: asks {amps_text(use.asks_a, up=True)}"
        )
        if unknown:
            known = " and what is known beside them" if any(one.there for one in pieces) else ""
            words += f" for the chairs{known}; {unknown}: NOT KNOWN"
        at = (0.0, self._high + _TITLE_MM / 1000)
        self._sketch.words(Text(at=at, words=words, layer="text", height_mm=2.5, anchor="lm"))

    def _piece(self, use: CircuitUse, piece: _Piece) -> None:
        rect = self._rect(piece.start_a, piece.end_a)
        layer = "load_there" if piece.there else "load"
        self._sketch.line(rect.outline, layer, closed=True)
        self._sketch.hatch(rect, layer, spacing_mm=2.0, crossed=piece.there)
        self._name(piece.lines, rect)

    def _name(self, lines: tuple[str, ...], rect: Rect) -> None:
        """Name a part: in it where it is wide enough, else under it, with a line that leads there;
        so no name ever stands on another part."""
        x_m, y_m = rect.middle
        wide_mm = max(text_width_mm(self._sketch.local(line), _NAME_MM) for line in lines)
        middle_mm = y_m * 1000
        if wide_mm + 2 * _AIR_MM > rect.width_m * 1000:
            middle_mm = self._low * 1000 - _UNDER_MM - self._level(x_m * 1000, wide_mm) * _LEVEL_MM
            foot = (middle_mm + _NAME_STEP_MM) / 1000
            self._sketch.line(((x_m, self._low), (x_m, foot)), "dimension")
        first_mm = middle_mm + (len(lines) - 1) * _NAME_STEP_MM / 2
        for number, line in enumerate(lines):
            at = (x_m, (first_mm - number * _NAME_STEP_MM) / 1000)
            words = Text(at=at, words=line, layer="text", height_mm=_NAME_MM, mask=True)
            self._sketch.words(words)

    def _level(self, x_mm: float, wide_mm: float) -> int:
        """The first level under the tape where a name has room after those before it."""
        start_mm, end_mm = x_mm - wide_mm / 2 - _AIR_MM, x_mm + wide_mm / 2 + _AIR_MM
        for level, taken_mm in enumerate(self._ends_mm):
            if start_mm >= taken_mm:
                self._ends_mm[level] = end_mm
                return level
        self._ends_mm.append(end_mm)
        return len(self._ends_mm) - 1

    def _rect(self, start_a: float, end_a: float) -> Rect:
        per = self._m_per_a
        return Rect(left_m=start_a * per, right_m=end_a * per, back_m=self._low, front_m=self._high)

    def _limit(self, use: CircuitUse, end_a: float, unknown: str) -> None:
        if use.breaker_a is None:
            at = (end_a * self._m_per_a, (self._low + self._high) / 2)
            lines: tuple[str, ...] = ("limit NOT KNOWN:", "read the breaker")
            self._sketch.label(f"limit {use.id}", lines, (at,), clear_mm=1.0)
            return
        x_m, cut = use.breaker_a * self._m_per_a, _CUT_MM / 1000
        self._sketch.line(((x_m, self._low - cut), (x_m, self._high + cut)), "limit")
        told = (f"limit {amps_text(use.breaker_a)}",)
        self._sketch.label(f"limit {use.id}", told, ((x_m, self._high + cut),), clear_mm=0.5)
        if use.breaker_a - end_a > _HAIR_A:
            left = self._rect(end_a, use.breaker_a)
            layer = "load_unknown" if unknown else "load"
            self._sketch.line(left.outline, layer, closed=True)
            words = f"{amps_text(use.breaker_a - end_a, down=True)} left"
            lines = (words,)
            if unknown:
                lines = (f"{words}, less", f"{unknown}: NOT KNOWN")
                self._sketch.hatch(left, layer, angle_deg=135.0, spacing_mm=4.0)
            self._name(lines, left)

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
