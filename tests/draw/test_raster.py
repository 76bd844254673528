"""Areas on a raster, against areas of geometry: circles, squares and what is left of them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from saponary.draw.pour.raster import Raster
from saponary.draw.pour.seed import Array
from saponary.draw.pour.spoons import Spoons

BOX = (0.0, 0.0, 100.0, 78.0)


def circle(x: float, y: float, radius: float, corners: int = 96) -> Array:
    turn = math.tau * np.arange(corners) / corners
    return np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)])


def everywhere(raster: Raster) -> Array:
    return np.ones((raster.rows, raster.columns))


def test_a_circle_covers_pi_r_squared_whichever_way_it_goes_round() -> None:
    raster = Raster(BOX, 0.8)
    for ring in (circle(40, 30, 17.3), circle(40, 30, 17.3)[::-1]):
        assert raster.within([ring]).sum() * raster.cell == pytest.approx(math.pi * 17.3**2, rel=2e-3)


def test_between_two_profiles_lies_the_area_under_one_less_that_under_the_other() -> None:
    raster, xs = Raster(BOX, 0.8), np.linspace(0, 100, 201)
    low, high = 20 + 0.2 * xs, 60 - 0.1 * xs
    assert raster.between(xs, low, high).sum() * raster.cell == pytest.approx(40 * 100 - 0.3 * 5000, rel=1e-3)


def test_what_is_painted_later_hides_what_was_painted_before() -> None:
    """Two circles of radius r, d apart: their overlap is 2 r² acos(d / 2r) − d/2 √(4r² − d²)."""
    raster, r, d = Raster(BOX, 0.5), 15.0, 18.0
    first, second = (
        raster.shown(np.array([circle(40, 40, r), circle(40 + d, 40, r)]), everywhere(raster))
    ).tolist()
    overlap = 2 * r * r * math.acos(d / 2 / r) - d / 2 * math.sqrt(4 * r * r - d * d)
    assert second * raster.cell == pytest.approx(math.pi * r * r, rel=2e-3)
    assert first * raster.cell == pytest.approx(math.pi * r * r - overlap, rel=4e-3)


def test_only_free_cells_count_and_none_beyond_the_box() -> None:
    raster = Raster(BOX, 0.5)
    half = everywhere(raster)
    half[raster.rows // 2 :] = 0.0
    assert raster.shown(circle(50, 39, 20)[None], half)[0] * raster.cell == pytest.approx(
        math.pi * 200, rel=4e-3
    )
    at_wall = raster.shown(np.array([circle(0, 39, 20), circle(50, -200, 20)]), everywhere(raster))
    assert at_wall.tolist() == pytest.approx([math.pi * 200 / raster.cell, 0.0], rel=4e-3)


def test_a_spoonful_is_round_and_flat_where_it_meets_the_one_before() -> None:
    sites = np.array([(20.0, 30.0), (36.0, 30.0)])
    made = Spoons(sites, np.ones((2, 2), dtype=bool), 15.0, 2.5)
    first, second = made.outlines(np.array([0.0, 64.0]))
    # Where distances squared less weights are equal: (16² + 64) / 32 from the second site.
    assert second[:, 0].min() == pytest.approx(36.0 - 10.0, abs=0.2)
    assert second[:, 0].max() == pytest.approx(36.0 + 15.0)
    # The first runs on beneath it.
    assert first[:, 0].max() == pytest.approx(26.0 + 2.5, abs=0.2)
    assert first[:, 0].min() == pytest.approx(20.0 - 15.0)
