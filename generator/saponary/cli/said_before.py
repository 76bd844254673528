"""What a command prints that rests on the program alone, kept in the user's own cache folder.

A kept text is one file, in a folder named by the stamps of the program; its first line is a digest of the
rest, so that one cut short is made again. Texts of another program are let go. Where nothing can be kept,
each is made anew. Imports little, since all it saves is time.
"""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path

from saponary.build import stamps

_MOST = 200
"""Texts kept at a time; the manual can be asked for any word."""


def said_before(words: Sequence[str], make: Callable[[], str]) -> str:
    """The text that comes of these words, from the last time if it is kept."""
    program = _home() / stamps.digest_of(stamps.code())[:32]
    file = program / hashlib.sha256("\n".join(words).encode("utf-8", "surrogateescape")).hexdigest()[:32]
    kept = _read(file)
    if kept is None:
        kept = make()
        _write(file, kept)
    return kept


def _home() -> Path:
    """Where a user's programs keep what can be made again (XDG Base Directory; on Windows, LOCALAPPDATA)."""
    named = os.environ.get("LOCALAPPDATA" if sys.platform == "win32" else "XDG_CACHE_HOME", "")
    with suppress(RuntimeError):
        return (Path(named) if Path(named).is_absolute() else Path.home() / ".cache") / "saponary" / "said"
    return Path(os.devnull)


def _read(file: Path) -> str | None:
    with suppress(OSError, ValueError):
        head, _, rest = file.read_bytes().partition(b"\n")
        if hashlib.sha256(rest).hexdigest().encode() == head:
            return rest.decode()
    return None


def _write(file: Path, text: str) -> None:
    """Keep a text, if that can be done."""
    data = text.encode("utf-8", "surrogatepass")
    beside = file.with_name(f".new-{os.getpid()}")
    with suppress(OSError):
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        for other in file.parent.parent.iterdir():
            if not other.is_symlink() and (other != file.parent or len(os.listdir(other)) > _MOST):
                _empty(other)
        file.parent.mkdir(mode=0o700, exist_ok=True)
        beside.write_bytes(hashlib.sha256(data).hexdigest().encode() + b"\n" + data)
        beside.replace(file)


def _empty(folder: Path) -> None:
    """Let go of the texts of a folder, and of the folder."""
    for text in folder.iterdir():
        text.unlink(missing_ok=True)
    folder.rmdir()
