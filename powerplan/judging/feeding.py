"""Who is fed by what: every chair followed back along its cords to a socket."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from powerplan.judging.seats import Seat
from powerplan.model.loose import CHAIR_CORD, UNIT_CORD, WALL_CORD
from powerplan.model.plan import Cord, Plan

OWN, LINK, EXTENSION = "own", "link", "extension"
ENDS_BETWEEN = (EXTENSION, WALL_CORD, UNIT_CORD)
"""Kinds of cord that end at no chair, but at a joint, a supply or an outlet unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """A chair followed back. ``cords`` are places in the record's list, from the feed on to the
    chair; ``feed`` is None where the way back ends at nothing, or goes round."""

    chair: str
    cords: tuple[int, ...]
    feed: str | None
    round_and_round: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding:
    """All of it: cords that end at each chair, each chair's way back, and whom each cord feeds."""

    into: Mapping[str, tuple[int, ...]]
    traces: Mapping[str, Trace]
    carries: Mapping[int, tuple[str, ...]]

    def feed_of(self, chair: str) -> str | None:
        """Return the outlet or box a chair hangs on, None where it hangs on none."""
        trace = self.traces.get(chair)
        return None if trace is None else trace.feed


def follow(plan: Plan, seats: Mapping[str, Seat], feeds: frozenset[str]) -> Feeding:
    """Return who is fed by what.

    Parameters
    ----------
    plan : Plan
        The record, of which only the cords' kinds and ends are read.
    seats : Mapping of str to Seat
        Every chair by its name.
    feeds : frozenset of str
        Names of all outlets and boxes.

    Returns
    -------
    Feeding
        Where several cords end at one chair, the first listed is followed.
    """
    into: dict[str, list[int]] = {name: [] for name in seats}
    between: dict[str, int] = {}
    for n, cord in enumerate(plan.cords):
        if cord.kind in ENDS_BETWEEN:
            between.setdefault(cord.to, n)
        elif cord.to in into:
            into[cord.to].append(n)
    traces = {name: _trace(name, plan.cords, into, between, feeds) for name in seats}
    carries: dict[int, list[str]] = {n: [] for n in range(len(plan.cords))}
    for name, trace in traces.items():
        for n in trace.cords:
            carries[n].append(name)
    return Feeding(
        into={name: tuple(cords) for name, cords in into.items()},
        traces=traces,
        carries={n: tuple(names) for n, names in carries.items()},
    )


def _trace(
    chair: str,
    cords: tuple[Cord, ...],
    into: Mapping[str, list[int]],
    between: Mapping[str, int],
    feeds: frozenset[str],
) -> Trace:
    way: list[int] = []
    feed: str | None = None
    at = into[chair][0] if into[chair] else None
    while at is not None and at not in way:
        way.append(at)
        cord = cords[at]
        if cord.kind not in (LINK, CHAIR_CORD) and cord.from_ in feeds:
            feed, at = cord.from_, None
        elif cord.kind == LINK:
            before = into.get(cord.from_)
            at = before[0] if before else None
        else:
            at = between.get(cord.from_)
    return Trace(chair=chair, cords=tuple(reversed(way)), feed=feed, round_and_round=at is not None)
