"""Why something does not work, in words for people who do not read findings."""

from __future__ import annotations

from collections.abc import Callable

from powerplan.model.findings import Finding
from powerplan.model.lengths import amps_text, at_least_text, joined, plural
from powerplan.model.plan import Plan
from powerplan.sheets.words import measure

_Words = Callable[[list[Finding], str], str]


def plain_reasons(findings: tuple[Finding, ...], plan: Plan) -> tuple[str, ...]:
    """Return one sentence for each rule that is broken, in the order given.

    Parameters
    ----------
    findings : tuple of Finding
        Musts that are not met.
    plan : Plan
        For its units, and for the words that fit the place.
    """
    groups: dict[str, list[Finding]] = {}
    for finding in findings:
        rule = _NO_PLACE if finding.rule in _OF_A_PLACE else finding.rule
        groups.setdefault(rule, []).append(finding)
    units = plan.spec.project.units
    told: list[str] = []
    for rule, found in groups.items():
        words = _WORDS.get(rule)
        told += [words(found, units)] if words else [_as_noted(one, units) for one in found]
    return tuple(dict.fromkeys(told))


def _as_noted(finding: Finding, units: str) -> str:
    subject = finding.subject[:1].upper() + finding.subject[1:]
    if finding.note:
        return finding.note if finding.subject in ("room", "circuits") else _tied(finding)
    has, limit = (measure(n, finding.unit, units) for n in (finding.value, finding.limit))
    return f"{subject}: {finding.requirement}; it is {has}, and the limit is {limit}."


def _tied(finding: Finding) -> str:
    return f"{finding.subject[:1].upper()}{finding.subject[1:]}: {finding.note}"


def _short(found: list[Finding], units: str) -> str:
    count = "One cord does" if len(found) == 1 else f"{len(found)} cords do"
    worst_m = max((-finding.margin for finding in found if finding.margin is not None), default=0.0)
    worst = "it is" if len(found) == 1 else "the worst is"
    return f"{count} not reach; {worst} {at_least_text(worst_m, units)} too short."


def _sockets(found: list[Finding], units: str) -> str:
    told = []
    for finding in found:
        plugs, free = round(finding.value or 0), round(finding.limit or 0)
        told.append(f"{finding.subject} has {plural(free, 'free socket')} for {plugs} plugs")
    return f"There are not enough sockets: {'; '.join(told)}."


def _over(found: list[Finding], units: str) -> str:
    told = [
        f"{finding.subject} would be {amps_text(-finding.margin)} over what it may give"
        for finding in found
        if finding.margin is not None
    ]
    text = "; ".join(told) or f"{found[0].subject} would be overloaded"
    return f"{text[:1].upper()}{text[1:]}."


def _open_floor(found: list[Finding], units: str) -> str:
    most_m = max((finding.value or 0.0 for finding in found), default=0.0)
    cords = plural(len(found), "cord")
    return f"{cords} would lie up to {measure(most_m, 'm', units)} across floor where people walk."


def _no_place(found: list[Finding], units: str) -> str:
    notes: dict[str, list[str]] = {}
    for finding in found:
        of_it = notes.setdefault(finding.subject, [])
        of_it += [finding.note] if finding.note and finding.note not in of_it else []
    every = [text for text in notes[found[0].subject] if _in_all(text, notes)]
    alike: dict[str, list[str]] = {}
    for subject, told in notes.items():
        own = " ".join(text for text in told if text not in every)
        alike.setdefault(own, []).append(subject)
    said = [*every, *(f"For {joined(names)}: {text}" for text, names in alike.items() if text)]
    chairs = plural(len(notes), "place")
    return " ".join((f"A floor box does not fit at {chairs} where it would be wanted.", *said))


def _in_all(text: str, notes: dict[str, list[str]]) -> bool:
    """Whether the same is said of everything."""
    return all(text in told for told in notes.values())


def _always(text: str) -> _Words:
    return lambda found, units: text


_NO_PLACE = "box-has-a-place"
_OF_A_PLACE = (
    *("box-clears-framing", "box-clears-no-cut", "box-clears-riser-edge"),
    "box-plug-height",
)
"""Rules of which the same is to be said: what leaves no place for a box."""
_PLUG = "One plug would carry more than the outlet, the cord or the chair's maker allows."
_WORDS: dict[str, _Words] = {
    "cord-length": _short,
    "link-length": _short,
    "sockets-free": _sockets,
    "circuit-load": _over,
    "cord-on-open-floor": _open_floor,
    "extension-temporary": _always(
        "Extension cords are for temporary use only, and this place may not keep them."
    ),
    "cord-has-a-way": _always(
        "For some chairs there is no way for a cord that keeps clear of mechanisms, walkways "
        "and doorways."
    ),
    "cord-clear-of-mechanism": _always("A cord would lie where a chair could crush it."),
    "cord-in-walkway": _always("A cord would lie across a walkway."),
    "cord-through-doorway": _always("A cord would lie across a doorway."),
    "plug-share": _always(_PLUG),
    "socket-limit": _always(_PLUG),
    "cord-wire": _always(_PLUG),
    "coupler-rating": _always(_PLUG),
    "chain-current": _always(_PLUG),
    "chain-count": _always("More chairs would hang on one cord than the chair's maker allows."),
    "extension-rating": _always("An extension cord would carry more than it may."),
    "fastened-half": _always(
        "Bolted-down seats may take no more than half of a circuit that feeds other things too."
    ),
    _NO_PLACE: _no_place,
}
