"""The recipes before and after one, in the order of the book."""

from __future__ import annotations

from typing import NamedTuple

from saponary.book.published import Published
from saponary.views import links
from saponary.views.order import Beside
from saponary.views.prose_marks import typographic


class Neighbour(NamedTuple):
    title: str
    href: str


class Neighbours(NamedTuple):
    before: Neighbour | None
    after: Neighbour | None


def neighbours(beside: Beside, up: str) -> Neighbours:
    """`up` leads from the page to the top of the site."""
    before, after = beside
    return Neighbours(_neighbour(before, up), _neighbour(after, up))


def _neighbour(recipe: Published | None, up: str) -> Neighbour | None:
    if recipe is None:
        return None
    return Neighbour(typographic(recipe.glance.named), up + links.recipe_page(recipe.slug))
