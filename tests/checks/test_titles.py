"""The rule `titles`."""

from __future__ import annotations

from checks.books import GOOD, OTHER, recipe

BREAKER = recipe(GOOD, **{"recipes/other.md": GOOD.replace("Plain", "PLAIN")})
TOLD = [
    (
        "recipes/tried.md:2:8",
        "warning",
        "recipes/other.md has the same title",
        "give each recipe its own title",
    ),
]
NEIGHBOUR = recipe(GOOD, **{"recipes/other.md": GOOD.replace("Plain", "Plainer")})
ALSO = [
    (
        recipe(
            GOOD,
            **{
                "recipes/zeal.md": OTHER.replace("Zeal", "PLAIN Bar"),
                "recipes/yarn.md": OTHER.replace("Zeal", "plain bar"),
                "recipes/xeno.md": OTHER,
            },
        ),
        [
            (
                "recipes/yarn.md:2:8",
                "warning",
                "recipes/tried.md has the same title",
                "give each recipe its own title; or waive it with your reason: waive: [{rule: titles, because: …}]",
            ),
            (
                "recipes/zeal.md:2:8",
                "warning",
                "recipes/tried.md has the same title",
                "give each recipe its own title; or waive it with your reason: waive: [{rule: titles, because: …}]",
            ),
        ],
    ),
]
