"""For anyone who asks where a number comes from: a rule set, with source and standing."""

from __future__ import annotations

from dataclasses import dataclass

from powerplan.model.findings import Rule, Source
from powerplan.model.lengths import amps_text, length_text
from powerplan.model.rules import Number, RuleSet, SocketLimit, Wire
from powerplan.sheets.caution import CAUTION
from powerplan.sheets.local import localized, localizer
from powerplan.sheets.parts import Marked, Page, Part, Say, Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleRow:
    """A number, rule, wire or socket as people read it, and the thing itself."""

    kind: str
    name: str
    value: str
    meaning: str
    source: Source
    thing: Number | Rule | Wire | SocketLimit

    @property
    def words(self) -> str:
        """Everything a search can find."""
        told = (self.kind, self.name, self.value, self.meaning)
        return " ".join((*told, self.source.cite, self.source.standing.value)).casefold()


def rule_rows(rules: RuleSet, word: str = "") -> tuple[RuleRow, ...]:
    """Return every number, rule, wire and socket that has the word in it.

    Parameters
    ----------
    rules : RuleSet
        The rule set.
    word : str
        Any part of a name, text, source or standing; upper and lower case count alike. Empty: all.
    """
    rows = (
        *(_number(number, _tape(rules)) for number in rules.numbers.values()),
        *map(_rule, rules.rules.values()),
        *map(_wire, (*rules.wires.values(), *rules.aluminum.values())),
        *map(_socket, rules.sockets),
    )
    return tuple(row for row in rows if word.casefold() in row.words)


def rules_sheet(rules: RuleSet, word: str = "") -> Sheet:
    """Return a rule set as a report, or the part of it that has the word in it."""
    rows = rule_rows(rules, word)
    parts: tuple[Part, ...] = tuple(_entry(row) for row in rows)
    if not rows:
        parts = (Say(text=f'Nothing in {rules.id} has "{word}" in it. Try a shorter word.'),)
    about = [rules.edition, f"resistance: {rules.resistance_basis}"]
    if rules.wiring_method:
        about.append(f"assumed: {rules.wiring_method}")
    title = f'Numbers and rules with "{word}"' if word else "Every number and rule"
    sheet = Sheet(
        title=f"Rule set {rules.id}: {rules.title}",
        about=tuple(about),
        pages=(Page(title=title, parts=parts),),
        caution=CAUTION,
        last=f"Shown: {len(rows)} of {len(rule_rows(rules))} numbers and rules.",
    )
    return localized(sheet, localizer(rules.id))


def _entry(row: RuleRow) -> Marked:
    told = f"source: {row.source.cite} [{row.source.standing.value}]"
    return Marked(mark=row.kind.upper(), lines=(f"{row.name}: {row.value}", row.meaning, told))


def _tape(rules: RuleSet) -> str:
    return "in" if rules.units == "ft-in" else rules.units


def _number(number: Number, units: str) -> RuleRow:
    value = str(number.value) if number.unit == "1" else f"{number.value} {number.unit}"
    if number.unit == "m":
        value = length_text(float(number.value), units)
        if units == "in":
            value += f" ({float(number.value):.6g} m)"
    return RuleRow(
        kind="number",
        name=number.name,
        value=value,
        meaning=number.meaning,
        source=number.source,
        thing=number,
    )


def _rule(rule: Rule) -> RuleRow:
    return RuleRow(
        kind="rule",
        name=rule.id,
        value=f"{rule.force.value}; {rule.bound.value}, in {rule.unit}",
        meaning=rule.requirement,
        source=rule.source,
        thing=rule,
    )


def _wire(wire: Wire) -> RuleRow:
    told = [f"{wire.ohm_per_m * 1000:.4g} ohm/km"]
    if wire.cord_ohm_per_m != wire.ohm_per_m:
        told.append(f"as a cord {wire.cord_ohm_per_m * 1000:.4g} ohm/km")
    for words, current_a in (
        ("breaker at most", wire.max_breaker_a),
        ("laid at best", wire.best_breaker_a),
        ("as a cord", wire.cord_a),
        ("as a short extension", wire.set_short_a),
        ("as a long extension", wire.set_long_a),
    ):
        if current_a is not None:
            told.append(f"{words} {amps_text(current_a)}")
    return RuleRow(
        kind="wire",
        name=wire.name,
        value=", ".join(told),
        meaning="resistance, and the most it may carry",
        source=wire.source,
        thing=wire,
    )


def _socket(row: SocketLimit) -> RuleRow:
    return RuleRow(
        kind="socket",
        name=f"{amps_text(row.socket_a)} socket on a {amps_text(row.circuit_a)} circuit",
        value=amps_text(row.limit_a),
        meaning="the most that one plug may take",
        source=row.source,
        thing=row,
    )
