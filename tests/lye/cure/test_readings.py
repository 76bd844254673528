"""Readings of a fitted cure curve."""

from __future__ import annotations

from math import exp, log

import pytest
from scipy.optimize import brentq

from saponary.lye.cure.fit import CureFit, fit_cure
from saponary.lye.cure.readings import (
    half_life,
    ready_day,
    still_to_lose,
    weight_at,
    weight_interval,
)


def curve(plateau: float, fall: float, rate: float, days: tuple[float, ...] = (0, 7, 14, 28)) -> CureFit:
    fit = fit_cure([(d, plateau + fall * exp(-rate * (d - days[0]))) for d in days])
    assert isinstance(fit, CureFit)
    return fit


def test_weights_of_a_known_curve() -> None:
    # Source: 104 + 16·exp(-ln 2/14·t) halves its fall every fortnight.
    fit = curve(104, 16, log(2) / 14)
    for day, grams in ((0, 120), (14, 112), (28, 108), (42, 106), (56, 105)):
        assert weight_at(fit, day) == pytest.approx(grams, abs=1e-9)
        assert still_to_lose(fit, day) == pytest.approx(grams - 104, abs=1e-9)
    assert half_life(fit) == pytest.approx(14)


def test_ready_day_is_where_the_pace_meets_the_limit() -> None:
    # Source: the root of 7·k·A·exp(-k t) = 0.005·W(t), found by scipy.optimize.brentq.
    for plateau, fall, rate in ((104, 16, 0.0495), (105.6, 15.8, 0.0744), (100, 20, 0.02)):
        fit = curve(plateau, fall, rate)

        def beyond(t: float, p: float = plateau, a: float = fall, k: float = rate) -> float:
            return 7 * k * a * exp(-k * t) - 0.005 * (p + a * exp(-k * t))

        ready = ready_day(fit)
        assert ready.day == pytest.approx(brentq(beyond, 0, 500), rel=1e-8)
        assert ready.forecast and not ready.by_first


def test_ready_day_beside_two_weighings_a_week_apart() -> None:
    # Source: W(t-7) - W(t) = 0.005·W(t-7), solved by scipy.optimize.brentq; half a week later.
    fit = curve(104, 16, 0.0495)

    def lost(t: float) -> float:
        return weight_at(fit, t - 7) - weight_at(fit, t) - 0.005 * weight_at(fit, t - 7)

    assert brentq(lost, 7, 200) - ready_day(fit).day == pytest.approx(3.5, abs=0.2)


def test_ready_day_moves_with_the_limit() -> None:
    # Source: a stricter limit is met later.
    fit = curve(104, 16, 0.0495)
    days = [ready_day(fit, limit).day for limit in (0.01, 0.005, 0.002, 0.001)]
    assert days == sorted(days) and len(set(days)) == 4
    for limit in (0.0, 1.0, -0.1):
        with pytest.raises(ValueError):
            ready_day(fit, limit)


def test_a_bar_that_was_dry_when_first_weighed() -> None:
    # Source: a fall of 0.4 g in 104 g at 0.05 a day is 0.13 % a week at its quickest.
    ready = ready_day(curve(104, 0.4, 0.05, (60, 67, 74, 95)))
    assert ready.day == 60 and ready.by_first and not ready.forecast
    # Source: half a day before, 7·k·A·exp(-k t) is 0.5 % of the bar: the first day is late by so much.
    pace = 7 * 0.05 - 0.005
    late = ready_day(curve(104, exp(-0.05 * 0.5) * 0.005 * 104 / pace, 0.05, (60, 67, 74, 95)))
    assert late.by_first and late.day == 60 and late.interval is not None
    # Nothing is known before the first day, so the interval begins there too.
    assert ready.interval == pytest.approx((60.0, 60.0), abs=1e-6)


def test_ready_day_already_seen_is_no_forecast() -> None:
    # Source: the last weighing lies after the day.
    assert not ready_day(curve(104, 16, 0.0495, (0, 14, 28, 42, 70))).forecast


def test_intervals_hold_the_curve_and_widen() -> None:
    # Source: a further weighing scatters more than the curve; errors grow beyond the data.
    noise = (0.1, -0.2, 0.15, -0.1, 0.05, 0.0)
    days = (0, 7, 14, 21, 35, 49)
    fit = fit_cure([(d, 104 + 16 * exp(-0.045 * d) + e) for d, e in zip(days, noise, strict=True)])
    assert isinstance(fit, CureFit)
    widths = []
    for day in (30, 60, 120):
        low, high = weight_interval(fit, day) or (0.0, 0.0)
        assert low < weight_at(fit, day) < high
        assert weight_at(fit, day) - low == pytest.approx(high - weight_at(fit, day), rel=1e-9)
        widths.append(high - low)
    assert widths == sorted(widths)
    # Source: far out the curve is its plateau, and a weighing's own scatter adds in squares.
    far = weight_interval(fit, 2000)
    assert far and fit.plateau_interval and fit.residual_sd
    reach = (fit.plateau_interval[1] - fit.plateau_g) ** 2 + (fit.student * fit.residual_sd) ** 2
    assert (far[1] - fit.plateau_g) ** 2 == pytest.approx(reach, rel=1e-9)


def test_intervals_are_counted_from_the_first_weighing() -> None:
    # Source: the model has no preferred day; a calendar begun 40 days earlier moves nothing else.
    noise = (0.1, -0.2, 0.15, -0.1, 0.05, 0.0)
    days = (0, 7, 14, 21, 35, 49)
    points = [(d, 104 + 16 * exp(-0.045 * d) + e) for d, e in zip(days, noise, strict=True)]
    one, other = fit_cure(points), fit_cure([(d + 40, g) for d, g in points])
    assert isinstance(one, CureFit) and isinstance(other, CureFit)
    for day in (0, 21, 60):
        assert weight_interval(other, day + 40) == pytest.approx(weight_interval(one, day), rel=1e-9)
    first, second = ready_day(one).interval, ready_day(other).interval
    assert first is not None and second is not None
    assert second == pytest.approx((first[0] + 40, first[1] + 40), rel=1e-8)


def test_a_plateau_not_yet_told_is_open_below() -> None:
    # Source: the rate's interval reaches nought, and with no rate there is no plateau.
    fit = fit_cure([(0, 120.0), (7, 117.2), (14, 114.9), (21, 112.7), (28, 110.7)])
    assert isinstance(fit, CureFit)
    assert fit.rate_interval and fit.plateau_interval
    wider = fit_cure([(0, 120.1), (7, 117.0), (14, 115.1), (21, 112.5), (28, 110.8)])
    assert isinstance(wider, CureFit) and wider.rate_interval and wider.plateau_interval
    assert wider.rate_interval[0] == 0.0 and wider.plateau_interval[0] == float("-inf")
