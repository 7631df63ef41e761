"""Every number, rule, wire and socket says where it comes from and how well that is known."""

import csv
import re
import shutil
from importlib.resources import files
from itertools import pairwise
from pathlib import Path

import pytest
from support import NEC

from powerplan.model.errors import RulebookError
from powerplan.model.findings import Standing
from powerplan.model.lengths import FOOT_M, INCH_M
from powerplan.rulebook import loader

NAME = "us-nec-2023"
SHIPPED = Path(str(files("powerplan.rulebook") / "data"))
WIRES, SOCKETS = f"wires-{NAME}.csv", f"sockets-{NAME}.csv"
ALUMINUM = f"aluminum-{NAME}.csv"
ABOUT, NUMBERS, RULES = (f"{table}-{NAME}.csv" for table in ("set", "numbers", "rules"))


@pytest.fixture
def data(tmp_path, monkeypatch):
    """A copy of the data that a test may spoil."""
    folder = tmp_path / "data"
    shutil.copytree(SHIPPED, folder)
    monkeypatch.setattr(loader, "_DATA", folder)
    return folder


def load():
    return loader.rule_set.__wrapped__(NAME)


def spoil(file: Path, pattern: str, instead: str) -> None:
    text = file.read_text(encoding="utf-8")
    changed = re.sub(pattern, instead, text, count=1, flags=re.DOTALL)
    assert changed != text
    file.write_text(changed, encoding="utf-8")


def sources():
    for kind, table in (("number", NEC.numbers), ("rule", NEC.rules), ("wire", NEC.wires)):
        yield from ((f"{kind} {name}", row.source) for name, row in table.items())
    yield from ((f"{wire.name} of aluminum", wire.source) for wire in NEC.aluminum.values())
    yield from ((f"socket {row.socket_a} on {row.circuit_a}", row.source) for row in NEC.sockets)


SOURCES = list(sources())


def test_every_row_has_a_source_and_a_standing():
    assert len(SOURCES) > 70
    assert [where for where, source in SOURCES if len(source.cite.strip()) < 6] == []
    assert [where for where, source in SOURCES if source.standing not in Standing] == []


def test_a_source_is_a_standard_and_never_a_page():
    page = re.compile(r"https?:|www\.|\.(com|org|net)\b")
    assert [where for where, source in SOURCES if page.search(source.cite)] == []


def test_common_practice_is_said_to_have_no_source_and_nothing_else_is():
    practice = [where for where, source in SOURCES if source.standing is Standing.COMMON_PRACTICE]
    unsourced = [where for where, source in SOURCES if "no source" in source.cite]
    assert practice == unsourced


@pytest.mark.parametrize("filename", [ABOUT, NUMBERS, RULES, WIRES, SOCKETS, ALUMINUM])
def test_every_row_of_a_table_has_unit_source_and_standing(filename):
    with (SHIPPED / filename).open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert rows
    assert all(row["unit"] and row["source"] and row["standing"] for row in rows)


def test_an_untouched_copy_loads_as_shipped(data):
    assert load() == NEC


@pytest.mark.parametrize(
    ("file", "pattern", "instead", "words"),
    [
        (
            NUMBERS,
            r'(\ndrop_percent,.*?),"?NEC 2023 210.19, informational note"?,',
            r"\1,,",
            "number drop_percent has no source",
        ),
        (
            RULES,
            r'(\ncircuit-load,.*?),"NEC 2023 210.19\(A\), 210.20\(A\)"',
            r'\1,"  "',
            "rule circuit-load has no source",
        ),
        (
            RULES,
            r"(\nplug-share,.*?),published copy",
            r"\1,",
            "rule plug-share has no standing that we know",
        ),
        (
            NUMBERS,
            r"(\nslack,.*?),common practice\n",
            r"\1,surely\n",
            "number slack has no standing that we know",
        ),
        (
            ABOUT,
            r"(\nbreakers,[^,]*,A,)[^,]*,",
            r"\1,",
            "breakers has no source",
        ),
        (
            WIRES,
            r'(14 AWG,[^"]*)"[^"]*"',
            r'\1""',
            "wire 14 AWG has no source",
        ),
        (
            SOCKETS,
            r"(\n20,20,.*?)published copy",
            r"\1",
            "socket 20 A has no standing that we know",
        ),
    ],
)
def test_a_row_without_source_or_standing_is_refused(data, file, pattern, instead, words):
    spoil(data / file, pattern, instead)
    with pytest.raises(RulebookError, match=words):
        load()


