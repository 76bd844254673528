"""What is known of a recipe before it is read again: what it rests on, and the little that others ask of it.

An outline is kept between builds and told true by digests: that of the recipe's own files, and those of the
entries of the pantry that its words may mean. Where both are as they were, so is what the recipe comes to.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, replace

from saponary.assets.digest import digest
from saponary.book.computed import Computed
from saponary.book.evidence import chips
from saponary.book.recipe_file import RecipeFile
from saponary.pantry.model import Chip, Pantry
from saponary.pantry.prices import price_of, unpriced
from saponary.reading.names import kept_as
from saponary.reading.plain import is_list, is_map


@dataclass(frozen=True)
class Outline:
    """A recipe that could be computed, and of which nothing was found while it was read.

    `own` is the digest of its files, `alone` that of all that it rests on but the evidence of other recipes.
    """

    own: str
    title: str
    words: tuple[str, ...]
    """All in it that might be the id of an entry of the pantry, and the ids that those entries led to."""
    pictures: tuple[str, ...]
    soap: tuple[str, ...]
    """The recipes it melts."""
    scraps: tuple[str, ...]
    """The recipes whose scrap is in it, but for those in these."""
    soaked: bool
    alone: str
    chips: tuple[tuple[str, Chip], ...]
    """What its photos show of colourants."""


class Entries:
    """Digests of a pantry's entries, by id."""

    def __init__(self, pantry: Pantry) -> None:
        tables = {one.name: getattr(pantry, one.name) for one in fields(pantry) if one.name in _TABLES}
        self._tables: dict[str, Mapping[str, object]] = tables
        self._of: dict[str, str] = {}
        self._priced: dict[str, str] = {}
        rest = [getattr(pantry, one.name) for one in fields(pantry) if one.name in _OF_ALL]
        self.rest = digest(rest)
        self._ids: str | None = None

    def of(self, name: str) -> str:
        """A digest of all entries of an id without their prices, '' where it has none."""
        found = self._of.get(name)
        if found is None:
            entries = [(table, unpriced(of[name])) for table, of in self._tables.items() if name in of]
            found = self._of[name] = digest(entries) if entries else ""
        return found

    def priced(self, name: str) -> str:
        """The same with their prices, which no figure and no rule rests on."""
        found = self._priced.get(name)
        if found is None:
            of = self.of(name)
            prices = [price_of(t[name]) for t in self._tables.values() if name in t] if of else []
            found = self._priced[name] = f"{of} {prices}" if any(prices) else of
        return found

    @property
    def ids(self) -> str:
        """A digest of the ids of all additions: what an oil was infused with is found by the start of its id."""
        if self._ids is None:
            self._ids = digest(sorted(self._tables["additions"]))
        return self._ids


_TABLES = ("oils", "liquids", "additions", "moulds", "infusions", "fragrances", "papers")
_OF_ALL = ("publications", "version", "unread")


def outline_of(computed: Computed, own: str, alone: Rests) -> Outline:
    """The outline of a recipe as it was computed."""
    model = computed.model
    words = dict.fromkeys(_words(computed))
    one = Outline(
        own=own,
        title=model.title,
        words=tuple(words),
        pictures=tuple(computed.pictures()),
        soap=tuple(part.of for part in model.soap),
        scraps=tuple(dict.fromkeys(computed.scraps_of())),
        soaked=any(oil.infused_with for oil in computed.resolved.formula.oils),
        alone="",
        chips=tuple(chips(alone.pantry, computed.batches, computed.figures, computed.fingerprint)),
    )
    return alone.marked(one)


class Rests:
    """What all recipes of a book may rest on: its pantry, its settings, which photos it has.

    Where that is what it was in `last`, what was known of its recipes is known.
    """

    def __init__(
        self, pantry: Pantry, settings: str, photos: frozenset[str], last: Rests | None = None
    ) -> None:
        self.pantry, self._settings, self._photos = pantry, settings, photos
        known = last if last is not None and last._of == self._of else None
        self._entries: Entries = Entries(pantry) if known is None else known._entries
        self._before: Mapping[str, tuple[Outline, str]] = {} if known is None else known._keys
        self._keys: dict[str, tuple[Outline, str]] = {}

    @property
    def _of(self) -> object:
        return self.pantry, self._settings, self._photos

    def key(self, one: Outline) -> str:
        """A digest of all of it that a recipe rests on, and of its own files."""
        was = self._before.get(one.own)
        key = was[1] if was is not None and was[0] is one else self._key(one)
        self._keys[one.own] = one, key
        return key

    def _key(self, one: Outline) -> str:
        of = self._entries.of
        lines = [one.own, self._settings, self._entries.rest, self._entries.ids if one.soaked else ""]
        lines += [f"{name} {found}" for name in one.words if (found := of(name))]
        lines += [f"{name} {kept_as(name, self._photos)}" for name in one.pictures]
        return hashlib.sha256("\n".join(lines).encode("utf-8", "surrogatepass")).hexdigest()

    def entries(self, words: Iterable[str]) -> dict[str, str]:
        """Digests of the entries of the pantry that recipes of these words rest on, by id; their costs rest on prices too."""
        return {name: found for name in words if (found := self._entries.priced(name))}

    def marked(self, one: Outline) -> Outline:
        """The outline with the digest of what it rests on."""
        return replace(one, alone=self.key(one))


def _words(computed: Computed) -> Iterator[str]:
    files: list[object] = [computed.file.tree.data]
    files += [r.tree.data for r in computed.batches if r.file != computed.path]
    for data in files:
        yield from _ids(data)
    for one in fields(computed.pantry):
        if one.name in _TABLES:
            yield from getattr(computed.pantry, one.name)


def _ids(data: object) -> Iterator[str]:
    """Every key and text of a file's data that may be an id."""
    if isinstance(data, str):
        if "\n" not in data:
            yield data
    elif is_map(data):
        for key, value in data.items():
            yield from _ids(key)
            yield from _ids(value)
    elif is_list(data):
        for value in data:
            yield from _ids(value)


def titles(recipes: Iterable[RecipeFile], outlines: Mapping[str, Outline]) -> dict[str, str]:
    """By slug, what each recipe that holds is called."""
    found: dict[str, str] = {}
    for recipe in recipes:
        one = outlines.get(recipe.slug)
        if one is not None:
            found[recipe.slug] = one.title
        elif recipe.model is not None:
            found[recipe.slug] = recipe.model.title
    return found


def melted(recipes: Iterable[RecipeFile], outlines: Mapping[str, Outline]) -> list[str]:
    """The recipes that any recipe melts."""
    found: list[str] = []
    for recipe in recipes:
        one = outlines.get(recipe.slug)
        if one is not None:
            found += one.soap
        elif recipe.model is not None:
            found += [part.of for part in recipe.model.soap]
    return found
