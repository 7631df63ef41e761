"""A grid of characters over a room, screen at the top."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from powerplan.model.geometry import Point, Rect

_WIDEST = 76
_TALLEST = 34
_LEAST_WIDE = 24
_LEAST_TALL = 8
_TALL_AS_WIDE = 2.0


class Canvas:
    """A room's floor inside a frame. Columns run left to right, lines from the screen back.

    A character is about twice as high as it is wide, and so the grid is too.

    Parameters
    ----------
    width_m, depth_m : float
        The room. [m]
    """

    def __init__(self, width_m: float, depth_m: float) -> None:
        per_m = min(_WIDEST / width_m, _TALL_AS_WIDE * _TALLEST / depth_m)
        self.width_m, self.depth_m = width_m, depth_m
        self.wide = min(_WIDEST, max(_LEAST_WIDE, round(width_m * per_m)))
        self.tall = min(_TALLEST, max(_LEAST_TALL, round(depth_m * per_m / _TALL_AS_WIDE)))
        edge = "+" + "-" * self.wide + "+"
        middle = "|" + " " * self.wide + "|"
        self._cells = [list(edge), *(list(middle) for _ in range(self.tall)), list(edge)]

    @property
    def lines(self) -> tuple[str, ...]:
        """The drawing as it stands."""
        return tuple("".join(line) for line in self._cells)

    def column(self, x_m: float) -> int:
        """Return the column of a place, inside the frame. [m in, columns out]"""
        return 1 + min(self.wide - 1, max(0, math.floor(x_m / self.width_m * self.wide)))

    def line(self, y_m: float) -> int:
        """Return the line of a place, inside the frame. [m in, lines out]"""
        return self.tall - min(self.tall - 1, max(0, math.floor(y_m / self.depth_m * self.tall)))

    def at(self, line: int, column: int) -> str:
        """Return the character there. [lines, columns]"""
        return self._cells[line][column]

    def put(self, line: int, column: int, mark: str, *, over: str | None = None) -> None:
        """Write one character; with ``over`` only on one of those. [lines, columns]"""
        if over is None or self._cells[line][column] in over:
            self._cells[line][column] = mark

    def text(self, line: int, column: int, words: str) -> None:
        """Write words from a column on, inside the frame. [lines, columns]"""
        for place, char in enumerate(words, start=column):
            if 1 <= place <= self.wide:
                self._cells[line][place] = char

    def fill(self, rect: Rect, mark: str, *, every: int = 1, over: str = " ") -> None:
        """Fill a rectangle, every so-many-th cell. [m, cells]"""
        for line in self._lines_of(rect):
            for column in range(self.column(rect.left_m), self._last_column(rect.right_m) + 1):
                if (line + column) % every == 0:
                    self.put(line, column, mark, over=over)

    def outline(self, rect: Rect, mark: str, *, over: str | None = None) -> None:
        """Draw the edge of a rectangle in one character. [m]"""
        lines = self._lines_of(rect)
        left, right = self.column(rect.left_m), self._last_column(rect.right_m)
        for line in lines:
            step = 1 if line in (lines[0], lines[-1]) else max(1, right - left)
            for column in range(left, right + 1, step):
                self.put(line, column, mark, over=over)

    def path(self, points: Iterable[Point], mark: str, *, over: str | None = None) -> None:
        """Trace a path over whatever is there, or only over some characters. [m]"""
        for (x1, y1), (x2, y2) in pairwise(points):
            cells = max(
                abs(x2 - x1) / self.width_m * self.wide, abs(y2 - y1) / self.depth_m * self.tall
            )
            steps = max(1, math.ceil(cells * 2))
            for step in range(steps + 1):
                part = step / steps
                line, column = self.line(y1 + (y2 - y1) * part), self.column(x1 + (x2 - x1) * part)
                self.put(line, column, mark, over=over)

    def _lines_of(self, rect: Rect) -> range:
        front = self.line(math.nextafter(rect.front_m, -math.inf))
        return range(front, max(front, self.line(rect.back_m)) + 1)

    def _last_column(self, right_m: float) -> int:
        return self.column(math.nextafter(right_m, -math.inf))
