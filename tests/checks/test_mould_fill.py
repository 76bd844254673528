"""The rule `mould-fill`: far less batter than the mould holds."""

from __future__ import annotations

import pytest

from checks.books import found, more, put, recipe

LOAF = "moulds: {box: {loaf: {length: 250 mm, width: 90 mm, height: 80 mm}}}\n"
"""1,800 ml."""


def of(oils: str, block: str = "mould: box\n") -> dict[str, str]:
    return recipe(more(block, put("total: 1000 g", f"total: {oils}")), pantry=LOAF)


BREAKER = of("300 g")
TOLD = [
    (
        "recipes/tried.md:11:8",
        "warning",
        "423 ml of batter go into a mould of 1800 ml, which is 23 % of it",
        "1278 g of oils fill it to the rim",
    ),
]
NEIGHBOUR = of("1150 g")
ALSO = [
    (
        recipe(
            more(
                "mould: box\nsizes: [{mould: box, to: 30 %}, 300 g]\n", put("total: 1000 g", "total: 1150 g")
            ),
            pantry=LOAF,
        ),
        [
            (
                "recipes/tried.md:12:9",
                "warning",
                "540 ml of batter go into a mould of 1800 ml, which is 30 % of it",
                "1278 g of oils fill it to the rim; or waive it with your reason: waive: [{rule: mould-fill, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(("oils", "count"), [("640 g", 0), ("638 g", 1), ("300 g", 1), ("1277 g", 0)])
def test_the_half_is_the_limit(oils: str, count: int) -> None:
    """Half full: common practice, no source."""
    assert len(found(of(oils), "mould-fill")) == count


@pytest.mark.parametrize(("to", "count"), [("95 %", 0), ("100 %", 0), ("40 %", 1)])
def test_a_mould_filled_by_the_engine_is_held_too(to: str, count: int) -> None:
    files = recipe(put("total: 1000 g", f"fill: {{mould: box, to: {to}}}"), pantry=LOAF)
    assert len(found(files, "mould-fill")) == count


def test_so_are_other_sizes() -> None:
    sizes = "mould: box\nsizes: [{mould: box, to: 30 %}, {mould: box, to: 90 %}]\n"
    assert [f.place.line for f in found(of("1150 g", sizes), "mould-fill")] == [12]
