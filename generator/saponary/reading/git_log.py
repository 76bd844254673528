"""The history of a folder that is kept in git: its commits, and the names that its files had before.

Of a merge, a file is told that is like none of those it was merged from.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from saponary.reading.git import ask

_FORMAT = "--format=%x01%H %P%x00%ct %cd %s"
_AS_IT_IS = ("-c", "log.showRoot=true", "-c", "core.quotePath=false")
"""Whatever a maker's own settings of git say."""


@dataclass(frozen=True)
class Commit:
    """A commit: its id, the seconds since 1970 and the day at which it was made, the first line of its message, the
    files asked for that it touches, the first of the commits that it follows, and the names before by those after."""

    id: str
    at: int
    on: date
    about: str
    files: frozenset[str]
    parent: str | None = None
    renamed: Mapping[str, str] = field(default_factory=dict[str, str])


def commits(root: Path, sources: Iterable[str]) -> list[Commit]:
    """The commits that touch any of these files or folders of a folder, the latest first."""
    inside = (ask(root, "rev-parse", "--show-prefix") or "").rstrip("\n")
    shown = ("-c", "-M", "--name-status", "--no-show-signature", "--no-color", "--date=short", _FORMAT)
    told = ask(root, *_AS_IT_IS, "log", *shown, "--", *sources) or ""
    return [_commit(block, inside) for block in told.split("\x01")[1:]]


def _commit(block: str, inside: str) -> Commit:
    head, *lines = block.splitlines()
    ids, _, said = head.partition("\0")
    id, *parents = ids.split()
    at, on, about = said.split(" ", 2)
    files, renamed = set[str](), dict[str, str]()
    for kind, *names in (line.split("\t") for line in lines if line):
        paths = [name.removeprefix(inside) for name in names]
        files.add(paths[-1])
        if kind.startswith("R") and len(paths) == 2:
            renamed[paths[1]] = paths[0]
    parent = parents[0] if parents else None
    return Commit(id, int(at), date.fromisoformat(on), about, frozenset(files), parent, renamed)


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
