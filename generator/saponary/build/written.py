"""What a build wrote into a folder: the list that tells the program's own files from all others there.

It is kept in the book's `.saponary/`, outside the folder that it tells of, as `sha256sum` writes its
lists. Before a folder is changed the list holds what is there and what is to come, so that a build
that is killed leaves nothing that the next one would take for somebody else's.
"""

from __future__ import annotations

import errno
import hashlib
import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from saponary.assets.disk import put
from saponary.assets.stamps import numbers

KEPT = ".saponary"
"""The folder in the book where the program keeps what it must know of its own work. It holds no recipe."""


IGNORED = (".gitignore", b"*\n")
"""A file that keeps the folder it lies in out of git, whatever the book's own list says."""


def bare_folder(root: Path) -> Path:
    """The program's own folder in a book, made where it is missing. Raises OSError where something else is there:
    behind a link may lie what is somebody else's, or another book's."""
    folder = root / KEPT
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        why = "the program keeps a folder of this name here, and this is none"
        raise NotADirectoryError(errno.ENOTDIR, why, str(folder))
    folder.mkdir(exist_ok=True)
    return folder


def own_folder(root: Path) -> Path:
    """The same, kept out of git. The book is locked."""
    folder = bare_folder(root)
    if not (folder / IGNORED[0]).is_file():
        put(folder / IGNORED[0], IGNORED[1])
    return folder


def digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


@dataclass(frozen=True)
class Written:
    """The files of a folder that builds wrote, by their path in it: the digests that each may have.

    `folder` is where the folder really lay, '' where nothing was written yet.
    """

    folder: str = ""
    files: Mapping[str, frozenset[str]] = field(default_factory=dict[str, frozenset[str]])
    stamps: Mapping[str, str] = field(default_factory=dict[str, str], compare=False)
    """What the file system told of a file when a build had put it in place."""

    def joined(self, other: Written) -> Written:
        """What either wrote."""
        both = dict(self.files)
        for path, ones in other.files.items():
            was = both.get(path, ones)
            both[path] = ones if was == ones else was | ones
        return Written(other.folder or self.folder, both)


def list_of(folder: Path) -> Path:
    """Where the list of a book's folder is kept."""
    return folder.parent / KEPT / f"{folder.name}.list"


def of(folder: Path, files: Iterable[tuple[str, str]]) -> Written:
    """Files by path and digest."""
    return Written(str(folder), {path: frozenset({one}) for path, one in files})


def folders_of(paths: Iterable[str]) -> set[str]:
    """The folders in which files lie, however deep, by paths with `/`; not the top."""
    found = set[str]()
    for path in paths:
        above = path.rpartition("/")[0]
        while above and above not in found:
            found.add(above)
            above = above.rpartition("/")[0]
    return found


def read(file: Path) -> Written:
    """What a list says; nothing where it is missing, and only its whole lines where it is damaged."""
    try:
        text = file.read_text("utf-8", errors="surrogateescape")
    except OSError:
        return Written()
    folder, files = "", dict[str, frozenset[str]]()
    for line in text.split("\n"):
        if line.startswith(_FOLDER):
            folder = line.removeprefix(_FOLDER)
            continue
        one, _, path = line.partition("  ")
        if len(one) == 64 and path:
            files[path] = files[path] | {one} if path in files else frozenset((one,))
    return Written(folder, files, _stamps(file))


def _stamps(file: Path) -> dict[str, str]:
    """By path; none where they were never noted, or are not of this list."""
    try:
        lines = file.with_suffix(STAMPS).read_text("utf-8", errors="surrogateescape").split("\n")
    except OSError:
        return {}
    return {path: told for line in lines for told, tab, path in [line.partition("\t")] if tab}


def stamps_of(folder: Path, paths: Iterable[str], seen: Mapping[str, str]) -> dict[str, str]:
    """Stamps of files that were put in place now; of those that lay there already, unless they changed since they were `seen`."""
    top, found = f"{folder}{os.sep}", dict[str, str]()
    for path in paths:
        with suppress(OSError):
            now = numbers(os.lstat(top + path))
            if path not in seen or now.rpartition(" ")[0] == seen[path].rpartition(" ")[0]:
                found[path] = now
    return found


def note(file: Path, stamps: Mapping[str, str]) -> None:
    """Note stamps beside a list, so that its files need not be read where they have them still."""
    lines = "".join(f"{told}\t{path}\n" for path, told in stamps.items())
    with suppress(OSError):
        put(file.with_suffix(STAMPS), lines.encode("utf-8", "surrogateescape"))


def save(file: Path, written: Written) -> None:
    """Put the list in place, where it says anything else than the one there."""
    lines = [f"{one}  {path}" for path in sorted(written.files) for one in sorted(written.files[path])]
    data = "\n".join([f"{_FOLDER}{written.folder}", *lines, ""]).encode("utf-8", "surrogateescape")
    try:
        if file.read_bytes() == data:
            return
    except OSError:
        pass
    put(file, data)


_FOLDER = "# "
STAMPS = ".stamps"
"""How the file beside a list ends that holds the stamps of its files."""
