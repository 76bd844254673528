"""Earlier formulas of a recipe, and when its sources last changed, from git where the book is kept in one.

An earlier formula is that of a revision's own recipe, pantry and settings; of each recipe a bounded
number of revisions is looked at. Only reads.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from pathlib import Path

from saponary.book.changes import Changed, changes
from saponary.book.computed import Computed
from saponary.book.file_names import PANTRY_FILE, SETTINGS_FILE
from saponary.book.library import Book, read_recipe
from saponary.book.parts import read_pantry, read_settings
from saponary.book.poured import recount_of
from saponary.book.resolve import resolve
from saponary.lye.fingerprint import fingerprint, matches
from saponary.lye.formula import Formula
from saponary.messages.message import Message
from saponary.pantry.model import Pantry
from saponary.reading.git import Objects, Revision, ask, objects
from saponary.reading.git_log import Commit, commits, followed
from saponary.schema.settings import Settings

MOST_REVISIONS = 60
"""Of one recipe, the latest first."""

_COMMON = (PANTRY_FILE, SETTINGS_FILE)

Earlier = Mapping[str, Mapping[str, tuple[Message, ...]]]
"""By a recipe's slug, then by the fingerprint a batch records: what of the formula changed since."""

Formulas = Mapping[str, Mapping[str, Formula]]
"""By a recipe's slug, then by the fingerprint a batch records: the formula."""


def sources_log(root: Path) -> list[Commit]:
    """The commits that touch what a book's figures rest on, the latest first."""
    return commits(root, ("recipes", *_COMMON))


def changes_since(book: Book, recipes: Iterable[Computed], log: Iterable[Commit]) -> Earlier:
    """For each batch poured to an earlier formula that git still has: what changed since."""
    asked = {one.slug: one for one in recipes}
    found = _formulas(book, [_Sought(one, _earlier(one)) for one in asked.values()], lambda: log)
    return {
        slug: {mark: changes(old, asked[slug].resolved.formula) for mark, old in formulas.items()}
        for slug, formulas in found.items()
    }


def formulas_lacking(book: Book, recipes: Iterable[Computed]) -> Formulas:
    """The earlier formulas, where git still has them, of batches whose own weights do not tell their superfat."""
    return _formulas(book, [_Sought(one, untold(one)) for one in recipes], lambda: sources_log(book.root))


def _earlier(computed: Computed) -> set[str]:
    """The earlier formulas that a recipe's batches record."""
    marks = {record.batch.formula for record in computed.batches if record.batch.formula is not None}
    return {mark for mark in marks if not matches(mark, computed.fingerprint)}


def untold(computed: Computed) -> set[str]:
    """The earlier formulas without which the superfat of a recipe's lots is not known."""
    found = ((record.batch.formula, recount_of(record.batch, computed)) for record in computed.batches)
    return {mark for mark, one in found if mark and one is not None and not one.known} & _earlier(computed)


class _Sought:
    """The earlier formulas that are wanted of a recipe, and those found so far."""

    def __init__(self, computed: Computed, wanted: set[str]) -> None:
        self.computed, self.wanted = computed, wanted
        self.found: dict[str, Formula] = {}
        self.tried: set[tuple[str | None, ...]] = set()
        self.revisions = 0

    def look_at(self, old: Formula) -> None:
        for recorded in sorted(self.wanted - self.found.keys()):
            if matches(recorded, fingerprint(old)):
                self.found[recorded] = old

    @property
    def done(self) -> bool:
        return self.revisions >= MOST_REVISIONS or self.wanted <= self.found.keys()


def _formulas(book: Book, sought: Iterable[_Sought], log: Callable[[], Iterable[Commit]]) -> Formulas:
    every = {one.computed.file.file: one for one in sought}
    open_ = {file: one for file, one in every.items() if one.wanted}
    if open_:
        with objects(book.root) as held:
            if held is not None:
                _search(book.root, held, open_, log())
    return {one.computed.slug: one.found for one in every.values()}


def _search(root: Path, held: Objects, sought: dict[str, _Sought], log: Iterable[Commit]) -> None:
    """Look through the revisions that touch a recipe or what all recipes rest on, the latest first."""
    commons: dict[tuple[str | None, ...], tuple[Settings, Pantry]] = {}
    for commit, names in followed(log, sought, _COMMON):
        if all(one.done for one in sought.values()):
            return
        touched = [(sought[now], then) for now, then in names if not sought[now].done]
        files = Revision(root, held, commit.id)
        common = tuple(files.id(name) for name in _COMMON)
        for one, name in touched:
            one.revisions += 1
            inputs = (files.id(name), *common)
            if inputs[0] is None or inputs in one.tried:
                continue
            one.tried.add(inputs)
            if common not in commons:
                commons[common] = read_settings(files).value, read_pantry(files).value
            old = _formula(files, name, *commons[common])
            if old is not None:
                one.look_at(old)


def _formula(files: Revision, file: str, settings: Settings, pantry: Pantry) -> Formula | None:
    """A recipe's formula as a revision has it."""
    recipe = read_recipe(files, file.partition("/")[2])
    if recipe.model is None:
        return None
    resolved, _ = resolve(recipe.model, settings, pantry, recipe.tree, recipe.file)
    return resolved.formula if resolved else None


def last_changes(book: Book, log: Iterable[Commit]) -> dict[str, Changed]:
    """When each recipe's sources last changed: its own file, the pantry and the book's settings.

    Recipes that git does not hold are not in it. Where there is no git, or only the end of a
    history, none is.
    """
    whole = ask(book.root, "rev-parse", "--is-shallow-repository")
    if whole is None or whole.strip() != "false":
        return {}
    sources = ("recipes", *_COMMON)
    dates: dict[str, date] = {}
    for commit in log:
        for name in commit.files:
            dates[name] = max(commit.on, dates.get(name, commit.on))
    held = set((ask(book.root, "ls-files", "--", *sources) or "").splitlines())
    edited = _edited(book.root, *sources)
    found: dict[str, Changed] = {}
    for recipe in book.recipes:
        own = {recipe.file, *_COMMON}
        if recipe.file in held & dates.keys():
            latest = max(dates[name] for name in own & dates.keys())
            found[recipe.slug] = Changed(latest, bool(own & edited))
    return found


def _edited(root: Path, *sources: str) -> set[str]:
    """Files that differ from what is committed, or are not in it."""
    inside = (ask(root, "rev-parse", "--show-prefix") or "").strip("\n")
    told = ask(root, "status", "--porcelain", "-z", "--no-renames", "--untracked-files=all", "--", *sources)
    return {line[3:].removeprefix(inside) for line in (told or "").split("\0") if line}
