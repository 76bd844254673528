"""What the file system tells of everything that a build reads and writes, in one pass over stats.

A stamp is a line: a path, and its size, times of change and number. Where two lists of stamps are equal,
so are the files, but for those that were changed so shortly before the first list was made that a later
change may have left the same stamp; they are `fresh`, and are told apart by their bytes. The time of
change of a file's record (ctime) is in a stamp because no program can set it back.

Imports little: it stands before everything else that a build does.
"""

from __future__ import annotations

import hashlib
import os
import stat
import sys
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path
from types import MappingProxyType

from saponary.assets import resources

SOURCES = (
    "book.yaml",
    "pantry.yaml",
    "claims.yaml",
    "recipes",
    "batches",
    "classes",
    "pages",
    "photos",
    "templates",
)
"""All that a build reads in a book's folder. `tests/assets/test_stamps.py` watches a build and fails where it reads more."""

_PACKAGE = Path(__file__).resolve().parents[1]
_COARSE_NS = 2_100_000_000
"""Some file systems count in steps of two seconds."""
_ABSENT = "-"
LIBRARIES = "/etc/ld.so.cache"
"""What is written anew when a library of the system is another."""
_CLOCK = "clock"
_NONE: Mapping[str, str] = MappingProxyType({})


def sources(root: Path) -> list[str]:
    """Stamps of all that a build reads in a book's folder."""
    lines: list[str] = []
    for name in SOURCES:
        _add(lines, str(root / name))
    return sorted(lines)


def program() -> list[str]:
    """Stamps of this program, and what tells of the libraries and settings that it runs with."""
    lines: list[str] = []
    _add(lines, str(resources.templates()))
    set_ = [
        f"{name}={value}" for name, value in os.environ.items() if name.startswith("GIT_") or name == "PATH"
    ]
    system = [stamp(LIBRARIES)]
    return [*code(), *sorted(lines), *sorted(set_), *system]


def code() -> list[str]:
    """Stamps of this program's own files, and what tells of the libraries that it runs with."""
    lines: list[str] = []
    _add(lines, str(_PACKAGE))
    found = [name for folder in sys.path for name in _names(folder) if name.endswith("-info")]
    return [*sorted(lines), sys.version, sys.platform, *sorted(found)]


def tree(folders: Iterable[Path], seen: Mapping[str, str] = _NONE) -> list[str]:
    """Stamps of everything in some folders; of files that were `seen` before, by path, as they were then."""
    lines: list[str] = []
    for folder in folders:
        _add(lines, str(folder), seen)
    return sorted(lines)


def fresh(lines: Iterable[str], now_ns: int) -> list[str]:
    """Of stamps of files, the paths of those changed so shortly before that a later change may leave the same."""
    found: list[str] = []
    for line in lines:
        path, tab, told = line.rpartition("\t")
        if tab and told != _ABSENT and not is_settled(told, now_ns):
            found.append(path)
    return found


def is_settled(told: str, now_ns: int) -> bool:
    """Whether a later change of a file with these numbers would leave others."""
    _, modified, *_, changed = told.split()
    return max(int(modified), int(changed)) <= now_ns - _COARSE_NS


def clock(folder: Path) -> int | None:
    """The time of the file system that a folder lies on; None where it cannot be asked."""
    file = folder / _CLOCK
    try:
        folder.mkdir(exist_ok=True)
        file.write_bytes(b"")
        return file.stat().st_mtime_ns
    except OSError:
        return None


def digest_of(lines: Iterable[str]) -> str:
    """One digest for a list of stamps."""
    return hashlib.sha256("\n".join(lines).encode("utf-8", "surrogateescape")).hexdigest()


def content(path: str) -> str:
    """The digest of a file's bytes; of nothing where it cannot be read, or is a pipe that would be waited for."""
    try:
        return hashlib.sha256(Path(path).read_bytes()).hexdigest() if Path(path).is_file() else _ABSENT
    except OSError:
        return _ABSENT


def _add(lines: list[str], path: str, seen: Mapping[str, str] = _NONE) -> None:
    """The stamp of a path, and of all below it where it is a folder, or a link to one."""
    lines.append(stamp(path))
    if Path(path).is_symlink():
        _add_link(lines, path)
    try:
        if Path(path).is_dir():
            _add_below(lines, path, seen)
    except OSError:
        return


def _add_below(lines: list[str], folder: str, seen: Mapping[str, str]) -> None:
    with os.scandir(folder) as entries:
        for entry in entries:
            told = seen.get(entry.path)
            if told is not None:
                lines.append(f"{entry.path}\t{told}")
                continue
            found = entry.stat(follow_symlinks=False)
            if stat.S_ISREG(found.st_mode):
                lines.append(_line(entry.path, found))
            elif stat.S_ISDIR(found.st_mode):
                if entry.name != "__pycache__":
                    lines.append(f"{entry.path}/ {found.st_mode}")
                    _add_below(lines, entry.path, seen)
            else:
                _add_link(lines, entry.path)


def _add_link(lines: list[str], path: str) -> None:
    """What a link says, and the stamp of the file it leads to; no folder is entered by one inside a folder."""
    with suppress(OSError):
        lines.append(f"{path} -> {Path(path).readlink()}")
    lines.append(stamp(path))


def stamp(path: str) -> str:
    """A path and what it leads to; a folder only that it is one, since what is in it has stamps of its own."""
    try:
        found = Path(path).stat()
    except OSError:
        return f"{path}\t{_ABSENT}"
    if stat.S_ISDIR(found.st_mode):
        return f"{path}/ {found.st_mode}"
    return _line(path, found)


def _line(path: str, found: os.stat_result) -> str:
    return f"{path}\t{numbers(found)}"


def numbers(found: os.stat_result) -> str:
    """What tells a file from a changed one; the time of change of its record, which a new link changes too, stands last."""
    return f"{found.st_size} {found.st_mtime_ns} {found.st_ino} {found.st_mode} {found.st_ctime_ns}"


def _names(folder: str) -> list[str]:
    try:
        return os.listdir(folder or ".")
    except OSError:
        return []
