"""The sentences of a decision, in plain words."""

from __future__ import annotations

from powerplan.engineering.circuits.load import usual_wire
from powerplan.model.findings import Finding
from powerplan.model.lengths import amps_text, joined, length_text, plural
from powerplan.model.plan import (
    EXISTING,
    EXTENSIONS,
    NEW_CIRCUITS,
    NEW_OUTLETS,
    NOT_POSSIBLE,
    Condition,
)
from powerplan.planning.ladder import Solved
from powerplan.planning.loads import Way
from powerplan.planning.site import FLOOR_BOX, Site

_FEW = 3


def describe(site: Site, way: Way, wire: str | None) -> str:
    """Return what a way takes, such as ``1 new 20 A circuit on 12 AWG with 2 floor boxes``."""
    outlets = list(dict.fromkeys(f.feed.id for f in way.fed if f.feed.circuit is not None))
    boxes = [f for f in way.new_outlets if f.feed.kind == FLOOR_BOX]
    walls = [f for f in way.new_outlets if f.feed.kind != FLOOR_BOX]
    on = list(dict.fromkeys(f.circuit for f in way.new_outlets if not f.new_circuit))
    parts = []
    if way.new_circuits:
        size = amps_text(site.spec.new_work.breaker_a)
        parts.append(
            f"{len(way.new_circuits)} new {size} "
            + ("circuit" if len(way.new_circuits) == 1 else "circuits")
            + (f" on {wire}" if wire else "")
            + _thicker(site, wire)
        )
    news = [
        plural(len(found), noun)
        for found, noun in ((boxes, "floor box"), (walls, "wall outlet"))
        if found
    ]
    if news:
        text = joined(news)
        parts.append(text + (f" on circuit {joined(on)}" if on and not way.new_circuits else ""))
    if way.extensions:
        parts.append(plural(way.extensions, "extension cord"))
    named = f"{'outlet' if len(outlets) == 1 else 'outlets'} {joined(outlets)}"
    if outlets and not way.new_outlets:
        parts.append(named)
    text = joined(parts, "with" if way.new_circuits and len(parts) == 2 else "and")
    old = {fed.circuit: fed for fed in way.fed if not fed.new_circuit}
    more = []
    if way.new_circuits and old:
        carried = [chair.id for fed in way.fed if not fed.new_circuit for chair in fed.chairs]
        more.append(f"circuit {joined(list(old))} carries {joined(sorted(carried))}")
    if outlets and way.new_outlets:
        are = "is" if len(outlets) == 1 else "are"
        more.append(f"{named}, which {are} there, {are} used too")
    text += f" ({'; '.join(more)})" if more else ""
    if way.longer:
        text += f", with {_longer(site, way)}"
    units = sum(run.unit is not None for fed in way.fed for run in fed.runs)
    return text + (f", through {plural(units, 'outlet unit')}" if units else "")


def _longer(site: Site, way: Way) -> str:
    """Say which longer cords are bought from the chairs' makers."""
    lengths = sorted({cord.bought_m for cord in way.longer})
    told = joined([length_text(length_m, site.spec.project.units) for length_m in lengths])
    return f"{plural(len(way.longer), 'longer cord')} from the chair maker ({told})"


def _thicker(site: Site, wire: str | None) -> str:
    """Say why a wire that was left open came out thicker than its breaker needs."""
    usual = usual_wire(site.spec.new_work.breaker_a, site.rules)
    if wire is None or site.spec.new_work.wire is not None or wire == usual.name:
        return ""
    percent = float(site.rules.exact("drop_percent"))
    return f" ({usual.name} would lose more than the {percent:g} % advised)"


def step_sentence(site: Site, solved: Solved, wire: str | None) -> str:
    """Return in plain words why a step works, or what stops it."""
    units = site.spec.project.units
    if solved.works and solved.way is not None:
        if solved.step == EXTENSIONS and not solved.way.extensions:
            return "No extension cord is needed: the step before works without."
        text = f"Works: {describe(site, solved.way, wire)}."
        if solved.others:
            text += f" Of the ratings offered, {joined(solved.others)}."
        return text if solved.allowed else f"{text} {_not_offered(site, solved)}"
    if not solved.why:
        return "No way was found that meets every must."
    lines = reasons(solved.why, units)
    shown = " ".join(lines[:_FEW])
    more = f" And {len(lines) - _FEW} more: see the findings." if len(lines) > _FEW else ""
    return f"{shown}{more}"


