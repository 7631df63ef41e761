"""The CAD file: real size, right layers, real dimensions, readable by others."""

import io
import math
from dataclasses import replace

import ezdxf
import pytest
from ezdxf import recover
from group_codes import Entity, entities, header
from sample_plan import sample_plan
from support import inch

from powerplan.model.geometry import Rect
from powerplan.model.plan import Plan
from powerplan.sheets.layers import layer
from powerplan.sheets.paper import LETTER
from powerplan.sheets.parts import Figure
from powerplan.sheets.printed import SetOfSheets, SheetPage
from powerplan.sheets.scene import Arc, Dimension, Hatch, Item, Line, Text, View
from powerplan.sheets.writers.dxf import dxf_bytes

WALL_M, DEPTH_M = inch(240), inch(186)
WALLS = Line(
    points=((0.0, 0.0), (WALL_M, 0.0), (WALL_M, DEPTH_M), (0.0, DEPTH_M)),
    layer="wall",
    closed=True,
)
ROUND = Arc(center=(1.0, 1.0), radius_m=0.1, start_deg=0, end_deg=360, layer="box")
SWING = Arc(center=(2.0, 1.0), radius_m=0.8, start_deg=0, end_deg=90, layer="door")
LINED = Hatch(outline=((1.0, 1.0), (2.0, 1.0), (2.0, 2.0)), layer="pinch", spacing_mm=1.5)
INKED = Hatch(outline=((3.0, 1.0), (3.5, 1.0), (3.5, 2.0)), layer="box", spacing_mm=0)
ACROSS = Dimension(
    start=(0.0, 0.0),
    end=(inch("300/4"), 0.0),
    along="x",
    line_at=-0.3,
    words="6'-3″",
    words_at=(1.0, -0.3),
)
UPWARD = Dimension(
    start=(0.0, 0.0), end=(0.0, 1.0), along="y", line_at=-0.3, words="1 m", words_at=(-0.3, 0.5)
)
NAMED = Text(at=(2.0, 2.0), words="box A2", layer="text", height_mm=2.5)
MASKED = Text(at=(2.0, 2.5), words="A{2}", layer="text", height_mm=2.5, mask=True, anchor="lt")
EVERY = (WALLS, ROUND, SWING, LINED, INKED, ACROSS, UPWARD, NAMED, MASKED)


def view(items: tuple[Item, ...] = EVERY, scale: int = 48) -> View:
    bounds = Rect(left_m=-0.6, right_m=WALL_M + 0.6, back_m=-0.6, front_m=DEPTH_M + 0.6)
    return View(title="A room", description="All of it.", scale=scale, bounds=bounds, items=items)


def sheets_with(*views: View, project: str = "A test room") -> SetOfSheets:
    figures = tuple(Figure(view=one) for one in views)
    page = SheetPage(number="2", title="Floor boxes", reader="electrician", parts=figures)
    return SetOfSheets(
        project=project,
        revision="A",
        date="2026-03-09",
        program="powerplan 0.1.0",
        rules="us-nec-2023",
        plan_hash="0" * 64,
        caution="Power off. " * 30,
        units="ft-in",
        scale_words="",
        pages=(page,),
    )


def written(*views: View, units: str = "ft-in", project: str = "A test room") -> bytes:
    return dxf_bytes(in_units(units), views, sheets_with(*views, project=project), paper=LETTER)


def in_units(units: str) -> Plan:
    plan = sample_plan()
    project = replace(plan.spec.project, units=units)
    return replace(plan, spec=replace(plan.spec, project=project))


def on_layer(data: bytes, key: str) -> list[Entity]:
    return [one for one in entities(data) if one.first(8) == layer(key).cad]


def test_the_file_audits_clean():
    document, auditor = recover.read(io.BytesIO(written(view(), view(scale=24))))
    assert document.dxfversion == "AC1024"
    assert auditor.errors == []
    assert auditor.fixes == []


@pytest.mark.parametrize(("units", "code", "unit_m"), [("ft-in", "1", 0.0254), ("mm", "4", 0.001)])
def test_a_wall_has_its_length_in_the_units_of_the_header(units: str, code: str, unit_m: float):
    data = written(view(), units=units)
    assert header(data)["$INSUNITS"] == code
    (walls,) = on_layer(data, "wall")
    assert walls.kind == "LWPOLYLINE"
    assert walls.first(70) == "1"
    (x0, y0), (x1, y1) = walls.corners[:2]
    assert math.hypot(x1 - x0, y1 - y0) * unit_m == pytest.approx(WALL_M, abs=1e-7)
    assert (x0, y0) == (0.0, 0.0)


def test_nothing_is_lowered():
    kinds = [one.kind for one in entities(written(view()))]
    told = {kind: kinds.count(kind) for kind in ("CIRCLE", "ARC", "HATCH", "DIMENSION")}
    assert told == {"CIRCLE": 1, "ARC": 1, "HATCH": 2, "DIMENSION": 2}


