"""A set's drawings as one CAD file: real size in model space, a layout for each drawing."""

from __future__ import annotations

import contextlib
import io
import os
import re
import sys
import tempfile
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from powerplan.model.geometry import Point
from powerplan.model.lengths import INCH_M
from powerplan.model.plan import Plan
from powerplan.sheets.layers import Layer, all_layers, layer
from powerplan.sheets.lower import BEYOND_MM, GAP_MM, SLASH_MM
from powerplan.sheets.paper import BLOCK_MM, HEADING_MM, Paper
from powerplan.sheets.parts import Figure
from powerplan.sheets.printed import SetOfSheets
from powerplan.sheets.scene import Dimension, Text, View
from powerplan.sheets.typeset.scales import scale_text
from powerplan.sheets.writers.dxf_items import STYLE, Frame, add_item
from powerplan.sheets.writers.dxf_words import dxf_words, mtext_words

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Paperspace

    from powerplan.sheets.writers.dxf_entities import Entities

_WEIGHTS = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140)
_INCHES, _MILLIMETERS = 1, 4
_APART_MM = 20.0
_SMALL_MM = 1.8
_HAIR_MM = 0.1
_NOT_PRINTED = "A-ANNO-NPLT"
_CACHE_HOME = "XDG_CACHE_HOME"


def dxf_bytes(plan: Plan, views: tuple[View, ...], sheets: SetOfSheets, *, paper: Paper) -> bytes:
    """Return a DXF file (R2010) with every drawing, the same bytes for the same input.

    The first drawing stands where the room is: its origin is the back-left corner, screen up. The
    others stand to the right of it. Drawing units are inches where the plan prints feet or inches,
    else millimeters.

    Parameters
    ----------
    plan : Plan
        The plan, for its units.
    views : tuple of View
        The drawings, in the order of the sheets.
    sheets : SetOfSheets
        For the title block and the names of the layouts.
    paper : Paper
        What each layout is printed on.
    """
    ezdxf = library()
    with _same_bytes(ezdxf):
        document: Document = ezdxf.new("R2010", setup=False)
        inches = plan.spec.project.units in ("ft-in", "in")
        unit_m = float(INCH_M) if inches else 0.001
        _head(document, inches)
        _tables(document)
        frames = _frames(views, unit_m)
        from powerplan.sheets.writers.dxf_entities import Entities  # builds on the library

        entities = Entities(document.modelspace())
        for view, frame in zip(views, frames, strict=True):
            _draw(entities, document, view, frame, inches)
        _layouts(document, views, frames, sheets, paper)
        for name in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(name)  # the library would add them in the order of a set
        stream = io.StringIO()
        document.write(stream)
    return stream.getvalue().encode(document.output_encoding, errors="replace")


def library() -> Any:
    """Return the library that writes the file; what it has to say while loading is not data."""
    with contextlib.redirect_stdout(io.StringIO()), _no_fonts():
        import ezdxf
    return ezdxf


@contextlib.contextmanager
def _no_fonts() -> Iterator[None]:
    """Let the library find an empty list of fonts when it is first loaded.

    We measure letters ourselves; without this it would read every font of the machine and leave a
    list of them in the user's home.
    """
    if "ezdxf" in sys.modules:
        yield
        return
    before = os.environ.get(_CACHE_HOME)
    with tempfile.TemporaryDirectory() as home:
        folder = os.path.join(home, "ezdxf")
        os.mkdir(folder)
        with open(os.path.join(folder, "font_manager_cache.json"), "w", encoding="utf-8") as file:
            file.write('{"version": 0, "font-faces": []}')
        os.environ[_CACHE_HOME] = home
        try:
            yield
        finally:
            if before is None:
                del os.environ[_CACHE_HOME]
            else:
                os.environ[_CACHE_HOME] = before


@contextlib.contextmanager
def _same_bytes(ezdxf: Any) -> Iterator[None]:
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _head(document: Document, inches: bool) -> None:
    head = document.header
    head["$INSUNITS"] = _INCHES if inches else _MILLIMETERS
    head["$MEASUREMENT"] = 0 if inches else 1
    head["$LUNITS"] = 4 if inches else 2
    head["$LUPREC"] = 4 if inches else 0
    head["$LTSCALE"] = 1.0
    head["$PSLTSCALE"] = 0
    head.custom_vars.append("drawing unit", "1 inch" if inches else "1 millimeter")
    head.custom_vars.append("origin", "back left corner of the room, screen up")


def _tables(document: Document) -> None:
    document.styles.add(STYLE, font="arial.ttf")
    for one in all_layers():
        name = _linetype(document, one)
        made = document.layers.add(one.cad, color=7, linetype=name)
        made.dxf.lineweight = _weight(one.weight_mm)
        made.description = one.meaning
    document.layers.add(_NOT_PRINTED, color=7).dxf.plot = 0


def _linetype(document: Document, one: Layer) -> str:
    """The line type of a layer, its dashes in millimeters of paper."""
    if not one.dash_mm:
        return "CONTINUOUS"
    name = one.key.upper().replace("_", "-")
    signed = [size if n % 2 == 0 else -size for n, size in enumerate(one.dash_mm)]
    document.linetypes.add(name, [sum(one.dash_mm), *signed], description=one.meaning)
    return name


def _weight(weight_mm: float) -> int:
    return min(_WEIGHTS, key=lambda weight: abs(weight - weight_mm * 100))


def _frames(views: tuple[View, ...], unit_m: float) -> tuple[Frame, ...]:
    """Where each view stands: the first in place, each next one to the right of the one before."""
    frames: list[Frame] = []
    free_m = None
    for view in views:
        shift_m = 0.0 if free_m is None else free_m - view.bounds.left_m
        gap_m = _APART_MM * view.scale / 1000
        free_m = view.bounds.right_m + shift_m + gap_m
        per_mm = view.scale / 1000 / unit_m
        frames.append(
            Frame(unit_per_m=1 / unit_m, unit_per_mm=per_mm, shift=(shift_m / unit_m, 0.0))
        )
    return tuple(frames)


