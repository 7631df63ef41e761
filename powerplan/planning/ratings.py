"""Several ratings of new circuit offered: the room as it is with each of them."""

from __future__ import annotations

from dataclasses import replace

from powerplan.model.lengths import amps_text, plural
from powerplan.model.spec import NewRating
from powerplan.planning.loads import Way
from powerplan.planning.site import Feed, Site


def with_each_rating(site: Site) -> tuple[Site, ...]:
    """Return the room once for each rating offered, rising; empty where only one is."""
    return tuple(_with(site, rating) for rating in site.spec.new_work.ratings)


def _with(site: Site, rating: NewRating) -> Site:
    work = replace(
        site.spec.new_work,
        breaker_a=rating.breaker_a,
        wire=rating.wire,
        socket_rating_a=rating.socket_rating_a,
        ratings=(),
    )
    return replace(
        site,
        spec=replace(site.spec, new_work=work),
        floor_boxes=_rated(site.floor_boxes, rating),
        wall_outlets=_rated(site.wall_outlets, rating),
    )


def _rated(feeds: tuple[Feed, ...], rating: NewRating) -> tuple[Feed, ...]:
    return tuple(replace(feed, rating_a=rating.socket_rating_a) for feed in feeds)


def better_first(way: Way, site: Site) -> tuple[object, ...]:
    """Return a key that puts the better of two ways at two ratings first.

    Fewest unknown circuits, then fewest new circuits, then the smallest rating.
    """
    return (*way.rank[:4], site.spec.new_work.breaker_a)


def other_rating(site: Site, way: Way | None, taken: Way | None) -> str:
    """Return what a rating that was passed over would take, as part of a sentence."""
    size = amps_text(site.spec.new_work.breaker_a)
    if way is None:
        return f"{size} would not do"
    if taken is not None and len(way.new_circuits) == len(taken.new_circuits):
        return f"{size} would take as many"
    return f"{size} would take {plural(len(way.new_circuits), 'new circuit')}"
