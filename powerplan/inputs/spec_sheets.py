"""Chairs known from a spec sheet alone: what the sheet does not say is assumed, on the safe side.

Such a table of a plan file is turned into one with every measure, before it is read like any other.
All floor under such a chair is pinch zone, and whatever is planned with one hangs on measuring it.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from powerplan.inputs import written as w
from powerplan.inputs.catalog import generic_kinds, generic_values
from powerplan.inputs.faults import Faults, Path
from powerplan.inputs.saying import meant, named
from powerplan.inputs.tables import Table, read_table
from powerplan.model.lengths import INCH_M, amps_text, length_text
from powerplan.model.rules import RuleSet
from powerplan.model.spec import Assumption

_ODD = INCH_M / 2
_HINTS = {
    "depth": 'headrest to front of base, upright, such as "39 in"',
    "depth_reclined": 'the whole depth with back and footrest out, such as "71 in"',
    "wall_clearance": 'what the sheet asks between wall and upright headrest, such as "6 in"',
}
MEASURES = (
    *("seat_width", "rear_of_base", "back_travel", "reclined_reach"),
    *("clear", "arm_gap", "rear_gap", "lead_from"),
)


_OF_POWER = ("input", "power", "power_factor", "continuous", "lead")


class Sheets(NamedTuple):
    """A plan file's tables with every spec sheet filled in, and what was assumed for that."""

    document: dict[str, Any]
    assumed: tuple[Assumption, ...]


class _Widths(NamedTuple):
    """Seat between the arms, and one arm. [m]"""

    seat: Fraction
    arm: Fraction


def from_sheets(
    document: dict[str, Any], rules: RuleSet, bare: str | None, units: str, faults: Faults
) -> Sheets:
    """Return the tables of a plan file with every chair of a spec sheet given all its measures.

    Parameters
    ----------
    document : dict
        What TOML holds; it is not changed.
    rules : RuleSet
        Lends what is assumed of an input and a cord.
    bare : str or None
        "mm" where a length without a unit is in millimeters.
    units : str
        How lengths are told.
    faults : Faults
        Where faults are noted.
    """
    chairs = document.get("chair")
    if not isinstance(chairs, dict):
        return Sheets(document, ())
    filled, assumed = dict(chairs), []
    for name, value in chairs.items():
        if isinstance(value, dict) and is_from_a_sheet(value):
            sheet = _Sheet(name, value, rules, bare, units, faults)
            filled[name] = sheet.filled()
            assumed += sheet.assumed
    return Sheets({**document, "chair": filled}, tuple(assumed))


def is_from_a_sheet(value: Mapping[str, Any]) -> bool:
    """Return True for a chair's table that says it is not measured, or is like a generic kind."""
    return value.get("measured") is False or "like" in value


