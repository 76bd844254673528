"""The files of one edition's site, made or recalled, over as many processes as there are.

A page is recalled where nothing that it says it rests on has changed, and its template is not read.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import partial

from saponary.assets.digest import digest
from saponary.assets.spread import FEW, Progress, spread
from saponary.assets.store import Key, Store
from saponary.build.content import Content, content
from saponary.build.graph import PAGE
from saponary.outputs import rests_on
from saponary.outputs.compose import Composition
from saponary.outputs.page_kind import SiteFile

Group = Sequence[SiteFile]
"""Files that are made one after another, because they share work."""

Earlier = Mapping[str, Sequence[str]]
"""By its path, under which key a file was made last, and the digest of its bytes."""


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
        self.composed, self.store, self._earlier = composed, store, earlier or {}
        self._workers, self._progress = workers, progress
        self._digests = dict(known or {})
        self._done = 0

    def made(self) -> dict[str, Content]:
        """Every file by its path in the site."""
        of_recipes, others = _groups(self.composed.files)
        # What is about the whole book comes last: it shows drawings that the pages of recipes have made.
        found = self._all(of_recipes, FEW) | self._all([[file] for file in others], 2)
        return {file.path: found[file.path] for file in self.composed.files}

    def key(self, file: SiteFile) -> Key:
        """The key of a file: where it stands, and each value that it rests on, by name."""
        return PAGE.key(file.path, "\n".join([f"{self.digest(name)} {name}" for name in file.uses]))

    def told(self, made: Mapping[str, Content]) -> Earlier:
        """Of files that were made: under which key, and the digest of their bytes."""
        return {file.path: (self.key(file).of, made[file.path].digest) for file in self.composed.files}

    @property
    def digests(self) -> dict[str, str]:
        """Those of all values that the files rest on."""
        return {name: self.digest(name) for file in self.composed.files for name in file.uses}

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
        told = partial(self._tell, todo)
        made = spread(len(todo), lambda n: self._group(todo[n]), self._workers, told, few)
        for digests, files in made:
            self._digests |= digests
            found |= {path: content(data) for path, data in files.items()}
        return found

    def _tell(self, todo: Sequence[Group], done: int, _: int) -> None:
        self._done += len(todo[done - 1])
        if self._progress is not None:
            self._progress(self._done, len(self.composed.files))

    def _recalled(self, group: Group) -> dict[str, Content] | None:
        """The files of a group, where all are kept, and nothing has to be gone through to tell."""
        if not all(self._is_known(name) for file in group for name in file.uses):
            return None
        found: dict[str, Content] = {}
        for file in group:
            key = self.key(file)
            was = self._earlier.get(file.path)
            if was is not None and was[0] == key.of:
                self.store.needs(key)
                found[file.path] = Content(was[1], partial(self.store.get, key, file.write))
            elif (kept := self.store.recall(key)) is not None:
                found[file.path] = content(kept)
            else:
                return None
        return found

    def _is_known(self, name: str) -> bool:
        """Whether a value's digest is at hand; those of the whole book are made here, once for all workers."""
        if name not in self._digests and not rests_on.is_of_recipe(name):
            self._digests[name] = self._made(name)
        return name in self._digests

    def _group(self, group: Group) -> tuple[dict[str, str], dict[str, bytes]]:
        """The files of a group, and the digests of what they rest on."""
        files = {file.path: self.store.get(self.key(file), file.write) for file in group}
        return {name: self.digest(name) for file in group for name in file.uses}, files

    def digest(self, name: str) -> str:
        """The digest of a value that files rest on, by its name."""
        if name not in self._digests:
            self._digests[name] = self._made(name)
        return self._digests[name]

    def _made(self, name: str) -> str:
        return digest(self.composed.value(name))


def _groups(files: Iterable[SiteFile]) -> tuple[list[Group], list[SiteFile]]:
    """The files of each recipe, and those of the whole book."""
    of_recipes: dict[str, list[SiteFile]] = {}
    others: list[SiteFile] = []
    for file in files:
        (others if file.recipe is None else of_recipes.setdefault(file.recipe, [])).append(file)
    return list(of_recipes.values()), others
