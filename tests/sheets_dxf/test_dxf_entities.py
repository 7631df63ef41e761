"""What is written as group codes, read back by a library of its own."""

import io
import os
import subprocess
import sys
from pathlib import Path

import ezdxf
import pytest
from ezdxf import recover
from support import inch
from test_dxf import EVERY, UPWARD, view, written

from powerplan.sheets.scene import Hatch, Text

HERE = Path(__file__).parent
TESTS = HERE.parent


def drawn(*items):
    """Model space as it is read back."""
    document, auditor = recover.read(io.BytesIO(written(view(items))))
    assert auditor.errors == auditor.fixes == []
    return document.modelspace()


def test_a_wall_is_read_with_its_corners():
    (wall,) = drawn(EVERY[0])
    assert wall.is_closed
    corners = [point for pair in wall.get_points("xy") for point in pair]
    assert corners == pytest.approx([0, 0, 240, 0, 240, 186, 0, 186])


def test_a_circle_and_an_arc_are_read_with_their_turn():
    ring, swing = drawn(*EVERY[1:3])
    assert (ring.dxftype(), swing.dxftype()) == ("CIRCLE", "ARC")
    assert ring.dxf.radius * 0.0254 == pytest.approx(0.1)
    assert (swing.dxf.start_angle, swing.dxf.end_angle) == (0, 90)
    assert swing.dxf.center.x * 0.0254 == pytest.approx(2.0)


def test_a_crossed_hatch_has_two_sets_of_lines_square_to_each_other():
    outline = ((1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0))
    (hatch,) = drawn(Hatch(outline=outline, layer="pinch", angle_deg=30.0, crossed=True))
    one, other = hatch.pattern.lines
    assert (one.angle, other.angle) == (30.0, 120.0)
    assert one.offset.dot(other.offset) == pytest.approx(0, abs=1e-9)
    (edge,) = hatch.paths
    assert [x * 0.0254 for x, *_ in edge.vertices] == pytest.approx([1.0, 2.0, 2.0, 1.0])


@pytest.mark.parametrize("anchor", ["lb", "cm", "rt"])
@pytest.mark.parametrize("angle", [0.0, 30.0])
def test_words_keep_their_anchor_and_turn(anchor: str, angle: float):
    at = (inch(100), inch(50))
    plain = Text(at=at, words="box A2", layer="text", anchor=anchor, angle_deg=angle)
    masked = Text(at=at, words="box A3", layer="text", anchor=anchor, angle_deg=angle, mask=True)
    text, mtext = drawn(plain, masked)
    align, place, _ = text.get_placement()
    names = {"lb": "BOTTOM_LEFT", "cm": "MIDDLE_CENTER", "rt": "TOP_RIGHT"}
    assert align.name == names[anchor]
    assert (place.x, place.y) == pytest.approx((100, 50))
    assert mtext.dxf.attachment_point == {"lb": 7, "cm": 5, "rt": 3}[anchor]
    assert text.dxf.rotation == mtext.dxf.rotation == angle


def test_long_words_with_a_mask_are_read_whole():
    words = " ".join(f"box A{number}" for number in range(1, 120))
    (text,) = drawn(Text(at=(1.0, 1.0), words=words, layer="text", mask=True))
    assert text.text == words
    assert len(words) > 500


def test_a_dimension_has_a_block_of_its_own_lines_and_words():
    one, other = drawn(UPWARD, UPWARD)
    assert one.dxf.geometry != other.dxf.geometry
    kinds = [entity.dxftype() for entity in one.get_geometry_block()]
    assert kinds.count("LINE") == 5
    assert kinds.count("MTEXT") == 1


def test_no_two_entities_have_one_handle_and_the_next_is_free():
    document = ezdxf.read(io.StringIO(written(view(), view(scale=24)).decode()))
    handles = [entity.dxf.handle for entity in document.entitydb.values()]
    assert len(handles) == len(set(handles))
    data = written(view(), view(scale=24)).decode().split("\n")
    seed = int(data[data.index("$HANDSEED") + 2], 16)
    assert seed > max(int(handle, 16) for handle in handles)


def test_another_process_writes_the_same_bytes():
    program = (
        "import hashlib\n"
        "from test_dxf import view, written\n"
        "print(hashlib.sha256(written(view())).hexdigest())\n"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            check=True,
            env={
                **os.environ,
                "PYTHONHASHSEED": seed,
                "PYTHONPATH": os.pathsep.join((str(TESTS.parent), str(TESTS), str(HERE))),
            },
        ).stdout
        for seed in ("1", "2", "3", "4")
    }
    assert len(told) == 1
