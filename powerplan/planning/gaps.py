"""What cords do to each other: sharing a gap, and crossing."""

from __future__ import annotations

from powerplan.engineering.cords.crossings import (
    crossings,
    gap_use,
    gap_width_m,
    width_for_cords_m,
)
from powerplan.model.findings import Finding, hold
from powerplan.model.geometry import Point
from powerplan.model.lengths import joined
from powerplan.planning.loads import Way
from powerplan.planning.site import Site


def shared_gaps(site: Site, way: Way) -> tuple[Finding, ...]:
    """Hold every strip that more than one cord passes against the width that they take."""
    strips = tuple(opening for opening in site.zones.openings if opening.kind != "clear")
    used = gap_use(_laid(way), tuple(strip.outline for strip in strips))
    findings = []
    for place, cords in used.items():
        if len(cords) < 2:
            continue
        strip = strips[place]
        needed_m = width_for_cords_m(len(cords), site.spec.cords.diameter_m, site.rules)
        findings.append(
            hold(
                site.rules.rules["gap-shared"],
                f"{strip.kind} at {strip.chair}",
                needed_m,
                gap_width_m(strip),
                note=f"{joined(cords)} share it.",
            )
        )
    return tuple(findings)


def crossing_findings(site: Site, way: Way) -> tuple[Finding, ...]:
    """Count the places where one cord lies over another."""
    found = crossings(_laid(way))
    rule = site.rules.rules["cords-cross"]
    pairs = [f"{place.one} over {place.other}" for place in found]
    note = f"{joined(pairs)}: cross them where both can be seen." if pairs else ""
    return (hold(rule, "all cords", len(found), 0, note=note),)


def _laid(way: Way) -> list[tuple[str, tuple[Point, ...]]]:
    return [(leg.id, leg.path) for fed in way.fed for run in fed.runs for leg in run.legs]
