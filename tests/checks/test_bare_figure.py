"""The rule `bare-figure`: a number in a sentence that is none of the recipe's."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import GOOD, found, more, recipe

BREAKER = recipe(GOOD + "Weigh out 999 g of lye.\n")
TOLD = [
    (
        "recipes/tried.md:16:11",
        "warning",
        "“999 g” stands beside 'lye' and is no figure of this recipe",
        "write {lye}, or {lye = 139.8 g}, so that each build checks it",
    ),
]
NEIGHBOUR = recipe(GOOD + "Weigh out {lye} of lye.\n")


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
def test_shares_weights_and_other_sizes(said: str, count: int, tmp_path: Path) -> None:
    findings = found(tmp_path, recipe(more("sizes: [500 g]\n") + said + "\n"), "bare-figure")
    assert len(findings) == count
    assert all(str(f.place).startswith("recipes/tried.md:17:") and f.about for f in findings)
