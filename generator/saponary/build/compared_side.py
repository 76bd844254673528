"""One side of a comparison: what each recipe of a book came to, at a revision or in the folder as it is.

Both sides are computed by today's engine with the pantry and settings of their own. What a recipe
came to is plain data, and is kept by the content of all that it rests on.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from functools import cached_property
from typing import Any

from saponary.assets.digest import digest
from saponary.assets.step import TO_THE_LABEL, Step
from saponary.assets.store import Key, Store
from saponary.book.batch_cost import batch_cost
from saponary.book.catalogue import FINGERPRINT, Figure, compare
from saponary.book.computed import Computed
from saponary.book.computed_all import compute_all
from saponary.book.library import read_book
from saponary.book.parts import PANTRY_FILE, SETTINGS_FILE
from saponary.book.standing import held
from saponary.book.status import status
from saponary.build.recipe_rests import shelf, told_by
from saponary.label.lists import bar
from saponary.label.tables import jurisdictions
from saponary.lye.fingerprint import matches
from saponary.quantity.units import QuantityError
from saponary.reading.files import Files, Unread
from saponary.reading.findings import Finding

_COMMON = (PANTRY_FILE, SETTINGS_FILE)
ROOMS = (*TO_THE_LABEL, "build")
"""Whose code has a say in what a recipe came to."""
_WEIGHED = Step(
    "weighed", uses=("the recipe", "what it rests on", "recipes whose scrap it may hold"), rooms=ROOMS
)
_DRIFTED = Step("drifted", uses=("all recipes", "what all rest on"), rooms=ROOMS)


@dataclass(frozen=True)
class CameTo:
    """What a recipe came to. `figures` are values in the engine's units by name, empty where it cannot be
    computed: `faults` then say why. `cost` is in the book's own currency, None where nothing has a price."""

    title: str
    status: str
    fingerprint: str
    figures: Mapping[str, Figure]
    signed: Mapping[str, str]
    order: tuple[str, ...]
    cost: float | None
    faults: tuple[str, ...]


@dataclass(frozen=True)
class Drifted:
    """A figure that a recipe signed, and that today's engine and tables no longer give for that recipe."""

    recipe: str
    name: str
    signed: str
    today: str


class Side:
    """A book's recipes, by the name of their file in `recipes/`."""

    def __init__(self, files: Files, store: Store) -> None:
        self._files, self._store = files, store
        self._digests: dict[str, str] = {}

    @cached_property
    def names(self) -> frozenset[str]:
        """The files of the recipes, by name."""
        return frozenset(name for name in _names(self._files, "recipes") if name.endswith(".md"))

    def digest(self, name: str) -> str:
        """A digest of the bytes of one of its recipes and of its batches."""
        if name not in self._digests:
            files = f"recipes/{name}", f"batches/{name.removesuffix('.md')}.yaml"
            self._digests[name] = self._digest(files)
        return self._digests[name]

    @cached_property
    def recipes(self) -> dict[str, str]:
        """All recipes, with their digests."""
        return {name: self.digest(name) for name in sorted(self.names)}

    @cached_property
    def common(self) -> str:
        """A digest of what every recipe rests on: the pantry and the settings."""
        return self._digest(_COMMON)

    @cached_property
    def lent(self) -> dict[str, str]:
        """The recipes whose scrap an entry of the pantry is, with their digests."""
        text = self._files.read(PANTRY_FILE) if self._files.has(PANTRY_FILE) else b""
        known = b"" if isinstance(text, Unread) else text
        return {name: self.digest(name) for name in sorted(self.names) if name[:-3].encode() in known}

    @cached_property
    def _lent(self) -> str:
        return digest(self.lent)

    def digest_of(self, file: str) -> str:
        """A digest of the bytes of one file."""
        return self._digest([file])

    def came_to(self, names: Collection[str]) -> dict[str, CameTo]:
        """What these recipes came to; those that it holds of them."""
        keys = {name: self._key(name) for name in names if name in self.names}
        found = {name: kept for name, key in keys.items() if (kept := _recalled(self._store, key))}
        lacking = [name for name in keys if name not in found]
        if lacking:
            for name, one in self._computed(lacking).items():
                found[name] = one
                if not one.faults:  # a fault is told with its line, in files that the key does not hold whole
                    self._store.keep(keys[name], json.dumps(asdict(one)).encode())
        return found

    def drifted(self) -> list[Drifted]:
        """Every signed figure of the book that no longer follows from the recipe as it stands here."""
        key = _DRIFTED.key(self.recipes, self.common)
        kept = self._store.recall(key)
        if kept is not None:
            return [Drifted(*row) for row in json.loads(kept)]
        found = [row for name, one in self.came_to(self.recipes).items() for row in drifted(name, one)]
        self._store.keep(key, json.dumps([list(asdict(row).values()) for row in found]).encode())
        return found

    def _computed(self, names: Collection[str]) -> dict[str, CameTo]:
        """Read and compute some recipes, and those whose scrap they may hold."""
        book = read_book(_Some(self._files, {*names, *self.lent}))
        all_ = compute_all(book)
        found = {name: all_.recipes.get(name.removesuffix(".md")) for name in names}
        titles = {recipe.file: recipe.model.title for recipe in book.recipes if recipe.model is not None}
        told = [*book.findings, *all_.findings]
        return {
            name: _of(one) if one is not None else _unreadable(name, titles.get(f"recipes/{name}"), told)
            for name, one in found.items()
        }

    def _key(self, name: str) -> Key:
        batches = self._bytes(f"batches/{name.removesuffix('.md')}.yaml")
        told = told_by(self._bytes(f"recipes/{name}"))
        words = b"\n".join((told, batches, self._settings))
        on_the_shelf = shelf(self._bytes(PANTRY_FILE), words.decode("utf-8", "replace"))
        return _WEIGHED.key((name, told, batches), (self._settings, on_the_shelf), self._lent)

    @cached_property
    def _settings(self) -> bytes:
        return self._bytes(SETTINGS_FILE)

    def _bytes(self, name: str) -> bytes:
        """A file's bytes, or why it cannot be read; nothing where there is none."""
        data = self._files.read(name) if self._files.has(name) else b""
        return repr(data).encode() if isinstance(data, Unread) else data

    def _digest(self, names: Iterable[str]) -> str:
        whole = hashlib.sha256()
        for name in names:
            data = self._files.read(name) if self._files.has(name) else None
            said = repr(data).encode() if isinstance(data, Unread) else data
            whole.update(b"-" if said is None else b"%d " % len(said) + said)
        return whole.hexdigest()


