"""What is made of a value that stands in many others, one time for all of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

T = TypeVar("T")
U = TypeVar("U")

Once = dict[int, tuple[object, Any]]
"""What was made of values, by the address of each, which is held so that it stays its own."""


def made_once(value: T, make: Callable[[T], U], once: Once | None) -> U:
    """What `make` makes of the very same value, one time for all that `once` is kept for; None keeps nothing."""
    if once is None:
        return make(value)
    found = once.get(id(value))
    if found is None:
        found = once[id(value)] = value, make(value)
    return cast("U", found[1])
