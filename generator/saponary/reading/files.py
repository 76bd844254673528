"""The files of a book as names and bytes, whatever they are read from; here, from a folder.

A name is a path in the book with `/` between its parts. What cannot be had is an `Unread` that says
why; nothing here raises for a bad file.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable, Mapping
from errno import ESTALE
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple, Protocol

from saponary.quantity.rounding import show
from saponary.reading.stamped import Stamped

MAX_FILE_BYTES = 2_000_000


class Unread(NamedTuple):
    """Why a file or folder cannot be read, and what would help."""

    message: str
    hint: str


class Files(Protocol):
    """What a book is read from: a folder, or a folder as a revision holds it."""

    @property
    def root(self) -> Path:
        """The book's folder."""
        ...

    def has(self, name: str) -> bool:
        """Whether anything is there under this name, a link that leads nowhere too."""
        ...

    def read(self, name: str) -> bytes | Unread:
        """The bytes of a file of the book's text; no more than MAX_FILE_BYTES."""
        ...

    def names(self, folder: str) -> list[str] | Unread:
        """What stands in a folder of the book, sorted; nothing where it has no such folder."""
        ...

    def below(self, folder: str) -> frozenset[str]:
        """Every file in a folder of the book and in its folders, by its path there."""
        ...


def is_book(root: Path) -> bool:
    """A folder with `recipes/` or `book.yaml` is a book."""
    return (root / "recipes").is_dir() or (root / "book.yaml").is_file()


def too_large(size: int) -> Unread:
    """`size` in bytes."""
    return Unread(
        f"this file has {show(size / 1e6, 0)} MB",
        f"keep a recipe below {show(MAX_FILE_BYTES / 1e6, 0)} MB; photos go into photos/",
    )


class Folder(NamedTuple):
    """The files of a book in a folder. No link that leads out of it is followed."""

    root: Path

    def has(self, name: str) -> bool:
        return os.path.lexists(self.root / name)

    def read(self, name: str) -> bytes | Unread:
        path = self.root / name
        try:
            if self._plainly(name):
                data, size = _bytes(path)
                return too_large(size) if size > MAX_FILE_BYTES else data
            if not path.resolve(strict=True).is_relative_to(self.root.resolve()):
                return Unread("this link leads out of the book", "put the file itself into the book")
            if not path.is_file():
                return Unread("this is not a file", "a text file is needed here")
            data, size = _bytes(path)
        except FileNotFoundError:
            return Unread("this link leads nowhere", "put the file itself into the book")
        except OSError as error:
            why = error.strerror or str(error)
            return Unread(f"this file cannot be read: {why}", "check its permissions and links")
        except RuntimeError:
            return Unread("this link leads back to itself", "put the file itself into the book")
        return too_large(size) if size > MAX_FILE_BYTES else data

    def _plainly(self, name: str) -> bool:
        """Whether a file lies in the book, or in a folder of it, with no link on the way."""
        folder, _, file = name.rpartition("/")
        top = f"{self.root}{os.sep}"
        if "/" in folder or ".." in (folder, file):
            return False
        straight = not folder or stat.S_ISDIR(os.lstat(top + folder).st_mode)
        return straight and stat.S_ISREG(os.lstat(top + name).st_mode)

    def names(self, folder: str) -> list[str] | Unread:
        try:
            return sorted(os.listdir(self.root / folder))
        except FileNotFoundError:
            return []
        except OSError as error:
            why = error.strerror or str(error)
            return Unread(f"the {folder} cannot be read: {why}", f"{folder}/ is a folder that you may read")

    def below(self, folder: str) -> frozenset[str]:
        top, home = self.root / folder, self.root.resolve()
        return frozenset(
            path.relative_to(top).as_posix()
            for path in top.rglob("*")
            if path.is_file() and path.resolve().is_relative_to(home)
        )


class ReadOnce:
    """Files whose bytes are read once, so that whoever asks again is told of the same.

    Of those that are known by their stamps the digest is told without reading them.
    """

    def __init__(self, files: Files, stamped: Stamped | None = None) -> None:
        self.root, self._files, self._stamped = files.root, files, stamped
        self.has, self.names, self.below = files.has, files.names, files.below
        self._read: dict[str, bytes | Unread] = {}
        self._digests: dict[str, str] = {}

    def read(self, name: str) -> bytes | Unread:
        """A file's bytes. Raises OSError where they are others than those that its digest was told of."""
        if name not in self._read:
            data = self._files.read(name)
            if name in self._digests and _digest(data) != self._digests[name]:
                raise OSError(ESTALE, "this file was changed meanwhile", str(self.root / name))
            self._read[name] = data
        return self._read[name]

    def digests(self, folder: str) -> Mapping[str, str]:
        """The digests of files in a folder that are known by their stamps."""
        known = self._stamped.digests(folder) if self._stamped is not None else {}
        self._digests |= known
        return known

    def let_go(self, names: Iterable[str]) -> None:
        """Hold the bytes of these files no longer: whoever asks again is told of the same, or that they have changed."""
        for name in names:
            if name in self._digests:
                self._read.pop(name, None)

    def digest(self, name: str) -> str:
        """The digest of a file's bytes."""
        if name not in self._digests:
            known = self._stamped.digest(name) if self._stamped is not None else None
            if known is None:
                data = self.read(name)
                known = _digest(data)
                if self._stamped is not None and isinstance(data, bytes):
                    self._stamped.note(name, known)
            self._digests[name] = known
        return self._digests[name]


def _digest(data: bytes | Unread) -> str:
    return sha256(str(data).encode() if isinstance(data, Unread) else data).hexdigest()


def _bytes(path: Path) -> tuple[bytes, int]:
    """A file's bytes, no more than may be read, and its size."""
    with path.open("rb") as opened:
        data = opened.read(MAX_FILE_BYTES + 1)
        return data, max(len(data), os.fstat(opened.fileno()).st_size)
