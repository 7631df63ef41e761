"""The five pages of a set, and the drawings on them, from one plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from powerplan.model.plan import Plan
from powerplan.sheets.drawings.details import box_detail_views
from powerplan.sheets.drawings.floor_boxes import floor_box_view
from powerplan.sheets.drawings.legend import legend_view
from powerplan.sheets.drawings.load import load_views
from powerplan.sheets.drawings.row_details import with_row_details
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.local import local_of, localized
from powerplan.sheets.pages.print_boxes import boxes_sheet
from powerplan.sheets.pages.print_circuits import circuits_sheet
from powerplan.sheets.pages.print_cords import cords_sheet
from powerplan.sheets.pages.print_decision import decision_sheet
from powerplan.sheets.pages.print_findings import findings_sheet
from powerplan.sheets.pages.print_rows import set_rows
from powerplan.sheets.paper import BELOW_FIGURE_MM, LEAD_MM, Paper, figure_room_mm
from powerplan.sheets.part_texts import plain_page
from powerplan.sheets.parts import Figure
from powerplan.sheets.printed import SetOfSheets
from powerplan.sheets.typeset.figures import upright_or_turned
from powerplan.sheets.typeset.scales import scale_text
from powerplan.sheets.words import caution_of

if TYPE_CHECKING:
    from powerplan.sheets.scene import View

_AROUND_M = 1.5  # dimensions and names around what is drawn, about


def set_of_sheets(plan: Plan, *, paper: Paper, revision: str, date: str) -> SetOfSheets:
    """Return all that is printed for one plan.

    Parameters
    ----------
    plan : Plan
        The plan.
    paper : Paper
        What it is printed on; drawings take the largest scale that fits.
    revision : str
        The letter of the issued set.
    date : str
        The day of issue, as people read it.
    """
    units = plan.spec.project.units
    floor = floor_box_view(plan, _floor_room_mm(plan, paper))
    large = box_detail_views(plan, paper.figure_room_mm)
    rows = cord_views(plan, *_row_rooms_mm(plan, paper))
    either = sorted((paper.figure_room_mm, paper.turned.figure_room_mm))
    rows = with_row_details(plan, rows, tuple(either))
    others = (
        boxes_sheet(plan, (floor, *large), _legend(plan, (floor, *large), paper)),
        cords_sheet(plan, _with_legend(rows, _legend(plan, rows, paper))),
        circuits_sheet(plan, load_views(plan, paper.figure_room_mm)),
        findings_sheet(plan),
    )
    pages = (decision_sheet(plan, others), *others)
    local = local_of(plan)
    return SetOfSheets(
        project=plan.project,
        revision=revision,
        date=date,
        program=plan.program,
        rules=f"{plan.rules.edition} ({plan.rules.id})",
        plan_hash=plan.plan_file_sha256,
        caution=local(caution_of(plan)),
        units=units,
        scale_words=scale_text(floor.scale, units),
        pages=localized(tuple(plain_page(page, plan) for page in pages), local),
    )


def _legend(plan: Plan, views: tuple[View, ...], paper: Paper) -> View | None:
    """The legend of some drawings: as wide as the sheet on which the first of them lies where it
    has room under that one, else as wide as an upright sheet."""
    local = local_of(plan)
    lies = upright_or_turned(views[0], paper) if views else paper
    wide = legend_view(views, lies.body_mm[0], local)
    if wide is None or lies == paper or _both_mm(views[0], wide) <= lies.body_mm[1]:
        return wide
    return legend_view(views, paper.body_mm[0], local)


def _both_mm(view: View, legend: View) -> float:
    """About how high a drawing is with a few lines over it and its legend under it. [mm]"""
    return LEAD_MM + view.height_mm + legend.height_mm + 2 * BELOW_FIGURE_MM


def _with_legend(views: tuple[View, ...], legend: View | None) -> tuple[View, ...]:
    """Drawings with their legend under the first: the key plan, or the only row."""
    return views if legend is None else (*views[:1], legend, *views[1:])


def _floor_room_mm(plan: Plan, paper: Paper) -> tuple[float, float]:
    """The paper for the whole floor, lying so that the room and its dimensions come largest."""
    room = plan.spec.room
    return figure_room_mm(paper, room.width_m + _AROUND_M, room.depth_m + _AROUND_M)


def _row_rooms_mm(plan: Plan, paper: Paper) -> tuple[tuple[float, float], tuple[float, float]]:
    """The paper for one row, lying so that the widest comes largest, and lying the other way."""
    rows = set_rows(plan)
    width_m = max((row.right_m - row.left_m for row in rows), default=1.0)
    depth_m = max((row.kind.reclined_reach_m for row in rows), default=1.0)
    best = figure_room_mm(paper, width_m + _AROUND_M, depth_m + _AROUND_M)
    ways = (paper.figure_room_mm, paper.turned.figure_room_mm)
    return best, next((way for way in ways if way != best), best)


def views_of(sheets: SetOfSheets) -> tuple[View, ...]:
    """Return every drawing of a set, in its order."""
    return tuple(
        part.view for page in sheets.pages for part in page.parts if isinstance(part, Figure)
    )
