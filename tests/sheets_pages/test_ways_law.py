"""From the words of a place every bend of a cord is found again, and off what it is kept off."""

import math
import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from any_rooms import any_rooms, rules_of
from hypothesis import given, settings
from hypothesis import strategies as st
from laws import held_over, planned
from page_words import table
from row_rooms import row_rooms
from set_out import LENGTH, read_m
from shapely import LineString, Polygon, box
from shapely.affinity import translate
from support import NEC, inch

from powerplan.inputs.plan_file import read_plan_file
from powerplan.model.plan import Cord, Plan
from powerplan.model.spec import PlanSpec, Room
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.off_walls import to_finish
from powerplan.sheets.pages.cords import cords_page
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_places import place_words
from powerplan.sheets.pages.print_rows import SetRow, row_of
from powerplan.sheets.pages.print_told import Places, places_of
from powerplan.sheets.parts import Items

Spot = tuple[float, float]
EXAMPLES = Path(__file__).parents[2] / "examples"
# From a wall that is no whole number of marks away a place is told to a sixteenth.
WALL_M = inch("1/32")
TAPED = pytest.mark.published(
    source="a place along a line and square off it; the two places where circles about two marks "
    "meet, along = (r^2 - s^2 + d^2) / 2d, off = sqrt(r^2 - along^2)",
    standing="derived",
)


def on_mark_m(length_m: float, plan: Plan) -> float:
    """Where a mark is chalked that a tape shows to an eighth of an inch or a millimeter."""
    step = Fraction(1, 1000) if plan.spec.project.units in ("mm", "m") else Fraction(127, 40000)
    return float(round(Fraction(length_m) / step) * step)


def found_at(words: str, row: SetRow, plan: Plan) -> Spot:
    """A place from its words: from walls, from the line and a chair's middle, from a rear line and
    a corner, or from two marks."""
    if words.endswith(" both"):
        return _swung(words, row)
    if "rear line" in words:
        return _from_rear_line(words, row)
    room = plan.spec.room
    walls = {"left": (0, 0.0), "right": (0, room.width_m), "back": (1, 0.0)}
    walls["screen"] = (1, room.depth_m)
    named = {_label(room, side): (side, *axis) for side, axis in walls.items()}
    fixed: dict[int, float] = {}
    along = ahead = None
    for part in words.split(", "):
        if part == "on the line":
            ahead = 0.0
        elif found := re.fullmatch(rf"({LENGTH}) (ahead of|behind) the line", part):
            ahead = read_m(found[1]) * (1 if found[2] == "ahead of" else -1)
        elif found := re.fullmatch(r"at (\S+)'s middle", part):
            along = (found[1], 0.0)
        elif found := re.fullmatch(rf"({LENGTH}) (left|right) of (\S+)'s middle", part):
            along = (found[3], read_m(found[1]) * (1 if found[2] == "right" else -1))
        else:
            found = re.fullmatch(rf"({LENGTH}) from the (.+)", part)
            assert found, part
            side, axis, at = named[found[2]]
            fixed[axis] = at + read_m(found[1]) * (1 if side in ("left", "back") else -1)
    return _put_together(fixed, along, ahead, row, plan)


def _label(room: Room, side: str) -> str:
    walls = {line.id: line.label for line in room.lines}
    return walls.get(side, str(getattr(room, f"{side}_wall")))


def _mark(name: str, row: SetRow) -> tuple[Spot, float]:
    """A place that is chalked, from the row itself, and how its chair is turned."""
    found = re.fullmatch(r"(.+)'s (left|right|middle) ?(rear corner|side|)", name)
    assert found, name
    one = next(stand for stand in row.stands if stand.name == found[1])
    sine, cosine = math.sin(one.angle_rad), math.cos(one.angle_rad)
    side = dict(zip(("left", "right"), one.sides_m(one.rear_m), strict=True)).get(found[2], 0.0)
    at = (
        one.x_m + side * cosine - one.rear_m * sine,
        one.y_m + side * sine + one.rear_m * cosine,
    )
    if not row.curved:  # on the line, square under the rear of what stands there
        x, y = row.chalk.left
        run = (at[0] - x) * cosine + (at[1] - y) * sine
        at = (x + run * cosine, y + run * sine)
    return at, one.angle_rad


