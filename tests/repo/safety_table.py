"""Write the table of numbers in SAFETY.md: run this file after changing a rule set."""

from fractions import Fraction
from pathlib import Path

from powerplan.model.rules import RuleSet
from powerplan.rulebook.loader import rule_set, rule_set_ids

SAFETY = Path(__file__).parents[2] / "SAFETY.md"
START, END = "<!-- numbers: written by tests/repo/safety_table.py -->", "<!-- end of numbers -->"


def _amount(value: Fraction, unit: str, tape: str) -> str:
    if unit == "m" and tape == "mm":
        return f"{float(value * 1000):.6g} mm"
    if unit == "m":
        return f"{float(value):.6g} m ({float(value / Fraction(254, 10000)):.4g} in)"
    return f"{float(value):g}" + ("" if unit == "1" else f" {unit}")


def _amps(value: Fraction | None) -> str:
    return "none" if value is None else f"{float(value):g}"


def _tables(rules: RuleSet) -> list[str]:
    lines = [f"### {rules.id}: {rules.edition}", "", "| number | value | source | standing |"]
    lines.append("|---|---|---|---|")
    for number in rules.numbers.values():
        source = number.source
        amount = _amount(number.value, number.unit, rules.units)
        lines.append(f"| {number.meaning} | {amount} | {source.cite} | {source.standing} |")
    lines += ["", "| rule | requirement | force | source | standing |", "|---|---|---|---|---|"]
    for rule in rules.rules.values():
        source = rule.source
        lines.append(
            f"| `{rule.id}` | {rule.requirement} | {rule.force} | {source.cite} "
            f"| {source.standing} |"
        )
    lines += ["", f"Resistance: {rules.resistance_basis}.", ""]
    lines += _metric_wires(rules) if rules.units == "mm" else _wires(rules)
    lines += ["", "| circuit | socket | one plug at most | source | standing |"]
    lines.append("|---|---|---|---|---|")
    for row in rules.sockets:
        lines.append(
            f"| {_amps(row.circuit_a)} A | {_amps(row.socket_a)} A | {_amps(row.limit_a)} A "
            f"| {row.source.cite} | {row.source.standing} |"
        )
    return [*lines, ""]


def _wires(rules: RuleSet) -> list[str]:
    lines = [
        "| wire | ohm per 1000 ft | breaker at most | as a cord | as a set to 50 ft "
        "| longer | source | standing |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for wire in (*rules.wires.values(), *rules.aluminum.values()):
        ohms = wire.ohm_per_m * 304.8
        amounts = (wire.max_breaker_a, wire.cord_a, wire.set_short_a, wire.set_long_a)
        told = " | ".join(_amps(value) for value in amounts)
        lines.append(
            f"| {wire.name} | {ohms:.4g} | {told} | {wire.source.cite} | {wire.source.standing} |"
        )
    return lines


def _metric_wires(rules: RuleSet) -> list[str]:
    long = _amount(rules.exact("set_long"), "m", "mm")
    lines = [
        f"Wiring: {rules.wiring_method}.",
        "",
        "| wire | ohm/km | ohm/km as a cord | breaker at most | laid at best | A as a cord "
        f"| as a set to {long} | longer | source | standing |",
        "|---|---|---|---|---|---|---|---|---|---|",
    ]
    for wire in rules.wires.values():
        ohms = f"{wire.ohm_per_m * 1000:.4g} | {wire.cord_ohm_per_m * 1000:.4g}"
        amounts = (wire.max_breaker_a, wire.best_breaker_a, wire.cord_a)
        told = " | ".join(_amps(value) for value in (*amounts, wire.set_short_a, wire.set_long_a))
        source = f"{wire.source.cite} | {wire.source.standing}"
        lines.append(f"| {wire.name} | {ohms} | {told} | {source} |")
    return lines


def fresh_safety_text() -> str:
    """Return SAFETY.md with its tables written anew."""
    text = SAFETY.read_text(encoding="utf-8")
    before, rest = text.split(START)
    after = rest.split(END)[1]
    tables = "\n".join(line for name in rule_set_ids() for line in _tables(rule_set(name)))
    return f"{before}{START}\n\n{tables}\n{END}{after}"


if __name__ == "__main__":
    SAFETY.write_text(fresh_safety_text(), encoding="utf-8")
