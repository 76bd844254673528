"""The recipes before and after one, in the order of the book."""

from __future__ import annotations

from collections.abc import Sequence

from saponary.book.published import Published
from saponary.quantity.dataclass import dataclass
from saponary.views import links
from saponary.views.prose import Prose


@dataclass(frozen=True)
class Neighbour:
    title: str
    href: str


@dataclass(frozen=True)
class Neighbours:
    before: Neighbour | None
    after: Neighbour | None


def neighbours(recipe: Published, row: Sequence[Published], up: str) -> Neighbours:
    """`row` is all recipes in their order, `up` leads from the page to the top of the site."""
    place = next(i for i, other in enumerate(row) if other.slug == recipe.slug)
    return Neighbours(
        _neighbour(row[place - 1], up) if place > 0 else None,
        _neighbour(row[place + 1], up) if place + 1 < len(row) else None,
    )


def _neighbour(recipe: Published, up: str) -> Neighbour:
    title = Prose(recipe.catalogue).title(recipe.model.title)
    return Neighbour(title, up + links.recipe_page(recipe.slug))
