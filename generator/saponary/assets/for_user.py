"""What rests on the program alone, kept in the user's own cache folder under the stamps of the program.

A kept value is one file, in a folder named by those stamps; its first line is a digest of the rest, so that one
cut short is made again. Values of another program are let go. Only a folder that no other user can write to is
believed. Where nothing can be kept, each is made anew. Imports little, since all it saves is time.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import TypeVar, cast

from saponary.assets import stamps

T = TypeVar("T")

_MOST = 400
"""Values kept at a time."""


def recall(words: Sequence[str]) -> bytes | None:
    """What is kept under these words; None where nothing is, or nothing sound."""
    file = _file(words)
    with suppress(OSError, ValueError):
        if _is_ours(file.parent):
            head, _, rest = file.read_bytes().partition(b"\n")
            return rest if hashlib.sha256(rest).hexdigest().encode() == head else None
    return None


def keep(words: Sequence[str], data: bytes) -> None:
    """Keep a value, if that can be done."""
    file = _file(words)
    beside = file.with_name(f".new-{os.getpid()}")
    with suppress(OSError):
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        for other in file.parent.parent.iterdir():
            if not other.is_symlink() and (other != file.parent or len(os.listdir(other)) > _MOST):
                _empty(other)
        file.parent.mkdir(mode=0o700, exist_ok=True)
        beside.write_bytes(hashlib.sha256(data).hexdigest().encode() + b"\n" + data)
        beside.replace(file)


@cache
def program() -> str:
    """What tells this program from any other."""
    return stamps.digest_of(stamps.code())[:32]


def _file(words: Sequence[str]) -> Path:
    name = hashlib.sha256("\n".join(words).encode("utf-8", "surrogateescape")).hexdigest()[:32]
    return _home() / program() / name


def _home() -> Path:
    """Where a user's programs keep what can be made again (XDG Base Directory; on Windows, LOCALAPPDATA)."""
    named = os.environ.get("LOCALAPPDATA" if sys.platform == "win32" else "XDG_CACHE_HOME", "")
    with suppress(RuntimeError):
        return (Path(named) if Path(named).is_absolute() else Path.home() / ".cache") / "saponary" / "kept"
    return Path(os.devnull)


def _is_ours(folder: Path) -> bool:
    """Whether nobody else can have put anything there. Raises OSError where there is no such folder."""
    if sys.platform == "win32":
        return True
    found = folder.lstat()
    return found.st_uid == os.geteuid() and not found.st_mode & 0o022


def _empty(folder: Path) -> None:
    """Let go of the values of a folder, and of the folder."""
    for one in folder.iterdir():
        one.unlink(missing_ok=True)
    folder.rmdir()


def made(words: Sequence[str], make: Callable[[], T]) -> T:
    """What `make` makes, from the last time if it is kept: any value that rests on the program alone.

    It is unpickled, which runs code of it: so are the program's own compiled files, which lie where the same user
    alone can write. Nothing of a book's own folder is ever read so.
    """
    kept = recall(("made", *words))
    if kept is not None:
        with suppress(Exception):
            return cast("T", pickle.loads(kept))
    value = make()
    keep(("made", *words), pickle.dumps(value, pickle.HIGHEST_PROTOCOL))
    return value
