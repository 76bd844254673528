"""Puts a maker's file in place, unless it has been saved by somebody else since it was read.

What lies there is compared with what was read just before the exchange, and once more after it, when it
lies under another name: an editor that saved between the two finds its text put back. Nothing that was
saved is lost; the command reads the book again and makes its edit in what is there now.
"""

from __future__ import annotations

import time
from pathlib import Path

from saponary.assets.disk import beside, exchange, flush

_STILL = 0.02
"""Seconds in which a program that had the file open before the exchange shows that it goes on writing."""


class SavedMeanwhile(Exception):
    """The file is no longer what was read; it was left as it is now."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path.name} was saved by another program meanwhile")
        self.path = path


def save(path: Path, was: str, text: str) -> None:
    """Put a file's new text in the place of what it `was` when it was read. Raises SavedMeanwhile."""
    target = path.resolve()
    before, after = was.encode("utf-8"), text.encode("utf-8")
    made = beside(target, after)
    try:
        made.chmod(target.stat().st_mode & 0o7777)
        if target.read_bytes() != before:
            raise SavedMeanwhile(path)
        if exchange(made, target):
            _look_again(made, target, before, after, path)
        else:
            made.replace(target)
    finally:
        made.unlink(missing_ok=True)
    flush(target.parent)


def _look_again(replaced: Path, target: Path, before: bytes, after: bytes, path: Path) -> None:
    """Put back what was replaced, where it is not what was read or is written to still."""
    still = False
    try:
        still = replaced.read_bytes() == before
        time.sleep(_STILL)
        still = still and replaced.read_bytes() == before
    finally:
        if not still:
            exchange(replaced, target)
            if replaced.read_bytes() != after:  # saved once more, over our text: the latest stays
                exchange(replaced, target)
    if not still:
        raise SavedMeanwhile(path)
