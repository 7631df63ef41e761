"""Drops and resistances of IEC countries, held against tables that the set was not made from."""

import pytest
from abroad import IEC

from powerplan.engineering.circuits.drop import Piece, drops_v, voltage_drop_v

COPY = "published copy"


@pytest.mark.published(
    source="BS 7671 tables 4D1B and 4D5, two wires, PVC 70 C, mV/A/m", standing=COPY
)
@pytest.mark.parametrize(("size", "mv"), [("1.5", 29), ("2.5", 18), ("4", 11), ("6", 7.3)])
def test_fixed_wire_drops_as_the_table_says(size: str, mv: float):
    loop = 2 * IEC.wires[f"{size} mm2"].ohm_per_m * 1000
    assert loop == pytest.approx(mv, rel=0.02)


@pytest.mark.published(source="BS 7671 table 4F3B, flexible cord, mV/A/m", standing=COPY)
@pytest.mark.parametrize(
    ("size", "mv"), [("0.5", 93), ("0.75", 62), ("1", 46), ("1.5", 32), ("2.5", 19), ("4", 12)]
)
def test_flexible_cord_drops_as_the_table_says(size: str, mv: float):
    loop = 2 * IEC.wires[f"{size} mm2"].cord_ohm_per_m * 1000
    assert loop == pytest.approx(mv, rel=0.02)


@pytest.mark.published(source="IEC 60228, greatest resistance at 20 C, ohm/km", standing=COPY)
@pytest.mark.parametrize(
    ("size", "wiring", "cord"),
    [("1.5", 12.1, 13.3), ("2.5", 7.41, 7.98), ("4", 4.61, 4.95), ("6", 3.08, 3.30)],
)
def test_resistances_are_the_greatest_of_the_standard_at_70_c(size: str, wiring, cord):
    hot = 1 + 0.00393 * (70 - 20)
    wire = IEC.wires[f"{size} mm2"]
    assert wire.ohm_per_m * 1000 == pytest.approx(wiring * hot, rel=1e-9)
    assert wire.cord_ohm_per_m * 1000 == pytest.approx(cord * hot, rel=1e-9)


@pytest.mark.published(
    source="IEC 60228 class 5 at 20 C: 0.75 mm2 26.0, 1 mm2 19.5 ohm/km", standing=COPY
)
@pytest.mark.parametrize(("size", "cord"), [("0.75", 26.0), ("1", 19.5)])
def test_thin_cords_too(size: str, cord: float):
    assert IEC.wires[f"{size} mm2"].cord_ohm_per_m * 1000 == pytest.approx(cord * 1.1965)


@pytest.mark.published(
    source="worked example: 230 V, 2.5 mm2, 16 A, 18 m at 18 mV/A/m: 5.18 V of 11.5 V",
    standing=COPY,
)
def test_a_worked_example_of_2_5_mm2():
    lost = voltage_drop_v(16, 18, IEC.wires["2.5 mm2"].ohm_per_m)
    assert lost == pytest.approx(5.18, rel=0.02)
    assert lost / float(IEC.exact("nominal_voltage")) * 100 < float(IEC.exact("drop_percent"))


@pytest.mark.published(
    source="IEC 60364-5-52:2009 table G.52.1: other uses 5 %, at 230 V 11.5 V", standing=COPY
)
def test_five_percent_of_230_v_is_advised():
    volts = IEC.exact("nominal_voltage") * IEC.exact("drop_percent") / 100
    assert float(volts) == 11.5
    assert IEC.rules["voltage-drop"].force.value == "advice"


@pytest.mark.published(
    source="chain of six chairs of 0.8 A on 15 m of 2.5 mm2 and cord of 0.75 mm2, at 18 and "
    "62 mV/A/m: 1.891, 2.189, 2.427, 2.605, 2.724, 2.784 V",
    standing="derived",
)
def test_a_chain_of_chairs_loses_what_the_table_gives():
    wiring, cord = IEC.wires["2.5 mm2"], IEC.wires["0.75 mm2"]
    pieces = [Piece(id="home", after=None, length_m=15, wire=wiring, current_a=0.0)]
    for number in range(6):
        pieces.append(
            Piece(
                id=str(number),
                after=pieces[-1].id,
                length_m=1.2 if number else 2.0,
                wire=cord,
                current_a=0.8,
                cord=True,
            )
        )
    lost = drops_v(pieces)
    told = [lost[str(number)] for number in range(6)]
    assert told == pytest.approx([1.8912, 2.1888, 2.4269, 2.6054, 2.7245, 2.7840], rel=0.02)
