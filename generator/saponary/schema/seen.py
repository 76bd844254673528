"""Who may see a field: a mark in the field itself. A field without one is seen by nobody.

`Public[ShortText]` is a field that every edition may show, `Private[ShortText]` one that none
does, `Annotated[ShortText, Seen("work")]` one that is seen where the edition shows the work. A
field inside another is seen where both are.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from functools import cache
from typing import Annotated, Any, Literal, TypeVar, cast, get_args, get_type_hints

from pydantic import BaseModel

from saponary.assets.once import Once, made_once
from saponary.reading.plain import is_row

Shown = Literal[
    "summary",
    "drawing",
    "photos",
    "figures",
    "work",
    "sizes",
    "notes",
    "chemistry",
    "ingredients",
    "batches",
    "badge",
    "remarks",
    "history",
    "costs",
    "people",
    "private",
    "waivers",
    "drafts",
    "shop",
]
"""What an edition may show, one by one."""
FIELDS: tuple[Shown, ...] = get_args(Shown)
MAKERS: frozenset[Shown] = frozenset({"costs", "people", "private", "waivers", "drafts"})
"""What is the maker's own: an edition that shows any of it is never published."""

Need = Shown | Literal["full formula", "always"]

T = TypeVar("T")


class Seen:
    """The mark of a field: it is seen where the edition shows any of `by`."""

    __slots__ = ("by",)

    def __init__(self, *by: Need) -> None:
        self.by = frozenset(by)

    def within(self, sight: frozenset[str]) -> bool:
        """Whether an edition of this sight (`Edition.sight`) may show the field."""
        return bool(self.by & sight)


EVERYWHERE: frozenset[str] = frozenset({"always"})
"""The sight of an edition that shows nothing but what all show."""

Public = Annotated[T, Seen("always")]
Private = Annotated[T, Seen()]


@cache
def marks(kind: type[object]) -> Mapping[str, Seen]:
    """The marks of a model's or a data class's fields, by field; those without are left out."""
    found: dict[str, list[Any]]
    if issubclass(kind, BaseModel):
        found = {name: field.metadata for name, field in kind.model_fields.items()}
    else:
        hints = get_type_hints(kind, include_extras=True)
        found = {name: [*getattr(hint, "__metadata__", ())] for name, hint in hints.items()}
    return {name: mark for name, data in found.items() for mark in data if isinstance(mark, Seen)}


@cache
def _seen(kind: type, sight: frozenset[str]) -> tuple[str, ...]:
    return tuple(name for name, mark in marks(kind).items() if mark.within(sight))


def only_seen(value: T, sight: frozenset[str], once: Once | None = None) -> T:
    """The same made anew of those fields that may be seen; the others are as if not written.

    A data class without any mark is a value, as an amount is: it is seen whole. `once`, kept for one sight,
    has it that what stands in several maps, as an oil does that many recipes name, is made anew one time.
    """
    made: Any = value
    kind: type = type(value)
    if isinstance(value, BaseModel):
        kept = {name: only_seen(getattr(value, name), sight, once) for name in _seen(kind, sight)}
        made = value.__class__.model_construct(**kept)
    elif is_row(value):
        made = kind(only_seen(one, sight, once) for one in value)
    elif isinstance(value, Mapping):
        whole = cast("Mapping[Any, Any]", value)
        made = {key: seen_once(one, sight, once) for key, one in whole.items()}
    elif dataclasses.is_dataclass(value) and marks(kind):
        made = kind(**{name: only_seen(getattr(value, name), sight, once) for name in _seen(kind, sight)})
    return made  # type: ignore[no-any-return]


def seen_once(value: T, sight: frozenset[str], once: Once | None) -> T:
    """`only_seen` of the very same value, one time for all."""
    return made_once(value, lambda one: only_seen(one, sight, once), once)
