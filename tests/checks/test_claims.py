"""The rule `claims`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("summary: It heals dry skin.\n"))
TOLD = [
    (
        "recipes/tried.md:11:13",
        "error",
        "“heals dry skin” is a drug claim (US: to be called a remedy makes a soap a drug; EU: a cosmetic may not be presented as a medicine)",
        "leave it out",
    ),
]
NEIGHBOUR = recipe(more("summary: It washes.\n"))
