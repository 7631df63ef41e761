"""Plan files of every kind of room, chair and supply, written in any unit: ``<n>`` is a length of n
inches."""

import re
from decimal import Decimal
from fractions import Fraction

from hypothesis import strategies as st

UNITS = ("in", "ft", "mm", "m", "bare")
_WIRES = {
    "us-nec-2023": ("14 AWG", "12 AWG", "16 AWG"),
    "iec-60364-2009": ("1.5 mm2", "2.5 mm2", "1 mm2"),
}
_AMPS = {"us-nec-2023": ("15 A", "20 A", "15 A"), "iec-60364-2009": ("16 A", "16 A", "16 A")}
_MARK = re.compile(r"<(-?[0-9]+(?:/[0-9]+)?)>")


def in_unit(text: str, unit: str) -> str:
    """The plan file with every length in one unit, all of them exactly as long."""
    if unit == "bare":
        text = text.replace("[project]\n", '[project]\nbare_numbers = "mm"\n')
    return _MARK.sub(lambda found: _length(Fraction(found[1]), unit), text)


def _length(inches: Fraction, unit: str) -> str:
    if unit in ("in", "ft"):
        feet, rest = divmod(abs(inches), 12) if unit == "ft" else (0, abs(inches))
        whole, part = divmod(rest, 1)
        words = f"{feet} ft " if feet else ""
        words += f"{whole} {part} in" if part else f"{whole} in"
        return f'"{"-" if inches < 0 else ""}{words}"'
    millimeters = inches * 254 / 10
    told = Decimal(millimeters.numerator) / millimeters.denominator
    if unit == "bare":
        return f"{told}"
    return f'"{told} mm"' if unit == "mm" else f'"{told / 1000:f} m"'


@st.composite
def plan_files(draw: st.DrawFn) -> str:
    """A plan file that reads: a room of any kind, its lengths still without a unit."""
    rules = draw(st.sampled_from(sorted(_WIRES)))
    known = draw(st.booleans())
    room, wide = draw(_rooms())
    curved = draw(st.sampled_from(["", "", "front", "back"]))
    return "\n".join(
        [
            "plan_file = 1",
            "[project]",
            'name = "A drawn room"',
            f'job = "{draw(st.sampled_from(["retrofit", "new"]))}"',
            f'place = "{draw(st.sampled_from(["home", "business"]))}"',
            f'rules = "{rules}"',
            'units = "mm"',
            *room,
            *draw(_floors(wide)),
            *draw(_chairs(rules)),
            *draw(_rows(curved)),
            *(draw(_supply(rules)) if known else []),
            *draw(_work(rules)),
            "",
        ]
    )


def _eighths(low: int, high: int) -> st.SearchStrategy[str]:
    return st.integers(low * 8, high * 8).map(lambda n: f"<{Fraction(n, 8)}>")


@st.composite
def _rooms(draw: st.DrawFn) -> tuple[list[str], bool]:
    """The room's tables; True where all four corners are there."""
    shape = draw(st.sampled_from(["plain", "notch", "slant"]))
    if shape == "plain":
        return ["[room]", "width = <250>", "depth = <200>"], True
    ahead = draw(st.integers(120, 180))
    cut = [(80, 200), (80, ahead), (0, ahead)] if shape == "notch" else [(70, 200), (0, ahead)]
    names = ["back", "right", "screen", "", "", ""]
    lines = ["[room]", 'left_wall = "stair side"']
    for (x, y), name in zip([(0, 0), (250, 0), (250, 200), *cut], names, strict=False):
        lines += ["[[room.corner]]", f"from_left = <{x}>", f"from_back = <{y}>"]
        lines += [f'wall = "{name}"'] if name else []
    return lines, False


