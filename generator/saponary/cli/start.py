"""Where the program starts. Stopped from the keyboard at any time, it says so in one line and ends with 130.

While Python still reads modules nothing has been written, and it ends at once. Later a command is told, so
that it can clear away what it had begun; a second time it ends at once all the same, as it does where
Python would swallow the first (in a finaliser).
"""

from __future__ import annotations

import gc
import os
import signal
import sys
from contextlib import suppress
from types import FrameType
from typing import NoReturn

STOPPED = "saponary: stopped; every file is whole, as it was or as it was to be"
INTERRUPTED = 130

_SELDOM = 400_000
"""Objects made before it is looked for those that may go. Nearly all that a command makes stays to its end, and most end
before. Where there is much to do, it is looked for them more often (`assets/spread.py`)."""


def start() -> NoReturn:
    """Run the command that the program was started with, and end with its exit status."""
    signal.signal(signal.SIGINT, _end)
    gc.set_threshold(_SELDOM)
    from saponary.cli.main import main

    sys.unraisablehook = _end_if_swallowed
    signal.signal(signal.SIGINT, _tell)
    try:
        status = main()
    finally:
        signal.signal(signal.SIGINT, signal.SIG_IGN)
    _leave(status)


def _leave(status: int) -> NoReturn:
    """End with all that is in memory. To take a book of a thousand recipes apart takes Python a fifth of a second, and the
    system lets go of it at once; every file is closed by now, and every worker has ended."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):
            stream.flush()
    os._exit(status)


def _end(number: int, frame: FrameType | None) -> None:
    os.write(2, f"{STOPPED}\n".encode())
    os._exit(INTERRUPTED)


def _tell(number: int, frame: FrameType | None) -> None:
    signal.signal(signal.SIGINT, _end)
    raise KeyboardInterrupt


def _end_if_swallowed(what: sys.UnraisableHookArgs) -> None:
    if isinstance(what.exc_value, KeyboardInterrupt):
        _end(signal.SIGINT, None)
    sys.__unraisablehook__(what)
