"""A marked bar's weighings to a cure curve with its errors, or to the reason why there is none.

Model: W(t) = P + (W0 - P)·exp(-k t), with P the plateau in grams, k per day (an exponential
approach, as thin bodies dry when the surface sets the pace; real bars have a longer tail, so
a fit serves the days near its weighings and is made again when there are more).

Errors are those of non-linear least squares: the covariance s²·(JᵀJ)⁻¹ with s² the residual
variance on n - 3 degrees of freedom, and Student's t (G. Seber and C. Wild, Nonlinear
Regression, 1989, chapters 2 and 5, from memory). They are linear approximations: narrow for
few weighings of a curve that has hardly begun to bend. Intervals say how a weighing scatters,
never how a damp room moves the plateau.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from math import expm1, inf, isfinite, sqrt
from typing import NamedTuple

from saponary.lye.cure.curve import Curve, Point, Triple, best_curve, inverse_normal, leave_one_out
from saponary.lye.cure.student import quantile, within

Interval = tuple[float, float]

LEAST_KEPT = 0.5
"""A plateau below this share of the first weight is no plateau: oils and alkali outweigh the
water in every batter that sets as a bar (water is 26 % of it even with a lye of 25 %: 405 g
with 135 g of alkali in 1000 g of oils), so the fall cannot go that deep."""

FINEST = 1e-4
"""No kitchen balance tells a bar's weight truer than this share of it (0.01 g in 100 g):
weights that differ by less are the same."""

USUAL_SCATTER = 0.0025
USUAL_WEIGHT = 2
"""A weighing's usual scatter as a share of the bar (0.3 g in 120 g: a balance that shows whole
grams), and the degrees of freedom it counts for where a suspect is judged. Judgement, no source.
Without it five weighings could name no suspect however gross; it enters no fit and no interval."""

CHANCE = 0.05
"""A fall is taken as seen when scatter alone would show it less often than this."""

ACCUSED = 0.01
"""Share of sound series in which some weighing may be called suspect by chance, at most,
where the scatter is near the usual; at four times it, three or four times as many."""


class Reason(StrEnum):
    """Why nothing is fitted. The value is the sentence a reader sees."""

    BAD_VALUE = "a weighing is not a weight above zero on a day from zero on"
    TOO_FEW = "a curve needs weighings on at least three different days"
    CONSTANT = "the weights are all the same"
    RISING = "the weights do not fall"
    SCATTER = "the weighings are too far apart to show a fall"
    NOT_SLOWING = "the weight does not fall more slowly yet, so its final weight cannot be calculated"
    OVER_AT_ONCE = "all the weight was lost before the second weighing, so the speed cannot be calculated"


class Suspect(NamedTuple):
    """A weighing left out of the fit, since it disagrees with all the others."""

    day: float
    grams: float
    expected: float | None
    """Grams by the curve through the others; None where they gave no curve."""
    score: float
    """Its studentised residual against the others, without sign."""


class NoFit(NamedTuple):
    """No curve, and why."""

    reason: Reason
    suspects: tuple[Suspect, ...] = ()


class CureFit(NamedTuple):
    """The curve of a bar's weight. Grams and days after pouring; intervals at `confidence`.

    Intervals, `residual_sd` and `covariance` are None where exactly three weighings fix the
    curve with nothing left over to judge it by. The plateau's low end is minus infinity and
    the rate's is 0 where the weighings cannot rule out a fall that never slows.
    """

    first_day: float
    last_day: float
    start_g: float
    """The curve's weight on the first day weighed (day 0 if the bar was weighed when poured)."""
    plateau_g: float
    rate_per_day: float
    plateau_interval: Interval | None
    rate_interval: Interval | None
    residual_sd: float | None
    """Scatter of a weighing about the curve, grams."""
    used: int
    """Weighings the fit rests on."""
    confidence: float
    covariance: tuple[Triple, ...] | None
    """Of plateau, fall (start less plateau) and rate, in that order."""
    suspects: tuple[Suspect, ...] = ()

    @property
    def fall_g(self) -> float:
        """Grams between the first weighing and the plateau."""
        return self.start_g - self.plateau_g

    @property
    def student(self) -> float:
        """Student's t at the fit's confidence and n - 3 degrees of freedom; infinite for n = 3."""
        return quantile(self.confidence, self.used - 3) if self.used > 3 else inf

    def error(self, by_plateau: float, by_fall: float, by_rate: float) -> float | None:
        """Standard error of anything with these derivatives by plateau, fall and rate."""
        if self.covariance is None:
            return None
        slope = (by_plateau, by_fall, by_rate)
        r = range(3)
        return sqrt(max(0.0, sum(slope[i] * self.covariance[i][j] * slope[j] for i in r for j in r)))


def fit_cure(weighings: Iterable[tuple[float, float]], confidence: float = 0.95) -> CureFit | NoFit:
    """Fit a bar's weighings, given as pairs of day after pouring and grams, in any order."""
    points = sorted((float(day), float(grams)) for day, grams in weighings)
    if any(not isfinite(d) or not isfinite(g) or d < 0 or g <= 0 for d, g in points):
        return NoFit(Reason.BAD_VALUE)
    reason = _unfit(points)
    if reason:
        return NoFit(reason)
    kept, curve, accused = _without_suspects(points)
    fault = _fault(kept, curve)
    if fault:
        return NoFit(fault, tuple(Suspect(day, grams, None, score) for (day, grams), score in accused))
    suspects = tuple(Suspect(day, grams, curve.at(day), score) for (day, grams), score in accused)
    return _with_errors(kept, curve, suspects, confidence)


