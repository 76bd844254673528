"""The history of a folder that is kept in git: its commits, and the names that its files had before.

Of a merge, a file is told that is like none of those it was merged from.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import NamedTuple

from saponary.reading.git import ask

_FORMAT = "--format=%x00%x00%H%x00p%P%x00t%ct%x00d%cd%x00s%s"
"""No part is empty, and none but the first follows two noughts: a message may hold any sign but nought."""
_RENAMED = re.compile(r"[RC]\d+")
_NO_DAY = date(1970, 1, 1)
"""Where git begins to count; for a commit whose day no calendar has."""


class Commit(NamedTuple):
    """A commit: its id, the seconds since 1970 and the day at which it was made, the first line of its message, the
    files asked for that it touches, the first of the commits that it follows, and the names before by those after."""

    id: str
    at: int
    on: date
    about: str
    files: frozenset[str]
    parent: str | None = None
    renamed: Mapping[str, str] = {}


def commits(root: Path, sources: Iterable[str]) -> list[Commit]:
    """The commits that touch any of these files or folders of a folder, the latest first."""
    inside = (ask(root, "rev-parse", "--show-prefix") or "").rstrip("\n")
    shown = ("-z", "-c", "-M", "--name-status", "--no-color", "--date=short", _FORMAT)
    told = ask(root, "log", *shown, "--", *sources) or ""
    return [_commit(block, inside) for block in f"\0{told}".split("\0\0\0")[1:]]


def _commit(block: str, inside: str) -> Commit:
    id, parents, at, on, about, *parts = (part.removeprefix("\n") for part in block.split("\0"))
    files, renamed = set[str](), dict[str, str]()
    rest = iter([part for part in parts if part])
    for kind in rest:
        paths = [next(rest, "").removeprefix(inside) for _ in range(2 if _RENAMED.fullmatch(kind) else 1)]
        files.add(paths[-1])
        if kind.startswith("R") and len(paths) == 2:
            renamed[paths[1]] = paths[0]
    first = next(iter(parents[1:].split()), None)
    seconds = int(at[1:]) if at[1:].lstrip("-").isdecimal() else 0
    return Commit(id, seconds, _day(on[1:]), about[1:], frozenset(files), first, renamed)


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return _NO_DAY


def followed(
    log: Iterable[Commit], files: Collection[str], common: Collection[str] = ()
) -> Iterator[tuple[Commit, list[tuple[str, str]]]]:
    """Each commit with those of these files that it touches, as they are called now and as they were then. One that
    touches any of `common` touches all."""
    called = {file: file for file in files}  # now, by then
    for commit in log:
        touched = called.keys() if not commit.files.isdisjoint(common) else commit.files & called.keys()
        yield commit, [(called[name], name) for name in sorted(touched)]
        for after, before in commit.renamed.items():
            if after in called:
                called[before] = called.pop(after)
