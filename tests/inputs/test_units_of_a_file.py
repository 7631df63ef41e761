"""The same room in inches and in millimeters is the same room."""

import re
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from plan_texts import EVERY_KEY, read

from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set

_LENGTH = re.compile(r'"(?:([0-9]+) ft ?)?(?:([0-9.]+(?: [0-9]+/[0-9]+)?|[0-9]+/[0-9]+) in)?"')


def in_millimeters(text: str) -> str:
    """A plan text with every length in feet and inches as exact millimeters."""

    def metric(found: re.Match[str]) -> str:
        if not found[1] and not found[2]:
            return found[0]
        inches = Fraction(found[1] or 0) * 12
        inches += sum((Fraction(part) for part in (found[2] or "0").split()), Fraction(0))
        return f'"{Decimal((inches * 254).numerator) / (inches * 254).denominator / 10} mm"'

    return _LENGTH.sub(metric, text).replace('units = "ft-in"', 'units = "mm"')


def planned(text: str) -> Plan:
    spec = read(text)
    return make_plan(spec, rule_set(spec.project.rules), "0" * 64)


@pytest.mark.published(source="1 in is 25.4 mm, exactly, since 1959", standing="published copy")
def test_a_file_in_millimeters_gives_the_plan_of_one_in_inches():
    metric = in_millimeters(EVERY_KEY)
    assert " ft" not in re.sub("#.*", "", metric)
    here, there = planned(EVERY_KEY), planned(metric)
    same = replace(there.spec, project=here.spec.project, assumed=here.spec.assumed)
    assert same == here.spec
    assert there.cords == here.cords
    assert there.circuits == here.circuits
    assert [step.works for step in there.decision.steps] == [s.works for s in here.decision.steps]
    # marks go to 1/8 in or to 5 mm: apart by no more than both steps
    for one, other in zip(here.boxes, there.boxes, strict=True):
        assert abs(one.x_m - other.x_m) <= 0.005 + 0.003175
        assert abs(one.y_m - other.y_m) <= 0.005 + 0.003175
