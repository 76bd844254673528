"""The least-squares curve: each part against linear algebra done by numpy."""

from __future__ import annotations

import random
from math import exp

import numpy as np
import pytest

import saponary.lye.cure.curve as module
from saponary.lye.cure.curve import FASTEST, SLOWEST, Curve, best_curve, inverse_normal, leave_one_out

DAYS = (0, 7, 14, 21, 28, 42, 56)


def bar(seed: int, noise: float = 0.3) -> list[tuple[float, float]]:
    rng = random.Random(seed)
    plateau, fall, rate = rng.uniform(95, 115), rng.uniform(10, 18), rng.uniform(0.03, 0.08)
    return [(float(d), plateau + fall * exp(-rate * d) + rng.gauss(0, noise)) for d in DAYS]


@pytest.mark.parametrize("seed", range(12))
def test_each_weighing_left_out_is_the_fit_of_the_others(seed: int) -> None:
    points = bar(seed)
    for i, curve in enumerate(leave_one_out(points)):
        alone = best_curve(points[:i] + points[i + 1 :])
        assert curve.squares == pytest.approx(alone.squares, rel=1e-6)
        assert curve.rate == pytest.approx(alone.rate, rel=1e-4)
        assert curve.edge == alone.edge


def test_a_gross_weighing_left_out_is_the_fit_of_the_others() -> None:
    points = bar(3, noise=0.05)
    points[4] = (points[4][0], points[4][1] + 6.0)
    curve = leave_one_out(points)[4]
    alone = best_curve(points[:4] + points[5:])
    assert curve.squares == pytest.approx(alone.squares, rel=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_the_curve_is_the_lowest_of_a_fine_grid(seed: int) -> None:
    """Start and fall by numpy's least squares for each of 4,000 rates."""
    points = bar(seed)
    curve = best_curve(points)
    days, grams = np.array(points).T
    squares = []
    for rate in np.geomspace(1e-4, 1.0, 4000):
        table = np.column_stack([np.ones_like(days), np.expm1(-rate * days)])
        solution, *_ = np.linalg.lstsq(table, grams, rcond=None)
        squares.append(float(((table @ solution - grams) ** 2).sum()))
    assert curve.squares <= min(squares) * (1 + 1e-9)
    assert curve.squares == pytest.approx(min(squares), rel=1e-4)
    assert sum((curve.at(d) - g) ** 2 for d, g in points) == pytest.approx(curve.squares, rel=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_the_inverse_is_numpys(seed: int) -> None:
    rng = random.Random(seed)
    rows = [(1.0, rng.uniform(0, 1), rng.uniform(-5, 5)) for _ in range(7)]
    made = inverse_normal(rows)
    assert made is not None
    table = np.array(rows)
    assert np.array(made) == pytest.approx(np.linalg.inv(table.T @ table), rel=1e-8)


def test_rows_that_lack_rank_have_no_inverse() -> None:
    assert inverse_normal([(1.0, 2.0, 4.0), (2.0, 4.0, 8.0), (3.0, 6.0, 12.0), (1.0, 1.0, 2.0)]) is None
    assert inverse_normal([(0.0, 1.0, 2.0), (0.0, 2.0, 1.0), (0.0, 3.0, 3.0)]) is None


def test_one_grid_serves_every_weighing_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """The full search is kept for series whose valley the shared grid does not enclose: none of these."""
    asked: list[int] = []

    def full(points: list[tuple[float, float]]) -> Curve:
        asked.append(len(points))
        return best_curve(points)

    monkeypatch.setattr(module, "best_curve", full)
    curves = [curve for seed in range(12) for curve in leave_one_out(bar(seed))]
    assert len(curves) == 12 * len(DAYS) and asked == []


@pytest.mark.parametrize("quick", [2.0, 4.0, 6.0])
def test_a_fall_that_is_soon_over_keeps_its_pace(quick: float) -> None:
    """Weighings computed from the curve itself, k being so much per second day weighed."""
    curve = best_curve([(d, 108 + 12 * exp(-quick / 14 * d)) for d in (0.0, 14.0, 28.0, 42.0)])
    assert curve.edge == ""
    assert curve.rate == pytest.approx(quick / 14, rel=1e-9)
    assert curve.at(0.0) == pytest.approx(120, rel=1e-12)


def test_a_fall_over_before_the_second_weighing_runs_to_the_fastest_pace() -> None:
    """Twelve e-folds until the second day are the end of the search, and the fall is all there is."""
    curve = best_curve([(0.0, 120.0), (14.0, 108.0), (28.0, 108.0), (42.0, 108.0)])
    assert (curve.edge, curve.rate) == ("fastest", pytest.approx(FASTEST / 14))
    assert (curve.start, curve.fall) == (pytest.approx(120.0, abs=1e-3), pytest.approx(12.0, abs=1e-3))


def test_a_straight_fall_runs_to_the_slowest_pace() -> None:
    """The start is that of the straight line through the weighings."""
    curve = best_curve([(0.0, 120.0), (14.0, 118.0), (28.0, 116.0), (42.0, 114.0)])
    assert (curve.edge, curve.rate) == ("slowest", pytest.approx(SLOWEST / 42))
    assert curve.start == pytest.approx(120.0, abs=1e-3)
    assert curve.at(21.0) == pytest.approx(117.0, abs=1e-3)
