"""What the materials of one batch cost: for a page, an export and a comparison alike."""

from __future__ import annotations

from saponary.book.computed import Computed
from saponary.book.published import Published
from saponary.lye.cost import Cost, cost
from saponary.pantry.prices import prices


def batch_cost(recipe: Computed | Published) -> Cost:
    """At the size and the prices that its recipe, its pantry and its book state."""
    known = prices(recipe.pantry, recipe.settings)
    return cost(recipe.resolved.formula, recipe.figures.weights, known)
