"""Where a tape can be hooked without crossing a step, against a walk in small steps."""

from dataclasses import replace

import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from laws import law, planned
from page_words import A_VIEW, listed, table, words
from sample_plan import sample_plan
from support import inch, make_riser, make_spec

from powerplan.model.plan import Plan
from powerplan.model.spec import PlanSpec, Riser, Wall
from powerplan.sheets.drawings.box_measures import free_floor
from powerplan.sheets.levels import crosses_a_step, faces, level_m
from powerplan.sheets.pages.print_boxes import boxes_sheet

WAYS = {Wall.LEFT: (-1, 0), Wall.RIGHT: (1, 0), Wall.BACK: (0, -1), Wall.SCREEN: (0, 1)}
STEP_M = inch("1/2")


def with_risers(*risers: Riser) -> Plan:
    plan = sample_plan()
    return replace(plan, spec=replace(plan.spec, risers=risers))


def height_by_hand(spec: PlanSpec, x: float, y: float) -> float:
    on = [
        one.height_m
        for one in spec.risers
        if one.rect.left_m < x < one.rect.right_m and one.rect.back_m < y < one.rect.front_m
    ]
    return max(on, default=0.0)


def walked(plan: Plan, x: float, y: float, way: tuple[int, int]) -> float:
    """How far one gets in steps of half an inch before the floor is higher or lower, or ends."""
    room, here, far = plan.spec.room, height_by_hand(plan.spec, x, y), 0.0
    while True:
        far += STEP_M
        at = (x + way[0] * far, y + way[1] * far)
        if not (0 <= at[0] <= room.width_m and 0 <= at[1] <= room.depth_m):
            return far
        if height_by_hand(plan.spec, *at) != here:
            return far


@st.composite
def risers(draw: st.DrawFn) -> tuple[Riser, ...]:
    made = []
    for number in range(draw(st.integers(0, 2))):
        left, back = draw(st.integers(0, 100)), draw(st.integers(0, 80))
        width, depth = draw(st.integers(20, 140)), draw(st.integers(20, 100))
        high = inch(draw(st.sampled_from([6, 10, 14])))
        made.append(make_riser(left, back, width, depth, id=f"r{number}", height_m=high))
    return tuple(made)


@settings(max_examples=60)
@given(risers(), st.integers(1, 478), st.integers(1, 370))
def test_a_level_tape_reaches_as_far_as_the_floor_stays_level(found, across, deep):
    plan = with_risers(*found)
    # quarter inches: a place is never on an edge, which stand on whole inches
    x, y = inch(across / 2) + inch("1/4"), inch(deep / 2) + inch("1/4")
    for side, face in faces(plan, (x, y)).items():
        away = abs((x if side in (Wall.LEFT, Wall.RIGHT) else y) - face.at_m)
        by_hand = walked(plan, x, y, WAYS[side])
        assert away <= by_hand + 1e-9
        assert by_hand - away <= STEP_M + 1e-9


@settings(max_examples=30)
@given(risers())
def test_a_room_has_a_step_where_a_riser_ends_away_from_a_wall(found):
    plan = with_risers(*found)
    assert crosses_a_step(plan) == bool(found)  # none of them fills the room of 240 by 186 in


def test_a_place_on_two_risers_is_as_high_as_the_upper():
    low, high = (
        make_riser(0, 0, 240, 120, id="low", height_m=inch(7)),
        make_riser(0, 0, 240, 60, id="high", height_m=inch(14)),
    )
    plan = with_risers(low, high)
    assert level_m(plan, (inch(50), inch(30))) == inch(14)
    assert level_m(plan, (inch(50), inch(90))) == inch(7)
    assert level_m(plan, (inch(50), inch(150))) == 0.0


def test_a_box_ahead_of_a_riser_is_taped_from_its_front_and_from_the_screen_wall():
    plan = with_risers(make_riser(0, 0, 240, 20, id="rear"))
    box = replace(plan.boxes[0], x_m=inch(80), y_m=inch(29), deck=None)
    page = boxes_sheet(replace(plan, boxes=(box,)), (A_VIEW,))
    row = table(page, "The same places taped on one level").rows[0]
    assert row[1:] == (
        "6 ft 8 in from stair side",
        "13 ft 4 in from right wall",
        "9 in from front edge of riser rear",
        "13 ft 1 in from screen wall",
    )


def test_a_box_in_a_deck_is_taped_from_the_edges_of_its_riser():
    plan = with_risers(make_riser(30, 0, 150, 84, id="rear"))
    box = replace(plan.boxes[0], x_m=inch(80), y_m=inch(29), deck="rear")
    page = boxes_sheet(replace(plan, boxes=(box,)), (A_VIEW,))
    row = table(page, "The same places taped on one level").rows[0]
    assert row[1:] == (
        "4 ft 2 in from left edge of riser rear",
        "8 ft 4 in from right edge of riser rear",
        "2 ft 5 in from back wall",
        "4 ft 7 in from front edge of riser rear",
    )


def test_a_flat_room_has_no_table_of_level_places():
    page = boxes_sheet(sample_plan(), (A_VIEW,))
    assert "taped on one level" not in words(page)


def test_room_and_risers_have_their_sizes_on_the_page():
    plan = with_risers(make_riser(0, 0, 240, 84, id="rear", height_m=inch(10)))
    page = boxes_sheet(plan, (A_VIEW,))
    told = listed(page, "The room")
    assert told[0].startswith("The room is 20 ft wide (left to right) and 15 ft 6 in deep")
    assert told[1] == "Riser rear is 20 ft wide, 7 ft deep and 10 in high."
    # ahead of the riser are 20 ft by 8 ft 6 in: 244.8 by 102 in would be 8.5^2 + 20^2 = 472.25
    (proof,) = (line for line in words(page).split("\n") if line.startswith("First prove"))
    assert "each is 21 ft 8 3/4 in" in proof
    assert "at one height, above the riser" in proof


def test_the_diagonal_of_a_room_with_a_platform_is_measured_above_it():
    plan = with_risers(make_riser(40, 20, 100, 60, id="middle"))
    told = words(boxes_sheet(plan, (A_VIEW,)))
    assert "measure both its diagonals, at one height, above the riser" in told
    assert free_floor(plan).depth_m == plan.spec.room.depth_m


@law(strategies.rooms(), usual=7, many=150)
def test_no_step_lies_on_the_diagonal_that_is_drawn_unless_a_riser_stands_free(spec):
    plan = planned(spec)
    rect = free_floor(plan)
    for riser in spec.risers:  # all of them go from wall to wall at the back
        assert riser.rect.front_m <= rect.back_m + 1e-9
    assert rect.front_m == make_spec().room.depth_m
