"""What a bar weighs once it has cured, and how much to pour for a weight that a label promises.

By the mass balance: what is no water stays, and a cured bar holds so much water. By bars that were
weighed: the least share of its weight at the pour that any of them kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.cure.readings import weight_at
from saponary.lye.figures import Figures

FRESH = 3
"""The last day on which a first weighing still tells what was poured: a bar is cut by then (common
practice, no source)."""


@dataclass(frozen=True)
class Kept:
    """The share of the poured weight that a cured bar keeps; `bars` counts the weighed bars behind it,
    none where it is by the mass balance alone."""

    share: float
    bars: int = 0

    def cured(self, poured: float) -> float:
        """Grams of a cured bar, of which so many were poured."""
        return poured * self.share

    def to_pour(self, wanted: float) -> float:
        """Grams to pour of a bar that is to weigh so much once cured."""
        return wanted / self.share


def kept_by_balance(figures: Figures, cured_water: float) -> Kept:
    """What is left of the loaf once `cured_water` of it (a fraction of the cured bar) is water.

    A bar never holds more water than it was poured with.
    """
    if figures.loaf <= 0 or cured_water >= 1.0:
        return Kept(1.0)
    dry = figures.loaf - figures.fresh_water
    return Kept(min(1.0, dry / (1.0 - cured_water) / figures.loaf))


def kept_by_bar(
    weighings: Sequence[tuple[float, float]], fit: CureFit | NoFit, cured_on: float
) -> float | None:
    """The share that one weighed bar kept: days and grams in order, and the day from which bars are cured.

    The lesser of its last weight, where that was on a cured day, and of the weight at which it
    settles. None where it was first weighed too late, or is not cured and settles at nothing known.
    """
    (first_day, first), (last_day, last) = weighings[0], weighings[-1]
    fitted = isinstance(fit, CureFit) and fit.plateau_interval is not None
    cured = [last] if last_day >= cured_on else []
    cured += [fit.plateau_g] if isinstance(fit, CureFit) and fitted else []
    if first_day > FRESH or not cured:
        return None
    poured = max(first, weight_at(fit, 0.0)) if isinstance(fit, CureFit) and fitted else first
    return min(cured) / poured if poured > 0 else None
