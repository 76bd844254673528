"""Worker processes that a Ctrl-C does not reach: the process that started them is told, and ends them."""

from __future__ import annotations

import signal
from collections.abc import Generator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager


@contextmanager
def undisturbed() -> Generator[None, None, None]:
    """Hold a Ctrl-C back. Processes that are started inside keep it held back for good."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


@contextmanager
def ended_with_us(pool: ProcessPoolExecutor) -> Generator[None, None, None]:
    """Let go of what still waits in a pool where this process is stopped."""
    try:
        yield
    except BaseException:
        pool.shutdown(wait=False, cancel_futures=True)
        raise