def _not_offered(site: Site, solved: Solved) -> str:
    if solved.step == EXTENSIONS:
        return "The plan says no extension cords."
    spaces = site.spec.new_work.circuits
    if solved.step == NEW_CIRCUITS and solved.way is not None and spaces is not None:
        needed = len(solved.way.new_circuits)
        if needed > spaces:
            return f"The panel has {plural(spaces, 'free space')}, of {needed} needed."
    return "The plan offers no cutting for new outlets."


def reasons(findings: tuple[Finding, ...], units: str) -> list[str]:
    """Return why musts are not met: all of one thing together, and things alike once."""
    told: dict[str, list[str]] = {}
    for finding in findings:
        texts = told.setdefault(finding.subject, [])
        texts += [text] if (text := _why(finding, units)) not in texts else []
    alike: dict[str, list[str]] = {}
    for subject, texts in told.items():
        alike.setdefault(" ".join(texts), []).append(subject)
    return [_capital(f"{joined(subjects)}: {text}") for text, subjects in alike.items()]


def _why(finding: Finding, units: str) -> str:
    """Why a must is not met, as one sentence with its numbers."""
    if finding.note:
        return finding.note
    value, limit = (
        quantity(number, finding.unit, units) for number in (finding.value, finding.limit)
    )
    word = "at least" if finding.margin is not None and _asks_more(finding) else "at most"
    return f"{value}, {word} {limit} is wanted ({finding.requirement})."


def _asks_more(finding: Finding) -> bool:
    if finding.value is None or finding.limit is None or finding.margin is None:
        return False
    return (finding.value - finding.limit) * finding.margin > 0


def quantity(number: float | None, unit: str, units: str) -> str:
    """Return a finding's number as people read it."""
    if number is None:
        return "unknown"
    if unit == "m":
        return length_text(number, units)
    if unit == "A":
        return amps_text(number)
    if unit == "%":
        return f"{number:.1f} %"
    return f"{number:g} {unit}"


def verdict_sentence(
    site: Site,
    chosen: Solved | None,
    solved: tuple[Solved, ...],
    wire: str | None,
    conditions: tuple[Condition, ...],
) -> str:
    """Return the decision in one sentence, with what it hangs on, the stricter number first."""
    if chosen is None or chosen.way is None:
        return _impossible(site, solved)
    mixed = len(site.powered) < len(site.chairs)
    chairs = plural(len(site.powered), "powered chair" if mixed else "chair")
    told = {
        EXISTING: f"No new wiring: the {chairs} plug into {describe(site, chosen.way, wire)}",
        EXTENSIONS: f"No new wiring, but {describe(site, chosen.way, wire)}",
        NEW_OUTLETS: f"No new circuit, but new outlets: {describe(site, chosen.way, wire)}",
        NEW_CIRCUITS: f"The {chairs} need {describe(site, chosen.way, wire)}",
    }[chosen.step]
    if not conditions:
        return f"{told}."
    ifs = "; and if ".join(condition.sentence for condition in conditions)
    return f"{told}, if {ifs}."


def mend_first(site: Site, findings: tuple[Finding, ...]) -> str:
    """Return what has to be mended before anything is marked or laid; nothing where all is met."""
    stops = [finding for finding in findings if finding.stops]
    if not stops:
        return ""
    told = reasons(tuple(stops), site.spec.project.units)
    more = f" And {len(told) - _FEW} more." if len(told) > _FEW else ""
    return f"First mend this: {' '.join(told[:_FEW])}{more} Then: "


def _impossible(site: Site, solved: tuple[Solved, ...]) -> str:
    would = [entry for entry in solved if entry.works and not entry.allowed]
    if would:
        entry = would[0]
        return (
            f"Not possible as drawn; {entry.step} would work if the plan allowed it. "
            f"{_not_offered(site, entry)}"
        )
    last = solved[-1]
    units = site.spec.project.units
    text = " ".join(reasons(last.why, units)[:_FEW])
    return _capital(f"{NOT_POSSIBLE}. {text}".strip())


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
