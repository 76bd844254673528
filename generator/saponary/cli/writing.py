"""What commands that write share: the book locked, and what kept them from writing told as findings."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from saponary.build.at_work import Busy, at_work
from saponary.build.unwritten import of_busy
from saponary.cli.command import Unwritten
from saponary.reading.files import is_book


@contextmanager
def writing(folder: Path, command: str) -> Iterator[None]:
    """Write to a book alone. A folder that is no book is left to the command to tell of."""
    if not is_book(folder):
        yield
        return
    try:
        with at_work(folder, command, tell=_tell):
            yield
    except Busy as busy:
        raise Unwritten([of_busy(str(busy))]) from busy


def _tell(said: str) -> None:
    print(f"saponary: {said}", file=sys.stderr, flush=True)
