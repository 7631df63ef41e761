"""Laws of seating: mirror image, scale, units, more room."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mirrored import mirrored
from scaled import scaled
from support import NEC, inch, make_area, make_door, make_riser, make_row, make_spec

from powerplan.engineering.seating.layout import layout_findings
from powerplan.engineering.seating.poses import seat_rows
from powerplan.model.spec import Wall


def held(rule, spec):
    """Every finding of one rule."""
    return [f for f in layout_findings(spec, seat_rows(spec), NEC) if f.rule == rule]


@st.composite
def specs(draw):
    def row(name):
        return make_row(
            id=name,
            seats=draw(st.integers(1, 5)),
            center_x_m=inch(draw(st.integers(30, 210))),
            headrest_to_wall_m=inch(draw(st.integers(1, 130))),
        )

    return make_spec(
        rows=(row("A"), row("B")),
        doors=(
            make_door(
                draw(st.sampled_from(list(Wall))),
                draw(st.integers(0, 150)),
                36,
                swings=draw(st.sampled_from(["in", "out", "slides"])),
            ),
        ),
        obstacles=(make_area("column", draw(st.integers(0, 228)), 60, 12, 12),),
        risers=(make_riser(draw(st.integers(0, 60)), 0, 180, draw(st.integers(20, 120))),),
    )


def told(spec):
    return [
        (f.rule, f.subject, f.outcome, f.value) for f in layout_findings(spec, seat_rows(spec), NEC)
    ]


@given(specs())
def test_a_room_and_its_mirror_image_get_the_same_verdicts(spec):
    def key(item):
        rule, subject, outcome, value = item
        return rule, subject, outcome, round(value * 1e5)

    assert sorted(map(key, told(spec))) == sorted(map(key, told(mirrored(spec))))


@given(specs())
def test_room_for_one_thing_never_shrinks_when_the_row_ahead_moves_away(spec):
    spec = replace(spec, risers=(), obstacles=(), doors=())
    behind, ahead = spec.rows
    if micro(ahead.headrest_to_wall_m) <= micro(behind.headrest_to_wall_m):
        return
    further = replace(ahead, headrest_to_wall_m=ahead.headrest_to_wall_m + inch(1))
    for rule in ("rows-apart", "footrest-clears-row-ahead"):
        now = held(rule, spec)
        then = held(rule, replace(spec, rows=(behind, further)))
        for one, other in zip(now, then, strict=True):
            assert other.value == pytest.approx(one.value + inch(1), abs=1e-6)


def micro(length_m):
    return round(length_m * 1e6)


@given(specs(), st.integers(2, 5))
def test_twice_the_room_has_twice_the_room_to_spare(spec, times):
    # What a door that does not swing in needs, and a passage, do not grow with the room.
    spec = replace(spec, doors=tuple(replace(door, swings="in") for door in spec.doors))
    larger = scaled(spec, times)
    pairs = zip(
        layout_findings(spec, seat_rows(spec), NEC),
        layout_findings(larger, seat_rows(larger), NEC),
        strict=True,
    )
    for one, other in pairs:
        assert (one.rule, one.subject) == (other.rule, other.subject)
        assert other.value == pytest.approx(times * one.value, abs=1e-5)


@given(specs(), st.sampled_from(["in", "mm", "m"]))
def test_how_lengths_print_changes_notes_and_nothing_else(spec, units):
    other = replace(spec, project=replace(spec.project, units=units))
    assert told(other) == told(spec)
