"""An independent reader of DXF: group codes and values, two lines each, and nothing else."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

Pair = tuple[int, str]


@dataclass(frozen=True)
class Entity:
    """A kind, and every pair of code and value that follows it."""

    kind: str
    pairs: tuple[Pair, ...]

    def first(self, code: int) -> str:
        return next(value for number, value in self.pairs if number == code)

    def all(self, code: int) -> list[str]:
        return [value for number, value in self.pairs if number == code]

    @property
    def corners(self) -> list[tuple[float, float]]:
        xs, ys = ([float(v) for v in self.all(code)] for code in (10, 20))
        return list(zip(xs, ys, strict=True))


def pairs_of(data: bytes) -> Iterator[Pair]:
    lines = data.decode("utf-8").split("\n")
    for code, value in zip(lines[0::2], lines[1::2], strict=False):
        yield int(code), value.rstrip("\r")


def section(data: bytes, name: str) -> list[Pair]:
    pairs = list(pairs_of(data))
    start = next(
        n for n, pair in enumerate(pairs) if pair == (0, "SECTION") and pairs[n + 1] == (2, name)
    )
    end = next(n for n in range(start, len(pairs)) if pairs[n] == (0, "ENDSEC"))
    return pairs[start + 2 : end]


def entities(data: bytes, name: str = "ENTITIES") -> list[Entity]:
    found: list[tuple[str, list[Pair]]] = []
    for code, value in section(data, name):
        if code == 0:
            found.append((value, []))
        elif found:
            found[-1][1].append((code, value))
    return [Entity(kind, tuple(pairs)) for kind, pairs in found]


def header(data: bytes) -> dict[str, str]:
    """The first value of each header variable."""
    told: dict[str, str] = {}
    pairs = section(data, "HEADER")
    for (code, name), (_, value) in pairwise(pairs):
        if code == 9:
            told[name] = value
    return told
