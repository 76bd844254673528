"""The rule `steps`."""

from __future__ import annotations

from checks.books import TWO, more, recipe

BREAKER = recipe(more("steps: [{at: portion, portion: drak, say: Stir.}]\n", TWO))
TOLD = [
    ("recipes/tried.md:14:32", "error", "there is no portion 'drak'", "did you mean 'dark'?"),
]
NEIGHBOUR = recipe(more("steps: [{at: portion, portion: dark, say: Stir.}]\n", TWO))
ALSO = [
    (
        recipe(
            more(
                "steps:\n  - {at: lye, say: Stir.}\n  - {at: portion, say: Wait.}\n  - {at: portion, portion: drak, say: Wait.}\n  - {at: portion, portion: dark, say: Go.}\n",
                TWO,
            )
        ),
        [
            ("recipes/tried.md:16:10", "error", "this step does not say which portion", "add portion: NAME"),
            ("recipes/tried.md:17:28", "error", "there is no portion 'drak'", "did you mean 'dark'?"),
        ],
    ),
]
