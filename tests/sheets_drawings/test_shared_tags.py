"""Cords that lie on one line are tagged together, and one that leaves a drawing is tagged there."""

from powerplan.sheets.drawings.tags import leaving, tagged_stretches

MM_PER_M = 50.0
# Two cords go 2 m to the right on one line; then one turns ahead, one goes on.
AHEAD = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0))
ON = ((0.0, 0.0), (4.0, 0.0))
WHOLE = {"1": AHEAD, "2": ON}


def tags(seen: dict[str, tuple[tuple[float, float], ...]]) -> set[tuple[str, ...]]:
    return {one.cords for one in tagged_stretches(tuple(seen.items()), WHOLE, MM_PER_M)}


def test_each_cord_has_a_tag_where_it_lies_alone_and_both_one_where_they_share_a_line():
    assert tags(WHOLE) == {("1",), ("2",), ("1", "2")}
    (both,) = (
        one for one in tagged_stretches(tuple(WHOLE.items()), WHOLE, MM_PER_M) if len(one.cords) > 1
    )
    assert all(y == 0.0 and x <= 2.0 + 1e-9 for x, y in both.path)


def test_cords_that_only_start_together_have_no_tag_together():
    apart = {"1": ((0.0, 0.0), (0.0, 2.0)), "2": ((0.0, 0.0), (2.0, 0.0))}
    told = tagged_stretches(tuple(apart.items()), apart, MM_PER_M)
    assert {one.cords for one in told} == {("1",), ("2",)}


def test_a_cord_that_lies_on_another_all_the_way_is_named_with_it():
    whole = {"1": ON, "2": ((0.0, 0.0), (2.0, 0.0))}
    told = tagged_stretches(tuple(whole.items()), whole, MM_PER_M)
    assert {one.cords for one in told} == {("1",), ("1", "2")}


def test_a_cord_that_leaves_a_drawing_has_a_tag_where_it_leaves():
    seen = (("2", ((0.0, 0.0), (3.0, 0.0))),)
    tagged = tagged_stretches(seen, WHOLE, MM_PER_M)
    (left,) = leaving(seen, WHOLE, tagged, MM_PER_M)
    # the drawing ends at 3 m, where the second lies alone
    assert left.cords == ("2",)
    assert all(2.0 < x < 3.0 for x, _ in left.path)
    assert leaving((("2", ON),), WHOLE, tagged, MM_PER_M) == ()