def _from_rear_line(words: str, row: SetRow) -> Spot:
    first, second = words.split(", ")
    found = re.fullmatch(rf"(?:on|({LENGTH}) (ahead of|behind)) (.+)'s rear line", first)
    beside = re.fullmatch(
        rf"(?:at|({LENGTH}) (left|right) of) its (left|right) rear corner", second
    )
    assert found, words
    assert beside, words
    off = read_m(found[1]) * (1 if found[2] == "ahead of" else -1) if found[1] else 0.0
    far = read_m(beside[1]) * (1 if beside[2] == "right" else -1) if beside[1] else 0.0
    (x, y), angle = _mark(f"{found[3]}'s {beside[3]} rear corner", row)
    sine, cosine = math.sin(angle), math.cos(angle)
    return (x + far * cosine - off * sine, y + far * sine + off * cosine)


def _swung(words: str, row: SetRow) -> Spot:
    found = re.fullmatch(
        rf"({LENGTH}) from (.+) and ({LENGTH}) from (.+), (behind|ahead of) both", words
    )
    assert found, words
    (left, angle), (right, _) = (_mark(found[n], row) for n in (2, 4))
    one, other, apart = read_m(found[1]), read_m(found[3]), math.dist(left, right)
    run = (one**2 - other**2 + apart**2) / (2 * apart)
    off = math.sqrt(one**2 - run**2)
    across = ((right[0] - left[0]) / apart, (right[1] - left[1]) / apart)
    spots = [
        (left[0] + run * across[0] - side * across[1], left[1] + run * across[1] + side * across[0])
        for side in (-off, off)
    ]
    # of the two the one that is farther back as the chair of the first mark looks
    behind = sorted(spots, key=lambda at: -at[0] * math.sin(angle) + at[1] * math.cos(angle))
    return behind[0] if found[5] == "behind" else behind[1]


def _put_together(
    fixed: dict[int, float],
    along: tuple[str, float] | None,
    ahead: float | None,
    row: SetRow,
    plan: Plan,
) -> Spot:
    """A place that is told half from the line and half from a wall, or all from either; from the
    line and its marks where they are chalked."""
    if 0 in fixed and 1 in fixed:
        return (fixed[0], fixed[1])
    angle = row.row.angle_rad
    sine, cosine = math.sin(angle), math.cos(angle)
    x, y = row.chalk.left
    if row.square:
        assert angle == 0.0
        if along is not None:
            chair = next(chair for chair in row.chairs if chair.id == along[0])
            fixed[0] = on_mark_m(chair.x_m, plan) + along[1]
        if ahead is not None:
            fixed[1] = on_mark_m(y, plan) + ahead
        return (fixed[0], fixed[1])
    assert along is not None
    assert ahead is not None
    chair = next(chair for chair in row.chairs if chair.id == along[0])
    run = on_mark_m((chair.x_m - x) * cosine + (chair.y_m - y) * sine, plan) + along[1]
    return (x + run * cosine - ahead * sine, y + run * sine + ahead * cosine)


def words_of(places: Places, cord: Cord, spot: Spot, lettered: dict[str, str]) -> str:
    """The words of a place; of a bend with a letter, as the table of bends prints it."""
    row = row_of(cord, places.rows, places.plan)
    name = places.named(spot, row)
    words = place_words(spot, row, places)
    assert name is None or lettered[name.capitalize()] == words
    return words


def read_bends(plan: Plan) -> dict[str, str]:
    """The words of each lettered bend from the printed page."""
    page = cords_sheet(plan, ())
    found = [p for p in page.parts if getattr(p, "caption", "").startswith("Where cords bend")]
    if not found:
        return {}
    lines = table(page, "Where cords bend").rows
    return {
        line[0]: f"{line[2]}{' and ' if line[3].endswith(' both') else ', '}{line[3]}"
        for line in lines
    }


def check(plan: Plan) -> None:
    """Every place is found within the marks of a tape, and no told piece is nearer to a pinch zone
    than the true one, or than is asked of cords."""
    plan = to_finish(plan)
    if not plan.cords:
        return
    places, lettered = places_of(plan), read_bends(plan)
    step_m = 0.001 if plan.spec.project.units in ("mm", "m") else inch("1/8")
    for cord in plan.cords:
        told = {}
        ends = (cord.path_m[0], cord.path_m[-1])
        spots = (*cord.path_m, *cord.tail_m, *([cord.park_m] if cord.park_m else []))
        for spot in (spot for spot in spots if spot not in ends):
            row = row_of(cord, places.rows, plan)
            at = found_at(words_of(places, cord, spot, lettered), row, plan)
            assert math.dist(at, places.spot(spot, row)) <= WALL_M
            # a mark each way; where it is rounded off what is near, one more each way, and a swing
            # of a flat crossing doubles it
            assert math.dist(at, spot) <= 2 * math.sqrt(2) * 2 * step_m
            told[spot] = at
        for path in (cord.path_m, cord.tail_m):
            for piece in pairwise(path):
                # the page tells no place for the two ends of a cord: they are plugged in
                now = [told.get(at, at) for at in piece]
                check_piece(piece, now, plan, places)


