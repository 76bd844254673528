"""The rule `bare-figure`: a number in a sentence that is none of the recipe's."""

from __future__ import annotations

import pytest

from checks.books import GOOD, found, more, recipe

BREAKER = recipe(GOOD + "Weigh out 999 g of lye.\n")
TOLD = [
    (
        "recipes/tried.md:16:11",
        "warning",
        "“999 g” stands beside 'lye' and is not a figure of this recipe",
        "write {lye}, or {lye = 139.8 g}, so that each build checks it",
    ),
]
NEIGHBOUR = recipe(GOOD + "Weigh out {lye} of lye.\n")
ALSO = [
    (
        recipe(
            more("summary: Weigh 999 g of lye.\nprivate: {notes: Weigh 998 g of lye.}\n")
            + "Weigh 997 g of lye, and of water take e.g. 996 g.\n"
        ),
        [
            (
                "recipes/tried.md:11:16",
                "warning",
                "“999 g” stands beside 'lye' and is not a figure of this recipe",
                'write {lye}, or {lye = 139.8 g}, so that each build checks it; or waive it with your reason: waive: [{rule: bare-figure, about: "999 g", because: …}]',
            ),
            (
                "recipes/tried.md:18:7",
                "warning",
                "“997 g” stands beside 'lye' and is not a figure of this recipe",
                'write {lye}, or {lye = 139.8 g}, so that each build checks it; or waive it with your reason: waive: [{rule: bare-figure, about: "997 g", because: …}]',
            ),
            (
                "recipes/tried.md:18:44",
                "warning",
                "“996 g” stands beside 'water' and is not a figure of this recipe",
                'write {water}, or {water = 283.9 g}, so that each build checks it; or waive it with your reason: waive: [{rule: bare-figure, about: "996 g", because: …}]',
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("Take 60 % of olive oil.", 0),
        ("Take 61 % of olive oil.", 1),
        ("Take 600 g of olive oil.", 0),
        ("Take 300 g of olive oil for half the batch.", 0),
        ("Take 301 g of olive oil for half the batch.", 1),
        ("Use a superfat of 5 %.", 0),
        ("Use a superfat of 6 %.", 1),
        ("The lye is 100 % sodium hydroxide.", 0),
        ("The lye is 33 % strong.", 0),
        ("The lye is 34 % strong.", 1),
    ],
)
def test_shares_weights_and_other_sizes(said: str, count: int) -> None:
    findings = found(recipe(more("sizes: [500 g]\n") + said + "\n"), "bare-figure")
    assert len(findings) == count
    assert all(str(f.place).startswith("recipes/tried.md:17:") and f.about for f in findings)


MIXED = more(
    "sizes: [500 g]\nportions:\n  - {name: light, share: 40 %, additions: [{what: kaolin, amount: 8 g}]}\n"
    "  - {name: dark, share: 60 %}\nlye: {sodium: {share: 70 %}, potassium: {share: 30 %, purity: 90 %}}\n"
)
"""97.9 g of sodium and 65.4 g of potassium hydroxide in 331.4 g of water: 494.7 g of lye solution, 2.03 to 1."""


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("Take 331 ml of water.", None),
        ("Take 330 ml of water.", "water"),
        ("Take 0.331 l of water.", None),
        ("Take 0.330 l of water.", "water"),
        ("Water to lye is 2.03 to 1.", None),
        ("Water to lye is 3 to 1.", "water-to-lye"),
        ("Lye to water is 1 : 2.03.", None),
        ("Lye and water weigh 495 g.", None),
        ("Lye and water weigh 500 g.", "lye-solution"),
        ("The oils weigh 1,000 g.", None),
        ("The oils weigh 1,100 g.", "oils"),
        ("The lye is 70 % sodium hydroxide.", None),
        ("The water is 33.1 % of the oils.", None),
        ("The water is 32 % of the oils.", "lye-strength"),
        ("Stir 8 g/kg of kaolin into the batter.", None),
        ("Stir 20 g/kg of kaolin into the light portion.", None),
        ("Stir 21 g/kg of kaolin into the light portion.", "addition kaolin"),
        ("Stir 8 g of kaolin per kg of oils.", None),
        ("Stir 9 g of kaolin per kg of oils.", "addition kaolin"),
        ("Stir 2 % of kaolin into the light portion.", None),
        ("Stir 3 % of kaolin into the light portion.", ""),
        ("Stir 240 g of olive oil in.", None),
        ("Stir 250 g of olive oil in.", "oil olive"),
        ("The superfat is 5.04 %.", "superfat"),
    ],
)
def test_volumes_ratios_rates_and_portions(said: str, name: str | None) -> None:
    """The figure that is meant is named, where there is one of its kind."""
    findings = found(recipe(MIXED + said + "\n"), "bare-figure")
    assert len(findings) == (name is not None)
    for finding in findings:
        assert finding.hint.startswith(
            f"write {{{name}}}, or {{{name} = " if name else "name the figure in braces"
        )
