"""For whoever is on the phone: will it carry, how many more, what else may be on it."""

from __future__ import annotations

from powerplan.model.lengths import amps_text, plural
from powerplan.model.rules import RuleSet
from powerplan.planning.phone import QuickAnswer
from powerplan.sheets.caution import CAUTION
from powerplan.sheets.local import localized, localizer
from powerplan.sheets.pages.findings import findings_page
from powerplan.sheets.parts import Items, Page, Part, Say, Sheet

_NOT_SAID = "not said"


def quick_sheet(answer: QuickAnswer, rules: RuleSet) -> Sheet:
    """Return the whole answer to the phone question, by the rules that were used."""
    parts: list[Part] = [
        Say(text=answer.sentence),
        Items(lead="", items=_more(answer)),
        Items(lead="What was said:", items=_said(answer)),
    ]
    page = Page(title="The answer", parts=tuple(parts))
    held = findings_page(answer.findings, "ft-in", whole=True)
    about = [f"rules: {rules.edition}"]
    if rules.wiring_method:
        about.append(f"assumed: {rules.wiring_method}")
    sheet = Sheet(
        title="Will it carry the chairs?",
        about=(*about, "No room, cord or box was looked at: that takes a plan file."),
        pages=(page, held),
        caution=CAUTION,
        last=_last(answer),
    )
    return localized(sheet, localizer(rules.id))


def _more(answer: QuickAnswer) -> tuple[str, ...]:
    question = answer.question
    known = question.already_a is not None
    if answer.exit_code == 1:
        told = [_carries(answer, known)]
    else:
        told = [_how_many_more(answer, known), _what_else(answer, known)]
    told += [_flip(answer), _new_circuit(answer), _one_socket(answer)]
    return tuple(text for text in told if text)


def _carries(answer: QuickAnswer, known: bool) -> str:
    alone = "" if known else ", if nothing else is on it"
    return f"This circuit carries {plural(answer.most_chairs, 'such chair')} by load{alone}."


def _how_many_more(answer: QuickAnswer, known: bool) -> str:
    alone = "" if known else " if nothing else is on it"
    return f"How many more: {plural(answer.more_chairs, 'such chair')}{alone}."


def _what_else(answer: QuickAnswer, known: bool) -> str:
    hours = amps_text(answer.if_continuous_a, down=True)
    now_and_then = amps_text(answer.if_not_continuous_a, down=True)
    more = "What more may be on it" if known else "What else may be on it, all told"
    if not _weighs(answer):
        return f"{more}: {hours}."
    return f"{more}: {hours} for hours, or {now_and_then} now and then."


def _weighs(answer: QuickAnswer) -> bool:
    """False where the rules do not ask how long a load lasts."""
    return answer.lasting_counts


def _flip(answer: QuickAnswer) -> str:
    over = any(f.rule == "circuit-load" and f.stops for f in answer.findings)
    if answer.flip_a is None or not over:
        return ""
    alone = "" if answer.question.already_a is not None else " and nothing else is on the circuit"
    return (
        f"It was not said how much of a chair's {amps_text(answer.question.input_a)} lasts 3 h or "
        f"more, so all of it counts as lasting. By load it passes if no more than "
        f"{amps_text(answer.flip_a, down=True)} of it lasts{alone}: give --continuous."
    )


def _new_circuit(answer: QuickAnswer) -> str:
    return (
        f"A new {amps_text(answer.new_breaker_a)} circuit of its own carries "
        f"{plural(answer.new_circuit_chairs, 'such chair')}."
    )


def _one_socket(answer: QuickAnswer) -> str:
    if answer.socket_limit_a is None or answer.socket_chairs is None:
        return ""
    return (
        f"One {amps_text(answer.socket_a)} socket of it may give "
        f"{amps_text(answer.socket_limit_a)}: {plural(answer.socket_chairs, 'such chair')} on one "
        "plug, and only if the chair maker's listed instructions allow that many in a chain."
    )


def _said(answer: QuickAnswer) -> tuple[str, ...]:
    question = answer.question
    if question.already_a is None:
        already = f"{_NOT_SAID}: unknown, not zero"
    else:
        lasting, other = question.already_a
        already = f"{amps_text(lasting)} for hours, {amps_text(other)} now and then"
        if not _weighs(answer):
            already = amps_text(lasting + other)
    lasts = question.continuous_a
    breaker = question.breaker_a
    bolted = {None: f"{_NOT_SAID}: unknown", True: "yes", False: "no"}[question.fastened]
    part = f"{_NOT_SAID}: all of it" if lasts is None else amps_text(lasts)
    return (
        f"chairs: {question.chairs} of {amps_text(question.input_a)} each",
        *((f"of which lasts 3 h or more: {part}",) if _weighs(answer) else ()),
        f"breaker: {f'{_NOT_SAID}: unknown' if breaker is None else amps_text(breaker)}",
        f"wire: {question.wire or f'{_NOT_SAID}: unknown'}",
        f"already on it: {already}",
        *((f"bolted down: {bolted}",) if answer.bolting_counts else ()),
    )


def _last(answer: QuickAnswer) -> str:
    chairs = plural(answer.question.chairs, "chair")
    if answer.exit_code == 0:
        return f"Verdict: yes, this circuit carries {chairs}."
    if answer.exit_code == 1:
        return f"Verdict: no, not {chairs} on this circuit as it is."
    return f"Verdict: yes for {chairs}, but only if what is named above holds."
