"""The fields of values that carry nothing else: dataclasses and named tuples."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from functools import cache


@cache
def field_names(kind: type[object]) -> Sequence[str] | None:
    """The names of the fields of a dataclass or a named tuple, in their order; None for any other class."""
    found: Sequence[str] | None = getattr(kind, "_fields", None)
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else found
