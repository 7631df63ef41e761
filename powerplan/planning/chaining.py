"""Which neighbors may share a plug by their makers' chains; these limits are never bent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from powerplan.engineering.seating.poses import SeatedChair
from powerplan.model.rules import RuleSet
from powerplan.model.spec import ChairKind


def longest_chain(chairs: Sequence[SeatedChair]) -> int:
    """Return the most chairs that any chain of these could have, by their makers' own limits.

    Parameters
    ----------
    chairs : sequence of SeatedChair
        The powered chairs of a row.
    """
    kinds = {chair.kind.id: chair.kind for chair in chairs}
    least = 2 if any(chair.mate is not None for chair in chairs) else 1
    if all(kind.chain is None for kind in kinds.values()):
        return least
    most = max(kind.chain.chairs for kind in kinds.values() if kind.chain is not None)
    least_a = min(kind.input_a for kind in kinds.values())
    return max(least, min(most, int(max(map(_most_a, kinds.values())) / least_a)))


def _most_a(kind: ChairKind) -> Fraction:
    """What a kind lets through its chain. [A]"""
    if kind.chain is None:
        return Fraction(0)
    return (
        kind.chain.current_a
        if kind.coupler_a is None
        else min(kind.chain.current_a, kind.coupler_a)
    )


def may_share_plug(chairs: Sequence[SeatedChair]) -> bool:
    """Return True where chairs are one, or neighbors whose makers allow a chain of them all.

    Of mixed kinds the least current and the least number count; a seat without power between two
    ends a chain. Seats that share a supply are never parted, and share its plug with nobody else.

    Parameters
    ----------
    chairs : sequence of SeatedChair
        Powered chairs of one row, from the left.
    """
    if any(chair.mate is not None for chair in chairs):
        return len(chairs) == 2 and chairs[0].mate == chairs[1].seat
    if len(chairs) == 1:
        return True
    if any(after.seat != before.seat + 1 for before, after in pairwise(chairs)):
        return False
    chains = [chair.kind.chain for chair in chairs]
    allowed = [chain for chain in chains if chain is not None]
    if len(allowed) < len(chains) or len(chairs) > min(chain.chairs for chain in allowed):
        return False
    whole_a = sum((chair.kind.input_a for chair in chairs), Fraction(0))
    return whole_a <= min(_most_a(chair.kind) for chair in chairs)


def as_one_kind(kinds: Sequence[ChairKind], rules: RuleSet) -> ChairKind:
    """Return a kind that stands for every chair of a chain where its plug is held against rules.

    Its input is the mean, so that as many of it take what they take; the least limits count, and
    what is unknown of one is unknown. The first lead carries all, so it is the first chair's.

    Parameters
    ----------
    kinds : sequence of ChairKind
        In the order in which current reaches them. [A]
    rules : RuleSet
        Lends the ratings of cords.
    """
    first = kinds[0]
    if all(kind == first for kind in kinds):
        return first
    couplers = [kind.coupler_a for kind in kinds if kind.coupler_a is not None]
    chains = [kind.chain for kind in kinds if kind.chain is not None]
    chain = None
    if len(chains) == len(kinds):
        # The last chair's own link carries nothing.
        wires = [chain.wire for chain in chains[:-1]]
        chain = replace(
            chains[0],
            current_a=min(chain.current_a for chain in chains),
            chairs=min(chain.chairs for chain in chains),
            wire=None if None in wires else min(wires, key=lambda wire: _cord_a(wire, rules)),
        )
    return replace(
        first,
        input_a=sum((kind.input_a for kind in kinds), Fraction(0)) / len(kinds),
        continuous_a=sum((kind.continuous_a for kind in kinds), Fraction(0)) / len(kinds),
        coupler_a=min(couplers) if len(couplers) == len(kinds) else None,
        chain=chain,
    )


def _cord_a(wire: str | None, rules: RuleSet) -> Fraction:
    """What a cord of a wire may carry; nothing where no rating is known. [A]"""
    known = rules.wires.get(wire or "")
    return Fraction(0) if known is None or known.cord_a is None else known.cord_a
