"""What a cord has to measure for its way, and where a lead meets an extension."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from powerplan.engineering.cords.clip import spans_within
from powerplan.engineering.cords.route import Route
from powerplan.engineering.seating.frames import Outline
from powerplan.model.geometry import Point
from powerplan.model.lengths import MICROMETER_M, micrometers
from powerplan.model.rules import RuleSet

# Kept back at a joint, so that rounding its place to 1 um never makes a lead too short.
_KEPT_M = 10 * MICROMETER_M
# A joint keeps this far from a riser's edge, on the chair's side of it.
_OFF_STEP_M = 1e-3


def needed_lead_m(way_m: float, rules: RuleSet) -> float:
    """Return what a lead or extension has to measure: (way + slack) x slack factor.

    Parameters
    ----------
    way_m : float
        The cord's path in plan and its rises. [m]
    rules : RuleSet
        The numbers.

    Returns
    -------
    float
        Least length. [m]
    """
    return (way_m + rules.length_m("slack")) * float(rules.exact("slack_factor"))


def needed_link_m(way_m: float) -> float:
    """Return what a maker's link has to measure: its way.

    Parameters
    ----------
    way_m : float
        The cord's path in plan and its rises. [m]

    Returns
    -------
    float
        Least length. [m]
    """
    return way_m


def sold_length_m(needed_m: float, lengths_m: tuple[float, ...]) -> float | None:
    """Return the shortest length sold that is enough, or None where none is.

    Parameters
    ----------
    needed_m : float
        Least length. [m]
    lengths_m : tuple of float
        Lengths sold, in any order. [m]

    Returns
    -------
    float or None
        The next length. [m]
    """
    enough = (one for one in lengths_m if micrometers(one) >= micrometers(needed_m))
    return min(enough, default=None)


def split_for_extension(
    route: Route,
    rises_at_start_m: float,
    lead_m: float,
    strips: tuple[Outline, ...],
    rules: RuleSet,
) -> tuple[Route, Route] | None:
    """Cut a way from a feed to a chair where the chair's lead ends and an extension begins.

    The lead takes as much of the way as its length allows; the joint moves toward the chair until
    it is out of every strip under a rail or arm, edges included.

    Parameters
    ----------
    route : Route
        The way from the feed to the chair. [m]
    rises_at_start_m : float
        Height of the feed's outlet over the floor; it goes to the extension. [m]
    lead_m : float
        What the chair's own lead measures. [m]
    strips : tuple of outlines
        Strips in which no joint may lie. [m]
    rules : RuleSet
        The numbers.

    Returns
    -------
    tuple of Route or None
        The extension's way, its ``rises_m`` with the outlet's height in it, and the lead's way;
        None where no joint is possible.
    """
    allowed_m = lead_m / float(rules.exact("slack_factor")) - rules.length_m("slack")
    if micrometers(allowed_m) < 0:
        return None
    from_chair = route.path[::-1]
    reach_m = _reach_m(route, from_chair, max(allowed_m - _KEPT_M, 0.0))
    joint_m = None if reach_m is None else _out_of_strips_m(from_chair, reach_m, strips)
    if joint_m is None:
        return None
    near, far = _cut(from_chair, joint_m)
    extension = _measured(route, far[::-1])
    raised = replace(extension, rises_m=extension.rises_m + rises_at_start_m)
    return raised, _measured(route, near[::-1])


def _measured(route: Route, path: tuple[Point, ...]) -> Route:
    """A part of a route with everything along it measured again."""
    if route.floor is not None:
        return route.floor.measure(path)
    if route.rises_m or route.open_floor_m:
        raise ValueError("a route without its floor cannot be cut where it has steps or open floor")
    return replace(route, path=path, length_m=_length_m(path))


def _length_m(path: tuple[Point, ...]) -> float:
    return math.fsum(math.dist(*segment) for segment in pairwise(path))


def _reach_m(route: Route, path: tuple[Point, ...], allowed_m: float) -> float | None:
    """How far along a path a cord reaches, a step that begins just beyond its end included."""
    whole_m = _length_m(path)

    def reaches(um: int) -> bool:
        beyond = _cut(path, min(um * MICROMETER_M + _OFF_STEP_M, whole_m))[0]
        return um * MICROMETER_M + _measured(route, beyond).rises_m <= allowed_m

    if not route.rises_m:
        return min(allowed_m, whole_m)
    if not reaches(0):
        return None
    low, high = 0, micrometers(whole_m) + 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if reaches(middle) else (low, middle)
    return min(low * MICROMETER_M, whole_m)


def _out_of_strips_m(
    path: tuple[Point, ...], reach_m: float, strips: tuple[Outline, ...]
) -> float | None:
    """The furthest place along a path, up to a reach, that is in no strip."""
    held: list[tuple[float, float]] = []
    passed_m = 0.0
    for segment in pairwise(path):
        length_m = math.dist(*segment)
        for strip in strips:
            for start, end in spans_within(segment, strip, MICROMETER_M):
                held.append((passed_m + start * length_m, passed_m + end * length_m))
        passed_m += length_m
    for start_m, end_m in sorted(held, reverse=True):
        if start_m <= reach_m <= end_m + _KEPT_M:
            if start_m <= 0.0:
                return None
            reach_m = max(start_m - _KEPT_M, 0.0)
    return reach_m


def _cut(path: tuple[Point, ...], at_m: float) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """Both parts of a path, cut at a distance from its start; they share the place of the cut."""
    passed_m = 0.0
    for n, (start, end) in enumerate(pairwise(path)):
        length_m = math.dist(start, end)
        if at_m <= passed_m + length_m or n == len(path) - 2:
            share = min((at_m - passed_m) / length_m, 1.0) if length_m else 0.0
            cut = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
            cut = end if share == 1.0 else cut
            return _tidy((*path[: n + 1], cut)), _tidy((cut, *path[n + 1 :]))
        passed_m += length_m
    raise ValueError("a path has at least two points")


def _tidy(path: tuple[Point, ...]) -> tuple[Point, ...]:
    """A path without a point repeated, but with two points at least."""
    kept = [path[0], *(here for back, here in pairwise(path) if here != back)]
    return tuple(kept) if len(kept) > 1 else (path[0], path[0])
