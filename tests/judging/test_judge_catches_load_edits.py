from collections.abc import Callable
from typing import Any

import hand_made
import pytest
from hand_made import edited, found, refused
from support import inch

from powerplan.model.findings import Outcome

Edit = Callable[[Any], None]
AGREES = "record-agrees"


def part(name: str, number: int, **changes: Any) -> Edit:
    """Overwrite keys of one thing in a list of the record."""

    def edit(plain: Any) -> None:
        assert changes.keys() <= plain[name][number].keys()
        plain[name][number].update(changes)

    return edit


def measured(**changes: Any) -> Edit:
    """Overwrite keys of the kind of chair in the spec."""

    def edit(plain: Any) -> None:
        kind = plain["spec"]["chairs"][0]
        for key, value in changes.items():
            inner, _, last = key.rpartition("__")
            (kind[inner] if inner else kind)[last] = value

    return edit


def spec(path: str, value: Any) -> Edit:
    """Overwrite one value of the spec."""

    def edit(plain: Any) -> None:
        *way, last = (int(key) if key.isdigit() else key for key in path.split("."))
        place = plain["spec"]
        for key in way:
            place = place[key]
        place[last] = value

    return edit


CASES: list[tuple[str, Edit, str, str]] = [
    ("input understated", part("chairs", 2, input_a=1.7), AGREES, "chair A3"),
    ("lasting part understated", part("chairs", 2, continuous_a=0.2), AGREES, "chair A3"),
    ("chair moved aside", part("chairs", 2, x_m=inch(121)), AGREES, "chair A3"),
    ("chair moved ahead", part("chairs", 2, y_m=inch(15)), AGREES, "chair A3"),
    ("chair turned", part("chairs", 2, angle_rad=0.1), AGREES, "chair A3"),
    ("chair renamed", part("chairs", 2, id="A9"), AGREES, "chair A9"),
    ("chair's name given twice", part("chairs", 2, id="A2"), AGREES, "chair A2"),
    ("chair missing", lambda plain: plain["chairs"].pop(), AGREES, "chair A5"),
    ("chair in another row", part("chairs", 2, row="B"), AGREES, "chair A3"),
    ("chair on another seat", part("chairs", 2, seat=4), AGREES, "chair A3"),
    ("chair fed by another", part("chairs", 2, fed_by="W1"), AGREES, "chair A3"),
    ("chair fed by nothing", part("chairs", 2, fed_by=None), AGREES, "chair A3"),
    ("chair on another circuit", part("chairs", 2, circuit="8"), AGREES, "chair A3"),
    ("volts overstated", part("chairs", 2, volts=119.0), AGREES, "chair A3"),
    ("drop understated", part("chairs", 2, drop_percent=1.0), AGREES, "chair A3"),
    ("drop said to be unknown", part("chairs", 2, drop_percent=None), AGREES, "chair A3"),
    ("lasting load understated", part("circuits", 0, continuous_a=1.4), AGREES, "circuit 7"),
    ("other load understated", part("circuits", 0, other_a=7.4), AGREES, "circuit 7"),
    ("what it asks understated", part("circuits", 0, asks_a=9.3), AGREES, "circuit 7"),
    ("what it may give overstated", part("circuits", 0, may_give_a=20.0), AGREES, "circuit 7"),
    ("breaker overstated", part("circuits", 0, breaker_a=20.0), AGREES, "circuit 7"),
    ("wire overstated", part("circuits", 0, wire="12 AWG"), AGREES, "circuit 7"),
    ("home run understated", part("circuits", 0, home_run_m=10.0), AGREES, "circuit 7"),
    ("circuit's drop understated", part("circuits", 0, drop_percent=2.0), AGREES, "circuit 7"),
    ("load said to be unknown", part("circuits", 0, load_known=False), AGREES, "circuit 7"),
    ("circuit renamed", part("circuits", 0, id="8"), AGREES, "circuit 8"),
    ("circuit renamed, its chairs missed", part("circuits", 0, id="8"), AGREES, "circuit 7"),
    ("circuit said to be new", part("circuits", 0, new=True), AGREES, "circuit 7"),
    ("circuit missing", lambda plain: plain["circuits"].pop(), AGREES, "circuit 7"),
    ("spare overstated", lambda plain: spare(plain, spare_a=5.7), AGREES, "spare on circuit 7"),
    ("more chairs", lambda plain: spare(plain, more_chairs=4), AGREES, "spare on circuit 7"),
    ("spare elsewhere", lambda plain: spare(plain, circuit="8"), AGREES, "spare on circuit 8"),
    ("chain too long", measured(chain__chairs=4), "chain-count", "cord W1-A1"),
    ("chain too strong", measured(chain__current_a=8.99), "chain-current", "cord W1-A1"),
    ("coupler too weak", measured(coupler_a=8.9), "coupler-rating", "cord W1-A1"),
    ("no chain listed", measured(chain=None), "chain-count", "cord A1-A2"),
    ("one socket less than none", spec("outlets.0.free", 0), "sockets-free", "outlet W1"),
    ("more free than there are", spec("outlets.0.sockets", 0), "sockets-free", "outlet W1"),
    ("20 A breaker on 14 AWG", spec("circuits.0.breaker_a", 20), "wire-matches-breaker",
     "circuit 7"),
    ("a breaker of 16 A", spec("circuits.0.breaker_a", 16), "breaker-size", "circuit 7"),
    ("20 A socket on 15 A", spec("outlets.0.rating_a", 20), "socket-matches-circuit",
     "outlet W1"),
    ("bolted seats beside others", spec("rows.0.fastened", True), "fastened-half", "circuit 7"),
    ("perhaps bolted beside others", spec("rows.0.fastened", None), "fastened-half",
     "circuit 7"),
]  # fmt: skip


