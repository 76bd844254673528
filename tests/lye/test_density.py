"""Densities of lyes and volumes of what is in a batch, against the tables as printed."""

from __future__ import annotations

import pytest

from saponary.lye import density
from saponary.lye.alkali import Weights
from saponary.lye.formula import Addition, Liquid, Oil

ICT = [
    (0.20, 1.2191), (0.24, 1.2629), (0.28, 1.3064), (0.30, 1.3279), (0.32, 1.3490), (0.36, 1.3900),
    (0.40, 1.4300), (0.44, 1.4685), (0.48, 1.5065), (0.50, 1.5253),
]  # fmt: skip
"""NaOH at 20 °C, g/ml: International Critical Tables, vol. III, p. 79, by a reprint (second-hand)."""


@pytest.mark.parametrize(("strength", "grams"), ICT)
def test_sodium_lye_by_the_table(strength: float, grams: float) -> None:
    assert density.naoh_solution(strength) == pytest.approx(grams, abs=1e-12)


@pytest.mark.parametrize(("strength", "grams"), [(0.30, 1.2905), (0.40, 1.3991), (0.50, 1.5143)])
def test_potassium_lye_by_the_table(strength: float, grams: float) -> None:
    """KOH at 15 °C, from memory."""
    assert density.koh_solution(strength) == pytest.approx(grams, abs=1e-12)


@pytest.mark.parametrize(
    ("strength", "grams"), [(0.25, 1.2738), (0.33, 1.3593), (0.34, 1.3695), (0.35, 1.3798), (0.38, 1.4100)]
)
def test_between_the_points_it_is_a_straight_line(strength: float, grams: float) -> None:
    """Interpolated by hand from the same table."""
    assert density.naoh_solution(strength) == pytest.approx(grams, abs=6e-5)


def test_beyond_the_table_the_last_piece_goes_on() -> None:
    assert density.naoh_solution(0.52) == pytest.approx(1.5253 + (1.5253 - 1.5065), abs=1e-12)
    assert density.naoh_solution(0.10) == pytest.approx((0.9982 + 1.2191) / 2, abs=1e-12)


def test_a_lye_of_both_alkalis_is_each_by_its_mass() -> None:
    """60 g NaOH and 40 g KOH in 150 g of water, 40 %: 250 x (0.6/1.4300 + 0.4/1.3991) = 176.370 ml."""
    assert density.lye_millilitres(Weights(60.0, 40.0), 150.0) == pytest.approx(176.370, abs=5e-4)


def test_water_without_alkali_is_itself_and_no_lye_is_nothing() -> None:
    assert density.lye_millilitres(Weights(0.0, 0.0), 80.0) == 80.0
    assert density.lye_millilitres(Weights(10.0, 0.0), -20.0) == 0.0


def test_what_has_a_density_of_its_own_goes_by_it_and_all_else_by_the_usual() -> None:
    """Oils 0.92 (from memory), liquids and additions as water."""
    oils = [Oil("a", 92.0, 190, 190, 190), Oil("b", 45.0, 190, 190, 190, density=0.9)]
    assert density.oils_millilitres(oils) == pytest.approx(150.0)
    assert density.liquids_millilitres(
        [Liquid("a", 30.0, 1.0), Liquid("b", 20.6, 1.0, density=1.03)]
    ) == pytest.approx(50.0)
    assert density.additions_millilitres(
        [Addition("a", 5.0), Addition("b", 26.0, displaces=2.6)]
    ) == pytest.approx(15.0)
