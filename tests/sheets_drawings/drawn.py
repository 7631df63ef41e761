"""What is looked for in every drawing, measured with a geometry library of its own."""

from itertools import combinations

from shapely.geometry import Polygon, box
from shapely.strtree import STRtree

from powerplan.sheets.fonts import text_width_mm
from powerplan.sheets.lower import Words, lowered
from powerplan.sheets.scene import Dimension, Line, View

HAIR_MM2 = 1e-6
TAIL = 0.3  # letters with tails reach so far under their line, as part of a capital


def words_of(view: View) -> list[Words]:
    return [thing for thing in lowered(view) if isinstance(thing, Words)]


def spoken(view: View) -> list[str]:
    return [thing.words for thing in words_of(view)]


def area_of(words: Words) -> Polygon:
    """The rectangle of paper that words take up, from their own width."""
    from shapely.affinity import rotate, translate

    width, height = text_width_mm(words.words, words.height_mm), words.height_mm
    left = {"l": 0.0, "c": -width / 2, "r": -width}[words.anchor[0]]
    base = {"b": 0.0, "m": -height / 2, "t": -height}[words.anchor[1]]
    flat = box(left, base - TAIL * height, left + width, base + height)
    turned = rotate(flat, words.angle_deg, origin=(0, 0))
    return translate(turned, *words.at_mm)


def squares_of(view: View) -> list[Polygon]:
    """The squares of floor boxes on paper."""
    per, left, back = 1000 / view.scale, view.bounds.left_m, view.bounds.back_m
    return [
        Polygon([((x - left) * per, (y - back) * per) for x, y in item.points])
        for item in view.items
        if isinstance(item, Line) and item.layer in ("box", "second_mark") and item.closed
    ]


def overlapping(view: View) -> list[tuple[str, str]]:
    """Pairs of words that share paper, and words that lie on the square of a floor box."""
    words = words_of(view)
    areas = [area_of(one) for one in words]
    tree = STRtree(areas)
    found = []
    for here, area in enumerate(areas):
        for there in tree.query(area):
            if here < there and area.intersection(areas[there]).area > HAIR_MM2:
                found.append((words[here].words, words[there].words))
    for square in squares_of(view):
        for there in tree.query(square):
            if square.intersection(areas[there]).area > HAIR_MM2:
                found.append(("box", words[there].words))
    return found


def outside(view: View) -> list[str]:
    """Words and lines that leave the paper."""
    paper = box(-1e-6, -1e-6, view.width_mm + 1e-6, view.height_mm + 1e-6)
    found = []
    for thing in lowered(view):
        if isinstance(thing, Words):
            if not paper.contains(area_of(thing)):
                found.append(thing.words)
        elif not isinstance(thing, Words):
            points = getattr(thing, "points_mm", None) or thing.corners_mm
            low_x, low_y = min(x for x, _ in points), min(y for _, y in points)
            high_x, high_y = max(x for x, _ in points), max(y for _, y in points)
            if min(low_x, low_y) < -1e-6 or high_x > view.width_mm or high_y > view.height_mm:
                found.append(str(thing))
    return found


def dimensions_of(view: View) -> list[Dimension]:
    return [item for item in view.items if isinstance(item, Dimension)]


def true_m(item: Dimension) -> float:
    axis = 0 if item.along == "x" else 1
    return abs(item.end[axis] - item.start[axis])


def any_pair_overlaps(patches: list[Polygon]) -> bool:
    return any(one.intersection(two).area > HAIR_MM2 for one, two in combinations(patches, 2))
