"""A recipe as made: what is needed of it to say what is in its bar, and how to find another's.

A recipe may hold the scrap of another, whose ingredients are then its own too, so whoever
lists ingredients needs a way to look recipes up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from saponary.book import resolve as book_formula
from saponary.book.library import Book
from saponary.lye.figures import Figures, weigh
from saponary.lye.formula import Formula
from saponary.schema.recipe import Recipe


@dataclass(frozen=True)
class Made:
    """A formula with its figures. `unweighed` are the ids of what the pour dusts, sets in or
    strews without a weight."""

    formula: Formula
    figures: Figures
    unweighed: tuple[str, ...] = ()


Lookup = Callable[[str], Made | None]
"""A recipe by its slug; None where there is none that can be computed."""


def made(model: Recipe, formula: Formula, figures: Figures) -> Made:
    """A recipe that has been computed."""
    weighed = {part.id for part in formula.additions}
    return Made(formula, figures, tuple(dict.fromkeys(i for i in _in_the_pour(model) if i not in weighed)))


def _in_the_pour(model: Recipe) -> Iterator[str]:
    for step in model.pour:
        if step.line is not None:
            yield step.line.of
        if step.embeds is not None:
            yield step.embeds.of
        if step.top is not None and step.top.strewn is not None:
            yield step.top.strewn


def lookup_in(book: Book) -> Lookup:
    """Looks recipes up in a book, computing each at most once."""
    recipes = {recipe.slug: recipe for recipe in book.recipes}
    known: dict[str, Made | None] = {}

    def find(slug: str) -> Made | None:
        if slug not in known:
            known[slug] = None
            recipe = recipes.get(slug)
            if recipe is not None and recipe.model is not None:
                built, _ = book_formula.build(
                    recipe.model, book.settings, book.pantry, recipe.tree, recipe.file
                )
                if built is not None:
                    known[slug] = made(recipe.model, built.formula, weigh(built.formula))
        return known[slug]

    return find
