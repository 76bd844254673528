"""How much alkali water can hold, against the table's own points (a handbook table, second-hand)."""

from __future__ import annotations

import pytest

from saponary.lye.alkali import Weights
from saponary.lye.constants import STRONGEST_LYE
from saponary.lye.solubility import strongest

SODIUM, POTASSIUM = Weights(1.0, 0.0), Weights(0.0, 1.0)


@pytest.mark.parametrize(
    ("weights", "celsius", "grams"),
    [
        (SODIUM, 0, 42), (SODIUM, 20, 109), (SODIUM, 40, 129), (SODIUM, 60, 174), (SODIUM, 10, 75.5),
        (POTASSIUM, 0, 97), (POTASSIUM, 20, 112), (POTASSIUM, 50, 140), (POTASSIUM, 60, 147.6),
    ],
)  # fmt: skip
def test_grams_in_a_hundred_of_water(weights: Weights, celsius: float, grams: float) -> None:
    assert strongest(weights, celsius) == pytest.approx(grams / (grams + 100))


def test_half_alkali_is_under_what_warm_water_holds_and_above_what_ice_does() -> None:
    assert strongest(SODIUM, 0) < STRONGEST_LYE < strongest(SODIUM, 20)
    assert strongest(POTASSIUM, 0) < STRONGEST_LYE < strongest(POTASSIUM, 20)


def test_two_alkalis_share_the_water() -> None:
    """Half and half: 1/(0.5/42 + 0.5/97) = 58.62 g in 100 g."""
    assert strongest(Weights(5.0, 5.0), 0) == pytest.approx(58.62 / 158.62, abs=1e-4)


def test_beyond_the_table_its_ends_stand() -> None:
    assert strongest(SODIUM, -10) == strongest(SODIUM, 0)
    assert strongest(SODIUM, 90) == strongest(SODIUM, 60)
    assert strongest(Weights(0.0, 0.0), 0) == strongest(SODIUM, 0)
