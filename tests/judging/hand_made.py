"""Whole records made by hand, each of which the judge has to pass.

Headrests go back to 9 in off the wall as chairs recline, so coils 4 in deep lie around 4 1/2 in.
What is left for one is what the cord measures, less its way, less twice its tail.
"""

from dataclasses import replace
from fractions import Fraction

from by_hand import (
    CHAIR_X,
    chairs,
    circuit_use,
    cord,
    decision,
    edited,
    found,
    judged,
    judged_plain,
    plan,
    points,
    refused,
    step,
    zones,
)
from support import (
    inch,
    make_chain,
    make_chair,
    make_circuit,
    make_new_work,
    make_outlet,
    make_riser,
    make_row,
    make_spec,
)

from powerplan.model.plan import (
    EXISTING,
    EXTENSIONS,
    NEW_CIRCUITS,
    NEW_OUTLETS,
    NOT_POSSIBLE,
    Box,
    Drift,
    Plan,
    Spare,
)

__all__ = [
    "CHAIR_X",
    "boxed",
    "chained",
    "chairs",
    "circuit_use",
    "cord",
    "decision",
    "edited",
    "extended",
    "found",
    "impossible",
    "judged",
    "judged_plain",
    "plan",
    "points",
    "raised",
    "refused",
    "step",
    "wired_on",
]


def chained() -> Plan:
    """Outlet W1 stands behind A1 and feeds all five, chained from A1 on.

    Lead: 25 in on the floor and 16 in down the wall; (41 + 24) x 1.1 = 71.5 in, and it has 72.
    Links: 9 + 30 + 9 = 48 in, which they just have. Load: 5 x (1.25 x 0.3 + 1.5) = 9.375 A.
    Volts lost at 9 A on 48 ft of 14 AWG: 2 x 9 x 48 x 0.00314 = 2.71296; on the 6 ft lead
    2 x 9 x 6 x 0.00499 = 0.53892; then 0.03992 V an ampere on each link.
    """
    spec = make_spec(
        chairs=(make_chair(chain=make_chain(current_a=Fraction(10), chairs=5)),),
        outlets=(make_outlet(x_m=inch(60)),),
    )
    lead = cord(
        ("own", "W1", "A1"),
        ((60, 0), (60, 25)),
        plan=25,
        rises=16,
        needed="71.5",
        bought=72,
        amps=9.0,
        near="7",
        coil=(60, 4.5, 31, 2),
    )
    amps = (7.2, 5.4, 3.6, 1.8)
    links = tuple(
        cord(
            ("link", f"A{n}", f"A{n + 1}"),
            ((x, 25), (x, 16), (x + 30, 16), (x + 30, 25)),
            plan=48,
            needed="48",
            bought=48,
            amps=current,
            near="2",
        )
        for n, (x, current) in enumerate(zip(CHAIR_X[:4], amps, strict=True), start=1)
    )
    lost = (3.25188, 3.539304, 3.754872, 3.898584, 3.97044)
    works = step(
        EXISTING, works=True, new_circuits=0, boxes=0, extensions=0, cord_m=inch(41 + 4 * 48)
    )
    spare = Spare(circuit="7", chair="club", spare_a=5.625, more_chairs=3)
    return plan(
        spec,
        chairs=chairs(("W1", "A1", "A2", "A3", "A4"), "7", lost),
        cords=(lead, *links),
        circuits=(circuit_use("7", 5, 3.97044),),
        decision=decision(EXISTING, 0, works, spare=(spare,)),
    )


