"""Ways of cords in rooms with corners: laws, and an outside program's lengths."""

import math
from dataclasses import replace

import pytest
import shapely
from cord_rooms import KEEP_M, PLACES, SIZES, bare_room, make_router
from extremitypathfinder import PolygonEnvironment
from hypothesis import assume, given
from hypothesis import strategies as st
from laws import held_over
from mirrored import mirrored
from outlined import Corners, as_outline, outlines, room_of
from scaled import scaled
from support import NEC, inch, make_door, make_spec

from powerplan.engineering.cords.paths import NoWay, Route, Router
from powerplan.engineering.seating.covered import doorways
from powerplan.engineering.seating.zones import Zones
from powerplan.model.geometry import Point, Rect
from powerplan.model.spec import Area, PlanSpec, Room, Wall

_SAME_M = 4e-6


def covered_router(spec: PlanSpec) -> Router:
    """A router in whose room every bit of floor is covered."""
    zones = Zones(pinch=(), openings=())
    return Router(spec, (), zones, (spec.room.outline,), doorways(spec, NEC), NEC)


def outline_room(corners: Corners, *obstacles: tuple[float, float, float, float]) -> PlanSpec:
    return replace(bare_room(*obstacles), room=room_of(corners))


def way(spec: PlanSpec, start: Point, end: Point) -> Route:
    """The way, in rooms where there is one."""
    found = covered_router(spec).route(start, end)
    if isinstance(found, NoWay):
        assume(False)
    assert isinstance(found, Route)
    return found


@given(st.integers(20, 200), st.integers(20, 160), PLACES, PLACES)
@held_over(30)
def test_an_inner_corner_is_as_far_round_as_a_rectangle_with_that_corner_filled(
    across, back, start, end
):
    corners = ((0, 0), (240, 0), (240, 186), (across, 186), (across, back), (0, back))
    # Obstacles are kept clear of and walls are not: the filling ends that much short of the corner.
    filling = Rect(
        left_m=0.0, right_m=inch(across) - KEEP_M, back_m=inch(back) + KEEP_M, front_m=inch(186)
    )
    assume(filling.width_m > 0.01)
    assume(filling.depth_m > 0.01)
    filled = replace(bare_room(), obstacles=(Area(id="filling", rect=filling),))
    one = covered_router(outline_room(corners)).route(start, end)
    other = covered_router(filled).route(start, end)
    assert isinstance(one, Route) == isinstance(other, Route)
    if isinstance(one, Route) and isinstance(other, Route):
        assert one.length_m == pytest.approx(other.length_m, abs=_SAME_M)


@given(outlines(), SIZES, PLACES, PLACES)
@held_over(30)
@pytest.mark.published(
    source="extremitypathfinder: shortest path in a polygon with a hole", standing="derived"
)
def test_ways_are_as_long_as_another_program_finds(corners, size, start, end):
    spec = outline_room(corners, size)
    found = way(spec, start, end)
    rect = spec.obstacles[0].rect
    floor = shapely.Polygon(spec.room.outline)
    hole = shapely.box(
        rect.left_m - KEEP_M, rect.back_m - KEEP_M, rect.right_m + KEEP_M, rect.front_m + KEEP_M
    )
    free = shapely.difference(floor, hole)
    assume(free.geom_type == "Polygon")
    inside = shapely.buffer(free, -1e-5)
    assume(all(shapely.contains(inside, shapely.Point(p)) for p in (start, end)))
    ringed = shapely.geometry.polygon.orient(free)
    world = PolygonEnvironment()
    world.store(
        list(ringed.exterior.coords[:-1]), [list(inner.coords[:-1]) for inner in ringed.interiors]
    )
    _, length_m = world.find_shortest_path(start, end)
    assume(length_m is not None)
    assert found.length_m == pytest.approx(length_m, abs=1e-5)


@given(outlines(), SIZES, PLACES, PLACES)
@held_over(25)
def test_a_way_stays_inside_the_walls_to_what_a_record_rounds(corners, size, start, end):
    spec = outline_room(corners, size)
    found = way(spec, start, end)
    path = [(round(x, 6), round(y, 6)) for x, y in found.path]
    floor = shapely.buffer(shapely.Polygon(spec.room.outline), 1.5e-6, join_style="mitre")
    shape = shapely.LineString(path) if len(set(path)) > 1 else shapely.Point(path[0])
    assert shapely.covers(floor, shape)


