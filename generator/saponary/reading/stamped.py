"""Digests of a book's files as they were read the last time, so that one that has not changed is not read again.

A file is told to be as it was by its stamp (`assets/stamps.py`): size, times and number. One that was changed so
shortly before it was read that a later change may have left the same stamp is read the next time too.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Mapping
from pathlib import Path

from saponary.assets.stamps import is_settled, numbers

Noted = tuple[str, str]
"""The stamp of a file, and the digest of its bytes."""


class Stamped:
    """The files of a book, looked at once: `known` is what was `kept` the last time, by name.

    `now` is the time of the file system in nanoseconds, before anything is read; without it nothing is kept.
    """

    def __init__(self, root: Path, known: Mapping[str, Noted], now: int | None) -> None:
        self._root, self._known, self._now = root, known, now
        self._stamps: dict[str, dict[str, str]] = {}
        self.kept: dict[str, Noted] = {}

    def digest(self, name: str) -> str | None:
        """The digest of a file that is as it was; None where that is not known."""
        was = self._known.get(name)
        if was is None or was[0] != self._stamp(name):
            return None
        self.kept[name] = was
        return was[1]

    def digests(self, folder: str) -> dict[str, str]:
        """The digests of those files in a folder that are as they were."""
        as_they_were = {
            name: was
            for file, stamp in self._stamps_in(folder).items()
            if (was := self._known.get(name := f"{folder}/{file}")) is not None and was[0] == stamp
        }
        self.kept |= as_they_were
        return {name: digest for name, (_, digest) in as_they_were.items()}

    def note(self, name: str, digest: str) -> None:
        """What a file held that was read after its digest had been asked for."""
        stamp = self._stamp(name)
        if stamp is not None and self._now is not None and is_settled(stamp, self._now):
            self.kept[name] = stamp, digest

    def _stamp(self, name: str) -> str | None:
        """Of a plain file in a folder of the book that is no link; of all in a folder when the first is asked for."""
        folder, _, file = name.rpartition("/")
        return self._stamps_in(folder).get(file)

    def _stamps_in(self, folder: str) -> dict[str, str]:
        if folder not in self._stamps:
            self._stamps[folder] = _of_folder(f"{self._root}{os.sep}{folder}")
        return self._stamps[folder]


def _of_folder(path: str) -> dict[str, str]:
    found: dict[str, str] = {}
    try:
        if stat.S_ISDIR(os.lstat(path).st_mode):
            with os.scandir(path) as entries:
                for entry in entries:
                    told = entry.stat(follow_symlinks=False)
                    if stat.S_ISREG(told.st_mode):
                        found[entry.name] = numbers(told)
    except OSError:
        return {}
    return found
