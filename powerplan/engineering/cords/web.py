"""A visibility graph over one kind of floor, and shortest paths on it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

import networkx as nx

from powerplan.engineering.cords.clip import Segment
from powerplan.engineering.cords.corners import Corner
from powerplan.model.geometry import Point

# The price of each straight stretch as a whole number, None where a cord cannot lie.
Pricing = Callable[[Sequence[Segment]], list[int | None]]

_SOURCE = -1


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """An end of a cord, tied to the graph.

    ``steps`` are places it may go to first, with their prices (itself at 0 among them), and
    ``links`` for each node it sees the least price and the step that gives it.
    """

    point: Point
    steps: tuple[tuple[Point, int], ...]
    links: dict[int, tuple[int, Point]]


class Web:
    """Nodes are indices into ``corners``, which are sorted by place; prices are whole numbers, so
    that sums do not depend on their order.

    Parameters
    ----------
    corners : tuple of Corner
        Where a path may bend, sorted by place. [m]
    price : callable
        The price of straight stretches.
    """

    def __init__(self, corners: tuple[Corner, ...], price: Pricing) -> None:
        self._corners = corners
        self._price = price
        self._graph: nx.Graph[int] = nx.Graph()
        self._graph.add_nodes_from(range(len(corners)))
        pairs = [
            (i, j)
            for (i, one), (j, other) in combinations(enumerate(corners), 2)
            if one.taut(other.point) and other.taut(one.point)
        ]
        prices = price([(corners[i].point, corners[j].point) for i, j in pairs])
        for (i, j), cost in zip(pairs, prices, strict=True):
            if cost is not None:
                self._graph.add_edge(i, j, weight=cost)
        self._reached: dict[Point, tuple[dict[int, int], dict[int, list[int]]]] = {}

    def tie(self, point: Point, steps: tuple[tuple[Point, int], ...] = ()) -> Spot:
        """Tie an end of a cord to the nodes that it can see.

        Parameters
        ----------
        point : Point
            The end. [m]
        steps : tuple of (Point, int)
            Other places it can go to first, with the price of going there.

        Returns
        -------
        Spot
            The end with its links.
        """
        starts = ((point, 0), *steps)
        pairs = [
            (start, paid, n)
            for start, paid in starts
            for n, corner in enumerate(self._corners)
            if corner.taut(start)
        ]
        prices = self._price([(start, self._corners[n].point) for start, _, n in pairs])
        links: dict[int, tuple[int, Point]] = {}
        for (start, paid, n), cost in zip(pairs, prices, strict=True):
            if cost is not None and (n not in links or paid + cost < links[n][0]):
                links[n] = (paid + cost, start)
        return Spot(point=point, steps=starts, links=links)

    def shortest(self, start: Spot, end: Spot) -> tuple[Point, ...] | None:
        """Return the cheapest path from one end to the other, or None where there is none.

        Of paths that cost the same the straight one is taken, then the one that arrives by the
        corner furthest to the left, then furthest to the back.

        Parameters
        ----------
        start, end : Spot
            The two ends.

        Returns
        -------
        tuple of Point or None
            All points of the path, the two ends first and last. [m]
        """
        best = self._straight(start, end)
        costs, paths = self._reach(start)
        for n in sorted(end.links):
            if n not in costs:
                continue
            cost = costs[n] + end.links[n][0]
            if best is None or cost < best[0]:
                nodes = paths[n][1:]
                middle = tuple(self._corners[node].point for node in nodes)
                first, last = start.links[nodes[0]][1], end.links[n][1]
                best = (cost, (start.point, first, *middle, last, end.point))
        return None if best is None else best[1]

    def _straight(self, start: Spot, end: Spot) -> tuple[int, tuple[Point, ...]] | None:
        """The cheapest way that meets no node."""
        pairs = [(one, other) for one in start.steps for other in end.steps]
        prices = self._price([(one[0], other[0]) for one, other in pairs])
        best: tuple[int, tuple[Point, ...]] | None = None
        for (one, other), cost in zip(pairs, prices, strict=True):
            if cost is None:
                continue
            whole = one[1] + cost + other[1]
            if best is None or whole < best[0]:
                best = (whole, (start.point, one[0], other[0], end.point))
        return best

    def _reach(self, start: Spot) -> tuple[dict[int, int], dict[int, list[int]]]:
        """Prices and paths from one end to every node, worked out once."""
        if start.point not in self._reached:
            self._graph.add_node(_SOURCE)
            for n in sorted(start.links):
                self._graph.add_edge(_SOURCE, n, weight=start.links[n][0])
            found: Any = nx.single_source_dijkstra(self._graph, _SOURCE)
            self._reached[start.point] = found
            self._graph.remove_node(_SOURCE)
        return self._reached[start.point]
