"""Each country's set has the rules and numbers that its country has, no more and no fewer."""

import csv
import re

import pytest
from abroad import IEC
from support import NEC
from test_rule_sets import SHIPPED

from powerplan.model.findings import Standing
from powerplan.rulebook.loader import rule_set, rule_set_ids

# What a country does not have, it must not get; everything else it must have.
ONLY_IN_THE_US = {
    *("plug-share", "fastened-half", "socket-alone", "gfci-basement", "afci-room"),
    *("cord-fire-code", "row-width-assembly"),
}
ONLY_IN_THE_IEC = {"rcd-new-outlets"}
NUMBERS_ONLY_IN_THE_US = {
    *("continuous_factor", "one_plug_share", "fastened_share"),
    *("row_free_seats", "row_per_seat", "row_width_most", "row_width_least"),
}


def test_the_iec_set_has_every_rule_but_those_of_the_us():
    assert set(NEC.rules) - set(IEC.rules) == ONLY_IN_THE_US
    assert set(IEC.rules) - set(NEC.rules) == ONLY_IN_THE_IEC


def test_the_iec_set_has_every_number_but_those_of_the_us():
    assert set(NEC.numbers) - set(IEC.numbers) == NUMBERS_ONLY_IN_THE_US
    assert not set(IEC.numbers) & NUMBERS_ONLY_IN_THE_US


@pytest.mark.parametrize("name", rule_set_ids())
def test_rules_of_different_sets_ask_the_same_way(name: str):
    for rule in rule_set(name).rules.values():
        same = NEC.rules.get(rule.id, rule)
        assert (rule.bound, rule.unit) == (same.bound, same.unit)


def test_no_word_or_number_of_the_us_stands_in_the_iec_tables():
    foreign = re.compile(r"\b(NEC|NFPA|UL|AWG|IFC|IBC|IRC|CPSC|NEMA|ft|kft|120 V|125 %|80 %)\b")
    for file in SHIPPED.glob(f"*{IEC.id}.csv"):
        assert foreign.findall(file.read_text(encoding="utf-8")) == []


def test_every_row_of_the_iec_set_has_a_source_and_a_standing():
    for file in SHIPPED.glob(f"*{IEC.id}.csv"):
        with file.open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                assert len(row["source"]) > 6
                assert Standing(row["standing"])
                assert ("no source" in row["source"]) == (row["standing"] == "common practice")


@pytest.mark.published(
    source="IEC 60364-4-43:2008 433.1; no factor for continuous load in IEC countries",
    standing="published copy",
)
def test_a_lasting_load_counts_once():
    assert IEC.continuous_factor == 1
    assert not IEC.weighs_lasting
    assert NEC.weighs_lasting


@pytest.mark.published(source="IEC 60898-1, preferred ratings", standing="published copy")
def test_breakers_come_in_preferred_ratings_up_to_32_a():
    assert [float(size) for size in IEC.breakers_a] == [6, 10, 13, 16, 20, 25, 32]


@pytest.mark.published(
    source="IEC 60364-5-52:2009 table B.52.2, methods A2 and C, two loaded wires, PVC, 30 C",
    standing="from memory",
)
@pytest.mark.parametrize(
    ("wire", "insulated_a", "clipped_a"),
    [("1.5", 14, 19.5), ("2.5", 18.5, 27), ("4", 25, 36), ("6", 32, 46), ("10", 43, 63)],
)
def test_a_breaker_is_within_what_the_wire_carries(wire: str, insulated_a, clipped_a):
    known = IEC.wires[f"{wire} mm2"]
    assert known.max_breaker_a is not None
    assert known.best_breaker_a is not None
    for chosen_a, carries_a in (
        (known.max_breaker_a, insulated_a),
        (known.best_breaker_a, clipped_a),
    ):
        larger = [size for size in IEC.breakers_a if size > chosen_a]
        assert chosen_a <= carries_a
        assert not larger or larger[0] > carries_a


def test_between_worst_and_best_laying_it_hangs_on_an_electrician():
    wire = IEC.wires["1.5 mm2"]
    assert [wire.hangs_on_laying(size) for size in (13, 16, 20)] == [False, True, False]
    assert not NEC.wires["14 AWG"].hangs_on_laying(20)


@pytest.mark.parametrize("text", ["2.5 mm2", "2,5mm\u00b2", "2.5 MM2", "2.50 mm^2", "2.5 sq mm"])
def test_a_size_in_square_millimeters_reads(text: str):
    assert IEC.wire_named(text) == "2.5 mm2"


@pytest.mark.parametrize("text", ["1 mm2", "1.0 mm2", "1,0 mm\u00b2"])
def test_a_whole_size_reads_with_and_without_its_decimals(text: str):
    assert IEC.wire_named(text) == "1 mm2"


@pytest.mark.parametrize("text", ["3 mm2", "2.5", "14 AWG", "2.5 mm", "", "1,000 mm2"])
def test_what_is_no_size_of_the_set_is_not_read(text: str):
    assert IEC.wire_named(text) is None


def test_lengths_are_sold_in_meters():
    assert IEC.sold_m == (0.5, 1, 1.5, 1.8, 2, 2.5, 3, 5, 10, 15, 25)
