"""What is still to be measured or found before the verdict holds."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from powerplan.engineering.circuits.load import unknown_limits_a
from powerplan.model.findings import Finding
from powerplan.model.lengths import amps_text, few, joined, length_text
from powerplan.model.plan import Condition
from powerplan.planning.loads import CircuitLoad
from powerplan.planning.measuring import HANGS_ON_IT, RULE, sentence
from powerplan.planning.site import Site

_KINDS = {
    "circuit-load": "breaker",
    "breaker-size": "breaker",
    "socket-matches-circuit": "breaker",
    "wire-matches-breaker": "wire",
    "shared-neutral": "neutral",
    "aluminum-wire": "aluminum",
    "fastened-half": "fastening",
    "box-clears-framing": "framing",
    "box-size-known": "cut-out",
    "panel-space": "panel",
    "extension-rating": "cord",
    "cord-wire": "cord",
    "supply-under-back": "back",
}
"""What has to be found out where a must of that rule could not be checked."""


def conditions(
    site: Site,
    loads: tuple[CircuitLoad, ...],
    findings: tuple[Finding, ...],
    heights_m: Mapping[str, float],
) -> tuple[Condition, ...]:
    """Return each condition once, most useful first: loads, then breakers and wires, then the rest.

    Parameters
    ----------
    site : Site
        The room surveyed.
    loads : tuple of CircuitLoad
        Every circuit as the chosen way loads it. [A]
    findings : tuple of Finding
        All findings of the chosen way; those that hang become conditions.
    heights_m : mapping
        How high each supply and outlet unit is that lies on the floor, by its id. [m]
    """
    told = [_load_condition(site, load) for load in loads if load.chairs and not load.load_known]
    by_kind: dict[str, list[Finding]] = {}
    unmeasured = [f for f in findings if f.hangs and f.rule == RULE]
    for finding in findings:
        if finding.hangs and not (unmeasured and finding.rule in HANGS_ON_IT):
            by_kind.setdefault(_KINDS.get(finding.rule, "other"), []).append(finding)
    for load in loads:
        if load.chairs and load.existing is not None:
            told.extend(_circuit_conditions(site, load))
    for kind in ("neutral", "aluminum"):
        told.extend(_look_condition(kind, finding) for finding in by_kind.get(kind, []))
    if unmeasured:
        told.append(_unmeasured(unmeasured))
    for kind in ("fastening", "panel", "framing", "cut-out", "cord", "other"):
        found = by_kind.get(kind, [])
        if found:
            told.append(_from_findings(kind, found))
    if "back" in by_kind:
        told.append(_backs(by_kind["back"], heights_m, site.spec.project.units))
    return tuple(told)


def _load_condition(site: Site, load: CircuitLoad) -> Condition:
    lasting_a, passing_a = unknown_limits_a(load.spare_a, site.rules)
    most = amps_text(passing_a, down=True)
    if site.rules.weighs_lasting:
        most = f"{amps_text(lasting_a, down=True)} for hours, or {most} now and then"
    known = load.existing.partly_on_it if load.existing is not None else ()
    beside = f", beside {joined([one.name for one in known])}," if known else ""
    measured = joined(load.existing.not_measured) if load.existing and known else "it"
    return Condition(
        kind="load",
        subject=f"circuit {load.id}",
        circuit=load.id,
        if_continuous_a=_never_more(lasting_a),
        if_not_continuous_a=_never_more(passing_a),
        sentence=f"circuit {load.id} carries{beside} no more than {most}: have {measured} measured",
    )


def _never_more(current_a: Fraction) -> float:
    """A current as the record holds it, rounded down."""
    return (current_a * 10**6 // 1) / 10**6


def _circuit_conditions(site: Site, load: CircuitLoad) -> list[Condition]:
    circuit, told = load.existing, []
    if circuit is None:
        return []
    if circuit.breaker_a is None:
        told.append(
            f"breaker|the breaker of circuit {load.id} is {amps_text(load.breaker_a)} or more and "
            "suits its wire and outlets: read it off the panel"
        )
    if circuit.wire is None:
        told.append(
            f"wire|the wire of circuit {load.id} is thick enough for its breaker: have an "
            "electrician look"
        )
    elif circuit.breaker_a and site.rules.wires[circuit.wire].hangs_on_laying(circuit.breaker_a):
        told.append(
            f"laying|the {circuit.wire} of circuit {load.id} is laid well enough to carry "
            f"{amps_text(circuit.breaker_a)}: have an electrician look"
        )
    return [
        Condition(
            kind=text.split("|")[0],
            subject=f"circuit {load.id}",
            circuit=load.id,
            if_continuous_a=None,
            if_not_continuous_a=None,
            sentence=text.split("|")[1],
        )
        for text in told
    ]


def _unmeasured(findings: list[Finding]) -> Condition:
    return Condition(
        kind="other",
        subject=findings[0].subject,
        circuit=None,
        if_continuous_a=None,
        if_not_continuous_a=None,
        sentence=sentence(findings),
    )


def _backs(findings: list[Finding], heights_m: Mapping[str, float], units: str) -> Condition:
    """What is measured where backs recline over things, and who measures it."""
    subjects = list(dict.fromkeys(finding.subject for finding in findings))
    told = few([f"{name} ({length_text(heights_m[name], units)} high)" for name in subjects])
    backs, keep = ("back", "keeps") if len(subjects) == 1 else ("backs", "keep")
    return Condition(
        kind="back",
        subject=subjects[0] if len(subjects) == 1 else few(subjects),
        circuit=None,
        if_continuous_a=None,
        if_not_continuous_a=None,
        sentence=(
            f"the {backs} over {told} {keep} more than that over the floor, at the least, reclined "
            "and loaded: the seller or the installers measure it, not the electrician"
        ),
    )


_LOOKS = {
    "neutral": "one handle switches {} off together with the circuit whose neutral it shares, and "
    "the two sit on opposite poles: have an electrician look",
    "aluminum": "the splices and outlets of {} are made for aluminum wire and are sound: have an "
    "electrician look",
}


def _look_condition(kind: str, finding: Finding) -> Condition:
    return Condition(
        kind=kind,
        subject=finding.subject,
        circuit=finding.subject.removeprefix("circuit "),
        if_continuous_a=None,
        if_not_continuous_a=None,
        sentence=_LOOKS[kind].format(finding.subject),
    )


def _from_findings(kind: str, findings: list[Finding]) -> Condition:
    subjects = list(dict.fromkeys(finding.subject for finding in findings))
    sentences = {
        "panel": "the panel has a free space for each new circuit: have an electrician look",
        "fastening": f"all rows on {few(subjects)} are bolted down alike: ask whoever sets them",
        "framing": f"the joists are found clear of the cut-out at {few(subjects)}: find them "
        "before cutting",
        "cut-out": f"the cut-out and lid of the floor box are known and fit at {few(subjects)}",
        "cord": f"the wire size of {few(subjects)} is known and enough",
        "other": f"{few(subjects)} is checked: {findings[0].requirement}",
    }
    return Condition(
        kind=kind,
        subject=subjects[0] if len(subjects) == 1 else few(subjects),
        circuit=None,
        if_continuous_a=None,
        if_not_continuous_a=None,
        sentence=sentences[kind],
    )
