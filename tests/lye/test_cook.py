"""The pot on the scale before and after a cook; sums by hand."""

from __future__ import annotations

import pytest

from lye.test_after_cook import HOT, MELTED
from saponary.lye.cook import cooked, pot_millilitres
from saponary.lye.figures import weigh


def test_what_is_gone_is_water() -> None:
    """380 g of water, 60 of them gone; the batter is 1000 + 140.6 + 380 + 50 g."""
    figures = weigh(HOT)
    found = cooked(figures, 3520.0, 3460.0)
    assert (found.lost, found.water) == (60.0, 380.0)
    assert found.left == 320.0 and found.lost_of_water == pytest.approx(60 / 380)
    assert found.made == pytest.approx(1570.58 - 60, abs=0.01)
    assert found.water_share == pytest.approx(320 / 1510.58, abs=1e-4)
    assert found.each(10) == pytest.approx(151.058, abs=0.001)


def test_a_bar_dries_to_the_same_weight_however_long_it_was_cooked() -> None:
    """What is no water is 1190.58 g; of the dried soap a tenth is water: 1190.58/0.9."""
    figures = weigh(HOT)
    for lost in (0.0, 60.0, 200.0):
        assert cooked(figures, 3000.0, 3000.0 - lost).dried(0.1) == pytest.approx(1190.58 / 0.9, abs=0.01)


def test_a_bar_takes_up_no_water() -> None:
    figures = weigh(HOT)
    dry = cooked(figures, 3000.0, 2650.0)
    assert dry.dried(0.1) == dry.made


def test_a_rebatch_loses_the_water_of_its_soap_and_of_its_liquid() -> None:
    found = cooked(weigh(MELTED), 1200.0, 1170.0)
    assert (found.water, found.left, found.made) == pytest.approx((141.0, 111.0, 660.0))


def test_the_pot_holds_three_times_its_batter_to_the_next_half_litre() -> None:
    """Common practice, no source."""
    figures = weigh(HOT)
    room = pot_millilitres(figures)
    assert room % 500 == 0 and 0 <= room - 3 * figures.batter_ml < 500