def _unfit(points: list[Point]) -> Reason | None:
    """What the bare figures rule out."""
    if len({day for day, _ in points}) < 3:
        return Reason.TOO_FEW
    weights = [grams for _, grams in points]
    if max(weights) - min(weights) <= FINEST * max(weights):
        return Reason.CONSTANT
    return None


def _fault(points: list[Point], curve: Curve) -> Reason | None:
    """What speaks against the best curve as a cure."""
    count = len(points)
    mean_day = sum(day for day, _ in points) / count
    mean = sum(grams for _, grams in points) / count
    if curve.fall <= 0 or sum((day - mean_day) * (grams - mean) for day, grams in points) >= 0:
        return Reason.RISING
    if count > 3 and not _falls(points, curve):
        return Reason.SCATTER
    if curve.edge == "fastest":
        return Reason.OVER_AT_ONCE
    if curve.edge == "slowest" or curve.start - curve.fall < LEAST_KEPT * curve.start:
        return Reason.NOT_SLOWING
    return None


def _falls(points: list[Point], curve: Curve) -> bool:
    """Whether a level weight with scatter would show such a fall by chance too seldom.

    By the curve (F with 2 and n - 3 degrees of freedom, whose tail is a plain power) or by
    the straight line (t with n - 2): the first sees an early fall, the second an even one.
    """
    count = len(points)
    mean_day = sum(day for day, _ in points) / count
    mean = sum(grams for _, grams in points) / count
    level = sum((grams - mean) ** 2 for _, grams in points)
    if (curve.squares / level) ** ((count - 3) / 2) <= CHANCE:
        return True
    across = sum((day - mean_day) * (grams - mean) for day, grams in points)
    explained = across * across / (level * sum((day - mean_day) ** 2 for day, _ in points))
    t = sqrt(explained * (count - 2) / max(1e-15, 1.0 - explained))
    return across < 0 and 1.0 - within(t, count - 2) <= CHANCE


def _without_suspects(points: list[Point]) -> tuple[list[Point], Curve, list[tuple[Point, float]]]:
    """Take out, worst first, weighings that the others rule out.

    Each weighing is left out in turn and the rest fitted anew; the drop of the squares over
    the variance of the rest is its studentised residual, squared (for a straight model the
    two are the same thing). The variance is pooled with a usual scatter, and the residual held
    against Student's t of the pooled degrees of freedom, shared out over the n weighings
    (Bonferroni). At least five weighings are needed, and at most one in five is taken out:
    two that err together hide one another, and no rule can tell which of a half is right.
    """
    curve, accused = best_curve(points), list[tuple[Point, float]]()
    allowed = len(points) // 5
    while len(accused) < allowed and len({day for day, _ in points}) > 3:
        count = len(points)
        freedom = count - 4
        usual = USUAL_WEIGHT * (USUAL_SCATTER * max(grams for _, grams in points)) ** 2
        limit = quantile(1.0 - ACCUSED / count, freedom + USUAL_WEIGHT)
        # No leaving-out can pass where all the squares together fall short.
        if curve.squares <= limit * limit * usual / (freedom + USUAL_WEIGHT):
            break
        curves = leave_one_out(points)
        worst = min(range(count), key=lambda i: curves[i].squares)
        left = (curves[worst].squares + usual) / (freedom + USUAL_WEIGHT)
        score = sqrt(max(0.0, curve.squares - curves[worst].squares) / left)
        if score <= limit:
            break
        accused.append((points[worst], score))
        points = points[:worst] + points[worst + 1 :]
        curve = best_curve(points)
    return points, curve, accused


def _with_errors(
    points: list[Point], curve: Curve, suspects: tuple[Suspect, ...], confidence: float
) -> CureFit:
    plateau, freedom = curve.start - curve.fall, len(points) - 3
    plateau_interval: Interval | None = None
    rate_interval: Interval | None = None
    spread: float | None = None
    covariance: tuple[Triple, ...] | None = None
    rows: list[Triple] = []
    for day, _ in points:
        age = day - curve.first_day
        left = 1.0 + expm1(-curve.rate * age)
        rows.append((1.0, left, -curve.fall * age * left))
    inverse = inverse_normal(rows) if freedom > 0 else None
    if inverse is not None:
        variance = curve.squares / freedom
        spread = sqrt(variance)
        covariance = tuple((variance * a, variance * b, variance * c) for a, b, c in inverse)
        t = quantile(confidence, freedom)
        reach, rate_reach = t * sqrt(covariance[0][0]), t * sqrt(covariance[2][2])
        slows = rate_reach < curve.rate
        plateau_interval = (plateau - reach if slows else -inf, plateau + reach)
        rate_interval = (max(0.0, curve.rate - rate_reach), curve.rate + rate_reach)
    return CureFit(
        curve.first_day,
        points[-1][0],
        curve.start,
        plateau,
        curve.rate,
        plateau_interval,
        rate_interval,
        spread,
        len(points),
        confidence,
        covariance,
        suspects,
    )
