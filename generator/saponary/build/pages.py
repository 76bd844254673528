"""The files of one edition's site, made or recalled, over as many processes as there are.

A page is recalled where nothing that it says it rests on has changed, and its template is not read. Of all files
about one recipe it is seen at one look whether anything has: a build keeps a mark of what they rested on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property, partial
from hashlib import sha256
from typing import NamedTuple

from saponary.assets.digest import digest
from saponary.assets.spread import FEW, Progress, hand_over
from saponary.assets.store import Key, Store
from saponary.book.late import let_go
from saponary.build.content import Content, content
from saponary.build.graph import PAGE
from saponary.outputs import rests_on
from saponary.outputs.compose import Composition
from saponary.outputs.page_kind import SiteFile

_FEW_OF_BOOK = 4
"""So few pages of the whole book, which are long, are made before a copy of this process would have begun."""


class Group(NamedTuple):
    """Files that are made one after another, because they share work: those of a recipe, or one of the whole book."""

    recipe: str | None
    files: Sequence[SiteFile]
    names: Sequence[str]
    """All that they rest on, each once."""


class Earlier(NamedTuple):
    """What was made before: by its path, the key of a file and the digest of its bytes, and the key of a step of its own
    that keeps it; by recipe, a mark of all that its files rested on; by the name of rows, their marks."""

    files: Mapping[str, Sequence[str]] = {}
    groups: Mapping[str, str] = {}
    rows: Mapping[str, Mapping[str, str]] = {}


class _Made(NamedTuple):
    """What is told of a group once its files are made: digests of what they rest on and of their bytes, the keys of
    steps of their own, and the rows that other pages have of the recipe."""

    rested_on: dict[str, str]
    files: dict[str, str]
    own_keys: dict[str, Key]
    rows: dict[str, str]


class Pages:
    """Makes the files of one edition's site, or recalls them. A value is digested once for all of them.

    `known` are digests of values that are as they were, `earlier` tells of files that were made before.
    """

    def __init__(
        self,
        composed: Composition,
        store: Store,
        known: Mapping[str, str] | None = None,
        workers: int | None = None,
        progress: Progress | None = None,
        earlier: Earlier | None = None,
    ) -> None:
        self.composed, self.store, self._earlier = composed, store, earlier or Earlier()
        self._workers, self._progress = workers, progress
        self._digests = dict(known or {})
        self._keys: dict[str, Key] = {}
        self._own_keys: dict[str, Key] = {}
        self._marks: dict[str | None, str] = {}
        self._of_all = frozenset[str]()
        """Names of values that are digested before any process is copied: none of them need tell of these."""
        self._done = 0
        rows = composed.context.rows
        if rows.digest_of is None:
            rows.digest_of = self.digest

    def made(self) -> dict[str, Content]:
        """Every file by its path in the site."""
        of_recipes, others = self._groups
        # What is about the whole book comes last: it shows drawings that the pages of recipes have made.
        found = self._all(of_recipes, FEW) | self._all(others, _FEW_OF_BOOK)
        for rows in self.composed.context.rows.kinds.values():
            rows.new.clear()  # all pages that show them are made, and whoever asks once more finds them kept
        return {file.path: found[file.path] for file in self.composed.files}

    def key(self, file: SiteFile) -> Key:
        """The key of a file: where it stands, and each value that it rests on, by name."""
        return PAGE.key(file.path, "\n".join([f"{self.digest(name)} {name}" for name in file.uses]))

    def told(self, made: Mapping[str, Content]) -> Earlier:
        """Of files that were made, for the next build."""
        own = self._own_keys
        files = {
            file.path: (self._key(file).of, made[file.path].digest, *own.get(file.path, ()))
            for file in self.composed.files
        }
        groups = {group.recipe: self._mark(group) for group in self._groups[0] if group.recipe is not None}
        rows = {name: rows.as_kept() for name, rows in self.composed.context.rows.kinds.items()}
        return Earlier(files, groups, rows)

    @property
    def digests(self) -> dict[str, str]:
        """Those of all values that the files rest on."""
        return {name: self.digest(name) for part in self._groups for group in part for name in group.names}

    @cached_property
    def _groups(self) -> tuple[list[Group], list[Group]]:
        """The files of each recipe, and those of the whole book."""
        of_recipes: dict[str, list[SiteFile]] = {}
        others: list[Group] = []
        for file in self.composed.files:
            if file.recipe is None:
                others.append(Group(None, (file,), file.uses))
            else:
                of_recipes.setdefault(file.recipe, []).append(file)
        return [Group(slug, files, _names(files)) for slug, files in of_recipes.items()], others

    def _key(self, file: SiteFile) -> Key:
        if file.path not in self._keys:
            self._keys[file.path] = self.key(file)
        return self._keys[file.path]

    def _own_key(self, file: SiteFile) -> Key:
        """Where a file lies in the store: under its key as a page, or under that of a step of its own."""
        if file.key is None:
            return self._key(file)
        if file.path not in self._own_keys:
            self._own_keys[file.path] = file.key()
        return self._own_keys[file.path]

    def _mark(self, group: Group) -> str:
        """Of all files of a group and all that they rest on."""
        found = self._marks.get(group.recipe)
        if found is None:
            parts = [self._of_program]
            for file in group.files:
                parts.append(file.path)
                parts += file.uses
            parts += map(self.digest, group.names)
            found = self._marks[group.recipe] = sha256("\n".join(parts).encode()).hexdigest()[:32]
        return found

    @cached_property
    def _of_program(self) -> str:
        return PAGE.key("", "").of

    def _all(self, groups: Sequence[Group], few: int) -> dict[str, Content]:
        found: dict[str, Content] = {}
        todo: list[Group] = []
        for group in groups:
            kept = self._recalled(group)
            if kept is None:
                todo.append(group)
            else:
                found |= kept
                self._done += len(kept)
        self._of_all = frozenset(self._digests)

        def take(number: int, made: _Made) -> None:
            found.update(self._taken(todo[number], made))

        hand_over(len(todo), lambda n: self._group(todo[n]), take, self._workers, few)
        return found

    def _taken(self, group: Group, made: _Made) -> dict[str, Content]:
        """The files of a group that was made. What is told of them is held once, under names that stand here already."""
        self._digests |= {name: made.rested_on[name] for name in group.names if name in made.rested_on}
        self._own_keys |= made.own_keys
        if group.recipe is not None:
            self.composed.context.rows.take(group.recipe, made.rows)
        self._done += len(group.files)
        if self._progress is not None:
            self._progress(self._done, len(self.composed.files))
        return {
            file.path: Content(made.files[file.path], partial(self._written, file)) for file in group.files
        }

    def _written(self, file: SiteFile) -> bytes:
        """A file's bytes, left in the store by whoever made it: no process holds those of a whole book."""
        return self.store.get(self._own_key(file), file.write)

    def _recalled(self, group: Group) -> dict[str, Content] | None:
        """The files of a group, where all are kept, and nothing has to be gone through to tell."""
        if not all(map(self._is_known, group.names)):
            return None
        before, needs = self._earlier.files, self.store.needs
        if group.recipe is not None and self._earlier.groups.get(group.recipe) == self._mark(group):
            keys = {file.path: Key(PAGE.name, before[file.path][0]) for file in group.files}
        else:
            keys = {file.path: self.key(file) for file in group.files}
        self._keys |= keys
        found: dict[str, Content] = {}
        for file in group.files:
            key = keys[file.path]
            was = before.get(file.path)
            if was is not None and was[0] == key.of:
                if file.key is not None:
                    key = self._own_keys[file.path] = Key(*was[2:])
                needs(key)
                found[file.path] = Content(was[1], partial(self.store.get, key, file.write))
            elif file.key is None and (kept := self.store.recall(key)) is not None:
                found[file.path] = content(kept)
            else:
                return None
        return found

    def _is_known(self, name: str) -> bool:
        """Whether a value's digest is at hand; those of the whole book are made here, once for all workers."""
        if name in self._digests:
            return True
        if rests_on.is_of_recipe(name) or self.composed.context.rows.lacking(name, self._digests) > FEW:
            return False
        self._digests[name] = self._made(name)
        return True

    def _group(self, group: Group) -> _Made:
        """Makes the files of a group and lets go of their recipe."""
        context, slug = self.composed.context, group.recipe
        with let_go():
            files = {file.path: content(self._written(file)).digest for file in group.files}
            rows = context.rows.beside(context.site.by_slug[slug]) if slug is not None else {}
            own_keys = {file.path: self._own_key(file) for file in group.files if file.key is not None}
            rested_on = {name: self.digest(name) for name in group.names if name not in self._of_all}
            return _Made(rested_on, files, own_keys, rows)

    def digest(self, name: str) -> str:
        """The digest of a value that files rest on, by its name."""
        found = self._digests.get(name)
        if found is None:
            found = self._digests[name] = self._made(name)
        return found

    def _made(self, name: str) -> str:
        return digest(self.composed.value(name))


def still_known(composed: Composition, known: Mapping[str, str], before: Mapping[str, str]) -> dict[str, str]:
    """Of the digests of the build `before`, by this same program: those of what is said of recipes that are as they
    were, by what is `known` of them, and that is of no recipe's own. Nothing where what it follows from is another."""
    of_all = {name: digest(composed.value(name)) for name in rests_on.OF_OTHERS}
    if any(before.get(name) != of for name, of in of_all.items()):
        return of_all
    slugs = [slug for slug in composed.context.published if rests_on.recipe(slug) in known]
    names = [name for slug in slugs for name in rests_on.of_others(slug) if name in before]
    return of_all | {name: before[name] for name in names}


def _names(files: Iterable[SiteFile]) -> tuple[str, ...]:
    """All that files rest on, each once."""
    found: dict[str, None] = {}
    for uses in {id(file.uses): file.uses for file in files}.values():
        found |= dict.fromkeys(uses)
    return tuple(found)
