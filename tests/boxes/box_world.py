"""A box under a chair by its definition alone, in whole half-micrometers: slow and plain."""

from itertools import product

from support import NEC

from powerplan.engineering.boxes.marks import mark_box
from powerplan.engineering.seating.poses import seat_rows
from powerplan.engineering.seating.zones import mark_zones
from powerplan.model.spec import PlanSpec

EIGHTH = 6350
FIVE_MM = 10_000


def half_um(length_m: float) -> int:
    return round(length_m * 2e6)


def marked(spec: PlanSpec, seat: int = 1):
    """The spot of one chair of the first row."""
    rows = seat_rows(spec)
    zones = mark_zones(spec, rows, NEC)
    return mark_box(spec, rows[0].chairs[seat - 1], zones, NEC)


class World:
    """What a middle has to keep to under the first row's first chair."""

    def __init__(self, spec: PlanSpec, seat: int = 1) -> None:
        chair = seat_rows(spec)[0].chairs[seat - 1]
        clear, work = chair.clear, spec.new_work
        assert clear is not None
        assert work.cut_out is not None
        assert work.lid is not None
        self.spec = spec
        self.tape = FIVE_MM if spec.project.units in ("mm", "m") else EIGHTH
        self.cut = (half_um(work.cut_out.width_m) // 2, half_um(work.cut_out.depth_m) // 2)
        self.lid = (half_um(work.lid.width_m) // 2, half_um(work.lid.depth_m) // 2)
        self.margin = half_um(work.framing_margin_m)
        self.clear = _edges(clear)
        self.ideal = (
            (self.clear[0] + self.clear[1]) // 2,
            (self.clear[2] + self.clear[3]) // 2,
        )
        self.deck = next((r for r in spec.risers if r.id == chair.riser), None)

    def allows(self, spot: tuple[int, int], *, joists: bool = True) -> bool:
        """True when lid and cut-out are clear of everything, with the middle at a spot."""
        lid = _around(spot, self.lid)
        cut = _around(spot, self.cut)
        wide = _around(spot, (self.cut[0] + self.margin, self.cut[1] + self.margin))
        if not _inside(lid, self.clear):
            return False
        if any(_overlap(lid, _edges(area.rect)) for area in self.spec.obstacles):
            return False
        if any(_overlap(wide, _edges(area.rect)) for area in self.spec.no_cut):
            return False
        for riser in self.spec.risers:
            if riser is self.deck:
                if not _inside(wide, _edges(riser.rect)):
                    return False
            elif _overlap(wide, _edges(riser.rect)):
                return False
        return not joists or self.clear_of_joists(cut)

    def clear_of_joists(self, cut: tuple[int, int, int, int]) -> bool:
        """True when a cut-out keeps the margin from every joist, one after the other."""
        framing = self.deck.framing if self.deck else self.spec.floor
        if framing.build != "joists":
            return True
        across = framing.joists_run == "back to screen"
        edge_m = 0.0
        if self.deck:
            edge_m = self.deck.rect.left_m if across else self.deck.rect.back_m
        low, high = cut[:2] if across else cut[2:]
        spacing, wood = half_um(framing.spacing_m), half_um(framing.joist_width_m)
        middle = half_um(edge_m) + half_um(framing.first_joist_m)
        while middle > low - spacing:
            middle -= spacing
        while middle < high + spacing:
            if low - self.margin < middle + wood // 2 and middle - wood // 2 < high + self.margin:
                return False
            middle += spacing
        return True

    def tape_spots(self) -> list[tuple[int, int]]:
        """Every mark of the tape in the clear zone."""
        left, right, back, front = self.clear
        step = self.tape
        return list(
            product(
                range(-(-left // step) * step, right + 1, step),
                range(-(-back // step) * step, front + 1, step),
            )
        )

    def nearest(self) -> tuple[int, int] | None:
        """The mark of the tape nearest the ideal, by trying all of them."""
        allowed = [spot for spot in self.tape_spots() if self.allows(spot)]
        return min(allowed, key=lambda spot: (self.off(spot), spot), default=None)

    def off(self, spot: tuple[int, int]) -> int:
        return (spot[0] - self.ideal[0]) ** 2 + (spot[1] - self.ideal[1]) ** 2

    def corners(self) -> list[tuple[int, int]]:
        """Every crossing of lines on which something becomes allowed: if none is, nothing is."""
        xs, ys = {self.clear[0] + self.lid[0]}, {self.clear[2] + self.lid[1]}
        for one, grow in self._things():
            xs |= {one[0] - grow[0], one[1] + grow[0], one[0] + grow[0], one[1] - grow[0]}
            ys |= {one[2] - grow[1], one[3] + grow[1], one[2] + grow[1], one[3] - grow[1]}
        self._joist_lines(xs, ys)
        return list(product(sorted(xs), sorted(ys)))

    def _things(self):
        wide = (self.cut[0] + self.margin, self.cut[1] + self.margin)
        yield self.clear, self.lid
        for area in self.spec.obstacles:
            yield _edges(area.rect), self.lid
        for area in (*self.spec.no_cut, *self.spec.risers):
            yield _edges(area.rect), wide

    def _joist_lines(self, xs: set[int], ys: set[int]) -> None:
        framing = self.deck.framing if self.deck else self.spec.floor
        if framing.build != "joists":
            return
        across = framing.joists_run == "back to screen"
        edge_m = 0.0
        if self.deck:
            edge_m = self.deck.rect.left_m if across else self.deck.rect.back_m
        axis = 0 if across else 1
        band = half_um(framing.joist_width_m) // 2 + self.cut[axis] + self.margin
        spacing = half_um(framing.spacing_m)
        middle = half_um(edge_m) + half_um(framing.first_joist_m)
        low, high = self.clear[2 * axis], self.clear[2 * axis + 1]
        first = (low - middle) // spacing - 1
        last = (high - middle) // spacing + 1
        for number in range(first, last + 1):
            at = middle + number * spacing
            (xs, ys)[axis].update((at - band, at + band))


def _edges(rect) -> tuple[int, int, int, int]:
    return tuple(map(half_um, (rect.left_m, rect.right_m, rect.back_m, rect.front_m)))


def _around(spot, half) -> tuple[int, int, int, int]:
    return (spot[0] - half[0], spot[0] + half[0], spot[1] - half[1], spot[1] + half[1])


def _inside(inner, outer) -> bool:
    return (
        outer[0] <= inner[0]
        and inner[1] <= outer[1]
        and outer[2] <= inner[2]
        and inner[3] <= outer[3]
    )


def _overlap(one, other) -> bool:
    return one[0] < other[1] and other[0] < one[1] and one[2] < other[3] and other[2] < one[3]
