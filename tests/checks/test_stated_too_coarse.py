"""The rule `stated-too-coarse`: a step of a fiftieth of the weight is still fine enough."""

from __future__ import annotations

from checks.books import put, recipe

BREAKER = recipe(put("stated:\n", "stated:\n  lye: 0.1 kg\n"))
TOLD = [
    (
        "recipes/tried.md:12:8",
        "warning",
        "0.1 kg is too rough a figure to hold lye to",
        "state it as 0.140 kg",
    ),
]
NEIGHBOUR = recipe(put("stated:\n", "stated:\n  lye: 136 g\n"))