@st.composite
def _floors(draw: st.DrawFn, whole: bool) -> list[str]:
    lines = ["[floor]", *draw(_framing())]
    if draw(st.booleans()):
        lines += ["[door.hall]", 'wall = "right"', f"from_back = {draw(_eighths(60, 150))}"]
        lines += ["width = <32>", 'swings = "in"']
    if draw(st.booleans()):
        lines += ["[obstacle.post]", f"from_left = {draw(_eighths(0, 200))}", "from_back = <100>"]
        lines += ["width = <8>", "depth = <8>"]
    if draw(st.booleans()):
        lines += ["[floor.no_cut.duct]", f"from_left = {draw(_eighths(60, 180))}"]
        lines += ["from_back = <10>", "width = <14>", "depth = <70>"]
    if whole and draw(st.booleans()):
        lines += ["[walkway.aisle]", "from_left = <0>", "from_back = <0>", "width = <20>"]
        lines += ["depth = <200>"]
    if draw(st.booleans()):
        lines += ["[riser.rear]", "from_left = <0>", "from_back = <0>", "width = <250>"]
        lines += [f"depth = {draw(_eighths(84, 100))}", "height = <10>", *draw(_framing())]
    if draw(st.booleans()):
        lines += ["[reading.diagonal]", "from_left = <0>", "from_back = <0>", "to_left = <250>"]
        lines += ["to_back = <200>", f"reads = {draw(_eighths(319, 321))}"]
    return lines


@st.composite
def _framing(draw: st.DrawFn) -> list[str]:
    build = draw(st.sampled_from(["slab", "joists", "unknown"]))
    if build != "joists":
        return [f'build = "{build}"']
    way = draw(st.sampled_from(["back to screen", "side to side"]))
    return [
        'build = "joists"',
        f'joists_run = "{way}"',
        "spacing = <16>",
        f"first_joist = {draw(_eighths(0, 16))}",
        "joist_width = <3/2>",
    ]


@st.composite
def _chairs(draw: st.DrawFn, rules: str) -> list[str]:
    wire = _WIRES[rules][2]
    lines = ["[table.console]", f"width = {draw(_eighths(6, 18))}", "rear = <4>", "depth = <35>"]
    lines += [f"under = {draw(st.sampled_from(['<2>', '<1/4>']))}"] if draw(st.booleans()) else []
    for name in ("club", "other", "still"):
        lines += [
            f"[chair.{name}]",
            f"seat_width = {draw(_eighths(20, 26))}",
            f"arm_width = {draw(_eighths(3, 8))}",
            "depth = <39>",
            "rear_of_base = <4>",
            f"back_travel = {draw(_eighths(3, 6))}",
            f"reclined_reach = {draw(_eighths(60, 68))}",
            "clear = { from = <9>, to = <21>, width = <14>, height = <3> }",
            f"arm_gap = {draw(st.sampled_from(['<1/4>', '<3/2>']))}",
            f"rear_gap = {draw(st.sampled_from(['<1/4>', '<3/2>', '<3/2>']))}",
        ]
        if name == "still":
            lines.append("powered = false")
            continue
        lines.append(f"lead_from = {{ right = <{draw(st.integers(-3, 3))}>, forward = <11> }}")
        feed = draw(st.sampled_from(["lead", "lead", "lead", "supply", "pack"]))
        if feed == "supply":
            lines += [f'supply = "brick-{name}"', *draw(_brick(wire, name))]
            continue
        lines += [f"lead = {draw(_eighths(48, 120))}", f'lead_wire = "{wire}"', 'coupler = "10 A"']
        amps = f"{draw(st.integers(5, 30)) / 10} A"
        if feed == "pack":
            charged = draw(st.sampled_from(["in place", "elsewhere"]))
            lines.append(f'battery = {{ charger_input = "{amps}", charged = "{charged}" }}')
            continue
        lines.append(f'input = "{amps}"')
        if draw(st.booleans()):
            lines.append(f'chain = {{ current = "8 A", chairs = 4, link = <48>, wire = "{wire}" }}')
        if draw(st.booleans()):
            lines.append("longer_cords = [<132>, <168>]")
        if name == "club" and draw(st.booleans()):
            back = draw(st.integers(0, 30))
            at = f"{{ from = <{back}>, to = <40>, left = <4>, right = <4> }}"
            lines += ["[chair.club.part.bar]", f"positions = [{at}]"]
    return lines


