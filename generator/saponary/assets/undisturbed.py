"""Worker processes that a Ctrl-C does not reach: the process that started them is told, and ends them.

Where that process is ended by force it can tell nobody: its workers end with it all the same.
"""

from __future__ import annotations

import ctypes
import os
import signal
import sys
from collections.abc import Generator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import parent_process
from threading import Thread


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


_PR_SET_PDEATHSIG = 1
"""prctl(2): the signal that a process gets when its parent ends."""


def end_with_parent(parent: int | None = None) -> None:
    """In a worker, before its first piece: end when the process that it works for has ended, in whatever way.

    A worker that waits for a lock which a killed one held would wait for ever. `parent` is the number of the
    process that made this one, where that is the one it works for; the system then ends it. A server that makes
    workers for another process lives as long as they do, so that the end of it tells them nothing: they look
    for that of the other themselves.
    """
    if parent is not None and sys.platform.startswith("linux"):
        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
        if os.getppid() != parent:
            os._exit(1)
    else:
        Thread(target=_end_after_parent, daemon=True).start()


def _end_after_parent() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
