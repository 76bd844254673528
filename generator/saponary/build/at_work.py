"""One writer at a time: a book is locked while a command writes to it.

The lock is the system's own on an open file, so that it ends with the process that holds it, however
that ends: no lock is ever left behind. Who holds it is written beside it, for the message alone.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Generator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path

from filelock import FileLock, Timeout

from saponary.assets.disk import clear_parts
from saponary.build.written import KEPT, bare_folder, own_folder
from saponary.quantity.rounding import show

WAIT = 60.0
"""Seconds that a command waits for another before it gives up."""

_LOCK, _HOLDER = "lock", "at-work"
_FOLDERS = (".", "recipes", "batches", "classes", KEPT)
"""Where makers' files, and the program's own, are written."""


class Busy(Exception):
    """Another command is at work in the book; the message says which. Nothing was written."""


@contextmanager
def at_work(
    root: Path, command: str, wait: float = WAIT, tell: Callable[[str], None] = lambda said: None
) -> Generator[None, None, None]:
    """Hold the book's lock. `tell` hears that another command is waited for; Busy after `wait` seconds."""
    kept = bare_folder(root)
    lock = FileLock(kept / _LOCK)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        tell(f"waiting for {_holder(kept)} to end in this book")
        try:
            lock.acquire(timeout=wait)
        except Timeout:
            raise Busy(f"{_holder(kept)} is still at work in this book after {show(wait, 0)} s") from None
    try:
        with suppress(OSError):
            started = datetime.now().astimezone().isoformat(" ", "seconds")
            (kept / _HOLDER).write_text(
                f"saponary {command} (process {os.getpid()}, since {started})\n", "utf-8"
            )
        for folder in _FOLDERS:
            clear_parts(root / folder)
        own_folder(root)
        yield
    finally:
        with suppress(OSError):
            (kept / _HOLDER).unlink()
        lock.release()


def _holder(kept: Path) -> str:
    with suppress(OSError, ValueError):
        return (kept / _HOLDER).read_text("utf-8").strip()[:200] or "another saponary"
    return "another saponary"
