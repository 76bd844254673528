"""How far a build is, on a terminal: one line that is written over, and gone when the work is done."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from typing import TextIO

_EVERY = 0.1
"""Seconds between two tellings."""
_SOON = 2.0
"""Seconds of work before it is said how long the rest may take."""
_CLEAR = "\r\x1b[K"


class Shown:
    """Tells how much of some work is done and about how long the rest takes. Says nothing where nobody watches."""

    def __init__(self, out: TextIO | None = None, clock: Callable[[], float] = time.monotonic) -> None:
        self._out, self._clock = out or sys.stderr, clock
        self._watched = self._out.isatty()
        self._what, self._began, self._told = "", 0.0, 0.0

    def __call__(self, what: str, done: int, whole: int) -> None:
        """So many of the whole are done; `what` names them."""
        if not self._watched:
            return
        now = self._clock()
        if what != self._what:
            self._what, self._began, self._told = what, now, now
        if done == whole:
            self._what = ""
            self._write(_CLEAR)
        elif now - self._told >= _EVERY:
            self._told = now
            self._write(f"{_CLEAR}{done} of {whole} {what}{_left(now - self._began, done, whole)}")

    def _write(self, text: str) -> None:
        print(text, end="", file=self._out, flush=True)


def _left(spent: float, done: int, whole: int) -> str:
    if spent < _SOON or done == 0:
        return ""
    return f", about {max(1, round(spent / done * (whole - done)))} s left"
