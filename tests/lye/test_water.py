"""Three ways to say how much water, and where it comes from, by plain arithmetic."""

from __future__ import annotations

import pytest

from saponary.lye.formula import Liquid, Water
from saponary.lye.water import as_convention, grams, sources, strength


@pytest.mark.parametrize(
    ("convention", "value", "water"),
    [("lye-strength", 0.34, 274.55), ("to-lye", 1.9, 268.73), ("of-oils", 0.27, 270.0)],
)
def test_one_formula_by_each_convention(convention: str, value: float, water: float) -> None:
    """Rapeseed 550, coconut 250, lard 200 g; sodium hydroxide 141.4348 g."""
    assert grams(Water(convention, value), 141.4348, 1000.0) == pytest.approx(water, abs=0.005)
    assert as_convention(convention, water, 141.4348, 1000.0) == pytest.approx(value, abs=5e-5)


@pytest.mark.parametrize("convention", ["lye-strength", "to-lye", "of-oils"])
def test_of_nothing_there_is_no_share(convention: str) -> None:
    assert as_convention(convention, 0.0, 0.0, 0.0) == 0.0


def test_water_comes_from_the_tap_and_from_liquids() -> None:
    milk, vinegar = Liquid("milk", 100.0, 0.87, stage="lye"), Liquid("vinegar", 50.0, 0.95, stage="trace")
    found = sources(300.0, [milk, vinegar])
    assert (found.total, found.liquids) == (300.0, 134.5)
    assert found.plain == pytest.approx(165.5)
    assert found.dissolving == pytest.approx(252.5)


def test_liquids_may_bring_too_much() -> None:
    assert sources(50.0, [Liquid("milk", 100.0, 0.87)]).plain == pytest.approx(-37.0)


def test_a_strength_is_a_share_of_both() -> None:
    assert strength(50.0, 100.0) == pytest.approx(1 / 3)
    assert strength(50.0, -20.0) == 1.0
    assert strength(0.0, 100.0) == 0.0
