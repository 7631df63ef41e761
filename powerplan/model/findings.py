"""Rules, and what comes of holding one against one thing.

Rules and sources are named tuples for the sake of start-up; see ``rules``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple

from powerplan.model.lengths import micrometers


class Standing(StrEnum):
    """How we know a number."""

    PUBLISHED_COPY = "published copy"
    DERIVED = "derived"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice"
    MAKERS_DATA = "maker's data"
    YOURS = "yours"


class Force(StrEnum):
    """What a rule asks: a must, advice, or only a note."""

    MUST = "must"
    ADVICE = "advice"
    NOTE = "note"


class Bound(StrEnum):
    """Which side of the limit a value has to be on; equal passes, but for ``below``."""

    AT_MOST = "at most"
    BELOW = "below"
    AT_LEAST = "at least"


class Outcome(StrEnum):
    """What came of it. A rule that could not be held is never met."""

    MET = "met"
    NOT_MET = "not met"
    NOT_CHECKED = "not checked"


class Source(NamedTuple):
    """Where a number or rule comes from, and how well we know it."""

    cite: str
    standing: Standing


class Rule(NamedTuple):
    """One requirement of a rule set. ``unit`` is A, m, %, or a counted noun."""

    id: str
    requirement: str
    bound: Bound
    unit: str
    force: Force
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One rule held against one thing.

    ``value`` and ``limit`` are in ``unit``; ``margin`` is the room left (positive is spare,
    negative is short). ``None`` is unknown. ``note`` is one plain sentence for the reader: what is
    wrong and what would mend it, or what has to be found out.
    """

    rule: str
    force: Force
    subject: str
    requirement: str
    value: float | None
    limit: float | None
    unit: str
    margin: float | None
    outcome: Outcome
    source: str
    standing: Standing
    note: str = ""

    @property
    def stops(self) -> bool:
        """True for a must that is not met."""
        return self.force is Force.MUST and self.outcome is Outcome.NOT_MET

    @property
    def hangs(self) -> bool:
        """True for a must that could not be checked."""
        return self.force is Force.MUST and self.outcome is Outcome.NOT_CHECKED


def hold(
    rule: Rule,
    subject: str,
    value: Fraction | float | None,
    limit: Fraction | float | None,
    *,
    note: str = "",
    force: Force | None = None,
    checked: bool = True,
    source: Source | None = None,
) -> Finding:
    """Hold a rule against one thing.

    Fractions are compared exactly; meters as whole micrometers; other floats as they are. A value
    or limit of ``None``, or ``checked=False``, gives *not checked*; NaN gives *not met*.

    Parameters
    ----------
    rule : Rule
        The rule.
    subject : str
        What it is held against, as people call it ("circuit 7", "chair A3").
    value : Fraction, float or None
        What the plan has. [rule.unit]
    limit : Fraction, float or None
        What the rule allows here. [rule.unit]
    note : str
        One sentence for the reader.
    force : Force, optional
        Overrides the rule's force where the kind of place decides it.
    checked : bool
        False when the value is known only in part, so that the comparison proves nothing.
    source : Source, optional
        Overrides the rule's source, as where the limit is the chair maker's own.

    Returns
    -------
    Finding
        The outcome, with the room left.
    """
    known_source = source or rule.source
    outcome, margin = _outcome(rule, value, limit)
    if not checked:
        outcome = Outcome.NOT_CHECKED
    return Finding(
        rule=rule.id,
        force=force or rule.force,
        subject=subject,
        requirement=rule.requirement,
        value=None if value is None else _tidy(value),
        limit=None if limit is None else _tidy(limit),
        unit=rule.unit,
        margin=None if margin is None else _tidy(margin),
        outcome=outcome,
        source=known_source.cite,
        standing=known_source.standing,
        note=note,
    )


def _outcome(
    rule: Rule, value: Fraction | float | None, limit: Fraction | float | None
) -> tuple[Outcome, Fraction | float | None]:
    if value is None or limit is None:
        return Outcome.NOT_CHECKED, None
    if math.isnan(value) or math.isnan(limit):
        return Outcome.NOT_MET, None
    spare = value - limit if rule.bound is Bound.AT_LEAST else limit - value
    if rule.bound is Bound.BELOW:
        return (Outcome.MET if spare > 0 else Outcome.NOT_MET), spare
    if rule.unit == "m" and math.isfinite(spare):
        met = micrometers(float(spare)) >= 0
    else:
        met = spare >= 0
    return (Outcome.MET if met else Outcome.NOT_MET), spare


def _tidy(number: Fraction | float) -> float | None:
    """A float with at most six decimals, or None for what JSON cannot hold."""
    plain = float(number)
    if not math.isfinite(plain):
        return None
    return round(plain, 6) + 0.0
