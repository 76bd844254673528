"""Edits of a maker's file: stretches of its own text and what replaces them, every other byte left alone."""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from saponary.reading.textfile import TextFile


@dataclass(frozen=True)
class Edit:
    """Replace the text between two offsets."""

    start: int
    end: int
    new: str


def apply(text: str, changes: Iterable[Edit]) -> str:
    """The text with its edits made; edits do not overlap."""
    out, last = list[str](), 0
    for edit in sorted(changes, key=lambda e: e.start):
        out += [text[last : edit.start], edit.new]
        last = edit.end
    return "".join([*out, text[last:]])


def newline_of(text: str) -> str:
    """How a text ends its lines."""
    return "\r\n" if "\r\n" in text else "\r" if "\r" in text and "\n" not in text else "\n"


def closing_line(file: TextFile) -> int:
    """Where the line begins that ends the front matter."""
    ends = re.finditer(r"---[ \t]*(?:\r\n|\n|\r|\Z)", file.text[: file.body_start])
    return [match.start() for match in ends if match.end() == file.body_start][-1]


def write(path: Path, text: str) -> None:
    """Put the text in place by rename, so that a kill leaves the old file or the new."""
    data = text.encode("utf-8")
    target = path.resolve()
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        Path(name).chmod(target.stat().st_mode & 0o7777)
        Path(name).replace(target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
