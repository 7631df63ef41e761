"""The framing under a chair: which it is, what is known of it, where its joists lie."""

from __future__ import annotations

from typing import NamedTuple

from powerplan.engineering.boxes.region import Cell, Spot, ticks
from powerplan.engineering.seating.poses import SeatedChair
from powerplan.model.lengths import joined
from powerplan.model.spec import Framing, PlanSpec, Riser

JOISTS = "joists"
SLAB = "slab"
BACK_TO_SCREEN = "back to screen"


class Deck(NamedTuple):
    """What a box is cut into: the floor, or a riser's deck; its edges are where joists count from.

    ``origin`` is its back-left corner. [half micrometer]
    """

    riser: Riser | None
    framing: Framing
    origin: Spot

    @property
    def name(self) -> str:
        """What people call it."""
        return "the floor" if self.riser is None else f"the deck of riser {self.riser.id}"


class Joists(NamedTuple):
    """Joists whose places are known, or, with ``first`` None, only their spacing and width.

    ``first`` is from the room's left (``across`` True) or back wall to the middle of one of them;
    ``width`` that of a joist. [half micrometer]
    """

    across: bool
    spacing: int
    first: int
    width: int

    def off(self, spot: Spot) -> int:
        """How far a spot is from the middle of the nearest joist. [half micrometer]"""
        apart = (spot[0 if self.across else 1] - self.first) % self.spacing
        return min(apart, self.spacing - apart)

    def strips(self, clip: Cell, half_band: int) -> tuple[Cell, ...]:
        """Strips of ``half_band`` on either side of each joist that meets a clip."""
        low, high = (clip.left, clip.right) if self.across else (clip.back, clip.front)
        start = -(-(low - half_band - self.first) // self.spacing)
        stop = (high + half_band - self.first) // self.spacing
        middles = (self.first + number * self.spacing for number in range(start, stop + 1))
        if self.across:
            return tuple(
                Cell(x - half_band, x + half_band, clip.back - 1, clip.front + 1) for x in middles
            )
        return tuple(
            Cell(clip.left - 1, clip.right + 1, y - half_band, y + half_band) for y in middles
        )


def deck_under(spec: PlanSpec, chair: SeatedChair) -> Deck:
    """Return what a box under a chair is cut into.

    Parameters
    ----------
    spec : PlanSpec
        The plan as read.
    chair : SeatedChair
        The chair. [m]
    """
    for riser in spec.risers:
        if riser.id == chair.riser:
            corner = (ticks(riser.rect.left_m), ticks(riser.rect.back_m))
            return Deck(riser, riser.framing, corner)
    return Deck(None, spec.floor, (0, 0))


def known_joists(deck: Deck) -> Joists | None:
    """Return a deck's joists where everything about them is known, else None.

    Parameters
    ----------
    deck : Deck
        The floor or a riser's deck. [half micrometer]
    """
    framing = deck.framing
    if framing.build != JOISTS or framing.joists_run is None or framing.first_joist_m is None:
        return None
    if framing.spacing_m is None or framing.joist_width_m is None:
        return None
    across = framing.joists_run == BACK_TO_SCREEN
    return Joists(
        across=across,
        spacing=ticks(framing.spacing_m),
        first=ticks(framing.first_joist_m) + deck.origin[0 if across else 1],
        width=ticks(framing.joist_width_m),
    )


def still_to_find(deck: Deck) -> str:
    """Return what has to be found out about a deck, in words; "" for a slab or known joists.

    Parameters
    ----------
    deck : Deck
        The floor or a riser's deck. [half micrometer]
    """
    framing = deck.framing
    if framing.build == SLAB or known_joists(deck) is not None:
        return ""
    if framing.build != JOISTS:
        return f"what {deck.name} is built of and, if of joists, where they lie"
    unknown = [
        words
        for value, words in (
            (framing.joists_run, "which way they run"),
            (framing.spacing_m, "their spacing"),
            (framing.first_joist_m, "where the first one lies"),
            (framing.joist_width_m, "their width"),
        )
        if value is None
    ]
    return f"about the joists in {deck.name}: {joined(unknown)}"
