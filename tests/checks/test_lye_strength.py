"""The rule `lye-strength`: at most half alkali, in the water it is really dissolved in."""

from __future__ import annotations

import pytest

from checks.books import TWO, found, more, put, recipe, with_figures
from saponary.checks.lye_strength import check

BREAKER = recipe(put("{lye-strength: 33 %}", "{lye-strength: 50.1 %}"))
TOLD = [
    (
        "recipes/tried.md:10:1",
        "error",
        "the lye would dissolve at 50.1 %, more than water can hold",
        "leave at least as much plain water as lye (139.8 g)",
    ),
]
NEIGHBOUR = recipe(
    put(
        "{lye-strength: 33 %}",
        "{lye-strength: 50 %}\nwaive: [{rule: usual-water, because: it is tried here}]",
    )
)
ALSO = [
    (
        recipe(put("water: {lye-strength: 33 %}\n", ""), book="water: {lye-strength: 50.1 %}\n"),
        [
            (
                "recipes/tried.md:2:1",
                "error",
                "the lye would dissolve at 50.1 %, more than water can hold",
                "leave at least as much plain water as lye (139.8 g)",
            )
        ],
    ),
    (
        recipe(more("additions: [{what: vinegar, amount: 400 g, at: trace}]\n")),
        [
            (
                "recipes/tried.md:11:1",
                "error",
                "the additions bring 380.0 g of water, the recipe has 310.9 g",
                "use less of them, or more water",
            )
        ],
    ),
    (
        recipe(
            more(
                "liquids: [{what: goat-milk, amount: 200 g}]\nadditions: [{what: vinegar, amount: 200 g, at: trace}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:1",
                "error",
                "the liquids and additions bring 364.1 g of water, the recipe has 297.4 g",
                "use less of them, or more water",
            )
        ],
    ),
    (
        recipe(
            put(
                "- {name: light, share: 1/2}",
                "- {name: light, share: 1/2, additions: [{what: vinegar, amount: 400 g, at: trace}]}",
                TWO,
            )
        ),
        [
            (
                "recipes/tried.md:11:1",
                "error",
                "the additions bring 380.0 g of water, the recipe has 310.9 g",
                "use less of them, or more water",
            )
        ],
    ),
    (
        recipe(
            put(
                "- {name: light, share: 1/2}",
                "- {name: light, share: 1/2, liquids: [{what: goat-milk, amount: 400 g}]}",
                TWO,
            )
        ),
        [
            (
                "recipes/tried.md:11:1",
                "error",
                "the liquids bring 348.1 g of water, the recipe has 283.9 g",
                "use less of them, or more water",
            )
        ],
    ),
]


@pytest.mark.parametrize(("strength", "count"), [(0.5, 0), (0.5 + 1e-9, 1), (0.505, 1), (0.499, 0)])
def test_half_is_the_limit(strength: float, count: int) -> None:
    """Solubilities near room temperature lie at 50 to 53 % (CRC Handbook, from memory)."""
    assert len(list(check(with_figures(lye_strength_dissolved=strength)))) == count


def test_liquids_may_not_bring_more_water_than_there_is() -> None:
    (strong,) = found(recipe(more("liquids: [{what: goat-milk, amount: 300 g}]\n")), "lye-strength")
    assert "more than water can hold" in strong.message and strong.hint.startswith("leave at least as much")
    (over,) = found(recipe(more("liquids: [{what: goat-milk, amount: 400 g}]\n")), "lye-strength")
    assert "the liquids bring" in over.message
