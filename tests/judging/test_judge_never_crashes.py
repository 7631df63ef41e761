import copy
import json
from collections.abc import Iterator
from typing import Any

import as_planned
import hand_made
import pytest
from by_hand import judged_plain
from hypothesis import given
from hypothesis import strategies as st
from laws import held_over

from powerplan.judging.report import Report
from powerplan.model.codec import to_plain
from powerplan.model.errors import RecordError

RECORDS = {
    name: json.loads(json.dumps(to_plain(getattr(place, name)())))
    for place, names in (
        (hand_made, ("chained", "boxed", "wired_on", "extended", "raised", "impossible")),
        (as_planned, as_planned.__all__),
    )
    for name in names
}
Way = tuple[str | int, ...]


def ways(value: Any, way: Way = ()) -> Iterator[Way]:
    """Every place in a record's file."""
    if way:
        yield way
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from ways(inner, (*way, key))


WAYS = {
    name: [way for way in ways(plain) if way[:2] != ("rules", "numbers")]
    for name, plain in RECORDS.items()
}
NUMBERS = (0, 1, 2, -1, 7, 0.5, 1e-9, -1e-7, 1e5, 1e9, -1e300, 1e308, 10**30)
WORDS = ("", "7", "A1", "A3", "W1", "box A3", "W1+A1", "panel", "own", "link", "new 1", "é\n")


def altered(value: Any, pick: int) -> Any:
    """Another value of the same type, or none at all."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        wild = NUMBERS[pick % len(NUMBERS)]
        return int(wild) if isinstance(value, int) else wild
    if isinstance(value, str):
        return WORDS[pick % len(WORDS)]
    if isinstance(value, list):
        return ([], value[1:], value[:-1], value[::-1], value + value[:1])[pick % 5]
    return None


def test_the_records_have_coils_supplies_units_and_rows_on_an_arc() -> None:
    assert any(cord["coil_m"] and cord["tail_m"] for cord in RECORDS["curved"]["cords"])
    assert RECORDS["curved"]["spec"]["rows"][0]["curve"]
    assert RECORDS["supplied"]["supplies"]
    assert RECORDS["with_a_unit"]["outlet_units"]
    for name in as_planned.__all__:
        assert judged_plain(RECORDS[name]).disputed == ()


@given(data=st.data())
@held_over(150)
def test_any_well_formed_record_gets_a_report(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(sorted(RECORDS)))
    plain = copy.deepcopy(RECORDS[name])
    for _ in range(data.draw(st.integers(1, 3))):
        way = data.draw(st.sampled_from(WAYS[name]))
        pick = data.draw(st.integers(0, 59))
        place: Any = plain
        try:
            for key in way[:-1]:
                place = place[key]
            place[way[-1]] = None if pick >= 50 else altered(place[way[-1]], pick)
        except (KeyError, IndexError, TypeError):
            continue
    try:
        report = judged_plain(plain)
    except RecordError:
        return
    assert isinstance(report, Report)
    json.dumps(to_plain(report.findings), allow_nan=False)


def broken(path: str, value: Any) -> Report:
    """Judge a record of which one value in the spec cannot be."""
    plain = copy.deepcopy(RECORDS["raised"])
    *way, last = (int(key) if key.isdigit() else key for key in path.split("."))
    place = plain
    for key in way:
        place = place[key]
    assert last in place if isinstance(place, dict) else last < len(place)
    place[last] = value
    return judged_plain(plain)


DOOR = {"id": "d", "wall": "left", "start_m": 1.0, "end_m": 0.5, "swings": "in"}
LOAD = {"name": "x", "current_a": -1.0, "continuous": True}


@pytest.mark.parametrize(
    ("path", "value", "words"),
    [
        ("chairs.0.x_m", 1e300, "larger than anything in a room"),
        ("spec.rows.0.seats", 10**9, "larger than anything in a room"),
        ("spec.rows.0.seats", 10**5, "seats 100000"),
        ("spec.rows.0.seats", 0, "no seats"),
        ("spec.rows.0.chair", "x", "not there"),
        ("spec.rows.0.no_arm_between", [[1, 3]], "pairs of neighbors"),
        ("spec.outlets.0.circuit", "x", "not there"),
        ("spec.room.width_m", 0.0, "no floor"),
        ("spec.risers.0.height_m", -1.0, "sunk"),
        ("spec.risers.0.rect.left_m", 99.0, "no floor"),
        ("spec.doors", [DOOR], "not in its wall"),
        ("spec.chairs.0.seat_width_m", 0.0, "no width"),
        ("spec.chairs.0.depth_m", 9.0, "not in that order"),
        ("spec.chairs.0.lead_m", -1.0, "negative travel or lead"),
        ("spec.chairs.0.input_a", 0, "not within an input"),
        ("spec.chairs.0.continuous_a", 9, "not within an input"),
        ("spec.chairs.0.clear.width_m", 0.0, "without floor"),
        ("spec.floor.build", "cork", "cannot be"),
        ("spec.floor.spacing_m", 0.0, "cannot be"),
        ("spec.circuits.0.breaker_a", 0, "breaker of nothing"),
        ("spec.circuits.0.home_run_m", -1.0, "negative home run"),
        ("spec.circuits.0.already_on_it", [LOAD], "negative load"),
        ("spec.new_work.breaker_a", 0, "of nothing"),
        ("spec.new_work.home_run_m", -1.0, "negative home run"),
        ("spec.new_work.lid.width_m", 0.0, "of nothing"),
        ("spec.cords.diameter_m", -0.1, "thinner than nothing"),
    ],
)
def test_a_spec_that_cannot_be_is_refused_in_words(path: str, value: Any, words: str) -> None:
    report = broken(path, value)
    assert not report.agrees
    assert report.disputed == report.findings
    assert any(words in finding.note for finding in report.findings)
    assert "nothing else" in report.not_judged[0]


@pytest.mark.parametrize("part", ["circuits", "outlets", "rows", "chairs", "risers"])
def test_a_name_used_twice_in_the_spec_is_refused(part: str) -> None:
    plain = copy.deepcopy(RECORDS["raised"])
    plain["spec"][part] *= 2
    report = judged_plain(plain)
    assert any("is there twice" in finding.note for finding in report.findings)
