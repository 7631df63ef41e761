"""Read a PDF back: the straight lines on a page as they come out of the printer, and its words."""

import io

from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

MM = 25.4 / 72
Matrix = tuple[float, float, float, float, float, float]
Segment = tuple[float, float, float, float]


def reader(data: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(data))


def text_of(page: PageObject) -> str:
    """Words of a page, blanks of every kind as one."""
    return " ".join(page.extract_text().split())


def texts(data: bytes) -> list[str]:
    return [text_of(page) for page in reader(data).pages]


def segments_mm(page: PageObject) -> list[Segment]:
    """Every straight line that is stroked, from the lower left of the paper. [mm]"""
    stream = ContentStream(page.get_contents(), page.pdf)
    now: Matrix = (1, 0, 0, 1, 0, 0)
    kept: list[Matrix] = []
    path: list[Segment] = []
    start = last = (0.0, 0.0)
    stroked: list[Segment] = []
    for operands, operator in stream.operations:
        numbers = [float(value) for value in operands if isinstance(value, int | float)]
        if operator == b"q":
            kept.append(now)
        elif operator == b"Q":
            now = kept.pop()
        elif operator == b"cm":
            now = product(tuple(numbers), now)
        elif operator == b"m":
            start = last = placed(numbers, now)
        elif operator == b"l":
            spot = placed(numbers, now)
            path.append((*last, *spot))
            last = spot
        elif operator == b"h":
            path.append((*last, *start))
        elif operator in (b"S", b"s", b"f", b"n"):
            stroked += path if operator in (b"S", b"s") else []
            path = []
    return stroked


def product(inner: Matrix, outer: Matrix) -> Matrix:
    a, b, c, d, e, f = inner
    p, q, r, s, t, u = outer
    return (
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
    )


def placed(point: list[float], now: Matrix) -> tuple[float, float]:
    a, b, c, d, e, f = now
    x, y = point
    return ((a * x + c * y + e) * MM, (b * x + d * y + f) * MM)


def lengths_mm(page: PageObject) -> list[float]:
    return [((c - a) ** 2 + (d - b) ** 2) ** 0.5 for a, b, c, d in segments_mm(page)]
