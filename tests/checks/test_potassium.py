"""The rule `potassium`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("serves: paste\n"))
NEIGHBOUR = recipe(more("serves: paste\nlye: {potassium: {share: 100 %, purity: 90 %}}\n"))
