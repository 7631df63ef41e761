"""What each circuit carries in one way of feeding the chairs, and whether it may."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from powerplan.engineering.circuits.load import demand_a, known_load_a
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.model.findings import Finding, hold
from powerplan.model.lengths import amps_text, joined
from powerplan.model.spec import Circuit
from powerplan.planning.leads import Leg
from powerplan.planning.runs import Run
from powerplan.planning.site import Feed, Site


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed:
    """One feed, the runs plugged into it, and the circuit behind it."""

    feed: Feed
    runs: tuple[Run, ...]
    circuit: str
    new_circuit: bool

    @property
    def chairs(self) -> tuple[SeatedChair, ...]:
        """Every chair it feeds, in the order of the runs."""
        return tuple(chair for run in self.runs for chair in run.chairs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way of feeding every chair. ``rank`` is what was minimised; see the engine."""

    fed: tuple[Fed, ...]
    rank: tuple[object, ...]
    proved: bool

    @property
    def new_circuits(self) -> tuple[str, ...]:
        """The names of the new circuits, in order."""
        return tuple(dict.fromkeys(fed.circuit for fed in self.fed if fed.new_circuit))

    @property
    def new_outlets(self) -> tuple[Fed, ...]:
        """The feeds that are new."""
        return tuple(fed for fed in self.fed if fed.feed.circuit is None)

    @property
    def extensions(self) -> int:
        """How many extension cords it takes."""
        return sum(run.extensions for fed in self.fed for run in fed.runs)

    @property
    def longer(self) -> tuple[Leg, ...]:
        """The cords that are bought from a maker in place of shorter ones."""
        legs = (leg for fed in self.fed for run in fed.runs for leg in run.legs)
        return tuple(leg for leg in legs if leg.longer)

    @property
    def cord_m(self) -> float:
        """All routed cord. [m]"""
        return sum(run.routed_um for fed in self.fed for run in fed.runs) / 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitLoad:
    """What a circuit carries. ``existing`` is None for a new one. [A]"""

    id: str
    existing: Circuit | None
    breaker_a: Fraction
    chairs: tuple[SeatedChair, ...]
    continuous_a: Fraction
    other_a: Fraction
    asks_a: Fraction
    fastened_a: Fraction
    feeds_other: bool

    @property
    def load_known(self) -> bool:
        """False where what was on it already is unknown."""
        return self.existing is None or self.existing.already_on_it is not None

    @property
    def spare_a(self) -> Fraction:
        """What is left by load alone, before anything unknown. [A]"""
        return self.breaker_a - self.asks_a


def circuit_loads(site: Site, way: Way | None) -> tuple[CircuitLoad, ...]:
    """Return every circuit that is there or is needed, used or not."""
    by_circuit: dict[str, list[SeatedChair]] = {c.id: [] for c in site.spec.circuits}
    if way is not None:
        by_circuit |= {name: [] for name in way.new_circuits}
        for fed in way.fed:
            by_circuit[fed.circuit].extend(fed.chairs)
    existing = {circuit.id: circuit for circuit in site.spec.circuits}
    return tuple(
        _circuit_load(site, name, existing.get(name), tuple(chairs))
        for name, chairs in by_circuit.items()
    )


def _circuit_load(
    site: Site, name: str, circuit: Circuit | None, chairs: tuple[SeatedChair, ...]
) -> CircuitLoad:
    already = (Fraction(0), Fraction(0))
    if circuit is not None:
        already = known_load_a(circuit)
    continuous_a = already[0] + sum((c.continuous_a for c in chairs), Fraction(0))
    other_a = already[1] + sum((c.input_a - c.continuous_a for c in chairs), Fraction(0))
    bolted = [c for c in chairs if site.spec.row(c.row).fastened is not False]
    return CircuitLoad(
        id=name,
        existing=circuit,
        breaker_a=site.spec.new_work.breaker_a if circuit is None else site.breaker_a(circuit),
        chairs=chairs,
        continuous_a=continuous_a,
        other_a=other_a,
        asks_a=demand_a(continuous_a, other_a, site.rules),
        fastened_a=sum((c.input_a for c in bolted), Fraction(0)),
        feeds_other=(circuit is not None and circuit.already_on_it != ())
        or len(bolted) < len(chairs),
    )


