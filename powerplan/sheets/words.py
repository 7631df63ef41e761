"""Values, walls and outcomes in the words of the people on site."""

from __future__ import annotations

from typing import TYPE_CHECKING

from powerplan.model.findings import Finding, Outcome
from powerplan.model.lengths import (
    amps_text,
    at_least_m,
    at_most_m,
    length_text,
)
from powerplan.sheets.caution import CAUTION
from powerplan.sheets.sixty_fourths import LESS, are_wanted, down_text, three_of

if TYPE_CHECKING:  # a report without a plan does not wait for these
    from powerplan.model.plan import Box, Plan
    from powerplan.model.spec import Room

UNKNOWN = "unknown"

FINE = 16
"""The fraction of an inch to which places of outlets print: a mark on an eighth from one wall may
stand on a sixteenth from the other."""

DO_NOT_CUT, PROVISIONAL, FIRM = "DO NOT CUT", "PROVISIONAL", "firm"
DO_NOT_CUT_YET, DO_NOT_LAY = "DO NOT CUT YET", "DO NOT LAY YET"

_ABOUT_ROWS = ("row-", "rows-", "seats-", "headrest-", "footrest-", "door-", "reading-")

_SINGULAR = {"supplies": "supply"}


def measure(value: float | None, unit: str, units: str, *, fine: bool = False) -> str:
    """Return a value of a finding as people read it.

    Parameters
    ----------
    value : float or None
        The value; None is unknown. [unit]
    unit : str
        A, m, %, or a counted noun in the plural.
    units : str
        How lengths print: ft-in, in, mm or m.
    fine : bool
        True to show every digit: where two rounded values would look alike.
    """
    if value is None:
        return UNKNOWN
    if unit == "m" and fine and units in ("ft-in", "in"):
        told = down_text(value, units)
        return told if told != "0 in" else LESS
    if unit == "m":
        return f"{value * 1000:.3f} mm" if fine else length_text(value, units)
    if unit == "A":
        return f"{value:.6f}".rstrip("0").rstrip(".") + " A" if fine else amps_text(value)
    number = f"{value:.6f}" if fine or unit == "difference" else f"{value:.2f}"
    number = number.rstrip("0").rstrip(".")
    if number == "1" and unit.endswith("s"):
        return f"1 {_SINGULAR.get(unit, unit[:-1])}"
    return f"{number} {unit}"


def numbers_text(finding: Finding, units: str) -> str:
    """Return what a finding has, what is allowed, and the room left, in one phrase; of things that
    are counted and not checked, how many are not known."""
    if finding.value is None and finding.limit is None:
        return ""
    if finding.outcome is Outcome.NOT_CHECKED and finding.unit not in ("A", "m", "%"):
        return _not_known(finding)
    has, limit = has_text(finding, units), limit_text(finding, units)
    room = room_text(finding, units)
    return f"{has}, limit {limit}" + (f", {room}" if room else "")


def _not_known(finding: Finding) -> str:
    """How many of things that are counted nobody knows about; nothing where the note says it."""
    if finding.value is None or finding.limit is None or not finding.margin:
        return ""
    if _is_ceiling(finding):
        return f"{round(finding.value - finding.limit)} not known"
    if finding.limit == 1:
        return "not known yet"
    all_ = measure(finding.limit, finding.unit, "")
    known = round(finding.value)
    return f"known of {known} of {all_}" if known else f"not known yet of any of the {all_}"


_SMALL = 0.0005  # of an ampere or a meter: less than rounding would show


def has_text(finding: Finding, units: str) -> str:
    """Return what a finding has; what is asked of a circuit is rounded up, as everywhere. A length
    is rounded to the side that cannot hurt."""
    if are_wanted(finding, units):
        return three_of(finding, units).has
    told = _told_m(finding, units)
    if told is not None:
        return length_text(told[0], units)
    fine = _looks_alike(finding, units)
    if finding.unit == "A" and finding.value is not None and _is_ceiling(finding) and not fine:
        return amps_text(finding.value, up=True)
    return measure(finding.value, finding.unit, units, fine=fine)


def limit_text(finding: Finding, units: str) -> str:
    """Return what is allowed, or asked; a length is rounded to the side that cannot hurt."""
    if are_wanted(finding, units):
        return three_of(finding, units).limit
    told = _told_m(finding, units)
    if told is not None:
        return length_text(told[1], units)
    return measure(finding.limit, finding.unit, units, fine=_looks_alike(finding, units))


def _told_m(finding: Finding, units: str) -> tuple[float, float] | None:
    """What a length is and its limit at marks of a tape, so that the room printed is what is left
    between the two; None where that is less than a mark, or the other way round. [m]"""
    value_m, limit_m, margin_m = finding.value, finding.limit, finding.margin
    if finding.unit != "m" or value_m is None or limit_m is None or not margin_m:
        return None
    ceiling = _is_ceiling(finding)
    has, allowed = (at_least_m, at_most_m) if ceiling else (at_most_m, at_least_m)
    told = (has(value_m, units), allowed(limit_m, units))
    left_m = told[1] - told[0] if ceiling else told[0] - told[1]
    return told if left_m * margin_m > 0 else None


def _looks_alike(finding: Finding, units: str) -> bool:
    """Whether a value and a limit that differ would print alike."""
    if finding.unit == "m":
        return bool(finding.margin) and _told_m(finding, units) is None
    value, limit = finding.value, measure(finding.limit, finding.unit, units)
    shown = [measure(value, finding.unit, units)]
    if finding.unit == "A" and value is not None and _is_ceiling(finding):
        shown.append(amps_text(value, up=True))
    return value != finding.limit and limit in shown


