"""Cure: what the curve through a bar's weighings says of any day.

The curve is fitted in `fit`; here are its readings. All weights are grams of one marked
bar, all days count from pouring. Errors are propagated through the fit's covariance to first
order and widened by Student's t (G. Seber and C. Wild, Nonlinear Regression, 1989, section
5.1, from memory).
"""

from __future__ import annotations

from math import exp, expm1, log, sqrt
from typing import NamedTuple

from saponary.lye.cure.fit import CureFit, Interval

WEEKLY_LOSS = 0.005
"""A bar is ready when it loses less than this share of its weight in a week: common
practice, no source."""

WEEK = 7.0


class Ready(NamedTuple):
    """The day a bar's loss per week falls below a limit.

    `interval` is at the fit's confidence, None without one. `forecast` is true where the day
    lies after the last weighing, so that the curve is trusted beyond what was seen. `by_first`
    is true where the loss was below the limit on the first day weighed already; `day` is then
    that first day, since nothing is known of those before it.
    """

    day: float
    interval: Interval | None
    forecast: bool
    by_first: bool


def weight_at(fit: CureFit, day: float) -> float:
    """Grams by the curve. Before the first weighing and after the last it is an extrapolation."""
    return fit.start_g + fit.fall_g * expm1(-fit.rate_per_day * (day - fit.first_day))


def weight_interval(fit: CureFit, day: float) -> Interval | None:
    """Grams between which a further weighing of this bar on this day will lie.

    A prediction interval at the fit's confidence: the curve's own error and a weighing's
    scatter together. None where three weighings fix the curve exactly.
    """
    age = day - fit.first_day
    left = exp(-fit.rate_per_day * age)
    error = fit.error(1.0, left, -fit.fall_g * age * left)
    if error is None or fit.residual_sd is None:
        return None
    reach = fit.student * sqrt(error * error + fit.residual_sd * fit.residual_sd)
    middle = weight_at(fit, day)
    return middle - reach, middle + reach


def half_life(fit: CureFit) -> float:
    """Days in which what is still to be lost halves: ln 2 / k."""
    return log(2.0) / fit.rate_per_day


def ready_day(fit: CureFit, weekly_loss: float = WEEKLY_LOSS) -> Ready:
    """The day the pace of loss falls below a share of the bar's weight per week.

    The pace is the curve's slope on that day, 7·k·A·exp(-k t) = L·(P + A·exp(-k t)), whence
    t = ln(A·(7k - L) / (L·P)) / k after the first weighing, with A the fall to the plateau.
    A loss taken between two weighings a week apart passes the limit about half a week
    later, at the second of them.
    """
    if not 0.0 < weekly_loss < 1.0:
        raise ValueError("the loss per week is a share between 0 and 1")
    k, fall, plateau = fit.rate_per_day, fit.fall_g, fit.plateau_g
    pace = WEEK * k - weekly_loss
    ratio = fall * pace / (weekly_loss * plateau)
    if ratio <= 0.0:
        return Ready(fit.first_day, None, False, True)
    age = log(ratio) / k
    error = fit.error(-1.0 / (k * plateau), 1.0 / (k * fall), (WEEK / pace - age) / k)
    interval: Interval | None = None
    if error is not None:
        reach = fit.student * error
        low, high = fit.first_day + age - reach, fit.first_day + age + reach
        interval = max(fit.first_day, low), max(fit.first_day, high)
    day = fit.first_day + max(0.0, age)
    return Ready(day, interval, day > fit.last_day, age <= 0.0)


def still_to_lose(fit: CureFit, day: float) -> float:
    """Grams between the curve on a day and the plateau: the water that this room will still take."""
    return fit.fall_g * exp(-fit.rate_per_day * (day - fit.first_day))
