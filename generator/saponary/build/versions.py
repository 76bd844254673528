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
from typing import Any

from saponary.assets.step import Step
from saponary.assets.store import Store
from saponary.book.changes import Version
from saponary.book.figure import Figure
from saponary.book.file_names import PANTRY_FILE, SETTINGS_FILE
from saponary.book.library import Book
from saponary.book.moved import Shift, shifts
from saponary.build.came_to import CameTo
from saponary.build.compared_side import ROOMS, Side
from saponary.reading.git import Commit, Objects, Revision, objects

MOST = 60
"""Revisions of one recipe that are looked at, the latest first."""

_COMMON = (PANTRY_FILE, SETTINGS_FILE)
_VERSIONS = Step("versions", uses=("revisions that touch it", "recipe"), rooms=ROOMS)


def versions(book: Book, store: Store, log: Sequence[Commit]) -> Mapping[str, tuple[Version, ...]]:
    """By slug, the latest first; nothing where the book is not kept in git. `log` are the commits that touch its
    sources."""
    wanted = _wanted(book, log)
    keys = {name: _VERSIONS.key([one.id for one in asked], name) for name, asked in wanted.items()}
    found = {name: kept for name, key in keys.items() if (kept := store.recall(key)) is not None}
    versions = {name: tuple(_read(row) for row in json.loads(kept)) for name, kept in found.items()}
    with objects(book.root) as held:
        lacking = {name: asked for name, asked in wanted.items() if name not in found}
        if held is None or not lacking:
            return {name.removesuffix(".md"): one for name, one in versions.items()}
        sides = _Sides(book.root, held, store)
        sides.compute(lacking)
        for name, asked in lacking.items():
            versions[name] = tuple(_versions(name, asked, sides))[::-1]
            rows = [{**asdict(one), "on": one.on.isoformat()} for one in versions[name]]
            store.keep(keys[name], json.dumps(rows).encode("utf-8"))
    return {name.removesuffix(".md"): one for name, one in versions.items()}


def _wanted(book: Book, log: Sequence[Commit]) -> dict[str, list[Commit]]:
    """By its name, the revisions that are looked at of each recipe that any of them touches, the latest first."""
    known = set[str]().union(*(one.files for one in log))
    wanted: dict[str, list[Commit]] = {one.file: [] for one in book.recipes if one.file in known}
    for one in log:
        for file in wanted if not one.files.isdisjoint(_COMMON) else one.files & wanted.keys():
            wanted[file].append(one)
    return {file.removeprefix("recipes/"): found[:MOST] for file, found in wanted.items()}


class _Sides:
    """The book at each revision, read once."""

    def __init__(self, root: Path, held: Objects, store: Store) -> None:
        self._root, self._held, self._store = root, held, store
        self._sides: dict[str, Side] = {}

    def at(self, commit: str) -> Side:
        if commit not in self._sides:
            self._sides[commit] = Side(Revision(self._root, self._held, commit), self._store)
        return self._sides[commit]

    def compute(self, wanted: Mapping[str, Iterable[Commit]]) -> None:
        """Have all that is wanted computed, revision by revision, so that each is read once."""
        at: dict[str, set[str]] = {}
        for name, asked in wanted.items():
            for commit in asked:
                at.setdefault(commit.id, set()).add(name)
        for id, names in at.items():
            self.at(id).came_to(names)


def _read(row: dict[str, object]) -> Version:
    rows = row.pop("moved")
    assert isinstance(rows, list)
    on = date.fromisoformat(str(row.pop("on")))
    return Version(on=on, moved=tuple(map(_shift, rows)), **row)  # type: ignore[arg-type]


def _shift(row: dict[str, Any]) -> Shift:
    was, now = (Figure(**row[side]) if row[side] is not None else None for side in ("was", "now"))
    return Shift(row["name"], was, now)


def _versions(name: str, asked: Iterable[Commit], sides: _Sides) -> Iterator[Version]:
    """From the earliest on, each that moved a figure or the fingerprint."""
    last: CameTo | None = None
    for commit in reversed(list(asked)):
        side = sides.at(commit.id)
        if name not in side.names:
            continue
        one = side.came_to({name})[name]
        if not one.figures:
            continue
        rows = tuple(shifts(last.figures, one.figures)) if last is not None else ()
        if last is None or rows or one.fingerprint != last.fingerprint:
            lye, superfat = _lye_and_superfat(one)
            yield Version(commit.on, commit.about, commit.id, one.fingerprint, lye, superfat, rows)
        last = one


def _lye_and_superfat(one: CameTo) -> tuple[float, float] | tuple[None, None]:
    """Lye in grams for a kilogram of oils, and superfat; of a rebatch there is neither."""
    if "lye" not in one.figures:
        return None, None
    return 1000.0 * one.figures["lye"].value / one.figures["oils"].value, one.figures["superfat"].value
