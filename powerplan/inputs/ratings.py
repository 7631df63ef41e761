"""The ratings that new circuits may have, each with its wire and its sockets."""

from __future__ import annotations

from itertools import pairwise

from powerplan.inputs import written as w
from powerplan.inputs.reading import Reading, limit_a
from powerplan.inputs.tables import Table
from powerplan.model.lengths import amps_text
from powerplan.model.spec import NewRating


def new_ratings(reading: Reading, table: Table[w.NewWork]) -> tuple[NewRating, ...]:
    """Return every rating offered, rising; one at least.

    A wire or a socket rating that is one value goes with every rating; a list goes with the list
    of ratings, one for one. [A]
    """
    it, rules = table.it, reading.rules
    breakers = it.breaker or (rules.exact("usual_breaker"),)
    wires = it.wire or (None,)
    sockets = it.socket_rating or (rules.exact("usual_socket"),)
    for key, values in (("wire", wires), ("socket_rating", sockets)):
        if len(values) not in (1, len(breakers)):
            words = f"{len(values)} values do not go with {len(breakers)} of breaker"
            reading.faults.add(table.at(key), f"{words}: write one for all, or one for each")
            wires = wires[:1] if key == "wire" else wires
            sockets = sockets[:1] if key == "socket_rating" else sockets
    names = [reading.wire(table.at("wire"), wire) for wire in wires]
    found = [
        NewRating(
            breaker_a=limit_a(breaker),
            wire=names[number % len(names)],
            socket_rating_a=limit_a(sockets[number % len(sockets)]),
        )
        for number, breaker in enumerate(breakers)
    ]
    found.sort(key=lambda one: one.breaker_a)
    for one, other in pairwise(found):
        if one.breaker_a == other.breaker_a:
            words = f"{amps_text(one.breaker_a)} is there twice"
            reading.faults.add(table.at("breaker"), f"{words}; write each rating once")
    return tuple(found)
