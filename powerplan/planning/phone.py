"""What was said on the phone, and what there is to say; see ``quick``."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from powerplan.model.findings import Finding

CIRCUIT = "this circuit"
Amperes = tuple[Fraction, Fraction]


class QuickQuestion(NamedTuple):
    """What was said on the phone; None was not said, and is unknown.

    ``continuous_a`` is the part of one chair's input that lasts three hours or more.
    ``already_a`` is (continuous, other) on the circuit now. [A]
    """

    chairs: int
    input_a: Fraction
    continuous_a: Fraction | None = None
    breaker_a: Fraction | None = None
    wire: str | None = None
    already_a: Amperes | None = None
    fastened: bool | None = None


class QuickAnswer(NamedTuple):
    """What there is to say. Currents are exact. [A]

    ``breaker_a`` is what was computed with: where it was not said, the smallest that would do.
    ``spare_a`` is what the chairs and what is known to be on the circuit leave of it.
    ``most_chairs`` and ``more_chairs`` count these chairs on this circuit, ``new_circuit_chairs``
    on a new one of ``new_breaker_a``, ``socket_chairs`` on one socket if they may be chained.
    ``flip_a``: the most of each chair's input that may last for the answer to turn to yes;
    ``lasting_counts`` is False where the rules do not ask how long a load lasts,
    ``bolting_counts`` where they do not ask whether chairs are bolted down.
    ``conditions`` are what the answer hangs on, one clause each.
    """

    question: QuickQuestion
    breaker_a: Fraction
    chairs_ask_a: Fraction
    spare_a: Fraction
    if_continuous_a: Fraction
    if_not_continuous_a: Fraction
    most_chairs: int
    more_chairs: int
    new_breaker_a: Fraction
    new_circuit_chairs: int
    socket_a: Fraction
    socket_limit_a: Fraction | None
    socket_chairs: int | None
    flip_a: Fraction | None
    lasting_counts: bool
    bolting_counts: bool
    findings: tuple[Finding, ...]
    conditions: tuple[str, ...]
    exit_code: int
    sentence: str