def _draw(entities: Entities, document: Document, view: View, frame: Frame, inches: bool) -> None:
    style = _dimension_style(document, view.scale, frame, inches)
    written = (Text, Dimension)  # last, so that they clear what lies behind them
    for item in sorted(view.items, key=lambda item: isinstance(item, written)):
        add_item(entities, item, frame, document, style)


def _dimension_style(document: Document, scale: int, frame: Frame, inches: bool) -> str:
    name = f"PLAN-{scale}"
    if name in document.dimstyles:
        return name
    size = frame.unit_per_mm
    style = document.dimstyles.add(name)
    style.dxf.dimtxt, style.dxf.dimtsz = 2.0 * size, SLASH_MM / 2 * size
    style.dxf.dimexo, style.dxf.dimexe, style.dxf.dimgap = GAP_MM * size, BEYOND_MM * size, size
    style.dxf.dimlunit, style.dxf.dimzin = (4, 1) if inches else (2, 8)
    style.dxf.dimrnd, style.dxf.dimdec = (0.125, 4) if inches else (1.0, 0)
    style.dxf.dimclrd = style.dxf.dimclre = style.dxf.dimclrt = 256
    style.dxf.dimtxsty, style.dxf.dimtad, style.dxf.dimtfill = STYLE, 0, 1
    style.dxf.dimtih, style.dxf.dimtoh = 0, 0  # words lie along their line
    return name


def _layouts(
    document: Document,
    views: tuple[View, ...],
    frames: tuple[Frame, ...],
    sheets: SetOfSheets,
    paper: Paper,
) -> None:
    names = _names(sheets)
    for view, frame, (page, name) in zip(views, frames, names, strict=True):
        size = _sheet_for(view, paper)
        layout = document.layouts.new(name)
        layout.page_setup(
            size=(size.width_mm, size.height_mm),
            margins=(0, 0, 0, 0),
            units="mm",
            name="",
            device="",
        )
        layout.dxf.layout_flags = 0
        _viewport(layout, view, frame, size)
        _title_block(layout, view, page, sheets, size)
    if names:
        document.layouts.delete("Layout1")


def _names(sheets: SetOfSheets) -> list[tuple[str, str]]:
    """For each drawing its page and which drawing of it, and a name for its layout that no other
    has."""
    names: list[tuple[str, str]] = []
    for page in sheets.pages:
        figures = [part for part in page.parts if isinstance(part, Figure)]
        for count, figure in enumerate(figures, start=1):
            which = f" drawing {count}" if len(figures) > 1 else ""
            title = re.sub(r'[<>/\\":;?*|,=`]', "-", dxf_words(figure.view.title))
            of = f", drawing {count} of {len(figures)}" if which else ""
            names.append((f"page {page.name}{of}", f"page {page.number}{which} {title}"))
    return names


def _sheet_for(view: View, paper: Paper) -> Paper:
    """The paper as it should lie; a drawing too large for it gets a sheet as large as it needs."""
    for lies in (paper, paper.turned):
        wide_mm, high_mm = lies.most_mm
        if view.width_mm <= wide_mm + _HAIR_MM and view.height_mm <= high_mm + _HAIR_MM:
            return lies
    more = (view.width_mm - paper.most_mm[0], view.height_mm - paper.most_mm[1])
    return paper._replace(
        width_mm=paper.width_mm + max(0.0, more[0]), height_mm=paper.height_mm + max(0.0, more[1])
    )


def _viewport(layout: Paperspace, view: View, frame: Frame, paper: Paper) -> None:
    bounds = view.bounds
    middle: Point = frame.place(bounds.middle)
    top_mm = paper.height_mm - paper.margin_mm - HEADING_MM
    layout.add_viewport(
        center=(paper.width_mm / 2, top_mm - view.height_mm / 2),
        size=(view.width_mm, view.height_mm),
        view_center_point=middle,
        view_height=view.height_mm * frame.unit_per_mm,
    )
    for port in layout.query("VIEWPORT"):
        port.dxf.layer = _NOT_PRINTED


def _title_block(
    layout: Paperspace, view: View, page: str, sheets: SetOfSheets, paper: Paper
) -> None:
    frame = layer("frame").cad
    left, right = paper.margin_mm, paper.width_mm - paper.margin_mm
    low, top = paper.margin_mm, paper.height_mm - paper.margin_mm
    corners = [(left, low), (right, low), (right, top), (left, top)]
    layout.add_lwpolyline(corners, close=True, dxfattribs={"layer": frame})
    line_mm = low + BLOCK_MM
    layout.add_line((left, line_mm), (right, line_mm), dxfattribs={"layer": frame})
    words = (
        f"{sheets.project}; {page}; revision {sheets.revision}; {sheets.date}",
        f"{view.title}; scale: {scale_text(view.scale, sheets.units)}; {sheets.rules}",
        f"{sheets.program}; plan file {sheets.plan_hash}",
    )
    for count, text in enumerate(words):
        at = (left + 2, line_mm - 4 - 4 * count)
        layout.add_text(
            dxf_words(text),
            height=_SMALL_MM,
            dxfattribs={"layer": frame, "style": STYLE, "insert": at},
        )
    layout.add_mtext(
        mtext_words(sheets.caution),
        dxfattribs={
            "layer": frame,
            "style": STYLE,
            "char_height": 1.6,
            "width": right - left - 4,
            "insert": (left + 2, line_mm - 14),
            "attachment_point": 1,
        },
    )