def boxed() -> Plan:
    """A floor box under A3 on a new 20 A circuit feeds A3 to A1 from one socket, A4 and A5 from
    the other.

    Leads are 84 in. A3's runs 4 in: (4 + 24) x 1.1 = 30.8. A4's runs 13 + 30 + 9 = 52 in:
    (52 + 24) x 1.1 = 83.6. The lid of 6 in leaves the box 4 in aside and 3 in along.
    Volts lost: 60 ft of 12 AWG at 9 A 2 x 9 x 60 x 0.00198 = 2.1384; leads of 7 ft of 16 AWG
    0.06986 V an ampere, links of 4 ft 0.03992 V an ampere.
    """
    spec = make_spec(
        chairs=(make_chair(chain=make_chain(), lead_m=inch(84)),), outlets=(), circuits=()
    )
    box = Box(
        id="box A3",
        kind="floor box",
        x_m=inch(120),
        y_m=inch(29),
        height_m=0.0,
        under="A3",
        circuit="new 1",
        sockets=2,
        rating_a=15.0,
        ideal_m=(inch(120), inch(29)),
        may_sit_m=(points((116, 26), (124, 26), (124, 32), (116, 32)),),
        drift=Drift(left_m=inch(4), right_m=inch(4), back_m=inch(3), screen_m=inch(3)),
        moved_because="",
        provisional=False,
        second_mark_m=None,
        deck=None,
        wired_from="panel",
        wiring_m=inch(720),
    )
    lead = {"plan": 4, "needed": "30.8", "bought": 84, "near": "6", "coil": (120, 4.5, 43, 2)}
    lead["tail"] = ((120, 25), (120, 6.5))
    far = {"plan": 52, "needed": "83.6", "bought": 84, "near": "2", "coil": (150, 4.5, 13, 1)}
    far["tail"] = ((150, 16), (150, 6.5))
    link = {"plan": 48, "needed": "48", "bought": 48, "near": "2"}
    cords = (
        cord(("own", "box A3", "A3"), ((120, 29), (120, 25)), amps=5.4, **lead),
        cord(("link", "A3", "A2"), ((120, 25), (120, 16), (90, 16), (90, 25)), amps=3.6, **link),
        cord(("link", "A2", "A1"), ((90, 25), (90, 16), (60, 16), (60, 25)), amps=1.8, **link),
        cord(
            ("own", "box A3", "A4"), ((120, 29), (120, 16), (150, 16), (150, 25)), amps=3.6, **far
        ),
        cord(("link", "A4", "A5"), ((150, 25), (150, 16), (180, 16), (180, 25)), amps=1.8, **link),
    )
    a3 = 2.1384 + 5.4 * 0.06986
    a4 = 2.1384 + 3.6 * 0.06986
    a2 = a3 + 3.6 * 0.03992
    lost = (a2 + 1.8 * 0.03992, a2, a3, a4, a4 + 1.8 * 0.03992)
    use = circuit_use(
        "new 1", 5, lost[0], new=True, breaker_a=20.0, wire="12 AWG", home_run_m=inch(720)
    )
    works = step(
        NEW_CIRCUITS,
        works=True,
        new_circuits=1,
        boxes=1,
        extensions=0,
        cord_m=inch(4 + 52 + 3 * 48),
    )
    return plan(
        spec,
        chairs=chairs(("A2", "A3", "box A3", "box A3", "A4"), "new 1", lost),
        boxes=(box,),
        cords=cords,
        circuits=(replace(use, may_give_a=20.0),),
        decision=decision(NEW_CIRCUITS, 0, step(EXISTING), step(EXTENSIONS), works),
    )


def wired_on() -> Plan:
    """The hand-made box on circuit 7, wired on from outlet W1 in the back wall.

    W1 is 16 in up the wall at 60 in from the left, the box 120 in from the left and 29 in ahead:
    16 + 60 + 29 = 105 in, 8.75 ft of 14 AWG, on top of 48 ft of home run: 56.75 ft at 9 A lose
    2 x 9 x 56.75 x 0.00314 = 3.20751 V. The breaker is 15 A: 9.375 A of chairs fit.
    """
    record = boxed()
    spec = replace(record.spec, outlets=(make_outlet(x_m=inch(60)),), circuits=(make_circuit(),))
    box = replace(record.boxes[0], circuit="7", wired_from="W1", wiring_m=inch(105))
    a3, a4 = (3.20751 + amps * 0.06986 for amps in (5.4, 3.6))
    a2 = a3 + 3.6 * 0.03992
    lost = (a2 + 1.8 * 0.03992, a2, a3, a4, a4 + 1.8 * 0.03992)
    works = replace(record.decision.steps[-1], step=NEW_OUTLETS, new_circuits=0)
    return replace(
        record,
        spec=spec,
        chairs=chairs(("A2", "A3", "box A3", "box A3", "A4"), "7", lost),
        boxes=(box,),
        circuits=(circuit_use("7", 5, lost[0]),),
        decision=replace(record.decision, verdict=NEW_OUTLETS, steps=(works,)),
    )


