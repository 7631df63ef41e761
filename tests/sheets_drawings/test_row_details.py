"""Where a row's drawing is crowded, all that lies behind it is drawn again at a large scale."""

from laws import law, planned
from loose_rooms import supply_rooms, supply_spec
from row_rooms import row_rooms
from support import make_row, make_spec

from powerplan.model.plan import NOT_POSSIBLE, Plan
from powerplan.sheets.drawings.row_details import is_crowded, with_row_details
from powerplan.sheets.drawings.rows import cord_views
from powerplan.sheets.pages.print_told import places_of
from powerplan.sheets.scene import Line, Text, View

UPRIGHT_MM, TURNED_MM = (190.0, 225.0), (250.0, 165.0)
ROOMS_MM = (UPRIGHT_MM, TURNED_MM)


def details(plan: Plan) -> tuple[tuple[View, ...], tuple[View, ...]]:
    """The drawings of the rows, and those at a large scale."""
    rows = cord_views(plan, *ROOMS_MM)
    both = with_row_details(plan, rows, ROOMS_MM)
    assert [view for view in both if view in rows] == list(rows)
    return rows, tuple(view for view in both if view not in rows)


def said(views: tuple[View, ...]) -> set[str]:
    return {item.words for view in views for item in view.items if isinstance(item, Text)}


def check(plan: Plan) -> None:
    rows, large = details(plan)
    places = places_of(plan)
    if plan.decision.verdict == NOT_POSSIBLE:
        assert not large
        return
    for view in large:
        assert all(view.scale < row.scale for row in rows[-len(places.rows) :])
        # it fits the paper one way or the other
        assert any(
            view.width_mm <= wide + 1e-6 and view.height_mm <= high + 40 for wide, high in ROOMS_MM
        )
    for row in places.rows:
        parts = tuple(view for view in large if view.title.startswith(f"Behind row {row.id},"))
        if not parts:
            continue
        # every tag, coil, supply, unit and letter of the row's drawing is found again
        (whole,) = [view for view in rows if view.title.startswith(f"Row {row.id} ")]
        starts = ("cord ", "coil ", "supply ", "unit ")
        told = {words for words in said((whole,)) if words.startswith(starts)}
        told |= {name for (name_of, _), name in places.letters.items() if name_of == row.id}
        assert told <= said(parts)


@law(supply_rooms(), usual=6, many=60)
def test_what_lies_behind_a_crowded_row_is_all_in_its_large_drawings(spec):
    check(planned(spec))


@law(row_rooms(), usual=6, many=60)
def test_the_letters_of_bends_are_all_in_large_drawings_too(spec):
    check(planned(spec))


def test_a_row_of_supplies_is_drawn_again_and_one_of_leads_is_not():
    spec = supply_spec(seats=4)
    crowded = planned(spec)
    rows, large = details(crowded)
    assert is_crowded(places_of(crowded).rows[0], places_of(crowded), rows[0].scale)
    assert large
    assert {view.scale for view in large} <= {12, 16}
    check(crowded)


def test_no_line_leaves_the_window_of_a_part():
    _, large = details(planned(supply_spec(seats=4)))
    for view in large:
        cords = [i for i in view.items if isinstance(i, Line) and i.layer in ("cord", "link")]
        assert cords
        wide_m = UPRIGHT_MM[0] * view.scale / 1000
        xs = [x for line in cords for x, _ in line.points]
        assert max(xs) - min(xs) <= wide_m


def test_one_chair_with_a_lead_needs_no_second_drawing():
    _, large = details(planned(make_spec(rows=(make_row(seats=1),))))
    assert not large
