"""A plan with every length a whole number of times as long."""

from dataclasses import fields, is_dataclass, replace
from typing import Any


def scaled(value: Any, times: int, name: str = "") -> Any:
    """The same value with every length in it ``times`` as long; names ending in _m are lengths."""
    if is_dataclass(value):
        changed = {f.name: scaled(getattr(value, f.name), times, f.name) for f in fields(value)}
        return replace(value, **changed)
    if isinstance(value, tuple):
        return tuple(scaled(item, times, name) for item in value)
    if isinstance(value, float) and (name.endswith("_m") or name == "lead_from"):
        return round(value * times, 6)
    return value
