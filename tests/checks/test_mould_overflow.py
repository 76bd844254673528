"""The rule `mould-overflow`: more batter than the mould holds, which nobody may waive."""

from __future__ import annotations

import pytest

from checks.books import found, more, proofed, put, recipe
from checks.test_mould_fill import of

BREAKER = of("2600 g")
TOLD = [
    (
        "recipes/tried.md:11:8",
        "error",
        "3663 ml of batter go into a mould of 1800 ml, which runs over",
        "1278 g of oils fill it to the rim: make less, or take a mould that holds 3663 ml and leaves room at the top",
    ),
]
NEIGHBOUR = of("1150 g")
ALSO = [
    (
        recipe(
            more("mould: box\nsizes: [{mould: box, to: 100 %}]\n", put("total: 1000 g", "total: 1400 g")),
            pantry="moulds: {box: {loaf: {length: 250 mm, width: 90 mm, height: 80 mm}}}\n",
        ),
        [
            (
                "recipes/tried.md:11:8",
                "error",
                "1973 ml of batter go into a mould of 1800 ml, which runs over",
                "1278 g of oils fill it to the rim: make less, or take a mould that holds 1973 ml and leaves room at the top",
            )
        ],
    ),
]


@pytest.mark.parametrize(("oils", "count"), [("1277 g", 0), ("1279 g", 1), ("2600 g", 1)])
def test_the_rim_is_the_limit(oils: str, count: int) -> None:
    assert len(found(of(oils), "mould-overflow")) == count


def test_other_sizes_are_held_too() -> None:
    sizes = "mould: box\nsizes: [{mould: box, to: 90 %}, {mould: box, to: 100 %}]\n"
    assert not found(of("1150 g", sizes), "mould-overflow")


def test_no_waiver_sets_it_aside() -> None:
    waived = "mould: box\nwaive: [{rule: mould-overflow, because: it has always held this much}]\n"
    told = proofed(of("2600 g", waived)).findings
    assert {("mould-overflow", "error"), ("waiver", "error")} <= {(f.rule, f.severity) for f in told}
