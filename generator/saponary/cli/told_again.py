"""What a command says, so that it can be said again while nothing has changed. Imports little."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from saponary.build.last_run import LastRun, Told


class Telling:
    """Prints, and notes what was printed."""

    def __init__(self) -> None:
        self.said: list[tuple[str, str]] = []

    def out(self, text: str) -> None:
        """To the stream that others read."""
        self._say("out", text)

    def err(self, text: str) -> None:
        """To the person at the terminal."""
        self._say("err", text)

    def _say(self, stream: str, text: str) -> None:
        self.said.append((stream, text))
        _print(stream, text)


class Done(NamedTuple):
    """A run: its exit status, the folders it wrote, and the day it spoke of where that matters.

    It stands until something changes, unless what came of it may be another thing next time.
    """

    status: int
    wrote: Iterable[Path] = ()
    day: str | None = None
    stands: bool = True
    stamps: Mapping[str, str] = {}
    """Of files in the folders that it wrote, by path, as they were when it saw or wrote them."""


def run_or_tell_again(
    book: Path, words: Sequence[str], day: str, run: Callable[[Telling, LastRun], Done]
) -> int:
    """Say what the last run with these words said, where nothing has changed since; else run.

    `run` looks at everything (`LastRun.begin`) once it knows that there is a book.
    """
    last = LastRun(book, words)
    told = last.stands(day)
    if told is not None:
        for stream, text in told.said:
            _print(stream, text)
        return told.status
    telling = Telling()
    done = run(telling, last)
    if done.stands:
        last.keep(Told(done.status, tuple(telling.said)), done.wrote, done.day, done.stamps)
    return done.status


def _print(stream: str, text: str) -> None:
    print(text, file=sys.stdout if stream == "out" else sys.stderr)
