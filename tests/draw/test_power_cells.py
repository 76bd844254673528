"""The areas of cells about sites, held to what geometry says of them."""

from __future__ import annotations

import numpy as np
import pytest

from saponary.draw.pour.power_cells import PowerCells
from saponary.draw.pour.seed import Array
from saponary.draw.pour.weights import Guess, sloped, solved

BOX = (0.0, 0.0, 80.0, 60.0)
SITES = np.array([(10.0 + 20 * i, 10.0 + 20 * j) for j in range(3) for i in range(4)])
NEAR = np.ones((len(SITES), len(SITES)), dtype=bool)


def test_sites_in_rows_have_squares() -> None:
    """Each cell is 20 by 20. By 64 rays to its outline it comes out 1 % smaller at most."""
    areas = PowerCells(SITES, NEAR, BOX).areas(np.zeros(len(SITES)))
    assert areas == pytest.approx(np.full(len(SITES), 400.0), rel=0.01)


def test_a_weight_moves_the_line_between_two_sites() -> None:
    """Two sites 40 apart: the line lies where distances squared less weights are equal, (40² + w) / 80 from the first."""
    sites = np.array([(20.0, 30.0), (60.0, 30.0)])
    cells = PowerCells(sites, np.ones((2, 2), dtype=bool), BOX)
    first, second = cells.areas(np.array([160.0, 0.0])).tolist()
    assert first == pytest.approx((20 + 22) * 60, rel=0.02) and second == pytest.approx(
        (20 + 18) * 60, rel=0.02
    )


def test_weights_are_found_for_areas_that_are_asked_for() -> None:
    cells = PowerCells(SITES, NEAR, BOX)
    owners = np.arange(len(SITES)) % 3
    whole = float(cells.areas(np.zeros(len(SITES))).sum())
    targets = np.array([0.42, 0.33, 0.25]) * whole

    def areas(weights: Array) -> Array:
        found = np.bincount(owners, cells.areas(weights[owners]), 3)
        return found * (whole / found.sum())

    found = solved(areas, targets, Guess(np.zeros(3), np.eye(3) * 0.1), 140.0, 1e-4, 30)
    assert areas(found.weights) == pytest.approx(targets, rel=2e-3)


def test_slopes_are_what_areas_do_when_a_weight_is_raised() -> None:
    """By differences, so far that rays that change their neighbour even out."""
    cells = PowerCells(SITES, NEAR, BOX)
    owners = np.arange(len(SITES)) % 3
    here = np.array([12.0, -8.0, 3.0])
    areas, slopes = cells.slopes(here, owners)
    assert areas == pytest.approx(np.bincount(owners, cells.areas(here[owners]), 3))
    raised = np.array([4.0, 0.0, 0.0])
    change = (cells.slopes(here + raised, owners)[0] - cells.slopes(here - raised, owners)[0]) / 8.0
    assert change == pytest.approx(slopes[:, 0], rel=0.1, abs=0.3)
    more = np.array([1.0, -1.0, 0.0])
    guess = sloped(here, slopes)
    assert slopes @ guess.inverse @ more == pytest.approx(more, abs=0.06)
