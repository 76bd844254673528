"""What the weighings of a lot say: its fit, the day it is ready, the weight it comes to."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from saponary.book.cure_days import CureDays
from saponary.lye.cure.fit import CureFit, NoFit, fit_cure
from saponary.lye.cure.readings import Ready, ready_day
from saponary.schema.batch import Batch

WEEKLY_LOSS = 0.005
"""A bar is ready when it loses less than this share of its weight a week: common practice, no source."""


class BarCure(NamedTuple):
    """One marked bar of a lot: its weighings in order of days, and what they fit."""

    name: str
    weighings: tuple[tuple[int, float], ...]
    fit: CureFit | NoFit
    ready: Ready | None

    @property
    def latest_grams(self) -> float:
        """Grams of the latest weighing."""
        return self.weighings[-1][1]


def cures(batch: Batch, weekly_loss: float = WEEKLY_LOSS) -> tuple[BarCure, ...]:
    """Every marked bar of a batch that was weighed."""
    series = sorted(batch.weighings().items())
    return tuple(_cure(name, tuple(sorted(days.items())), weekly_loss) for name, days in series if days)


@lru_cache(maxsize=512)
def _cure(name: str, weighings: tuple[tuple[int, float], ...], weekly_loss: float) -> BarCure:
    """Fitted once, though several pages tell of the same bar."""
    fit = fit_cure(weighings)
    ready = ready_day(fit, weekly_loss) if isinstance(fit, CureFit) else None
    return BarCure(name, weighings, fit, ready)


def ready_on(batch: Batch, cure: CureDays, weekly_loss: float = WEEKLY_LOSS) -> tuple[int, bool]:
    """Days after the pour when a lot is ready, and whether weighings say so.

    The latest of its bars' ready days, never before the least that its method asks for; where
    nothing could be fitted, the usual days alone.
    """
    if not cure.weighed:
        return cure.usual, False
    days = [bar.ready.day for bar in cures(batch, weekly_loss) if bar.ready is not None]
    if not days:
        return cure.usual, False
    whole = -int(-max(days) // 1)
    return max(cure.least, whole), True
