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
from concurrent.futures import Future, ProcessPoolExecutor
from multiprocessing import get_context
from typing import TypeVar, cast

from saponary.assets.undisturbed import end_with_parent, ended_with_us, undisturbed

T = TypeVar("T")

Progress = Callable[[int, int], None]
"""Told how many pieces are done, of how many."""

FEW = 16
"""So few pieces are done before a copy of this process would have begun."""

_WORK: list[Callable[[int], object]] = []
"""What the workers of this process do: they are copies of it, and find it here."""


def cores() -> int:
    """How many processors this process may use; one where it cannot be copied safely."""
    if not sys.platform.startswith("linux"):
        return 1
    return len(os.sched_getaffinity(0))


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
    wanted = min(cores() if workers is None else workers, count)
    if wanted < 2 or count < few:
        return [_told(work(n), n + 1, count, progress) for n in range(count)]
    held = gc.get_freeze_count() > 0
    gc.freeze()  # the copies share what is there as long as nobody writes to it
    _WORK.append(work)
    try:
        copies = ProcessPoolExecutor(wanted, get_context("fork"), end_with_parent, (os.getpid(),))
        with copies as pool, ended_with_us(pool):
            with undisturbed():
                waiting = [pool.submit(_piece, n) for n in range(count)]
            done = [_outcome(one, work, n, count, progress) for n, one in enumerate(waiting)]
    finally:
        _WORK.pop()
        if not held:
            gc.unfreeze()
    return done


def _piece(number: int) -> object:
    return _WORK[-1](number)


def _outcome(
    waiting: Future[object], work: Callable[[int], T], number: int, count: int, progress: Progress | None
) -> T:
    try:
        made = cast("T", waiting.result())
    except Exception:
        made = work(number)
    return _told(made, number + 1, count, progress)


def _told(made: T, done: int, count: int, progress: Progress | None) -> T:
    if progress is not None:
        progress(done, count)
    return made