class _Some:
    """The files of a book with some of its recipes, their batches, and neither classes, photos nor templates."""

    def __init__(self, files: Files, recipes: Collection[str]) -> None:
        self._files, self._recipes = files, recipes
        self.root = files.root
        self.has, self.read = files.has, files.read

    def names(self, folder: str) -> list[str] | Unread:
        found = self._files.names(folder)
        if isinstance(found, Unread):
            return found
        wanted = {
            "recipes": self._recipes,
            "batches": {f"{name.removesuffix('.md')}.yaml" for name in self._recipes},
        }
        return [name for name in found if name in wanted.get(folder, ())]

    def below(self, folder: str) -> frozenset[str]:
        return frozenset()


def _names(files: Files, folder: str) -> list[str]:
    found = files.names(folder)
    return [] if isinstance(found, Unread) else found


def _of(one: Computed) -> CameTo:
    batches = [record.batch for record in one.batches]
    back = [batch.lot for batch, _ in held(one)]
    sold = next(iter(one.settings.sold_in), next(iter(jurisdictions())))
    listed = bar(one).ingredients(jurisdictions()[sold])
    return CameTo(
        title=one.model.title,
        status=status(one.model, batches, one.fingerprint, one.settings, back).name,
        fingerprint=one.fingerprint,
        figures=one.catalogue,
        signed=one.model.signed,
        order=tuple(entry.name for entry in listed.entries),
        cost=batch_cost(one).batch or None,
        faults=(),
    )


def _unreadable(name: str, title: str | None, findings: Iterable[Finding]) -> CameTo:
    faults = tuple(
        f"{f.place}: {f.message}"
        for f in findings
        if f.severity == "error" and f.place.file in (f"recipes/{name}", *_COMMON)
    )
    return CameTo(title or name.removesuffix(".md"), "", "", {}, {}, (), None, faults)


def _recalled(store: Store, key: Key) -> CameTo | None:
    kept = store.recall(key)
    if kept is None:
        return None
    found: dict[str, Any] = json.loads(kept)
    figures = {name: Figure(**figure) for name, figure in found.pop("figures").items()}
    order, faults = tuple(found.pop("order")), tuple(found.pop("faults"))
    return CameTo(**found, figures=figures, order=order, faults=faults)


def drifted(recipe: str, one: CameTo) -> Iterator[Drifted]:
    """The figures that a recipe signed and that do not follow from it as it stands."""
    for name, text in one.signed.items():
        if name == FINGERPRINT:
            if one.fingerprint and not matches(text, one.fingerprint):
                yield Drifted(recipe, name, text, one.fingerprint)
        elif name in one.figures:
            try:
                found = compare(one.figures[name], text)
            except QuantityError:
                continue
            if not found.holds:
                yield Drifted(recipe, name, text, found.recomputed)
