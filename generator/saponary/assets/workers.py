"""Pieces of work done by copies of this process (`spread.py`)."""

from __future__ import annotations

import gc
import os
from collections import deque
from collections.abc import Callable, Iterable
from concurrent.futures import Future, ProcessPoolExecutor
from multiprocessing import get_context
from typing import TypeVar, cast

from saponary.assets.undisturbed import end_with_parent, ended_with_us, undisturbed

T = TypeVar("T")

_AT_ONCE, _TURNS = 16, 8
"""So many pieces are handed over at once, and so often at least is each worker given some."""

_WORK: list[Callable[[int], object]] = []
"""What the workers of this process do: they are copies of it, and find it here."""


def over_workers(count: int, work: Callable[[int], T], workers: int, take: Callable[[int, T], None]) -> None:
    """Hands each of the numbers from 0 to `count`, and what `work` makes of it, to `take`, in their order."""
    held = gc.get_freeze_count() > 0
    gc.freeze()  # the copies share what is there as long as nobody writes to it
    _WORK.append(work)
    try:
        copies = ProcessPoolExecutor(workers, get_context("fork"), end_with_parent, (os.getpid(),))
        with copies as pool, ended_with_us(pool):
            with undisturbed():
                waiting = deque((part, pool.submit(_pieces, part)) for part in _parts(count, workers))
            while waiting:
                part, one = waiting.popleft()
                for number, made in zip(part, _outcome(one, work, part), strict=True):
                    take(number, made)
    finally:
        _WORK.pop()
        if not held:
            gc.unfreeze()


def _parts(count: int, workers: int) -> list[range]:
    """The numbers in parts that are handed over at once, small enough that all workers end at about the same time."""
    size = max(1, min(_AT_ONCE, count // (_TURNS * workers)))
    return [range(at, min(at + size, count)) for at in range(0, count, size)]


def _pieces(part: range) -> list[object]:
    return [_WORK[-1](number) for number in part]


def _outcome(waiting: Future[list[object]], work: Callable[[int], T], part: range) -> Iterable[T]:
    try:
        return cast("list[T]", waiting.result())
    except Exception:
        return map(work, part)
