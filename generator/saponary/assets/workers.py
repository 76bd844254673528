"""Pieces of work done by copies of this process (`spread.py`)."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable
from concurrent.futures import Future, ProcessPoolExecutor
from multiprocessing import get_context
from typing import TypeVar, cast

from saponary.assets.undisturbed import end_with_parent, ended_with_us, undisturbed

T = TypeVar("T")

_WORK: list[Callable[[int], object]] = []
"""What the workers of this process do: they are copies of it, and find it here."""


def over_workers(count: int, work: Callable[[int], T], workers: int, told: Callable[[T, int], T]) -> list[T]:
    """What `work` makes of the numbers from 0 to `count`, in their order; `told` hears of each, and how many are done."""
    held = gc.get_freeze_count() > 0
    gc.freeze()  # the copies share what is there as long as nobody writes to it
    _WORK.append(work)
    try:
        copies = ProcessPoolExecutor(workers, get_context("fork"), end_with_parent, (os.getpid(),))
        with copies as pool, ended_with_us(pool):
            with undisturbed():
                waiting = [pool.submit(_piece, n) for n in range(count)]
            return [told(_outcome(one, work, n), n + 1) for n, one in enumerate(waiting)]
    finally:
        _WORK.pop()
        if not held:
            gc.unfreeze()


def _piece(number: int) -> object:
    return _WORK[-1](number)


def _outcome(waiting: Future[object], work: Callable[[int], T], number: int) -> T:
    try:
        return cast("T", waiting.result())
    except Exception:
        return work(number)
