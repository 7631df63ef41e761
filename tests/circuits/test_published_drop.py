"""Voltage drop held against published examples and vectors worked by hand."""

import pytest
from support import NEC

from powerplan.engineering.circuits.drop import Piece, drops_v, voltage_drop_v
from powerplan.model.findings import Force
from powerplan.model.rules import Wire

COPY = "published copy"
FOOT_M = 0.3048
KFT_M = 304.8


def stranded(gauge: int) -> float:
    return NEC.wires[f"{gauge} AWG"].ohm_per_m


def wire(ohm_per_m: float) -> Wire:
    return NEC.wires["12 AWG"]._replace(name="given", ohm_per_m=ohm_per_m)


def chain(home_run: Piece, links: int, link_m: float, link: Wire, current_a: float) -> list[float]:
    """Volts lost at each chair; the first stands at the end of the home run."""
    pieces = [home_run]
    for number in range(links):
        pieces.append(
            Piece(
                id=f"link {number}",
                after=pieces[-1].id,
                length_m=link_m,
                wire=link,
                current_a=current_a,
            )
        )
    found = drops_v(pieces).values()
    assert None not in found
    return [lost for lost in found if lost is not None]


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8, worked example: 16 AWG, 100 ft, 4 A, 24 V", standing=COPY
)
def test_16_awg_loses_4_v_of_24_v_over_100_ft():
    lost = voltage_drop_v(4.0, 100 * FOOT_M, stranded(16))
    assert round(lost, 1) == 4.0
    assert lost == pytest.approx(3.992, abs=5e-4)
    assert lost / 24 * 100 == pytest.approx(16.7, abs=0.1)  # printed from a rounded 4.0 V


@pytest.mark.published(
    source="NEC 2023 210.19, informational note, worked example: 20 A, 100 ft, 120 V", standing=COPY
)
@pytest.mark.parametrize(("gauge", "volts", "percent"), [(12, 7.9, 6.6), (8, 3.1, 2.6)])
def test_20_a_over_100_ft_loses_what_was_published(gauge, volts, percent):
    lost = voltage_drop_v(20.0, 100 * FOOT_M, stranded(gauge))
    assert round(lost, 1) == volts
    assert round(lost / 120 * 100, 1) == percent


@pytest.mark.published(
    source="circular-mil formula, 12.9 ohm a mil-foot: 12, 10 and 8 AWG, 20 A, 100 ft",
    standing=COPY,
)
@pytest.mark.parametrize(("cmil", "volts"), [(6530, "7.902"), (10380, "4.97"), (16510, "3.125")])
def test_the_circular_mil_formula_is_the_same_law(cmil, volts):
    places = len(volts.split(".")[1])
    assert f"{voltage_drop_v(20.0, 100.0, 12.9 / cmil):.{places}f}" == volts


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 9, 12 AWG at 2.0 ohm/kft, worked example: 16 A, 100 ft",
    standing=COPY,
)
def test_16_a_over_100_ft_of_12_awg_loses_6_4_v_on_the_ac_table():
    assert voltage_drop_v(16.0, 100 * FOOT_M, 2.0 / KFT_M) == pytest.approx(6.4, rel=1e-12)


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8, 12 AWG, 16 A, 100 ft: solid and stranded",
    standing="derived",
)
def test_the_basis_of_resistance_moves_the_answer():
    solid = voltage_drop_v(16.0, 100 * FOOT_M, 1.93 / KFT_M)
    assert solid == pytest.approx(6.176, abs=5e-4)
    assert voltage_drop_v(16.0, 100 * FOOT_M, stranded(12)) == pytest.approx(6.336, abs=5e-4)


@pytest.mark.published(source="12 AWG at 20 C, 1.588 ohm/kft: 20 A, 100 ft", standing="from memory")
def test_cold_copper_loses_6_35_v_where_warm_copper_loses_7_9_v():
    assert voltage_drop_v(20.0, 100 * FOOT_M, 1.588 / KFT_M) == pytest.approx(6.352, abs=5e-4)


@pytest.mark.published(
    source="BS 7671 appendix 4, 2.5 mm2 at 18 mV/A/m, worked example: 230 V, 16 A, 18 m",
    standing=COPY,
)
def test_2_5_mm2_loses_5_18_v_over_18_m():
    lost = voltage_drop_v(16.0, 18.0, 0.018 / 2)  # 18 mV counts both wires
    assert round(lost, 2) == 5.18
    assert lost / 230 * 100 == pytest.approx(2.25, abs=5e-3)


