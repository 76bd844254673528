"""Editions: what of a recipe may be seen, by whom. An allow-list, so that what nobody thought of stays in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import Name, Part
from saponary.schema.seen import FIELDS, MAKERS, Private, Shown

Reader = Literal["reader", "customer", "student"]
"""For whom its pages are made: who reads recipes, who buys a soap, who makes it in a class."""

FormulaAs = Literal["full", "shares", "ingredients"]
"""Weights and shares; shares alone; or the ingredient list alone."""


class EditionEntry(Part):
    """An edition of the maker's own in `book.yaml`."""

    shows: Private[Annotated[list[Shown], Field(max_length=len(FIELDS))]]
    """What this edition shows: any of `summary`, `drawing`, `photos`, `figures`, `work`, `sizes`, `notes`,
    `chemistry`, `ingredients`, `batches`, `badge`, `remarks`, `costs`, `people`, `private`, `waivers`,
    `drafts`, `history`, `shop`. What is not named stays out.
    """
    formula: Private[FormulaAs] = "ingredients"
    """How it gives the formula: `full` (weights and shares), `shares` or `ingredients` (the list alone)."""
    reader: Private[Reader] = "reader"
    """For whom its pages are made: `reader` (recipes), `customer` (a shop) or `student` (opens with the class).
    Example: editions: {stall: {shows: [photos, shop], reader: customer}}
    """


@dataclass(frozen=True)
class Edition:
    """One edition: its name, what it shows, and how it gives the formula."""

    name: str
    shows: frozenset[str]
    formula: FormulaAs
    reader: Reader = "reader"

    @property
    def is_public(self) -> bool:
        """The book's public site, at the top of `site/`."""
        return self.name == PUBLIC

    @property
    def published(self) -> bool:
        """Whether it may lie in what is uploaded: it shows nothing that is the maker's own."""
        return not self.shows & MAKERS

    @property
    def sight(self) -> frozenset[str]:
        """What the marks of fields are held against (`schema.seen`)."""
        return self.shows | ({"always", "full formula"} if self.formula == "full" else {"always"})


PUBLIC = "public"

_METHOD = (
    "summary",
    "drawing",
    "photos",
    "figures",
    "work",
    "sizes",
    "notes",
    "chemistry",
    "ingredients",
    "badge",
)

ALL = "all"
"""Every edition there is, where editions are named for a build."""

STANDARD: dict[str, Edition] = {
    PUBLIC: Edition(PUBLIC, frozenset((*_METHOD, "batches", "remarks")), "full"),
    "shop": Edition(
        "shop", frozenset(("summary", "drawing", "photos", "ingredients", "shop")), "ingredients", "customer"
    ),
    "class": Edition("class", frozenset((*_METHOD, "history")), "full", "student"),
    "maker": Edition("maker", frozenset(FIELDS), "full"),
}


def built_always(listed: Sequence[str], known: Iterable[str]) -> list[str]:
    """The names of the editions that a build makes where none is named: the public one and those listed."""
    return list(known) if ALL in listed else list(dict.fromkeys((PUBLIC, *listed)))


def asked_for(names: Sequence[str], listed: Sequence[str], known: Iterable[str]) -> list[str]:
    """The names of the editions that a build makes: those asked for, each once; where none is, those it makes always."""
    if not names:
        return built_always(listed, known)
    return list(known) if ALL in names else list(dict.fromkeys(names))


def editions(own: dict[Name, EditionEntry]) -> dict[str, Edition]:
    """The standard editions, and the book's own over them."""
    return {**STANDARD, **{n: Edition(n, frozenset(e.shows), e.formula, e.reader) for n, e in own.items()}}