def test_an_unknown_rule_set_is_told_what_there_is():
    with pytest.raises(
        RulebookError, match="no rule set is called 'mars-1'; there is iec-60364-2009, us-nec-2023"
    ):
        loader.rule_set("mars-1")


@pytest.mark.parametrize("name", ["", "../us-nec-2023", "US-NEC-2023", "us-nec-2023.csv"])
def test_a_name_is_never_a_path(name):
    with pytest.raises(RulebookError, match="no rule set is called"):
        loader.rule_set(name)


def test_a_rule_set_is_read_once():
    assert loader.rule_set(NAME) is loader.rule_set(NAME)
    assert loader.rule_set_ids() == ("iec-60364-2009", NAME)


def test_tables_carry_the_edition_in_their_name():
    names = {file.name for file in SHIPPED.iterdir()}
    tables = ("set", "numbers", "rules", "wires", "sockets")
    named = {f"{table}-{name}.csv" for table in tables for name in loader.rule_set_ids()}
    assert names == named | {ALUMINUM}


def test_names_are_plain_words():
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", name) for name in NEC.rules)
    assert all(re.fullmatch(r"[a-z]+(_[a-z]+)*", name) for name in NEC.numbers)


def test_every_rule_and_number_is_said_in_words_with_a_unit():
    assert all(rule.requirement and rule.unit for rule in NEC.rules.values())
    assert all(number.meaning and number.unit for number in NEC.numbers.values())
    assert len({rule.requirement for rule in NEC.rules.values()}) == len(NEC.rules)


def test_numbers_are_read_exactly():
    assert NEC.exact("framing_margin") == INCH_M * 3 / 4
    assert NEC.exact("plug_height") == INCH_M * 9 / 4
    assert NEC.exact("set_long") == FOOT_M * 50
    assert NEC.exact("cord_clearance") * 1000 == 25


def test_thicker_wire_resists_less_and_carries_more():
    wires = sorted(NEC.wires.values(), key=lambda wire: wire.rank)
    assert len({wire.rank for wire in wires}) == len(wires)
    for thin, thick in pairwise(wires):
        assert thin.ohm_per_m > thick.ohm_per_m
        assert (thin.cord_a or 0) < (thick.cord_a or 0)
        assert (thin.max_breaker_a or 0) <= (thick.max_breaker_a or 0)


@pytest.mark.published(
    source="NEC 2023: K = 21.2 ohm-cmil/ft for aluminum at 75 C over the circular mils of table 8: "
    "6530 for 12 AWG, 10380, 16510 and 26240",
    standing="published copy",
)
@pytest.mark.parametrize(
    ("size", "mils"), [("12 AWG", 6530), ("10 AWG", 10380), ("8 AWG", 16510), ("6 AWG", 26240)]
)
def test_aluminum_resists_as_its_circular_mils_say(size, mils):
    ohm_per_ft = NEC.aluminum[size].ohm_per_m * float(FOOT_M)
    assert ohm_per_ft == pytest.approx(21.2 / mils, rel=0.005)


def test_aluminum_resists_more_and_allows_less_than_copper_of_its_size():
    assert set(NEC.aluminum) < set(NEC.wires)
    for size, wire in NEC.aluminum.items():
        copper = NEC.wires[size]
        assert wire.ohm_per_m > copper.ohm_per_m
        assert (wire.max_breaker_a or 0) < (copper.max_breaker_a or 0)


def test_a_rule_set_without_a_table_of_aluminum_has_none(data):
    (data / ALUMINUM).unlink()
    assert load().aluminum == {}


def test_a_long_set_is_never_rated_above_a_short_one_nor_above_its_cord():
    for wire in NEC.wires.values():
        assert (wire.set_long_a or 0) <= (wire.set_short_a or 0) <= (wire.cord_a or 0)


def test_a_socket_may_never_carry_more_than_itself_or_its_circuit():
    for row in NEC.sockets:
        assert row.limit_a <= row.socket_a
        assert row.limit_a <= row.circuit_a
    pairs = [(row.circuit_a, row.socket_a) for row in NEC.sockets]
    assert len(set(pairs)) == len(pairs)


def test_lists_rise():
    assert list(NEC.breakers_a) == sorted(set(NEC.breakers_a))
    assert list(NEC.sold_m) == sorted(set(NEC.sold_m))
