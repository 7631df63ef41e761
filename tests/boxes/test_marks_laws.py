"""Laws of marks, held in many rooms against trying every mark of the tape."""

from dataclasses import replace

import pytest
from box_world import World, half_um, marked
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over
from mirrored import mirrored
from support import (
    inch,
    make_area,
    make_framing,
    make_joists,
    make_new_work,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.engineering.boxes.marks import BoxSpot, NoSpot
from powerplan.model.spec import Size

UM = 1e-6


def size(width, depth):
    return Size(width_m=inch(width), depth_m=inch(depth))


@st.composite
def specs(draw):
    def eighths(low, high):
        return inch(draw(st.integers(low * 8, high * 8)) / 8)

    def areas(names, most):
        return tuple(
            make_area(
                name,
                draw(st.integers(100, 130)),
                draw(st.integers(10, 40)),
                draw(st.integers(1, 30)),
                draw(st.integers(1, 30)),
            )
            for name in names[: draw(st.integers(0, most))]
        )

    run = draw(st.sampled_from(["back to screen", "side to side"]))

    def joists():
        return make_joists(joists_run=run, spacing_m=eighths(6, 24), first_joist_m=eighths(0, 16))

    floor = draw(st.sampled_from([make_framing(build="slab"), joists()]))
    risers = ()
    if draw(st.booleans()):
        risers = (
            make_riser(
                draw(st.integers(90, 118)),
                draw(st.integers(0, 40)),
                draw(st.integers(10, 60)),
                draw(st.integers(10, 60)),
                framing=joists(),
            ),
        )
    spec = make_spec(
        rows=(
            make_row(
                seats=1,
                center_x_m=eighths(119, 121) + draw(st.integers(0, 3000)) * UM,
                headrest_to_wall_m=eighths(13, 15),
            ),
        ),
        floor=floor,
        risers=risers,
        no_cut=areas(["duct", "loop"], 2),
        obstacles=areas(["column"], 1),
        new_work=make_new_work(
            cut_out=size(draw(st.integers(2, 5)), draw(st.integers(2, 5))),
            lid=size(draw(st.integers(5, 9)), draw(st.integers(5, 9))),
        ),
    )
    units = draw(st.sampled_from(["ft-in", "mm"]))
    return replace(spec, project=replace(spec.project, units=units))


def spot_of(point):
    return half_um(point[0]), half_um(point[1])


@held_over(80)
@given(specs())
def test_a_mark_is_the_tapes_nearest_to_the_ideal_of_all_that_are_allowed(spec):
    world = World(spec)
    spot, wanted = marked(spec), world.nearest()
    if isinstance(spot, NoSpot):
        assert wanted is None
        assert not any(map(world.allows, world.corners()))
    elif wanted is not None:
        assert spot_of(spot.mark) == wanted
    else:
        assert world.allows(spot_of(spot.mark))
        assert "no mark of the tape" in spot.moved_because


@held_over(60)
@given(specs())
def test_a_box_anywhere_within_its_drift_is_clear_of_everything(spec):
    world, spot = World(spec), marked(spec)
    if isinstance(spot, NoSpot):
        return
    drift = spot.drift
    x, y = spot_of(spot.mark)
    for part in range(5):
        for other in range(5):
            across = -drift.left_m + (drift.left_m + drift.right_m) * part / 4
            along = -drift.back_m + (drift.back_m + drift.screen_m) * other / 4
            assert world.allows((x + int(across * 2e6), y + int(along * 2e6)))


@held_over(60)
@given(specs())
def test_where_a_middle_may_sit_is_all_that_is_allowed_and_nothing_else(spec):
    world, spot = World(spec), marked(spec)
    parts = () if isinstance(spot, NoSpot) else spot.may_sit
    boxes = [
        (min(xs), max(xs), min(ys), max(ys))
        for xs, ys in (zip(*map(spot_of, part), strict=True) for part in parts)
    ]
    for x, y in [*world.tape_spots()[::7], *world.corners()]:
        told = any(b[0] <= x <= b[1] and b[2] <= y <= b[3] for b in boxes)
        assert told is world.allows((x, y))


@held_over(60)
@given(specs())
def test_a_box_in_a_mirror_is_the_mirror_of_the_box(spec):
    spot, twin = marked(spec), marked(mirrored(spec))
    assert isinstance(twin, type(spot))
    if isinstance(spot, NoSpot) or isinstance(twin, NoSpot):
        return
    world, other = World(spec), World(mirrored(spec))
    width = half_um(spec.room.width_m)
    # The tape starts at the left wall in both rooms, so only what does not hang on it is mirrored.
    if world.tape and width % world.tape == 0:
        assert abs(world.off(spot_of(spot.mark)) ** 0.5 - other.off(spot_of(twin.mark)) ** 0.5) < 8
    assert len(spot.may_sit) > 0
    area = sum(_area(part) for part in spot.may_sit)
    assert sum(_area(part) for part in twin.may_sit) == pytest.approx(area, abs=1e-6)


def _area(part):
    (left, back), _, (right, front), _ = part
    return (right - left) * (front - back)


@held_over(40)
@given(specs(), st.sampled_from(["in", "m"]))
def test_units_of_one_kind_give_the_same_mark(spec, units):
    twin = {"in": "ft-in", "m": "mm"}[units]
    one = marked(replace(spec, project=replace(spec.project, units=units)))
    other = marked(replace(spec, project=replace(spec.project, units=twin)))
    assert isinstance(other, type(one))
    if isinstance(one, BoxSpot) and isinstance(other, BoxSpot):
        assert (one.mark, one.drift, one.may_sit) == (other.mark, other.drift, other.may_sit)