@pytest.mark.published(
    source="NEC 2023 210.19, informational note, worked example: 10 A to a node for 1 %, "
    "5 A on for 0.8 %",
    standing=COPY,
)
def test_each_piece_of_a_chain_counts_its_own_current():
    first_m = 1.2 / (2 * 10 * stranded(12))
    second_m = 0.96 / (2 * 5 * stranded(12))
    pieces = [
        Piece(id="1", after=None, length_m=first_m, wire=NEC.wires["12 AWG"], current_a=5.0),
        Piece(id="2", after="1", length_m=second_m, wire=NEC.wires["12 AWG"], current_a=5.0),
    ]
    percent = {name: (lost or 0.0) / 1.2 for name, lost in drops_v(pieces).items()}
    assert percent == pytest.approx({"1": 1.0, "2": 1.8})


REACH = [
    (3.07, (73.3, 48.9, 36.6)),
    (3.14, (71.7, 47.8, 35.8)),
    (1.93, (116.6, 77.7, 58.3)),
    (1.98, (113.6, 75.8, 56.8)),
    (1.21, (186.0, 124.0, 93.0)),
    (1.24, (181.5, 121.0, 90.7)),
]


@pytest.mark.published(
    source="NEC 2023 210.19, informational note, 3 % of 120 V on table 8: farthest one way",
    standing="derived",
)
@pytest.mark.parametrize(("ohm_per_kft", "feet"), REACH)
def test_the_farthest_run_within_3_percent(ohm_per_kft, feet):
    limit_v = float(NEC.exact("drop_percent") * NEC.exact("nominal_voltage")) / 100
    for amperes, farthest in zip((8.0, 12.0, 16.0), feet, strict=True):
        per_foot_v = voltage_drop_v(amperes, FOOT_M, ohm_per_kft / KFT_M)
        assert limit_v / per_foot_v == pytest.approx(farthest, abs=0.051)


@pytest.mark.published(
    source="AS/NZS 3000 3.6.2, 5 % of 230 V on 29, 18 and 11 mV/A/m: farthest one way",
    standing="derived",
)
@pytest.mark.parametrize(
    ("millivolts", "meters"),
    [(29, (39.7, 24.8, 19.8)), (18, (63.9, 39.9, 31.9)), (11, (104.5, 65.3, 52.3))],
)
def test_the_farthest_metric_run_within_5_percent(millivolts, meters):
    for amperes, farthest in zip((10.0, 16.0, 20.0), meters, strict=True):
        per_meter_v = voltage_drop_v(amperes, 1.0, millivolts / 2000)
        assert 11.5 / per_meter_v == pytest.approx(farthest, abs=0.051)


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8: 50 ft of 12 AWG solid, five chairs of 1.5 A, "
    "links of 4 ft, 16 AWG",
    standing="derived",
)
def test_a_chain_of_five_chairs_on_120_v():
    run = Piece(id="run", after=None, length_m=50 * FOOT_M, wire=wire(1.93 / KFT_M), current_a=1.5)
    lost = chain(run, 4, 4 * FOOT_M, NEC.wires["16 AWG"], 1.5)
    assert lost == pytest.approx([1.4475, 1.6870, 1.8667, 1.9864, 2.0463], abs=6e-5)
    percent = [volts / 120 * 100 for volts in lost]
    assert percent == pytest.approx([1.206, 1.406, 1.556, 1.655, 1.705], abs=6e-4)


@pytest.mark.published(
    source="BS 7671 appendix 4, 15 m at 18 mV/A/m and flex at 62 mV/A/m: six chairs of 0.8 A",
    standing="derived",
)
def test_a_chain_of_six_chairs_on_230_v():
    run = Piece(id="run", after=None, length_m=15.0, wire=wire(0.009), current_a=0.0)
    lead = Piece(id="lead", after="run", length_m=2.0, wire=wire(0.031), current_a=0.8)
    links = [
        Piece(
            id=f"link {number}",
            after=f"link {number - 1}" if number else "lead",
            length_m=1.2,
            wire=wire(0.031),
            current_a=0.8,
        )
        for number in range(5)
    ]
    lost = list(drops_v([run, lead, *links]).values())[1:]
    assert lost == pytest.approx([1.8912, 2.1888, 2.4269, 2.6054, 2.7245, 2.7840], abs=6e-5)


@pytest.mark.published(
    source="NEC 2023 chapter 9 table 8, 18 AWG stranded: 29 V, 3 A, 10 ft", standing="derived"
)
def test_the_low_voltage_side_loses_far_more_in_percent():
    lost = voltage_drop_v(3.0, 10 * FOOT_M, stranded(18))
    assert lost == pytest.approx(0.477, abs=5e-4)
    assert lost / 29 * 100 == pytest.approx(1.645, abs=5e-4)


@pytest.mark.published(source="NEC 2023 210.19, informational note: 3 %, advised", standing=COPY)
def test_the_drop_is_advice_of_3_percent_and_no_must():
    assert NEC.rules["voltage-drop"].force is Force.ADVICE
    assert NEC.exact("drop_percent") == 3
