"""The phone question, with no plan file: will this circuit carry these chairs?

Pure arithmetic on fractions; what was left out is unknown, never zero. It imports no spec of a
room, and its words are named tuples, quicker to load than dataclasses: the phone does not wait.
"""

from __future__ import annotations

import math
from fractions import Fraction

from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import amps_text, plural
from powerplan.model.rules import RuleSet
from powerplan.planning.phone import CIRCUIT, Amperes, QuickAnswer, QuickQuestion


def quick_answer(question: QuickQuestion, rules: RuleSet) -> QuickAnswer:
    """Return whether the circuit carries the chairs, how many more, and what else may be on it.
    The exit code is 0 where it works, 1 where not, 4 where it hangs on what is unknown.

    Parameters
    ----------
    question : QuickQuestion
        What was said. [A]
    rules : RuleSet
        Lends factors, breakers, wires and sockets.

    Raises
    ------
    ValueError
        If there is no chair, or one that takes no current or less than its continuous part.
    """
    _refuse_nonsense(question)
    breaker_a = question.breaker_a or _least_that_does(question, rules)
    each_a = _each_a(question, rules)
    chairs_ask_a = question.chairs * each_a
    already_a = _demand_a(question.already_a, rules)
    free_a = breaker_a - already_a
    spare_a = free_a - chairs_ask_a
    most = _most_chairs(question, free_a, breaker_a, rules)
    socket_a = _least_socket_a(breaker_a, rules)
    socket_limit_a = _plug_limit_a(breaker_a, socket_a, rules)
    findings = _findings(question, breaker_a, spare_a, rules)
    stops = any(finding.stops for finding in findings)
    conditions = () if stops else _conditions(question, findings, breaker_a, spare_a, rules)
    new_breaker_a = rules.exact("usual_breaker")
    return QuickAnswer(
        question=question,
        breaker_a=breaker_a,
        chairs_ask_a=chairs_ask_a,
        spare_a=spare_a,
        if_continuous_a=spare_a / rules.continuous_factor,
        if_not_continuous_a=spare_a,
        most_chairs=most,
        more_chairs=max(0, most - question.chairs),
        new_breaker_a=new_breaker_a,
        new_circuit_chairs=math.floor(new_breaker_a / each_a),
        socket_a=socket_a,
        socket_limit_a=socket_limit_a,
        socket_chairs=(
            None if socket_limit_a is None else math.floor(socket_limit_a / question.input_a)
        ),
        flip_a=_flip_a(question, free_a, rules),
        lasting_counts=rules.weighs_lasting,
        bolting_counts=rules.has("fastened-half"),
        findings=findings,
        conditions=conditions,
        exit_code=1 if stops else 4 if conditions else 0,
        sentence=_sentence(question, findings, chairs_ask_a, breaker_a, already_a, conditions),
    )


def _refuse_nonsense(question: QuickQuestion) -> None:
    if question.chairs < 1 or question.input_a <= 0:
        raise ValueError("give at least one chair, and an input of more than 0 A")
    if question.continuous_a is not None and question.continuous_a > question.input_a:
        raise ValueError(
            f"continuous is {amps_text(question.continuous_a)}, more than the chair's whole input "
            f"of {amps_text(question.input_a)}; give the part of it that lasts 3 h or more"
        )


def _demand_a(load_a: Amperes | None, rules: RuleSet) -> Fraction:
    """What a (lasting, other) load asks of the breaker; an unknown one is not counted here."""
    lasting_a, other_a = load_a or (Fraction(0), Fraction(0))
    return rules.continuous_factor * lasting_a + other_a


def _least_socket_a(breaker_a: Fraction, rules: RuleSet) -> Fraction:
    """The smallest socket that the circuit may have; its own size where the table has no row."""
    fitting = [row.socket_a for row in rules.sockets if row.circuit_a == breaker_a]
    return min(fitting, default=breaker_a)


def _each_a(question: QuickQuestion, rules: RuleSet) -> Fraction:
    lasts_a = question.input_a if question.continuous_a is None else question.continuous_a
    return _demand_a((lasts_a, question.input_a - lasts_a), rules)


def _least_that_does(question: QuickQuestion, rules: RuleSet) -> Fraction:
    """The smallest breaker that carries what is known; the largest of all where none does."""
    asks_a = question.chairs * _each_a(question, rules)
    asks_a += _demand_a(question.already_a, rules)
    sizes = _for_chair_plugs(rules)
    return min((size for size in sizes if size >= asks_a), default=sizes[-1])


def _for_chair_plugs(rules: RuleSet) -> tuple[Fraction, ...]:
    """The breakers whose circuits may have sockets that an ordinary chair plug fits."""
    plug_a = rules.exact("usual_socket")
    return tuple(size for size in rules.breakers_a if rules.socket_limit_a(size, plug_a))


