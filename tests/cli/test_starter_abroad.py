"""The starter for a metric country plans as it stands, in that country's sizes and words."""

import re
import tomllib

import pytest
from abroad import IEC, plan_of

from powerplan.cli.main import main
from powerplan.cli.new import starter_text
from powerplan.model.lengths import FOOT_M


@pytest.mark.parametrize("job", ["retrofit", "new"])
@pytest.mark.parametrize("chairs", [1, 5, 9])
def test_it_plans_as_it_stands(chairs: int, job: str):
    width_m = max(12, chairs * 3 + 4) * FOOT_M
    plan = plan_of(starter_text("den.toml", chairs, width_m, 15 * FOOT_M, job, IEC.id))
    assert plan.rules.id == IEC.id
    assert plan.decision.exit_code == 0


def test_no_inch_no_gauge_and_no_word_of_another_country_is_left():
    text = starter_text("den.toml", 5, 20 * FOOT_M, 15 * FOOT_M, "retrofit", IEC.id)
    values = re.sub(r"#.*", "", text)
    assert not re.search(r"\b(in|ft|AWG|continuous|fastened)\b", values)
    assert "socket-outlet" in text
    assert "distribution board" in text
    document = tomllib.loads(text)
    assert document["project"] | {"name": ""} == {
        "name": "",
        "job": "retrofit",
        "place": "home",
        "rules": IEC.id,
        "units": "mm",
    }


def test_it_is_written_where_one_says(tmp_path, capsys):
    file = tmp_path / "den.toml"
    assert main(["new", str(file), "--rules", IEC.id]) == 0
    assert main(["decide", str(file)]) == 0
    assert "socket-outlet" in capsys.readouterr().out
    assert main(["new", str(tmp_path / "other.toml"), "--rules", "mars"]) == 2


def test_a_set_holds_the_shops_file_too(tmp_path):
    chair = '[chair.guess]\nlike = "generic-recliner"\n'
    head = 'plan_file = 1\nchairs_from = "ours.toml"\n[room]\nwidth = "18 ft"\ndepth = "14 ft"\n'
    row = '[row.A]\nchair = "guess"\nseats = 2\nheadrest_to_wall = "12 in"\n'
    (tmp_path / "ours.toml").write_text(chair, encoding="utf-8")
    (tmp_path / "den.toml").write_text(head + row, encoding="utf-8")
    main(["sheets", str(tmp_path / "den.toml"), "-o", str(tmp_path / "out")])
    assert (tmp_path / "out" / "revision-A" / "ours.toml").read_text(encoding="utf-8") == chair
    again = ["decide", str(tmp_path / "out" / "revision-A" / "plan.toml")]
    assert main(again) == main(["decide", str(tmp_path / "den.toml")])
