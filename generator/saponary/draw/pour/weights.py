"""Weights that give every portion its area, found by Broyden's method."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from saponary.draw.pour.seed import Array


@dataclass(frozen=True)
class Guess:
    """Weights, and what a missing area asks of them; `latest` where they were the last to be tried."""

    weights: Array
    inverse: Array
    latest: bool = False


def solved(
    areas: Callable[[Array], Array], targets: Array, begin: Guess, longest: float, within: float, turns: int
) -> Guess:
    """The best weights that were tried: the first at which no area misses its target by more than a part `within`.

    `longest` is how far a weight may be moved in one of the turns, of which there are at most `turns`.
    """
    weights, inverse = begin.weights, begin.inverse
    least, best, better = math.inf, begin, False
    last: tuple[Array, Array] | None = None
    for _ in range(turns):
        miss = targets - areas(weights)
        if last is not None:
            moved, change = weights - last[0], last[1] - miss
            guess = inverse @ change
            scale = float(moved @ guess)
            if abs(scale) > 1e-9 * float(moved @ moved):
                inverse = inverse + np.outer(moved - guess, moved @ inverse) / scale
        worst = float(np.max(np.abs(miss) / targets))
        better = worst < least
        if better:
            least, best = worst, Guess(weights, inverse)
        if worst < within:
            break
        last = (weights.copy(), miss)
        stride = inverse @ miss
        most = float(np.max(np.abs(stride)))
        weights = weights + stride * min(1.0, longest / most if most else 1.0)
    return Guess(best.weights, best.inverse, better)


def sloped(weights: Array, slopes: Array) -> Guess:
    """A guess with what areas ask of its weights, from how areas change with each weight.

    All weights may be raised alike, which changes nothing: the least change is asked for.
    """
    return Guess(weights, np.linalg.pinv(slopes, 1e-6).astype(np.float64))
