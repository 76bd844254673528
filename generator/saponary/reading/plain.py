"""What YAML holds, told apart with types: maps, lists, and the rest. `Any` begins and ends here."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeGuard, cast


def is_map(value: object) -> TypeGuard[dict[str, Any]]:
    """A map of YAML; its keys are text (the reader refuses others)."""
    return isinstance(value, dict)


def is_list(value: object) -> TypeGuard[list[Any]]:
    return isinstance(value, list)


def is_row(value: object) -> TypeGuard[Sequence[Any]]:
    """A list, or the tuple that a model made of one; no tuple whose parts have names."""
    return isinstance(value, (list, tuple)) and not hasattr(cast("object", value), "_fields")