@given(outlines(), SIZES, PLACES, PLACES)
@held_over(20)
def test_a_mirrored_room_a_turned_one_and_a_larger_one_have_the_same_ways(
    corners, size, start, end
):
    spec = outline_room(corners, size)
    found = way(spec, start, end)
    wide = spec.room.width_m
    twin = way(mirrored(spec), *((round(wide - x, 6), y) for x, y in (start, end)))
    assert twin.length_m == pytest.approx(found.length_m, abs=_SAME_M)

    def turn(point: Point) -> Point:
        return (round(spec.room.depth_m - point[1], 6), point[0])

    rect = spec.obstacles[0].rect
    low, high = turn((rect.left_m, rect.front_m)), turn((rect.right_m, rect.back_m))
    turned = replace(
        spec,
        room=_turned(spec.room),
        obstacles=(
            Area(id="o1", rect=Rect(left_m=low[0], right_m=high[0], back_m=low[1],
                                    front_m=high[1])),
        ),
    )  # fmt: skip
    other = way(turned, turn(start), turn(end))
    assert other.length_m == pytest.approx(found.length_m, abs=_SAME_M)
    bare = replace(spec, obstacles=())
    large = replace(bare, room=_scaled(spec.room, 3))
    both = (covered_router(bare), covered_router(large))
    one = both[0].route(start, end)
    three = both[1].route(*((3 * x, 3 * y) for x, y in (start, end)))
    assume(isinstance(one, Route) and isinstance(three, Route))
    assert three.length_m == pytest.approx(3 * one.length_m, abs=3 * _SAME_M)


def _turned(room: Room) -> Room:
    """The room after a quarter turn to the left."""
    deep = room.depth_m
    walls = tuple(
        replace(
            wall,
            start=(round(deep - wall.start[1], 6), wall.start[0]),
            end=(round(deep - wall.end[1], 6), wall.end[0]),
        )
        for wall in room.walls
    )
    return replace(room, width_m=room.depth_m, depth_m=room.width_m, walls=walls)


def _scaled(room: Room, times: int) -> Room:
    large: Room = scaled(room, times)
    walls = tuple(
        replace(
            wall,
            start=(round(times * wall.start[0], 6), round(times * wall.start[1], 6)),
            end=(round(times * wall.end[0], 6), round(times * wall.end[1], 6)),
        )
        for wall in room.walls
    )
    return replace(large, walls=walls)


def test_a_wall_between_two_places_is_gone_round():
    corners = ((0, 0), (240, 0), (240, 186), (60, 186), (60, 80), (0, 80))
    start, end = (inch(0), inch(0)), (inch(60 + 60), inch(80 + 80))
    found = way(outline_room(corners), start, end)
    # 60 right and 80 up to the inner corner, and as much again: a straight line of 200 in.
    assert found.length_m == pytest.approx(200 * 0.0254, abs=1e-6)
    far = (inch(60), inch(186))
    around = way(outline_room(corners), start, far)
    assert around.length_m == pytest.approx((100 + 106) * 0.0254, abs=1e-6)


def test_outside_the_walls_no_cord_ends():
    corners = ((0, 0), (240, 0), (240, 186), (60, 186), (60, 80), (0, 80))
    router = covered_router(outline_room(corners))
    refusal = router.route((inch(30), inch(120)), (inch(120), inch(10)))
    assert isinstance(refusal, NoWay)
    assert "is outside the room" in refusal.words


def test_a_doorway_on_a_slanted_wall_stops_a_cord():
    # A corridor 40 in wide whose end wall is cut off by a door at a slant.
    corners = ((0, 0), (240, 0), (240, 186), (60, 186), (0, 126))
    door = replace(make_door(Wall.BACK, 10, 40), wall="wall 4")
    spec = replace(outline_room(corners), doors=(door,))
    router = covered_router(spec)
    (keep_out,) = router.floor.doorways
    # 6 in deep and 40 in wide, the wall being 84.85 in long.
    assert shapely.Polygon(keep_out.outline).area == pytest.approx(240 * 0.0254**2, rel=1e-6)
    inside = shapely.Polygon(keep_out.outline).centroid
    refusal = router.route((inside.x, inside.y), (inch(200), inch(20)))
    assert isinstance(refusal, NoWay)
    assert refusal.rule == "cord-through-doorway"


@given(st.integers(0, 140), st.sampled_from([Wall.LEFT, Wall.RIGHT, Wall.BACK, Wall.SCREEN]),
       PLACES, PLACES)  # fmt: skip
@held_over(20)
def test_a_rectangle_written_as_an_outline_has_the_same_ways(place, wall, start, end):
    spec = make_spec(doors=(make_door(wall, place, 32),))
    one, other = make_router(spec), make_router(as_outline(spec))
    ways = one.route(start, end), other.route(start, end)
    assert isinstance(ways[0], Route) == isinstance(ways[1], Route)
    if isinstance(ways[0], Route) and isinstance(ways[1], Route):
        assert ways[0].open_floor_m == pytest.approx(ways[1].open_floor_m, abs=_SAME_M)
        assert ways[0].length_m == pytest.approx(ways[1].length_m, abs=_SAME_M)
        assert math.isclose(ways[0].clearance_m, ways[1].clearance_m, abs_tol=_SAME_M)