class _Sheet:
    """One chair of a spec sheet, while it is filled in."""

    def __init__(
        self,
        name: str,
        value: Mapping[str, Any],
        rules: RuleSet,
        bare: str | None,
        units: str,
        faults: Faults,
    ) -> None:
        self._path: Path = ("chair", name)
        self._value = dict(value)
        self._rules, self._units, self._faults = rules, units, faults
        self.assumed: list[Assumption] = []
        self._refuse_measures()
        self._borrow()
        said = {key: one for key, one in self._value.items() if key in w.SheetChair.model_fields}
        self._table: Table[w.SheetChair] = read_table(
            self._path, said, w.SheetChair, faults, bare=bare
        )

    def filled(self) -> dict[str, Any]:
        """Return the table with every measure in it; what could not be read is harmless there."""
        it = self._table.it
        widths = self._widths() or _Widths(INCH_M * 22, Fraction(0))
        for key, hint in _HINTS.items():
            if key not in self._value:
                self._faults.add(self._path, f"{key} is missing: {hint}")
        if it.depth and it.depth_reclined and it.depth_reclined < it.depth:
            words = f"{self._text(it.depth_reclined)} is less than the depth of"
            words = f"{words} {self._text(it.depth)} upright"
            self._faults.add((*self._path, "depth_reclined"), words)
        depth = it.depth or INCH_M * 39
        reach = max(depth, it.depth_reclined or depth)
        back = it.wall_clearance or Fraction(0)
        self._say_all(reach, back)
        rest = {k: v for k, v in self._value.items() if k not in w.SheetChair.model_fields}
        return {
            **rest,
            "seat_width": _meters(widths.seat),
            "arm_width": _meters(widths.arm),
            "depth": _meters(depth),
            "rear_of_base": "0 m",
            "back_travel": _meters(back),
            "reclined_reach": _meters(reach),
            "lead_from": {"right": "0 m", "forward": "0 m"},
            "measured": False,
            **self._power(),
        }

    def _refuse_measures(self) -> None:
        for key in MEASURES:
            if key in self._value:
                words = "this is a measure, and the chair is not measured: leave it out, or measure"
                self._faults.add((*self._path, key), f"{words} the whole chair")
                del self._value[key]
        if self._value.get("measured") is True:
            words = "a chair like a generic kind is not measured; leave out like, or this"
            self._faults.add((*self._path, "measured"), words)

    def _borrow(self) -> None:
        """Take from a generic kind what the table itself does not say."""
        like = self._value.get("like")
        if not isinstance(like, str):
            return
        if like not in generic_kinds():
            words = f"no generic kind is called {named(like)}{meant(like, generic_kinds())}"
            self._faults.add((*self._path, "like"), words)
            self._value.update(generic_values(generic_kinds()[0]))
            return
        for key, value in generic_values(like).items():
            if key in self._value or self._says_otherwise(key):
                continue
            self._value[key] = value
            told = " and ".join(value) if isinstance(value, list) else value
            self._assume(f"{key.replace('_', ' ')} {told}, as the invented {like} has it")

    def _says_otherwise(self, key: str) -> bool:
        """True where another key of the table gives what this one would."""
        if self._value.get("powered") is False and key in _OF_POWER:
            return True
        others = {
            "row_widths": ("width",),
            "input": ("power", "power_factor", "supply", "battery"),
            "lead": ("supply", "battery"),
        }
        return any(other in self._value for other in others.get(key, ()))

    def _widths(self) -> _Widths | None:
        it = self._table.it
        if not self._table.sound("width", "row_widths", "arm_width"):
            return None
        if it.row_widths is not None:
            return self._by_subtraction(it.row_widths)
        if it.width is None:
            words = 'width is missing: one chair over its arms, such as "36 in"; or row_widths, '
            words += 'those of 1, 2, 3 ... seats, such as ["36 in", "66 in"]'
            self._faults.add(self._path, words)
            return None
        if it.arm_width is not None:
            if it.width <= 2 * it.arm_width:
                words = f"two arms of {self._text(it.arm_width)} leave nothing of"
                self._faults.add((*self._path, "arm_width"), f"{words} {self._text(it.width)}")
                return None
            return _Widths(it.width - 2 * it.arm_width, it.arm_width)
        self._assume("no arm is shared, so each stands as wide as one alone: row_widths say more")
        return _Widths(it.width, Fraction(0))

    def _by_subtraction(self, rows: tuple[Fraction, ...]) -> _Widths | None:
        """One seat has two arms, two seats have three: the difference is a seat and an arm."""
        path = (*self._path, "row_widths")
        if len(rows) < 2:
            words = "two widths at least are wanted, of 1 and of 2 seats; one alone is width"
            self._faults.add(path, words)
            return None
        more = rows[1] - rows[0]
        for number in range(2, len(rows)):
            step = rows[number] - rows[number - 1]
            if abs(step - more) > _ODD:
                words = f"{number + 1} seats are {self._text(step)} wider than {number}, and 2"
                words += f" seats {self._text(more)} wider than 1; look at the sheet again"
                self._faults.add((*path, number), words)
                return None
        arm = rows[0] - more
        if arm < 0 or more - arm <= 0:
            words = f"{self._text(rows[0])} and {self._text(rows[1])} cannot be 1 and 2 seats that"
            self._faults.add(path, f"{words} share an arm")
            return None
        return _Widths(more - arm, arm)

    def _power(self) -> dict[str, str]:
        """An input and a cord where nothing at all is said of them."""
        told: dict[str, str] = {}
        if self._value.get("powered") is False:
            return told
        if not any(
            k in self._value for k in ("input", "power", "power_factor", "supply", "battery")
        ):
            input_a = self._rules.exact("assumed_input")
            self._assume(f"its INPUT is {amps_text(input_a)}: read the label")
            told["input"] = f"{float(input_a):g} A"
        if not any(key in self._value for key in ("lead", "supply", "battery")):
            lead = self._rules.exact("assumed_lead")
            self._assume(f"its cord is only {self._text(lead)} long")
            told["lead"] = _meters(lead)
        return told

    def _say_all(self, reach: Fraction, back: Fraction) -> None:
        for words in (
            "all floor under it is pinch zone: nothing under it was measured",
            f"its headrest moves back by the whole wall clearance, {self._text(back)}",
            f"its footrest ends {self._text(reach)} ahead of the upright headrest, the whole depth "
            "reclined",
            "its base begins right at its headrest, and its cord leaves at the middle of its back",
        ):
            self._assume(words)

    def _text(self, length_m: Fraction) -> str:
        return length_text(float(length_m), self._units)

    def _assume(self, words: str) -> None:
        subject = f"chair {self._path[1]}"
        self.assumed.append(Assumption(subject=subject, words=f"ASSUMED: {words}"))


def _meters(length_m: Fraction) -> str:
    """A length as a plan file may have it, to the micrometer."""
    return f"{float(length_m):.6f} m"