def room_text(finding: Finding, units: str) -> str:
    """Return the room left ("1.2 A to spare", "short by 1/2 in", "over by 2 A"), or nothing where
    it is unknown."""
    if finding.margin is None:
        return ""
    if finding.margin == 0:
        return "just enough"
    size, ceiling = abs(finding.margin), _is_ceiling(finding)
    told = _told_m(finding, units)
    if are_wanted(finding, units):
        text = three_of(finding, units).left
    elif told is not None:
        text = length_text(abs(told[0] - told[1]), units)
    elif finding.unit == "A":
        text = amps_text(size, down=finding.margin > 0, up=ceiling and finding.margin < 0)
    else:
        text = measure(size, finding.unit, units, fine=_looks_alike(finding, units))
    if text.split()[0] == "0" or (size < _SMALL and text != LESS):
        text = measure(size, finding.unit, units, fine=True)
    if finding.margin > 0:
        return f"{text} to spare"
    if ceiling and not finding.limit and finding.unit == "m":
        return f"off by {text}"
    return f"{'over' if ceiling else 'short'} by {text}"


def _is_ceiling(finding: Finding) -> bool:
    """Whether the limit is the most there may be, told by the sign of the room left."""
    if finding.value is None or finding.limit is None or finding.margin is None:
        return False
    return (finding.limit - finding.value) * finding.margin > 0


def fine_text(length_m: float, units: str) -> str:
    """Return a length as places of outlets print: to the nearest 1/16 in or millimeter.

    Parameters
    ----------
    length_m : float
        Any length. [m]
    units : str
        ft-in, in, mm or m.
    """
    return length_text(length_m, units, step=FINE)


def wire_text(length_m: float, units: str) -> str:
    """Return a length of wire as it was told: in feet, or in meters where sheets are metric.

    Parameters
    ----------
    length_m : float
        Any length. [m]
    units : str
        ft-in, in, mm or m.
    """
    return f"{length_m:g} m" if units in ("mm", "m") else length_text(length_m, units)


def layout_faults(plan: Plan) -> tuple[Finding, ...]:
    """Return the musts of the layout that are not met: with these, marks and ways will move."""
    return tuple(f for f in plan.findings if f.stops and f.rule.startswith(_ABOUT_ROWS))


def mark_word(box: Box, plan: Plan) -> str:
    """Return DO NOT CUT where the job does not work or something has to be mended first,
    PROVISIONAL where the mark hangs on what has to be found out first, else firm.

    Parameters
    ----------
    box : Box
        The box whose mark it is.
    plan : Plan
        The plan.
    """
    from powerplan.model.plan import NOT_POSSIBLE  # a report without a plan does not wait for it

    if plan.decision.verdict == NOT_POSSIBLE or any(finding.stops for finding in plan.findings):
        return DO_NOT_CUT
    return PROVISIONAL if box.provisional or is_unmeasured(plan) else FIRM


def cut_word(plan: Plan) -> str:
    """Return DO NOT CUT where the job is not possible as drawn, DO NOT CUT YET where a mark is not
    firm, and nothing where all may be cut or there is none.

    Parameters
    ----------
    plan : Plan
        The plan.
    """
    from powerplan.model.plan import NOT_POSSIBLE  # a report without a plan does not wait for it

    if plan.decision.verdict == NOT_POSSIBLE:
        return DO_NOT_CUT
    return DO_NOT_CUT_YET if any(mark_word(box, plan) != FIRM for box in plan.boxes) else ""


def is_unmeasured(plan: Plan) -> bool:
    """Return True where the answer hangs on a chair that nobody has measured."""
    return any(finding.rule == "chair-measured" and finding.hangs for finding in plan.findings)


def if_measured(plan: Plan) -> str:
    """Return ", if measuring shows nothing else" where a chair is not measured, else nothing."""
    return ", if measuring shows nothing else" if is_unmeasured(plan) else ""


def lay_word(plan: Plan) -> str:
    """Return DO NOT LAY YET where something has to be mended first, with PROVISIONAL before it
    where a chair is not measured or a box may still move, and nothing where cords may be laid.

    Parameters
    ----------
    plan : Plan
        The plan, of a job that is possible.
    """
    if any(finding.stops for finding in plan.findings):
        return DO_NOT_LAY
    if is_unmeasured(plan) or any(box.provisional for box in plan.boxes):
        return f"{PROVISIONAL}: {DO_NOT_LAY}"
    return ""


def outcome_word(outcome: Outcome) -> str:
    """Return MET, NOT MET or NOT CHECKED."""
    return outcome.value.upper()


def wall_name(room: Room, wall: str) -> str:
    """Return what people on site call a wall, or what an outline has on that side."""
    line = next((one for one in room.lines if one.id == wall), None)
    return line.label if line is not None else str(getattr(room, f"{wall}_wall", wall))


def from_wall(room: Room, wall: str) -> str:
    """Return "from back wall", or "from stair side (left)" where the name does not say which; with
    the face of the wall where a finish on its studs was given."""
    name = wall_name(room, wall)
    more = [] if wall in name.lower() else [wall]
    if room.build_up_m:
        more.append(room.print_to)
    return f"from {name} ({', '.join(more)})" if more else f"from {name}"


def caution_of(plan: Plan) -> str:
    """Return the plan's caution; one that was taken out of a record is put back."""
    return plan.caution if CAUTION in plan.caution else CAUTION
