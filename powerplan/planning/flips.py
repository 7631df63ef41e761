"""Where an answer flips: how much of a chair's load may last before a step fails."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from powerplan.model.lengths import amps_text
from powerplan.model.plan import Flip
from powerplan.model.spec import ChairKind
from powerplan.planning.ladder import Ladder, Solved

_HUNDREDTHS = 100


def flip_points(ladder: Ladder, solved: tuple[Solved, ...]) -> tuple[Flip, ...]:
    """Return the flips of the steps that fail only because all of a load was taken to last.

    Guarantee: at the value told the step works, and at a hundredth more it does not.
    """
    spec = ladder.site.spec
    used = {kind for row in spec.rows for kind in row.kinds}
    kinds = tuple(k for k in spec.chairs if k.id in used and k.powered and not k.continuous_said)
    flips = []
    for entry in solved:
        loaded = any(finding.rule == "circuit-load" for finding in entry.why)
        if kinds and entry.way is None and loaded:
            flip = _flip(ladder, entry.step, kinds)
            if flip is not None:
                flips.append(flip)
    return tuple(flips)


def _flip(ladder: Ladder, step: str, kinds: tuple[ChairKind, ...]) -> Flip | None:
    """Search the hundredths of the largest of these chairs' loads; the others scale with it."""
    largest = max(kinds, key=lambda kind: (kind.input_a, kind.id))

    def works(hundredths: int) -> bool:
        part = Fraction(hundredths, _HUNDREDTHS) / largest.input_a
        lasting: Mapping[str, Fraction] = {kind.id: kind.input_a * part for kind in kinds}
        return ladder.way(step, continuous_a=lasting) is not None

    if not works(0):
        return None
    good, bad = 0, int(largest.input_a * _HUNDREDTHS) + 1
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if works(middle) else (good, middle)
    value = Fraction(good, _HUNDREDTHS)
    return Flip(
        step=step,
        chair=largest.id,
        continuous_a=float(value),
        sentence=_sentence(largest, value, len(kinds)),
    )


def _sentence(kind: ChairKind, value: Fraction, kinds: int) -> str:
    if kinds > 1:
        percent = int(value / kind.input_a * 100)
        return f"It passes if no more than {percent} % of each chair's load lasts 3 h."
    if value == 0:
        return f"It passes if none of each chair's {amps_text(kind.input_a)} lasts 3 h."
    return (
        f"It passes if no more than {amps_text(value, down=True)} of each chair's "
        f"{amps_text(kind.input_a)} lasts 3 h."
    )