def spare(plain: Any, **changes: Any) -> None:
    plain["decision"]["spare"][0].update(changes)


def lamp(plain: Any, current: float = 0.5) -> None:
    load = {"name": "lamp", "current_a": current, "continuous": False}
    plain["spec"]["circuits"][0]["already_on_it"] = [load]


@pytest.mark.parametrize(
    ("edit", "rule", "subject"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_a_load_edited_by_hand_is_caught(edit: Edit, rule: str, subject: str) -> None:
    def both(plain: Any) -> None:
        if rule == "fastened-half":
            lamp(plain)
        edit(plain)

    report = edited(hand_made.chained(), both)
    assert (rule, subject) in refused(report)
    assert not report.agrees


@pytest.mark.parametrize(("chairs", "caught"), [(4, False), (5, True)])
def test_bolted_seats_take_half_of_a_shared_circuit_at_most(chairs: int, caught: bool) -> None:
    # 4 x 1.8 = 7.2 A and 5 x 1.8 = 9 A against 7.5 A
    def edit(plain: Any) -> None:
        lamp(plain)
        row = plain["spec"]["rows"][0]
        row["fastened"] = True
        row["seats"] = chairs

    report = edited(hand_made.chained(), edit)
    assert (("fastened-half", "circuit 7") in refused(report)) is caught


def test_bolted_seats_alone_on_a_circuit_may_fill_it() -> None:
    report = edited(hand_made.chained(), spec("rows.0.fastened", True))
    assert refused(report) == set()


def test_two_plugs_in_one_socket_are_caught() -> None:
    def edit(plain: Any) -> None:
        plain["boxes"][0]["sockets"] = 1
        plain["spec"]["new_work"]["sockets_per_box"] = 1

    report = edited(hand_made.boxed(), edit)
    finding = found(report, "sockets-free", "box A3")
    assert (finding.value, finding.limit, finding.outcome) == (2, 1, Outcome.NOT_MET)


def test_two_links_from_one_chair_are_caught() -> None:
    report = edited(hand_made.boxed(), part("cords", 4, **{"from": "A3"}))
    assert ("sockets-free", "chair A3") in refused(report)


def test_a_link_past_a_neighbor_is_caught() -> None:
    report = edited(hand_made.boxed(), part("cords", 4, **{"from": "A1"}))
    assert (AGREES, "cord A4-A5") in refused(report)


def test_a_plug_is_held_to_its_socket_and_to_its_circuit() -> None:
    # 3 x 5.4 = 16.2 A: four fifths of 20 A are 16 A, and a 15 A face takes 12 A
    def edit(plain: Any) -> None:
        kind = plain["spec"]["chairs"][0]
        kind["input_a"], kind["continuous_a"] = 5.4, 0.0
        kind["coupler_a"], kind["chain"]["current_a"] = 20, 20

    report = edited(hand_made.boxed(), edit)
    plug = found(report, "plug-share", "cord box A3-A3")
    face = found(report, "socket-limit", "cord box A3-A3")
    assert (plug.value, plug.limit) == (16.2, 16.0)
    assert (face.value, face.limit, face.outcome) == (16.2, 12.0, Outcome.NOT_MET)


def test_a_cord_wire_too_thin_for_its_chain_is_caught() -> None:
    # 18 AWG carries 10 A; 5 x 2.1 = 10.5 A
    def edit(plain: Any) -> None:
        kind = plain["spec"]["chairs"][0]
        kind["lead_wire"] = plain["cords"][0]["wire"] = "18 AWG"
        kind["input_a"] = 2.1

    assert ("cord-wire", "cord W1-A1") in refused(edited(hand_made.chained(), edit))


def test_an_unknown_coupler_hangs() -> None:
    report = edited(hand_made.chained(), measured(coupler_a=None))
    assert found(report, "coupler-rating", "cord W1-A1").outcome is Outcome.NOT_CHECKED
    assert (AGREES, "decision") in refused(report), "exit code 0 no longer follows"


def test_an_unknown_breaker_is_taken_as_the_smallest() -> None:
    def edit(plain: Any) -> None:
        plain["spec"]["circuits"][0]["breaker_a"] = None
        plain["circuits"][0]["breaker_a"] = None
        lamp(plain, 5.626)

    report = edited(hand_made.chained(), edit)
    assert ("circuit-load", "circuit 7") in refused(report)
    assert (AGREES, "depends on") in refused(report)


def test_a_hazard_in_what_exists_leaves_only_new_circuits() -> None:
    report = edited(hand_made.chained(), spec("circuits.0.breaker_a", 20))
    notes = [f.note for f in report.findings if f.stops and f.subject == "decision"]
    assert any("only new circuits" in note for note in notes)


def test_more_new_circuits_than_the_panel_has_room_for_are_caught() -> None:
    report = edited(hand_made.boxed(), spec("new_work.circuits", 0))
    assert ("panel-space", "panel") in refused(report)


def test_an_unused_new_circuit_is_caught() -> None:
    def edit(plain: Any) -> None:
        idle = {"id": "new 2", "continuous_a": 0, "other_a": 0, "asks_a": 0, "drop_percent": None}
        plain["circuits"].append({**plain["circuits"][0], **idle})

    assert (AGREES, "circuit new 2") in refused(edited(hand_made.boxed(), edit))


def test_a_new_circuit_of_too_thin_a_wire_is_caught() -> None:
    def edit(plain: Any) -> None:
        plain["circuits"][0]["wire"] = plain["spec"]["new_work"]["wire"] = "14 AWG"

    assert ("wire-matches-breaker", "circuit new 1") in refused(edited(hand_made.boxed(), edit))
