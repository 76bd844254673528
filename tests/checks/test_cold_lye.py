"""The rule `cold-lye`: what water near freezing can hold (a handbook table, second-hand)."""

from __future__ import annotations

import pytest

from checks.books import found, more, put, recipe

ICE = "steps: [{at: lye, say: Use crushed ice for all of the water.}]\n"
BREAKER = recipe(more(ICE))
TOLD = [
    (
        "recipes/tried.md:11:24",
        "warning",
        "over ice a lye holds 29.6 % of this alkali at the most, and this one is to be 33.0 %",
        "some of the alkali stays undissolved until it warms: take more water, or wait until the lye is clear",
    ),
]
NEIGHBOUR = recipe(more(ICE, put("{lye-strength: 33 %}", "{lye-strength: 29 %}")))
ALSO = [
    (
        recipe(more("liquids: [{what: goat-milk, amount: 60 g, at: lye}]\n")),
        [
            (
                "recipes/tried.md:11:47",
                "warning",
                "over ice a lye holds 29.6 % of this alkali at the most, and this one is to be 33.0 %",
                "some of the alkali stays undissolved until it warms: take more water, or wait until the lye is clear; or waive it with your reason: waive: [{rule: cold-lye, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(("strength", "count"), [("29.5 %", 0), ("29.6 %", 1), ("49 %", 1)])
def test_42_grams_in_a_hundred_are_the_limit(strength: str, count: int) -> None:
    """42 g of sodium hydroxide in 100 g of water at 0 °C: 42/142 = 29.58 %."""
    text = more(ICE, put("{lye-strength: 33 %}", f"{{lye-strength: {strength}}}"))
    assert len(found(recipe(text), "cold-lye")) == count


@pytest.mark.parametrize(
    ("block", "count"),
    [
        ("liquids: [{what: goat-milk, amount: 100 g, at: lye}]\n", 1),
        ("liquids: [{what: goat-milk, amount: 60 g}]\n", 0),
        ("liquids: [{what: black-tea, amount: 60 g, at: lye}]\n", 0),
        ("steps: [{at: before, say: Freeze the tea in cubes the night before.}]\n", 1),
        ("steps: [{at: pour, say: Put the mould into the freezer beside the ice.}]\n", 0),
        ("steps: [{at: lye, say: Slice the block thin.}]\n", 0),
    ],
)
def test_who_makes_lye_over_ice(block: str, count: int) -> None:
    """Milk goes into lye frozen: common practice, no source."""
    assert len(found(recipe(more(block)), "cold-lye")) == count


def test_potassium_hydroxide_dissolves_in_the_cold() -> None:
    """97 g in 100 g of water at 0 °C: 49.2 %."""
    paste = "lye: {potassium: {share: 100 %, purity: 90 %}}\nmethod: cream\n" + ICE
    assert found(recipe(more(paste)), "cold-lye") == []
