"""What commands that write share: the book locked, and what kept them from writing told as findings."""

from __future__ import annotations

import sys
from collections.abc import Callable, Generator
from contextlib import contextmanager
from pathlib import Path

from saponary.build.at_work import WAIT, Busy, at_work
from saponary.build.save import SavedMeanwhile
from saponary.build.unwritten import of_busy, of_saved
from saponary.cli.command import Unwritten
from saponary.reading.files import is_book
from saponary.reading.findings_text import as_text


@contextmanager
def writing(folder: Path, command: str) -> Generator[None, None, None]:
    """Write to a book alone. A folder that is no book is left to the command to tell of."""
    if not is_book(folder):
        yield
        return
    try:
        with at_work(folder, command, WAIT, _tell):
            yield
    except Busy as busy:
        raise Unwritten(as_text([of_busy(str(busy))])) from busy


_TRIES = 5
"""Times that an edit is made anew in a file that an editor saves meanwhile."""


def again_if_saved(edit: Callable[[], int]) -> int:
    """Make an edit, from reading the book to writing it, anew where a file was saved by another program meanwhile."""
    for _ in range(_TRIES - 1):
        try:
            return edit()
        except SavedMeanwhile:
            continue
    try:
        return edit()
    except SavedMeanwhile as saved:
        raise Unwritten(as_text([of_saved(saved.path.name)])) from saved


def schemas_beside(root: Path) -> None:
    """Write the schemas for editors into a book, where nothing is in their way; what is, is told and stops nothing."""
    # What reads the book's names is imported where they are written.
    from saponary.build.listed import InTheWay
    from saponary.manual.book_names import write_schemas

    try:
        write_schemas(root)
    except InTheWay as there:
        _tell(f"{there}; the schemas for editors were not written")


def _tell(said: str) -> None:
    print(f"saponary: {said}", file=sys.stderr, flush=True)
