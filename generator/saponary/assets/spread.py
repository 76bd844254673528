"""Does many independent pieces of work over several processes, or one after another where that is as good.

The pieces are numbered; what comes of them is returned in that order, and is the same for any number of
workers. A worker is a copy of this process (fork), so that nothing is handed over to it but numbers; where
the system makes no such copies safely, there is one. Where a worker fails or is ended, this process does its
piece itself, so that a fault is raised here and as it is.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")

Progress = Callable[[int, int], None]
"""Told how many pieces are done, of how many."""

FEW = 16
"""So few pieces are done before a copy of this process would have begun."""

_OFTEN = 50_000
"""Objects made before it is looked for those that may go, where pieces are more: each leaves some behind."""


def cores() -> int:
    """How many processors this process may use; one where it cannot be copied safely."""
    if not sys.platform.startswith("linux"):
        return 1
    return len(os.sched_getaffinity(0))


def is_for_several(count: int, workers: int | None, few: int = FEW) -> bool:
    """Whether so many pieces are done over several processes."""
    return count >= few and min(_wanted(workers), count) >= 2


def _wanted(workers: int | None) -> int:
    return cores() if workers is None else workers


def spread(
    count: int,
    work: Callable[[int], T],
    workers: int | None = None,
    progress: Progress | None = None,
    few: int = FEW,
) -> list[T]:
    """What `work` makes of the numbers from 0 to `count`, in their order.

    What it makes must be plain data. Fewer than `few` pieces are done by this process.
    """
    found: list[T] = []

    def take(number: int, made: T) -> None:
        found.append(made)
        if progress is not None:
            progress(number + 1, count)

    hand_over(count, work, take, workers, few)
    return found


def hand_over(
    count: int,
    work: Callable[[int], T],
    take: Callable[[int, T], None],
    workers: int | None = None,
    few: int = FEW,
) -> None:
    """The same, where `take` is handed each number and what was made of it, in their order; nothing is held here."""
    if count >= FEW:
        gc.set_threshold(_OFTEN, *gc.get_threshold()[1:])
    if not is_for_several(count, workers, few):
        for number in range(count):
            take(number, work(number))
        return
    # What starts and ends processes is imported where there is work for several.
    from saponary.assets.workers import over_workers

    over_workers(count, work, min(_wanted(workers), count), take)