def _shares(question: QuickQuestion, rules: RuleSet) -> bool:
    """Whether the half rule for bolted-down seats has to be looked at."""
    if not rules.has("fastened-half"):
        return False
    alone = question.already_a is not None and sum(question.already_a) == 0
    return question.fastened is not False and not alone


def _most_chairs(
    question: QuickQuestion, free_a: Fraction, breaker_a: Fraction, rules: RuleSet
) -> int:
    most = math.floor(free_a / _each_a(question, rules))
    if question.fastened and _shares(question, rules):
        half_a = rules.exact("fastened_share") * breaker_a
        most = min(most, math.floor(half_a / question.input_a))
    return max(0, most)


def _plug_limit_a(breaker_a: Fraction, socket_a: Fraction, rules: RuleSet) -> Fraction | None:
    limit_a = rules.socket_limit_a(breaker_a, socket_a)
    if limit_a is None:
        return None
    if not rules.has("plug-share"):
        return limit_a
    return min(limit_a, rules.exact("one_plug_share") * breaker_a)


def _flip_a(question: QuickQuestion, free_a: Fraction, rules: RuleSet) -> Fraction | None:
    """The most that may last, where all of it was only taken to last and that is too much."""
    extra = rules.continuous_factor - 1
    left_a = free_a - question.chairs * question.input_a
    if question.continuous_a is not None or extra <= 0 or left_a < 0:
        return None
    flip_a = left_a / (question.chairs * extra)
    return flip_a if flip_a < question.input_a else None


def _findings(
    question: QuickQuestion, breaker_a: Fraction, spare_a: Fraction, rules: RuleSet
) -> tuple[Finding, ...]:
    socket_a = _least_socket_a(breaker_a, rules)
    limit_a = rules.socket_limit_a(breaker_a, socket_a)
    one = "one chair's plug"
    shares: tuple[Finding, ...] = ()
    if rules.has("plug-share"):
        share_a = rules.exact("one_plug_share") * breaker_a
        shares = (hold(rules.rules["plug-share"], one, question.input_a, share_a),)
    return (
        _load_finding(question, breaker_a, spare_a, rules),
        *_half_finding(question, breaker_a, rules),
        *shares,
        hold(rules.rules["socket-limit"], one, question.input_a, limit_a),
        _breaker_finding(question, rules),
        *_plug_fits(breaker_a, rules),
        _wire_finding(question, breaker_a, rules),
    )


def _plug_fits(breaker_a: Fraction, rules: RuleSet) -> tuple[Finding, ...]:
    """A chair's plug fits no socket that a large circuit may have."""
    plug_a = rules.exact("usual_socket")
    if breaker_a not in rules.breakers_a or breaker_a in _for_chair_plugs(rules):
        return ()
    sizes = f"a {amps_text(plug_a)} socket, and a {amps_text(breaker_a)} circuit"
    rule, least_a = rules.rules["socket-matches-circuit"], _least_socket_a(breaker_a, rules)
    note = f"A chair's plug fits {sizes} may not have one."
    return (hold(rule, CIRCUIT, plug_a, least_a, note=note),)


def _load_finding(
    question: QuickQuestion, breaker_a: Fraction, spare_a: Fraction, rules: RuleSet
) -> Finding:
    """Too much is too much even when something is unknown; enough is only then enough when not."""
    known = question.breaker_a is not None and question.already_a is not None
    return hold(
        rules.rules["circuit-load"],
        CIRCUIT,
        breaker_a - spare_a,
        breaker_a,
        checked=known or spare_a < 0,
        note="" if question.already_a is not None else "What is already on it is not counted.",
    )


def _half_finding(
    question: QuickQuestion, breaker_a: Fraction, rules: RuleSet
) -> tuple[Finding, ...]:
    if not _shares(question, rules):
        return ()
    value_a, limit_a = question.chairs * question.input_a, rules.exact("fastened_share") * breaker_a
    checked = (question.fastened and question.already_a is not None) or value_a <= limit_a
    return (hold(rules.rules["fastened-half"], CIRCUIT, value_a, limit_a, checked=bool(checked)),)


def _breaker_finding(question: QuickQuestion, rules: RuleSet) -> Finding:
    rule, breaker_a = rules.rules["breaker-size"], question.breaker_a
    if breaker_a is None:
        return hold(rule, CIRCUIT, None, None, note="Read the number on the breaker's handle.")
    limit = min((size for size in rules.breakers_a if size >= breaker_a), default=math.inf)
    sizes = ", ".join(f"{float(size):g}" for size in rules.breakers_a)
    note = "" if limit == breaker_a else f"Such breakers come in {sizes} A; read the handle again."
    return hold(rule, CIRCUIT, breaker_a, limit, note=note)


