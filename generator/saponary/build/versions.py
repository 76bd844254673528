"""The versions of every recipe's formula that git still has: what each change did to its figures.

Each revision is computed with its own pantry and settings, by today's engine, and what came of it is
kept by content; the list of a recipe's versions is kept by the last revision that touches it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from saponary.assets.step import Step
from saponary.assets.store import Store
from saponary.book.changes import Version
from saponary.book.figure import Figure
from saponary.book.file_names import PANTRY_FILE, SETTINGS_FILE
from saponary.book.library import Book
from saponary.book.moved import Shift, shifts
from saponary.build.came_to import CameTo
from saponary.build.compared_side import ROOMS, Side
from saponary.reading.git import Objects, Revision, objects
from saponary.reading.git_log import Commit, followed

MOST = 60
"""Revisions of one recipe that are looked at, the latest first."""

_COMMON = (PANTRY_FILE, SETTINGS_FILE)
_VERSIONS = Step("versions", uses=("revisions that touch it", "recipe"), rooms=ROOMS)


class _At(NamedTuple):
    """A recipe in a revision: the commit, and what its file was called there."""

    commit: Commit
    name: str


def versions(book: Book, store: Store, log: Sequence[Commit]) -> Mapping[str, tuple[Version, ...]]:
    """By slug, the latest first; nothing where the book is not kept in git. `log` are the commits that touch its
    sources."""
    wanted = _wanted(book, log)
    keys = {name: _VERSIONS.key([one.commit.id for one in asked], name) for name, asked in wanted.items()}
    found = {name: kept for name, key in keys.items() if (kept := store.recall(key)) is not None}
    versions = {name: tuple(_read(row) for row in json.loads(kept)) for name, kept in found.items()}
    with objects(book.root) as held:
        lacking = {name: asked for name, asked in wanted.items() if name not in found}
        if held is None or not lacking:
            return {name.removesuffix(".md"): one for name, one in versions.items()}
        sides = _Sides(book.root, held, store)
        sides.compute(lacking)
        for name, asked in lacking.items():
            versions[name] = tuple(_versions(asked, sides))[::-1]
            rows = [{**asdict(one), "on": one.on.isoformat()} for one in versions[name]]
            store.keep(keys[name], json.dumps(rows).encode("utf-8"))
    return {name.removesuffix(".md"): one for name, one in versions.items()}


def _wanted(book: Book, log: Sequence[Commit]) -> dict[str, list[_At]]:
    """By its name, the revisions that are looked at of each recipe that any of them touches, the latest first."""
    known = set[str]().union(*(one.files for one in log))
    wanted: dict[str, list[_At]] = {one.file: [] for one in book.recipes if one.file in known}
    for commit, names in followed(log, wanted, _COMMON):
        for now, then in names:
            wanted[now].append(_At(commit, then.removeprefix("recipes/")))
    return {file.removeprefix("recipes/"): found[:MOST] for file, found in wanted.items()}


class _Sides:
    """The book at each revision, read once."""

    def __init__(self, root: Path, held: Objects, store: Store) -> None:
        self._root, self._held, self._store = root, held, store
        self._sides: dict[str, Side] = {}

    def _side(self, commit: str) -> Side:
        if commit not in self._sides:
            self._sides[commit] = Side(Revision(self._root, self._held, commit), self._store)
        return self._sides[commit]

    def came_to(self, commit: str, name: str) -> CameTo | None:
        """What a recipe came to in a revision; None where it has none of that name, or one that cannot be computed."""
        side = self._side(commit)
        if name not in side.names:
            return None
        found = side.came_to({name})[name]
        return found if found.figures else None

    def compute(self, wanted: Mapping[str, Iterable[_At]]) -> None:
        """Have all that is wanted computed, revision by revision, so that each is read once."""
        at: dict[str, set[str]] = {}
        for asked in wanted.values():
            for one in asked:
                at.setdefault(one.commit.id, set()).add(one.name)
        for id, names in at.items():
            self._side(id).came_to(names)


def _read(row: dict[str, object]) -> Version:
    rows = row.pop("moved")
    assert isinstance(rows, list)
    on = date.fromisoformat(str(row.pop("on")))
    return Version(on=on, moved=tuple(map(_shift, rows)), **row)  # type: ignore[arg-type]


def _shift(row: dict[str, Any]) -> Shift:
    was, now = (Figure(**row[side]) if row[side] is not None else None for side in ("was", "now"))
    return Shift(row["name"], was, now)


def _versions(asked: Iterable[_At], sides: _Sides) -> Iterator[Version]:
    """From the earliest on, each that moved a figure or the fingerprint of the one that it follows: of work that went
    on side by side, each change is told by itself."""
    last: CameTo | None = None
    for commit, name in reversed(list(asked)):
        one = sides.came_to(commit.id, name)
        if one is None:
            continue
        was = commit.renamed.get(f"recipes/{name}", name).removeprefix("recipes/")
        before = sides.came_to(commit.parent, was) if commit.parent is not None else None
        before = before or last
        rows = tuple(shifts(before.figures, one.figures)) if before is not None else ()
        if before is None or rows or one.fingerprint != before.fingerprint:
            lye, superfat = _lye_and_superfat(one)
            yield Version(
                on=commit.on,
                at=commit.at,
                about=commit.about,
                commit=commit.id,
                fingerprint=one.fingerprint,
                lye=lye,
                superfat=superfat,
                moved=rows,
                first=before is None,
            )
        last = one


def _lye_and_superfat(one: CameTo) -> tuple[float, float] | tuple[None, None]:
    """Lye in grams for a kilogram of oils, and superfat; of a rebatch there is neither."""
    if "lye" not in one.figures:
        return None, None
    return 1000.0 * one.figures["lye"].value / one.figures["oils"].value, one.figures["superfat"].value
