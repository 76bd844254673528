"""The rule `mould-fill`: batter against the mould it is poured into."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import found, more, put, recipe

LOAF = "moulds: {box: {loaf: {length: 250 mm, width: 90 mm, height: 80 mm}}}\n"
"""1,800 ml."""


def of(oils: str, block: str = "mould: box\n") -> dict[str, str]:
    return recipe(more(block, put("total: 1000 g", f"total: {oils}")), pantry=LOAF)


BREAKER = of("2600 g")
TOLD = [
    (
        "recipes/tried.md:11:8",
        "error",
        "3663 ml of batter go into a mould of 1800 ml, which runs over",
        "1278 g of oils fill it to the rim: make less, or take a mould that holds 3663 ml and head room",
    ),
]
NEIGHBOUR = of("1150 g")


@pytest.mark.parametrize(
    ("oils", "severity"),
    [("1277 g", ""), ("1279 g", "error"), ("640 g", ""), ("638 g", "warning"), ("300 g", "warning")],
)
def test_the_rim_and_the_half_are_the_limits(oils: str, severity: str, tmp_path: Path) -> None:
    """Half full: common practice, no source."""
    assert [f.severity for f in found(tmp_path, of(oils), "mould-fill")] == [severity] * bool(severity)


def test_what_the_hint_says_fills_it(tmp_path: Path) -> None:
    (few,) = found(tmp_path, of("300 g"), "mould-fill")
    assert few.message.endswith("which is 23 % of it") and few.hint.startswith(
        "1278 g of oils fill it to the rim"
    )


@pytest.mark.parametrize(("to", "count"), [("95 %", 0), ("100 %", 0), ("40 %", 1)])
def test_a_mould_filled_by_the_engine_is_held_too(to: str, count: int, tmp_path: Path) -> None:
    files = recipe(put("total: 1000 g", f"fill: {{mould: box, to: {to}}}"), pantry=LOAF)
    assert len(found(tmp_path, files, "mould-fill")) == count


def test_so_are_other_sizes(tmp_path: Path) -> None:
    sizes = "mould: box\nsizes: [{mould: box, to: 30 %}, {mould: box, to: 90 %}]\n"
    assert [f.place.line for f in found(tmp_path, of("1150 g", sizes), "mould-fill")] == [12]
