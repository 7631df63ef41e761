"""The CAD file opened by GDAL, which shares no code with what writes it."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
import shapely
from pyogrio import raw

from powerplan.inputs.plan_file import read_plan_file
from powerplan.model.plan import Plan
from powerplan.planning.pipeline import make_plan
from powerplan.rulebook.loader import rule_set
from powerplan.sheets.documents import set_of_sheets, views_of
from powerplan.sheets.layers import layer
from powerplan.sheets.paper import A4
from powerplan.sheets.writers.dxf import dxf_bytes

EXAMPLES = Path(__file__).parents[2] / "examples"
UNITS = {"media-loft": 0.0254, "three-row-cinema": 0.0254, "metric-lounge": 0.001}
"""Plans, and the meters of one unit of their drawings."""


class Drawn(NamedTuple):
    """One thing as GDAL saw it, in meters."""

    layer: str
    words: str
    shape: shapely.Geometry


class Opened(NamedTuple):
    """A plan and its CAD file as GDAL saw it."""

    plan: Plan
    things: tuple[Drawn, ...]

    def on(self, key: str) -> Iterator[Drawn]:
        return (one for one in self.things if one.layer == layer(key).cad)


@pytest.fixture(scope="module", params=UNITS)
def opened(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Opened:
    read = read_plan_file(EXAMPLES / f"{request.param}.toml", rule_set)
    plan = make_plan(read.spec, rule_set(read.spec.project.rules), read.sha256)
    sheets = set_of_sheets(plan, paper=A4, revision="A", date="2026-03-09")
    file = tmp_path_factory.mktemp("cad") / "sheets.dxf"
    file.write_bytes(dxf_bytes(plan, views_of(sheets), sheets, paper=A4))
    return Opened(plan, tuple(seen(file, UNITS[request.param])))


def seen(file: Path, unit_m: float) -> Iterator[Drawn]:
    meta, _, shapes, columns = raw.read(file)
    column = dict(zip(meta["fields"], columns, strict=True))
    found = zip(column["Layer"], column["Text"], shapely.from_wkb(shapes), strict=True)
    for name, words, shape in found:
        yield Drawn(name, words or "", shapely.transform(shape, lambda at: at * unit_m))


def test_the_walls_stand_where_the_plan_says(opened: Opened):
    walls = shapely.union_all([one.shape for one in opened.on("wall")])
    room = opened.plan.spec.room
    for at in ((0, 0), (room.width_m, 0), (0, room.depth_m), (room.width_m, room.depth_m)):
        assert walls.distance(shapely.Point(at)) < 1e-4


def test_a_sign_stands_about_every_box(opened: Opened):
    signs = [one.shape.centroid for one in opened.on("box")]
    assert opened.plan.boxes
    for box in opened.plan.boxes:
        assert min(sign.distance(shapely.Point(box.x_m, box.y_m)) for sign in signs) < 1e-4


def test_every_chair_box_and_cord_is_named(opened: Opened):
    words = " ".join(one.words for one in opened.things)
    assert opened.plan.chairs
    assert opened.plan.cords
    for chair in opened.plan.chairs:
        assert chair.id in words.split()
    for number, _ in enumerate(opened.plan.cords, 1):
        assert f"cord {number}" in words
    for box in opened.plan.boxes:
        assert box.id in words


def test_every_thing_is_whole(opened: Opened):
    assert all(one.layer and one.shape is not None for one in opened.things)
    assert all(shapely.is_valid(one.shape) and not one.shape.is_empty for one in opened.things)