def _wire_finding(question: QuickQuestion, breaker_a: Fraction, rules: RuleSet) -> Finding:
    """The thinnest wire a circuit may have needs no looking at behind the smallest breakers."""
    rule, said = rules.rules["wire-matches-breaker"], question.breaker_a is not None
    if question.wire is None:
        branch = [wire.max_breaker_a for wire in rules.wires.values() if wire.max_breaker_a]
        needless = said and breaker_a <= min(branch)
        return hold(rule, CIRCUIT, breaker_a, min(branch) if needless else None)
    wire = rules.wires[question.wire]
    limit_a = wire.max_breaker_a or Fraction(0)
    if wire.hangs_on_laying(breaker_a):
        return hold(rule, CIRCUIT, breaker_a, limit_a, checked=False)
    note = ""
    if breaker_a > limit_a:
        note = (
            f"A {amps_text(breaker_a)} breaker lets {question.wire} overheat. An electrician "
            "corrects this before anything is plugged in."
        )
    checked = said or breaker_a > limit_a
    return hold(rule, CIRCUIT, breaker_a, limit_a, note=note, checked=checked)


def _conditions(
    question: QuickQuestion,
    findings: tuple[Finding, ...],
    breaker_a: Fraction,
    spare_a: Fraction,
    rules: RuleSet,
) -> tuple[str, ...]:
    hangs = {finding.rule for finding in findings if finding.hangs}
    told = []
    if "breaker-size" in hangs:
        told.append(
            f"the breaker is {amps_text(breaker_a)} or more (read the number on its handle)"
        )
    if "circuit-load" in hangs and question.already_a is None:
        told.append(_load_condition(spare_a, rules))
    if "fastened-half" in hangs:
        told.append(_half_condition(question))
    if "socket-limit" in hangs:
        told.append(f"an electrician names a socket for a {amps_text(breaker_a)} circuit")
    if "wire-matches-breaker" in hangs:
        told.append(_wire_condition(question, breaker_a, rules))
    return tuple(told)


def _wire_condition(question: QuickQuestion, breaker_a: Fraction, rules: RuleSet) -> str:
    if question.wire is not None:
        wire = rules.wires[question.wire]
        if question.breaker_a is not None and wire.hangs_on_laying(breaker_a):
            return (
                f"its {wire.name} is laid well enough to carry {amps_text(breaker_a)} (an "
                "electrician looks)"
            )
        limit_a = wire.max_breaker_a or Fraction(0)
        return f"the breaker is no more than {amps_text(limit_a)}, the most for {question.wire}"
    if question.breaker_a is None:
        return "its wire is thick enough for its breaker (an electrician looks at the panel)"
    wires = [wire for wire in rules.wires.values() if (wire.max_breaker_a or 0) >= breaker_a]
    thinnest = min(wires, key=lambda wire: wire.rank).name
    return f"its wire is {thinnest} or thicker (an electrician looks at the panel)"


def _load_condition(spare_a: Fraction, rules: RuleSet) -> str:
    if spare_a == 0:
        return "nothing at all is on it already"
    most = amps_text(spare_a, down=True)
    if rules.weighs_lasting:
        hours_a = spare_a / rules.continuous_factor
        most = f"{amps_text(hours_a, down=True)} is already on it for hours, or {most} now and then"
    else:
        most += " is already on it"
    return f"nothing more than {most} (have it measured)"


def _half_condition(question: QuickQuestion) -> str:
    loose, alone = "the chairs are not bolted down", "nothing else at all is on this circuit"
    if question.fastened:
        return alone
    return loose if question.already_a is not None else f"{loose}, or {alone}"


def _sentence(
    question: QuickQuestion,
    findings: tuple[Finding, ...],
    chairs_ask_a: Fraction,
    breaker_a: Fraction,
    already_a: Fraction,
    conditions: tuple[str, ...],
) -> str:
    verb = "asks" if question.chairs == 1 else "ask"
    chairs = f"{plural(question.chairs, 'chair')} of {amps_text(question.input_a)} {verb} for"
    besides = f", what is on it already for {amps_text(already_a)}" if already_a else ""
    asks = f"{chairs} {amps_text(chairs_ask_a)}{besides}, of {amps_text(breaker_a)}."
    stops = {finding.rule: finding.requirement for finding in findings if finding.stops}
    if stops:
        over = " That is too much." if stops.pop("circuit-load", None) else ""
        other = f" Not met: {'; '.join(stops.values())}." if stops else ""
        return f"No. {asks}{over}{other}"
    if conditions:
        return f"Yes, if {'; and if '.join(conditions)}. {asks}"
    return f"Yes. {asks}"
