"""The order in which a book tells its recipes, and which of them stand beside one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from saponary.book.published import Published

Beside = tuple[Published | None, Published | None]
"""The recipe before one, and the one after it."""


def in_order(recipes: Iterable[Published]) -> list[Published]:
    """By collection, those without one last, then by title."""

    def key(recipe: Published) -> tuple[bool, str, str, str]:
        told = recipe.glance
        collection = told.collection
        return (collection is None, (collection or "").casefold(), told.title.casefold(), recipe.slug)

    return sorted(recipes, key=key)


def beside(row: Iterable[Published]) -> Mapping[str, Beside]:
    """By its slug, what stands beside each of these recipes, which are in their order."""
    row = tuple(row)
    around = (None, *row, None)
    return {one.slug: (around[at], around[at + 2]) for at, one in enumerate(row)}
