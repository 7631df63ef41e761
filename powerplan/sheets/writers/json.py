"""Records and other answers as JSON: stable order, no NaN, plain ASCII so any pipe carries it."""

from __future__ import annotations

import json
from typing import Any

from powerplan.model.codec import to_plain
from powerplan.model.plan import Plan


def record_text(plan: Plan) -> str:
    """Return a plan's record as text; what is read back from it is an equal ``Plan``."""
    return plain_text(to_plain(plan))


def plain_text(value: Any) -> str:
    """Return plain values as JSON text with a newline at its end.

    Raises
    ------
    ValueError
        If a number in it is NaN or infinite.
    """
    return json.dumps(value, indent=1, allow_nan=False, ensure_ascii=True) + "\n"