def load_findings(site: Site, load: CircuitLoad) -> tuple[Finding, ...]:
    """Hold one circuit against the load and half rules; nothing for one that feeds no chair."""
    if not load.chairs:
        return ()
    rules, subject = site.rules, f"circuit {load.id}"
    over = load.asks_a > load.breaker_a
    sure = load.load_known and (load.existing is None or load.existing.breaker_a is not None)
    note = ""
    if over:
        note = f"It would be {amps_text(load.asks_a - load.breaker_a)} over its breaker."
    elif not load.load_known:
        rest = joined(load.existing.not_measured) if load.existing is not None else ""
        note = f"{rest or 'What is on it already'} is not known; have it measured."
    elif not sure:
        note = f"Its breaker is not known; taken as {amps_text(load.breaker_a)}."
    findings = [
        hold(
            rules.rules["circuit-load"],
            subject,
            load.asks_a,
            load.breaker_a,
            note=note,
            checked=sure or over,
        )
    ]
    if load.fastened_a and load.feeds_other and rules.has("fastened-half"):
        findings.append(_half_finding(site, load))
    elif rules.has("fastened-half"):
        findings.extend(_half_unsaid(site, load))
    return tuple(findings)


def _half_unsaid(site: Site, load: CircuitLoad) -> tuple[Finding, ...]:
    """Rows of unknown fastening on a circuit of bolted seats alone: one of them may be loose, and
    then the others may take half. Taking all as bolted would not be the stricter reading."""
    by_row: dict[str, Fraction] = {}
    for chair in load.chairs:
        if site.spec.row(chair.row).fastened is None:
            by_row[chair.row] = by_row.get(chair.row, Fraction(0)) + chair.input_a
    most_a = load.fastened_a - min(by_row.values(), default=load.fastened_a)
    limit_a = site.rules.exact("fastened_share") * load.breaker_a
    if most_a <= limit_a:
        return ()
    note = (
        f"Say of row {joined(list(by_row))} whether it is bolted down: where one is loose, the "
        f"bolted seats beside it may take {amps_text(limit_a, down=True)} of this circuit."
    )
    rule = site.rules.rules["fastened-half"]
    return (hold(rule, f"circuit {load.id}", most_a, limit_a, note=note, checked=False),)


def _half_finding(site: Site, load: CircuitLoad) -> Finding:
    limit_a = site.rules.exact("fastened_share") * load.breaker_a
    note = ""
    if load.fastened_a > limit_a:
        note = "Bolted-down seats may take half of a circuit that also feeds other things."
        unsaid = [row.id for row in site.spec.rows if row.fastened is None]
        if unsaid:
            note += f" Say fastened = false for row {', '.join(unsaid)} if it is not bolted down."
    return hold(
        site.rules.rules["fastened-half"],
        f"circuit {load.id}",
        load.fastened_a,
        limit_a,
        note=note,
    )


def single_sockets(site: Site, way: Way) -> tuple[Finding, ...]:
    """Hold a new outlet of one socket, alone on its circuit, against the circuit's own rating."""
    findings: list[Finding] = []
    if not site.rules.has("socket-alone"):
        return ()
    for name in way.new_circuits:
        feeds = {fed.feed.id: fed.feed for fed in way.fed if fed.circuit == name}
        [feed, *others] = feeds.values()
        if feed.sockets == 1 and not others:
            breaker_a = site.spec.new_work.breaker_a
            findings.append(
                hold(
                    site.rules.rules["socket-alone"],
                    feed.id,
                    feed.rating_a,
                    breaker_a,
                    note=""
                    if feed.rating_a >= breaker_a
                    else "One socket alone on a circuit must be rated as the circuit: give the "
                    "box two sockets, or one of that rating.",
                )
            )
    return tuple(findings)
