"""Least squares for W(t) = P + (W0 - P)·exp(-k t): one search over k, the rest solved exactly.

For a given k the curve is a straight line in f = 1 - exp(-k·(t - first day)), so its start
and its fall follow from the normal equations, and the sum of squares is a function of k
alone (variable projection). A logarithmic grid over every k that the days could tell apart
finds the valley; then the root of the slope is found by false position, which keeps the
full precision that a minimum itself would halve.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, expm1, fsum, log, sqrt
from typing import NamedTuple

from saponary.quantity.roots import rising_root

Point = tuple[float, float]
"""Day and grams."""

Triple = tuple[float, float, float]

SLOWEST = 1e-3
"""Least k·(last day - first day): the curve then departs from a straight line by an eighth
of a thousandth of its fall, which no balance shows."""

FASTEST = 12.0
"""Greatest k·(second day - first day): six millionths of the fall are then left on the second day."""

NODES_PER_DECADE = 4

FLAT = 1e-9
"""Squares this near, relatively, to those of the fastest k are no better than them: the fall is
then over before the second day, and its k could be anything higher."""

EXACT = 1e-15
"""Precision of ln k where the curve itself is wanted."""

ROUGH = 1e-5
"""Precision of ln k where only the squares are wanted: they then err by some 1e-10 of the fall's."""


class Curve(NamedTuple):
    """A best curve over the days given. `edge` tells whether k ran into an end of its search."""

    first_day: float
    start: float
    """Grams on the first day."""
    fall: float
    """Grams from the start down to the plateau."""
    rate: float
    """k, per day."""
    squares: float
    """Residual sum of squares, g²."""
    edge: str
    """`slowest`, `fastest` or empty."""

    def at(self, day: float) -> float:
        return self.start + self.fall * expm1(-self.rate * (day - self.first_day))


class _Line(NamedTuple):
    start: float
    fall: float
    squares: float
    slope: float
    """Half the derivative of the squares by ln k."""


def _line(ages: Sequence[float], grams: Sequence[float], rate: float) -> _Line:
    """The best start and fall for one k, by centred sums."""
    count = len(ages)
    gone = [-expm1(-rate * age) for age in ages]
    mean_gone, mean_grams = fsum(gone) / count, fsum(grams) / count
    centred = [value - mean_gone for value in gone]
    across = fsum(c * (g - mean_grams) for c, g in zip(centred, grams, strict=True))
    fall = -across / fsum(c * c for c in centred)
    rest = [g - mean_grams + fall * c for c, g in zip(centred, grams, strict=True)]
    tilt = fsum(r * rate * age * (1.0 - part) for r, age, part in zip(rest, ages, gone, strict=True))
    return _Line(mean_grams + fall * mean_gone, fall, fsum(r * r for r in rest), fall * tilt)


def _aged(points: Sequence[Point]) -> tuple[list[float], list[float]]:
    """Days since the first, and grams above the first, so that small falls keep their digits."""
    first, level = points[0]
    return [day - first for day, _ in points], [weight - level for _, weight in points]


def _nodes(ages: Sequence[float]) -> list[float]:
    """The grid of ln k."""
    low, high = log(SLOWEST / ages[-1]), log(FASTEST / next(age for age in ages if age > 0))
    steps = max(8, round((high - low) / log(10) * NODES_PER_DECADE))
    return [low + (high - low) * i / steps for i in range(steps + 1)]


def best_curve(points: Sequence[Point]) -> Curve:
    """The curve of least squares through points of at least three different days, in order."""
    ages, grams = _aged(points)
    nodes = _nodes(ages)
    lines = [_line(ages, grams, exp(node)) for node in nodes]
    best = min(range(len(nodes)), key=lambda i: lines[i].squares)
    line = lines[best]
    if lines[-1].squares - line.squares <= FLAT * lines[-1].squares:
        return _curve(points, exp(nodes[-1]), lines[-1], "fastest")
    if best == 0 and line.slope >= 0:
        return _curve(points, exp(nodes[0]), line, "slowest")
    left = best if line.slope < 0 else best - 1
    span, slopes = (nodes[left], nodes[left + 1]), (lines[left].slope, lines[left + 1].slope)
    return _curve(points, *_root(ages, grams, span, slopes), "")


