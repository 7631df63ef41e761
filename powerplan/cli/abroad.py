"""The starter for another country: its sizes of wire, breakers and sockets, and a metric tape."""

from __future__ import annotations

import re
from fractions import Fraction

from powerplan.model.lengths import FOOT_M, INCH_M
from powerplan.model.rules import RuleSet

_LENGTH = re.compile(r'"(?:([0-9]+) ft ?)?(?:([0-9]+(?: [0-9]+/[0-9]+)?|[0-9]+/[0-9]+) in)?"')
_AREAS = {"18 AWG": "0.75 mm2", "16 AWG": "1 mm2", "14 AWG": "1.5 mm2", "12 AWG": "2.5 mm2"}
_LASTS = re.compile(r"^continuous = .*\n", re.MULTILINE)
_FASTENED = re.compile(r"^fastened = .*\n", re.MULTILINE)
_FIVE_MM, _FINE_MM = 5, 20


def for_country(text: str, rules: RuleSet) -> str:
    """Return a starter, written in feet and inches for the United States, for a metric country.

    Parameters
    ----------
    text : str
        The starter.
    rules : RuleSet
        The country's rules; what it has no rule for is left out.
    """
    breaker, socket = (
        f"{float(rules.exact(name)):g} A" for name in ("usual_breaker", "usual_socket")
    )
    told = _LENGTH.sub(_metric, text)
    for gauge, area in _AREAS.items():
        told = told.replace(gauge, area)
    told = re.sub(r'(breaker = )"[^"]*"', rf'\1"{breaker}"', told)
    told = re.sub(r'((?:rating|socket_rating) = )"[^"]*"', rf'\1"{socket}"', told)
    told = told.replace("us-nec-2023", rules.id).replace(
        'units = "ft-in"', f'units = "{rules.units}"   '
    )
    if not rules.weighs_lasting:
        told = _LASTS.sub("", told).replace(", continuous", "")
    return told if rules.has("fastened-half") else _FASTENED.sub("", told)


def _metric(found: re.Match[str]) -> str:
    feet, inches = found[1], found[2]
    if feet is None and inches is None:
        return found[0]
    size = Fraction(feet or 0) * FOOT_M
    size += sum((Fraction(part) for part in (inches or "0").split()), Fraction(0)) * INCH_M
    millimeters = round(size * 1000)
    if millimeters > _FINE_MM:
        millimeters = round(size * 1000 / _FIVE_MM) * _FIVE_MM
    return f'"{millimeters} mm"'
