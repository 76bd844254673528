"""The rule `usual-water`. Its limits: common practice, no source."""

from __future__ import annotations

import pytest

from checks.books import more, put, recipe, with_figures
from saponary.checks.usual_water import check

BREAKER = recipe(put("{lye-strength: 33 %}", "{lye-strength: 22 %}"))
TOLD = [
    (
        "recipes/tried.md:10:1",
        "warning",
        "a lye solution of 22.0 % is weak: the batter may separate or stay soft",
        "usual is 30 to 35 %, such as water: {lye-strength: 33 %}",
    ),
]
NEIGHBOUR = recipe(put("{lye-strength: 33 %}", "{lye-strength: 26 %}"))
ALSO = [
    (
        recipe(put("{lye-strength: 33 %}", "{lye-strength: 24.9 %}")),
        [
            (
                "recipes/tried.md:10:1",
                "warning",
                "a lye solution of 24.9 % is weak: the batter may separate or stay soft",
                "usual is 30 to 35 %, such as water: {lye-strength: 33 %}; or waive it with your reason: waive: [{rule: usual-water, because: …}]",
            )
        ],
    ),
    (
        recipe(put("{lye-strength: 33 %}", "{lye-strength: 40.1 %}")),
        [
            (
                "recipes/tried.md:10:1",
                "warning",
                "a lye solution of 40.1 % heats up and traces fast",
                "usual is 30 to 35 %, such as water: {lye-strength: 33 %}; or waive it with your reason: waive: [{rule: usual-water, because: …}]",
            )
        ],
    ),
    (
        recipe(
            more(
                "method: cream\nlye: {potassium: {share: 100 %, purity: 90 %}}\n",
                put("{lye-strength: 33 %}", "{lye-strength: 24 %}"),
            )
        ),
        [],
    ),
    (
        recipe(put("water: {lye-strength: 33 %}\n", ""), book="water: {lye-strength: 24 %}\n"),
        [
            (
                "recipes/tried.md:2:1",
                "warning",
                "a lye solution of 24.0 % is weak: the batter may separate or stay soft",
                "usual is 30 to 35 %, such as water: {lye-strength: 33 %}; or waive it with your reason: waive: [{rule: usual-water, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(
    ("strength", "dissolving", "word"),
    [
        (0.25, 0.25, ""),
        (0.2499, 0.33, "weak"),
        (0.33, 0.4, ""),
        (0.33, 0.4001, "heats up"),
        (0.33, 0.5, "heats up"),
        (0.45, 0.38, ""),
        (0.33, 0.5001, ""),
    ],
)
def test_the_limits(strength: float, dissolving: float, word: str) -> None:
    """Hot is as the alkali dissolves, weak with all the water; above a half the rule about dangerous lye speaks."""
    found = list(check(with_figures(lye_strength=strength, lye_strength_dissolved=dissolving)))
    assert len(found) == bool(word) and all(word in f.message for f in found)
