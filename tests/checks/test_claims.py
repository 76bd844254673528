"""The rule `claims`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("summary: It heals dry skin.\n"))
NEIGHBOUR = recipe(more("summary: It washes.\n"))