def check_piece(piece: tuple[Spot, Spot], now: list[Spot], plan: Plan, places: Places) -> None:
    if math.dist(*piece) < 1e-6 or math.dist(*now) < 1e-6:
        return
    keep_m = 0.025 + plan.spec.cords.diameter_m / 2
    true, told = LineString(piece), LineString(now)
    for zone in plan.zones:
        if zone.kind != "pinch":
            continue
        outline = Polygon(zone.outline_m)
        away_m = min(true.distance(outline), keep_m)
        if away_m > 1e-6:
            for floor in (outline, as_set(outline, zone.chair, plan, places)):
                assert told.distance(floor) >= away_m - WALL_M / 100
    for area in plan.spec.walkways:
        rect = area.rect
        floor = box(rect.left_m, rect.back_m, rect.right_m, rect.front_m)
        if true.intersection(floor.buffer(-1e-6)).length == 0.0:
            assert told.intersection(floor.buffer(-2e-6)).length == 0.0


def as_set(outline: Polygon, chair: str, plan: Plan, places: Places) -> Polygon:
    """A pinch zone where its chair stands once it is set on its chalked marks."""
    row = next((r for r in places.rows if any(c.id == chair for c in r.chairs)), None)
    if row is None or not row.square:
        return outline
    at = next(c for c in row.chairs if c.id == chair)
    line_m = row.chalk.left[1]
    return translate(outline, on_mark_m(at.x_m, plan) - at.x_m, on_mark_m(line_m, plan) - line_m)


@TAPED
@settings(max_examples=10)
@given(row_rooms())
def test_every_bend_in_rows_of_every_kind_is_found_from_its_words(spec):
    check(make_plan(spec, NEC, "0" * 64))


@TAPED
@held_over(15)
@given(any_rooms())
def test_every_bend_is_found_from_its_words_off_hatched_floor_and_walkways(spec):
    check(make_plan(spec, rules_of(spec), "0" * 64))


@pytest.mark.slow
@settings(max_examples=80)
@given(any_rooms())
def test_every_bend_in_many_rooms_is_found_from_its_words(spec):
    check(make_plan(spec, rules_of(spec), "0" * 64))


@st.composite
def moved_examples(draw: st.DrawFn) -> PlanSpec:
    """Rooms of the trade with cords round many corners, each row moved by no mark of a tape, and
    straight ones turned a little."""
    name = draw(st.sampled_from(["curved-den", "small-den", "metric-lounge", "two-row-theater"]))
    spec = read_plan_file(EXAMPLES / f"{name}.toml", rule_set).spec
    rows = []
    for row in spec.rows:
        back, aside = (draw(st.integers(0, 20_000)) / 1e6 for _ in range(2))
        turn = 0.0
        if row.curve is None and draw(st.booleans()):
            turn = draw(st.integers(-60_000, 60_000)) / 1e6
        rows.append(
            replace(
                row,
                headrest_to_wall_m=round(row.headrest_to_wall_m + back, 6),
                center_x_m=round(row.center_x_m + aside, 6),
                angle_rad=turn,
            )
        )
    return replace(spec, rows=tuple(rows))


@TAPED
@held_over(60)
@given(moved_examples())
def test_every_bend_of_a_moved_row_is_found_from_its_words_and_never_nearer(spec):
    check(planned(spec))


@TAPED
@held_over(30)
@given(moved_examples())
def test_every_turn_in_the_text_of_cords_is_never_nearer_to_hatched_floor(spec):
    plan = to_finish(planned(spec))
    (turns,) = (
        [
            part
            for part in cords_page(plan, ways=True).parts
            if isinstance(part, Items) and part.lead.startswith("Every turn")
        ]
        if plan.cords
        else [None]
    )
    keep_m = 0.025 + plan.spec.cords.diameter_m / 2
    for cord, line in zip(plan.cords, turns.items if turns else (), strict=True):
        way = line.removeprefix(f"{cord.id}: ").partition(". Keeps")[0]
        read = [tuple(map(read_m, place.split(" / "))) for place in way.split("; then ")]
        now = [cord.path_m[0], *read[1:-1], cord.path_m[-1]]
        for piece, told in zip(pairwise(cord.path_m), pairwise(now), strict=True):
            for zone in plan.zones:
                if zone.kind == "pinch" and math.dist(*piece) > 1e-6 and math.dist(*told) > 1e-6:
                    outline = Polygon(zone.outline_m)
                    away_m = min(LineString(piece).distance(outline), keep_m)
                    assert LineString(told).distance(outline) >= away_m - WALL_M / 100
