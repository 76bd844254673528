"""The rule `bare-figure`: a number in a sentence that is none of the recipe's."""

from __future__ import annotations

from checks.books import GOOD, recipe

BREAKER = recipe(GOOD + "Weigh out 999 g of lye.\n")
NEIGHBOUR = recipe(GOOD + "Weigh out {lye} of lye.\n")