@st.composite
def _brick(draw: st.DrawFn, wire: str, name: str) -> list[str]:
    """A supply of its own for a kind of chair."""
    return [
        f"[supply.brick-{name}]",
        f"size = {{ width = {draw(_eighths(3, 8))}, depth = <3>, height = <2> }}",
        f'wall_cord = {{ length = {draw(_eighths(48, 96))}, wire = "{wire}" }}',
        f'chair_cord = {{ length = {draw(_eighths(48, 96))}, wire = "{wire}" }}',
        'output = "29 V"',
        'output_current = "2 A"',
        f'input = "{draw(st.integers(5, 30)) / 10} A"',
        f"feeds = {draw(st.integers(1, 2))}",
    ]


@st.composite
def _rows(draw: st.DrawFn, curved: str) -> list[str]:
    seats = draw(st.lists(st.sampled_from(["club", "club", "other", "still"]), max_size=3))
    things = [f'"{name}"' for name in ("club", *seats)]
    if len(things) > 1 and draw(st.booleans()):
        between = st.sampled_from(['"console"', f"{{ gap = {draw(_eighths(1, 12))} }}"])
        things.insert(draw(st.integers(1, len(things) - 1)), draw(between))
    lines = ["[row.A]", f"made_of = [{', '.join(things)}]"]
    lines += [f"headrest_to_wall = <{draw(st.sampled_from([8, 16, 50]))}>"]
    lines += [f"center_from_left = {draw(_eighths(115, 140))}"]
    lines += [f"fastened = {draw(st.sampled_from(['true', 'false', 'false']))}"]
    if curved:
        lines.append(f'curve = {{ radius = {draw(_eighths(150, 320))}, touch = "{curved}" }}')
    if draw(st.booleans()):
        way = draw(st.sampled_from(["left", "right"]))
        lines.append(f'turned = "{draw(st.integers(1, 35))} deg {way}"')
    if draw(st.integers(0, 2)) == 0:
        lines += ["[row.B]", 'chair = "club"', "seats = 2", "headrest_to_wall = <130>"]
    return lines


@st.composite
def _supply(draw: st.DrawFn, rules: str) -> list[str]:
    lines = ["[circuit.7]", f'breaker = "{_AMPS[rules][0]}"', f'wire = "{_WIRES[rules][1]}"']
    lines += ["home_run = <600>"]
    if draw(st.booleans()):
        lines.append(f'already_on_it = {{ lamp = "{draw(st.integers(1, 40)) / 10} A" }}')
    for number, side in enumerate(draw(st.lists(st.sampled_from(["back", "right"]), max_size=2))):
        lines += [f"[outlet.W{number + 1}]", 'circuit = "7"', f'wall = "{side}"']
        lines += [f"from_{'left' if side == 'back' else 'back'} = {draw(_eighths(10, 180))}"]
        lines += ["height = <16>", "sockets = 2", "free = 2", f'rating = "{_AMPS[rules][2]}"']
    return lines


@st.composite
def _work(draw: st.DrawFn, rules: str) -> list[str]:
    boxes = draw(st.sampled_from(["true", "true", "false"]))
    lines = ["[new_work]", f"floor_boxes = {boxes}"]
    lines += [f"wall_outlets = {draw(st.sampled_from(['true', 'false']))}", "circuits = 2"]
    lines += [f'breaker = "{_AMPS[rules][1]}"', f'wire = "{_WIRES[rules][1]}"', "home_run = <720>"]
    lines += ["sockets_per_box = 2", "plug_height = <9/4>"]
    lines += ["cut_out = { width = <4>, depth = <4> }", "lid = { width = <6>, depth = <6> }"]
    lines += ["[cords]", "lengths = [<36>, <72>, <108>, <144>]", f'wire = "{_WIRES[rules][0]}"']
    lines += ["diameter = <9/25>"]
    lines += [f'extensions = "{draw(st.sampled_from(["no", "if needed", "yes"]))}"']
    lines += [f"open_floor = {draw(st.sampled_from(['<0>', '<36>']))}"]
    if draw(st.booleans()):
        lines += ['outlet_unit = "strip"', "[outlet_unit.strip]", "sockets = 4", 'rating = "12 A"']
        lines += ["size = { width = <12>, depth = <3>, height = <2> }", "listed = true"]
        lines += [f'cord = {{ length = {draw(_eighths(48, 96))}, wire = "{_WIRES[rules][0]}" }}']
    return lines
