"""Keeps what was made, on disk, by what it was made from.

A key is the name of a step and a digest of the step's code and inputs. A kept value is one file,
written beside its place and moved in by rename. Its first line holds a hash of the key, of all that
follows, and of when and where this folder was begun, which the file system alone can tell: a file cut
short, altered, moved there, or copied in from another machine is known for what it is, and the value
is made again. The whole folder may be deleted at any time.

Imports little: whoever finds that nothing has changed has waited for no more.
"""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple, Protocol

FOLDER = ".cache"
"""Where a book's store lies, in its own folder."""

_MAGIC = b"saponary store 2 "
_BESIDE = ".new-"
_BEGUN = "begun"
_TIDIED = "tidied"
_HOUR = 3600.0
_STALE = 3600.0
"""Seconds after which a file that was being written has been left behind."""

MOST_BYTES = 2_000_000_000
"""What may lie in a store after a build, besides what that build used."""


class Key(NamedTuple):
    """A step's name, and the digest of what its value depends on."""

    step: str
    of: str


class Store(Protocol):
    """Values by key."""

    def recall(self, key: Key) -> bytes | None:
        """What is kept under a key; None where nothing is, or nothing sound."""
        ...

    def keep(self, key: Key, value: bytes) -> None:
        """Keep a value, if that can be done."""
        ...

    def get(self, key: Key, make: Callable[[], bytes]) -> bytes:
        """What is kept under a key, or else what `make` makes of it."""
        ...

    def needs(self, key: Key) -> None:
        """Say that what is kept under a key is still wanted, without reading it."""
        ...


class DiskStore:
    """A store in a folder. One that cannot be read or written only costs time. Threads may share it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._used: set[str] = set()
        self._seal: bytes | None = None

    def get(self, key: Key, make: Callable[[], bytes]) -> bytes:
        kept = self.recall(key)
        if kept is None:
            kept = make()
            self.keep(key, kept)
        return kept

    def recall(self, key: Key) -> bytes | None:
        place = self._place(key)
        try:
            head, _, value = place.read_bytes().partition(b"\n")
            if head != _head(self._begun(), key, value):
                return None
        except OSError:
            return None
        self.needs(key)
        with suppress(OSError):
            os.utime(place)
        return value

    def keep(self, key: Key, value: bytes) -> None:
        place = self._place(key)
        beside = place.with_name(f"{_BESIDE}{os.getpid()}-{time.monotonic_ns()}-{key.of[:16]}")
        try:
            self._begin()
            head = _head(self._begun(), key, value)
            try:
                _write(beside, head, value)
            except FileNotFoundError:
                place.parent.mkdir(parents=True, exist_ok=True)
                _write(beside, head, value)
            beside.replace(place)
        except OSError:
            with suppress(OSError):
                beside.unlink(missing_ok=True)
            return
        self.needs(key)

    def needs(self, key: Key) -> None:
        self._used.add(f"{key.step}/{key.of}")

    def _begin(self) -> None:
        if self._seal is None:
            self.folder.mkdir(parents=True, exist_ok=True)
            with suppress(FileExistsError):
                (self.folder / _BEGUN).touch(exist_ok=False)

    def _begun(self) -> bytes:
        """What the file system alone can tell of this folder. Raises OSError where it has not been begun.

        It is the number and the time of change of a file that is made when the store is begun; neither can
        be brought along by a copy, nor by the archive of a book that comes from somebody else.
        """
        if self._seal is None:
            found = (self.folder / _BEGUN).lstat()
            self._seal = f"{found.st_dev} {found.st_ino} {found.st_ctime_ns} ".encode()
        return self._seal

    def tidy(self, most: int = MOST_BYTES) -> None:
        """Let go of what was used longest ago, until no more than `most` bytes are kept.

        What this store has recalled or kept stays, whatever its size.
        """
        kept: list[tuple[float, int, str]] = []
        for name, path, found in self._all():
            if name.startswith(_BESIDE):
                if time.time() - found.st_mtime > _STALE:
                    _forget(Path(path))
            else:
                kept.append((found.st_mtime, found.st_size, path))
        size = sum(one for _, one, _ in kept)
        for _, one, path in sorted(kept) if size > most else ():
            if size <= most:
                break
            if "/".join(Path(path).parts[-2:]) not in self._used:
                _forget(Path(path))
                size -= one

    def tidy_at_times(self) -> None:
        """Tidy where that was not done within the hour: to look at every file takes longer than a small build."""
        tidied = self.folder / _TIDIED
        with suppress(OSError):
            if 0 <= time.time() - tidied.stat().st_mtime < _HOUR:
                return
        self.tidy()
        with suppress(OSError):
            tidied.touch()

    def _all(self) -> Iterator[tuple[str, str, os.stat_result]]:
        """Every file of the store: its name, its path, and what is told of it."""
        steps = (
            [entry.path for entry in os.scandir(self.folder) if entry.is_dir()]
            if self.folder.is_dir()
            else []
        )
        for step in steps:
            with suppress(OSError), os.scandir(step) as entries:
                for entry in entries:
                    with suppress(OSError):
                        yield entry.name, entry.path, entry.stat()

    def _place(self, key: Key) -> Path:
        return self.folder / key.step / key.of


class NoStore:
    """Keeps nothing."""

    def get(self, key: Key, make: Callable[[], bytes]) -> bytes:
        return make()

    def recall(self, key: Key) -> bytes | None:
        return None

    def keep(self, key: Key, value: bytes) -> None:
        return None

    def needs(self, key: Key) -> None:
        return None


def _head(seal: bytes, key: Key, value: bytes) -> bytes:
    whole = hashlib.sha256(seal + f"{key.step}/{key.of}\n".encode())
    whole.update(value)
    return _MAGIC + whole.hexdigest().encode()


def _write(path: Path, head: bytes, value: bytes) -> None:
    with path.open("xb") as file:
        # Put together, what is kept of a large book would be in memory twice.
        file.writelines((head, b"\n", value))


def _forget(path: Path) -> None:
    with suppress(OSError):
        path.unlink(missing_ok=True)