def _curve(points: Sequence[Point], rate: float, line: _Line, edge: str) -> Curve:
    first, level = points[0]
    return Curve(first, level + line.start, line.fall, rate, line.squares, edge)


def leave_one_out(points: Sequence[Point]) -> list[Curve]:
    """For each point, the best curve through all the others, k to five digits.

    With k held, the squares without a point follow from those with it: they drop by
    r²/(1 - h), h being the point's leverage. So one grid serves all, and only the last
    steps are each point's own. Where that grid does not enclose a valley, the full search.
    """
    ages, grams = _aged(points)
    nodes = _nodes(ages)
    count = len(points)
    without: list[list[float]] = [[] for _ in points]
    for node in nodes:
        rate = exp(node)
        line = _line(ages, grams, rate)
        gone = [-expm1(-rate * age) for age in ages]
        mean = fsum(gone) / count
        total = fsum((g - mean) ** 2 for g in gone)
        for i in range(count):
            free = 1.0 - 1.0 / count - (gone[i] - mean) ** 2 / total
            rest = grams[i] - line.start + line.fall * gone[i]
            without[i].append(line.squares - rest * rest / free if free > 1e-9 else line.squares)
    curves: list[Curve] = []
    for i, squares in enumerate(without):
        others = [*points[:i], *points[i + 1 :]]
        best = min(range(len(nodes)), key=squares.__getitem__)
        curves.append(_near(others, nodes, best) or best_curve(others))
    return curves


def _near(points: Sequence[Point], nodes: Sequence[float], best: int) -> Curve | None:
    """The best curve by a valley known to lie about a node; None where it does not."""
    if not 0 < best < len(nodes) - 2:
        return None
    ages, grams = _aged(points)
    slope = _line(ages, grams, exp(nodes[best])).slope
    span = (nodes[best], nodes[best + 1]) if slope < 0 else (nodes[best - 1], nodes[best])
    other = _line(ages, grams, exp(span[1] if slope < 0 else span[0])).slope
    slopes = (slope, other) if slope < 0 else (other, slope)
    if not slopes[0] < 0 < slopes[1]:
        return None
    return _curve(points, *_root(ages, grams, span, slopes, ROUGH), "")


def _root(
    ages: Sequence[float],
    grams: Sequence[float],
    span: tuple[float, float],
    slopes: tuple[float, float],
    precision: float = EXACT,
) -> tuple[float, _Line]:
    """The k between two logarithms where the slope passes from below nought to above it."""

    def slope(at: float) -> float:
        return _line(ages, grams, exp(at)).slope

    rate = exp(rising_root(slope, *span, narrow=precision, ends=slopes))
    return rate, _line(ages, grams, rate)


def inverse_normal(rows: Sequence[Triple]) -> tuple[Triple, ...] | None:
    """Inverse of JᵀJ for the rows of J, by Gram-Schmidt on J itself; None where J lacks rank.

    Working on J and not on JᵀJ keeps the digits that squaring the condition would lose.
    """
    columns = [[row[i] for row in rows] for i in range(3)]
    upper = [[0.0] * 3 for _ in range(3)]
    basis: list[list[float]] = []
    for i, column in enumerate(columns):
        size = sqrt(fsum(x * x for x in column))
        for _ in range(2):
            for j, other in enumerate(basis):
                part = fsum(x * y for x, y in zip(column, other, strict=True))
                upper[j][i] += part
                column = [x - part * y for x, y in zip(column, other, strict=True)]
        length = sqrt(fsum(x * x for x in column))
        if length <= 1e-13 * size or length == 0:
            return None
        upper[i][i] = length
        basis.append([x / length for x in column])
    back = [[0.0] * 3 for _ in range(3)]
    for i in range(3):
        for j in range(i, -1, -1):
            rest = (1.0 if i == j else 0.0) - fsum(upper[j][m] * back[m][i] for m in range(j + 1, i + 1))
            back[j][i] = rest / upper[j][j]
    r = range(3)
    table = [[fsum(back[i][m] * back[j][m] for m in r) for j in r] for i in r]
    return tuple((row[0], row[1], row[2]) for row in table)