def test_every_thing_is_on_the_layer_of_its_kind():
    data = written(view())
    for item in EVERY:
        assert on_layer(data, item.layer), item
    known = {layer(item.layer).cad for item in EVERY} | {layer("frame").cad, "A-ANNO-NPLT", "0"}
    assert {one.first(8) for one in entities(data)} <= known
    assert {one.first(8) for one in entities(data, "BLOCKS") if one.kind in ("LINE", "MTEXT")} <= {
        layer("dimension").cad
    }


def test_layers_carry_weight_and_line_type():
    document = ezdxf.read(io.StringIO(written(view()).decode()))
    cord = document.layers.get(layer("cord").cad)
    assert cord.dxf.lineweight == 60
    link = document.layers.get(layer("link").cad)
    assert link.dxf.linetype == "LINK"
    dashes = [tag.value for tag in document.linetypes.get("LINK").pattern_tags.tags if tag[0] == 49]
    assert dashes == [3.0, -1.2]


def test_dashes_are_millimeters_of_paper_at_the_scale_of_the_drawing():
    data = written(view())
    (walls,) = on_layer(data, "wall")
    # 1 mm of paper at 1:48 is 48 mm of floor.
    assert float(walls.first(48)) * 25.4 == pytest.approx(48)


def test_a_dimension_says_our_words_and_measures_the_truth():
    first, second = (one for one in entities(written(view())) if one.kind == "DIMENSION")
    assert first.first(1) == "6'-3\""
    assert float(first.first(42)) == pytest.approx(75)
    assert float(first.first(13)) == pytest.approx(0)
    assert float(first.first(14)) == pytest.approx(75)
    assert float(second.first(50)) == 90
    assert float(second.first(53)) == 90
    assert first.all(53) == []  # not turned
    assert float(second.first(42)) == pytest.approx(1 / 0.0254)


def test_a_hatch_has_lines_as_far_apart_as_on_paper():
    lined, inked = (one for one in entities(written(view())) if one.kind == "HATCH")
    assert (lined.first(70), inked.first(70)) == ("0", "1")
    (dx,), (dy,) = lined.all(45), lined.all(46)
    assert math.hypot(float(dx), float(dy)) * 25.4 == pytest.approx(1.5 * 48)


def test_letters_are_as_high_as_on_paper():
    (text,) = (one for one in on_layer(written(view()), "text") if one.kind == "TEXT")
    assert text.first(1) == "box A2"
    assert float(text.first(40)) * 25.4 == pytest.approx(2.5 * 48)


def test_words_of_a_masked_text_keep_their_braces():
    (text,) = (one for one in on_layer(written(view()), "text") if one.kind == "MTEXT")
    assert text.first(1) == "A\\{2\\}"
    assert text.first(90) == "3"


def test_a_second_drawing_stands_beside_the_first():
    data = written(view(), view())
    first, second = on_layer(data, "wall")
    right = max(x for x, _ in first.corners)
    assert min(x for x, _ in second.corners) > right
    assert min(y for _, y in second.corners) == 0


def test_there_is_a_layout_for_each_drawing_with_its_view_to_scale():
    document = ezdxf.read(io.StringIO(written(view(), view(scale=24)).decode()))
    names = [name for name in document.layout_names() if name != "Model"]
    assert names == ["page 2 drawing 1 A room", "page 2 drawing 2 A room"]
    for name, scale in zip(names, (48, 24), strict=True):
        (port,) = (p for p in document.layout(name).query("VIEWPORT") if p.dxf.id != 1)
        # drawing units (inches) seen over millimeters of paper
        assert port.dxf.view_height * 25.4 / port.dxf.height == pytest.approx(scale)
    for count, name in enumerate(names, 1):
        told = " ".join(text.dxf.text for text in document.layout(name).query("TEXT"))
        assert f"page 2 Floor boxes, drawing {count} of 2;" in told


def test_every_layout_carries_the_caution_and_the_title_block():
    document = ezdxf.read(io.StringIO(written(view(), project="Café 50 %%d").decode()))
    layout = document.layout("page 2 A room")
    told = " ".join(text.dxf.text for text in layout.query("TEXT"))
    for words in (
        "Cafe 50 % %d",
        "page 2 Floor boxes;",
        "revision A",
        "2026-03-09",
        "us-nec-2023",
        "0" * 64,
    ):
        assert words in told
    assert "Power off." in layout.query("MTEXT").first.text


def test_the_same_input_gives_the_same_bytes():
    assert written(view()) == written(view())
    assert ezdxf.options.write_fixed_meta_data_for_testing is False


def test_a_set_without_drawings_is_still_a_file():
    document, auditor = recover.read(io.BytesIO(written()))
    assert auditor.errors == []
    assert len(document.modelspace()) == 0


def test_a_plain_room_is_written_in_ascii():
    assert written(view()).isascii()