def extended() -> Plan:
    """One chair in the middle, its outlet 60 in to its left: an extension along the back wall.

    Extension: 60 + 16 in; (76 + 24) x 1.1 = 110 in, so 12 ft. Lead: 25 in; 49 x 1.1 = 53.9 in.
    Volts lost at 1.8 A: home run 2 x 1.8 x 48 x 0.00314, extension 2 x 1.8 x 12 x 0.00314, lead
    2 x 1.8 x 6 x 0.00499.
    """
    spec = make_spec(rows=(make_row(seats=1),), outlets=(make_outlet(x_m=inch(60)),))
    extension = cord(
        ("extension", "W1", "W1+A1"),
        ((60, 0), (120, 0)),
        plan=60,
        rises=16,
        needed="110",
        bought=144,
        amps=1.8,
        near="18",
        wire="14 AWG",
        coil=(110, 4.5, 63, 3),
        tail=((110, 0), (110, 2.5)),
    )
    lead = cord(
        ("own", "W1+A1", "A1"),
        ((120, 0), (120, 25)),
        plan=25,
        needed="53.9",
        bought=72,
        amps=1.8,
        near="7",
        coil=(120, 4.5, 47, 2),
    )
    lost = 0.542592 + 0.135648 + 0.107784
    works = step(
        EXTENSIONS, works=True, new_circuits=0, boxes=0, extensions=1, cord_m=inch(60 + 16 + 25)
    )
    return plan(
        spec,
        chairs=chairs(("W1",), "7", (lost,), (120,)),
        cords=(extension, lead),
        circuits=(circuit_use("7", 1, lost),),
        zones=zones((120,)),
        decision=decision(EXTENSIONS, 0, step(EXISTING), works),
    )


def raised() -> Plan:
    """One chair on a riser 10 in high whose left face stands 12 in off the left wall.

    The chair stands at 41 in. Its lead comes from an outlet on the left wall, 3 in off the back
    wall, runs 41 in along and 22 in ahead, and goes up the riser's face once: 63 + 16 + 10 = 89
    in; (89 + 24) x 1.1 = 124.3 in, and it has 132.
    """
    spec = make_spec(
        chairs=(make_chair(lead_m=inch(132)),),
        rows=(make_row(seats=1, center_x_m=inch(41)),),
        outlets=(make_outlet(x_m=0.0, y_m=inch(3)),),
        risers=(make_riser(12, 0, 192, 88),),
        new_work=make_new_work(floor_boxes=False),
    )
    lead = cord(
        ("own", "W1", "A1"),
        ((0, 3), (41, 3), (41, 25)),
        plan=63,
        rises=26,
        needed="124.3",
        bought=132,
        amps=1.8,
        near="7",
        coil=(41, 4.5, 43, 2),
    )
    lost = 0.542592 + 2 * 1.8 * 11 * 0.00499
    works = step(EXISTING, works=True, new_circuits=0, boxes=0, extensions=0, cord_m=inch(89))
    return plan(
        spec,
        chairs=chairs(("W1",), "7", (lost,), (41,)),
        cords=(lead,),
        circuits=(circuit_use("7", 1, lost),),
        zones=zones((41,)),
        decision=decision(EXISTING, 0, works),
    )


def impossible() -> Plan:
    """Five chairs that nothing reaches, and nothing may be added."""
    spec = make_spec(
        new_work=make_new_work(floor_boxes=False, circuits=0),
        outlets=(make_outlet(x_m=0.0, y_m=inch(150)),),
    )
    steps = (step(name) for name in (EXISTING, EXTENSIONS))
    return plan(
        spec,
        chairs=chairs((None,) * 5, None, (None,) * 5),
        circuits=(circuit_use("7", 0, None),),
        decision=decision(NOT_POSSIBLE, 3, *steps),
    )
