"""Values to plain JSON and back: equal again, or refused with the place named."""

import json
import math
from dataclasses import dataclass, replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import (
    make_area,
    make_chain,
    make_chair,
    make_circuit,
    make_door,
    make_joists,
    make_load,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.model.codec import from_plain, plan_from_plain, to_plain
from powerplan.model.errors import RecordError
from powerplan.model.findings import Force
from powerplan.model.plan import Cord, Plan
from powerplan.model.spec import Load, PlanSpec, Wall

FULL = make_spec(
    doors=(make_door(Wall.RIGHT, 132, 32),),
    obstacles=(make_area("column", 0, 84, 12, 12),),
    walkways=(make_area("aisle", 204, 0, 36, 186),),
    no_cut=(make_area("duct", 36, 24, 14, 72),),
    risers=(make_riser(36, 0, 168, 88, framing=make_joists()),),
    chairs=(make_chair(chain=make_chain()), make_chair(id="plain", clear=None, coupler_a=None)),
    rows=(make_row(no_arm_between=((2, 3),), fastened=None),),
    circuits=(
        make_circuit(already_on_it=(make_load("lamp", "1/3", False),)),
        make_circuit(id="9", breaker_a=None, wire=None, home_run_m=None, already_on_it=None),
    ),
)

CORD = Cord(
    id="A3-A4",
    kind="link",
    from_="A3",
    to="A4",
    path_m=((0.0, 1.0), (0.5, 1.25)),
    rises_m=0.0,
    length_m=0.559017,
    needed_m=0.559017,
    bought_m=1.2192,
    wire=None,
    current_a=1.8,
    open_floor_m=0.0,
    clearance_m=0.025,
    park_m=None,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """One of each kind of value."""

    amount: Fraction
    length_m: float
    count: int
    name: str
    sure: bool
    force: Force
    pair: tuple[float, float]
    names: tuple[str, ...]
    part: Load | None


SAMPLE = {
    "amount": 1.5,
    "length_m": 2,
    "count": 3,
    "name": "x",
    "sure": True,
    "force": "must",
    "pair": [1.0, 2.0],
    "names": ["a", "b"],
    "part": None,
}


def through_json(value):
    return json.loads(json.dumps(to_plain(value), allow_nan=False))


def test_a_spec_with_everything_in_it_comes_back_equal():
    assert from_plain(PlanSpec, through_json(FULL)) == FULL


def test_a_field_with_an_underscore_is_written_without_it():
    plain = through_json(CORD)
    assert plain["from"] == "A3"
    assert "from_" not in plain
    assert from_plain(Cord, plain) == CORD


@given(
    current=st.fractions(min_value=0, max_value=1000, max_denominator=10**6),
    lasting=st.booleans(),
)
def test_currents_with_denominators_up_to_a_million_come_back_exactly(current, lasting):
    load = Load(name="rack", current_a=current, continuous=lasting)
    assert from_plain(Load, through_json(load)) == load


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_lengths_come_back_to_the_last_bit(length):
    cord = replace(CORD, length_m=length)
    assert from_plain(Cord, through_json(cord)) == cord


def test_a_sample_of_every_kind_is_read():
    sample = from_plain(Sample, SAMPLE)
    assert sample.amount == Fraction(3, 2)
    assert sample.length_m == 2.0
    assert isinstance(sample.length_m, float)
    assert (sample.force, sample.pair, sample.names) == (Force.MUST, (1.0, 2.0), ("a", "b"))


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        ("amount", "1.5", r"record\.amount: a number is wanted, not '1\.5'"),
        ("amount", True, r"record\.amount: a number is wanted, not True"),
        ("amount", None, r"record\.amount: a number is wanted, not None"),
        ("amount", math.inf, r"record\.amount: the number is too large or not a number"),
        ("length_m", math.nan, r"record\.length_m: the number is too large or not a number"),
        ("length_m", 10**400, r"record\.length_m: the number is too large or not a number"),
        ("count", 3.0, r"record\.count: int is wanted, not 3\.0"),
        ("count", True, r"record\.count: int is wanted, not True"),
        ("name", 7, r"record\.name: str is wanted, not 7"),
        ("sure", 1, r"record\.sure: bool is wanted, not 1"),
        ("sure", "yes", r"record\.sure: bool is wanted, not 'yes'"),
        ("force", "maybe", r"record\.force: 'maybe' is not one of must, advice, note"),
        ("force", [], r"record\.force: \[\] is not one of must, advice, note"),
        ("pair", [1.0], r"record\.pair: 2 values are wanted, not 1"),
        ("pair", {"x": 1.0}, r"record\.pair: a list is wanted"),
        ("pair", [1.0, "2"], r"record\.pair\[1\]: a number is wanted, not '2'"),
        ("names", "ab", r"record\.names: a list is wanted, not 'ab'"),
        ("names", ["a", 2], r"record\.names\[1\]: str is wanted, not 2"),
        ("part", [], r"record\.part: an object is wanted, not \[\]"),
        ("part", {"name": "lamp"}, r"record\.part: the key 'current_a' is missing"),
    ],
)
def test_a_value_of_the_wrong_kind_is_refused_with_its_place(key, value, words):
    with pytest.raises(RecordError, match=words):
        from_plain(Sample, {**SAMPLE, key: value})


def test_an_unknown_key_is_refused():
    with pytest.raises(RecordError, match="record: the key 'extra' is not known"):
        from_plain(Sample, {**SAMPLE, "extra": 1})


@pytest.mark.parametrize("key", sorted(SAMPLE))
def test_a_missing_key_is_refused(key):
    with pytest.raises(RecordError, match=f"record: the key '{key}' is missing"):
        from_plain(Sample, {name: value for name, value in SAMPLE.items() if name != key})


def test_a_hostile_value_is_not_printed_at_length():
    with pytest.raises(RecordError) as caught:
        from_plain(Sample, {**SAMPLE, "count": "9" * 100_000})
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize("value", [None, [], "record", {}, {"spec": {}}])
def test_what_is_no_record_is_refused(value):
    with pytest.raises(RecordError, match="this is not a plan record"):
        plan_from_plain(value)


@pytest.mark.parametrize("version", [2, 0, "1", True, None])
def test_a_record_of_another_version_is_refused(version):
    with pytest.raises(RecordError, match="this program reads record 1"):
        plan_from_plain({"record": version})


def test_a_record_without_its_parts_is_refused_part_by_part():
    first_missing = next(name for name in Plan.__dataclass_fields__ if name != "record")
    with pytest.raises(RecordError, match=f"record: the key '{first_missing}' is missing"):
        plan_from_plain({"record": 1})
