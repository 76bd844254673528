"""One side of a comparison: what each recipe of a book came to, at a revision or in the folder as it is.

Both sides are computed by today's engine with the pantry and settings of their own. What a recipe
came to is plain data, and is kept by the content of all that it rests on.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterable
from dataclasses import asdict
from functools import cached_property

from saponary.assets.digest import digest
from saponary.assets.step import TO_THE_LABEL, Step
from saponary.assets.store import Key, Store
from saponary.book.file_names import PANTRY_FILE, SETTINGS_FILE
from saponary.build.came_to import CameTo, Drifted, as_bytes, read
from saponary.build.recipe_rests import shelf, told_by
from saponary.reading.files import Files, Unread

_COMMON = (PANTRY_FILE, SETTINGS_FILE)
ROOMS = (*TO_THE_LABEL, "build")
"""Whose code has a say in what a recipe came to."""
_WEIGHED = Step(
    "weighed", uses=("the recipe", "what it rests on", "recipes whose scrap it may hold"), rooms=ROOMS
)
_DRIFTED = Step("drifted", uses=("all recipes", "what all rest on"), rooms=ROOMS)


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
        found = {name: read(kept) for name, key in keys.items() if (kept := self._store.recall(key))}
        lacking = [name for name in keys if name not in found]
        if lacking:
            for name, one in self._computed(lacking).items():
                found[name] = one
                if not one.faults:  # a fault is told with its line, in files that the key does not hold whole
                    self._store.keep(keys[name], as_bytes(one))
        return found

    def drifted(self) -> list[Drifted]:
        """Every signed figure of the book that no longer follows from the recipe as it stands here."""
        key = _DRIFTED.key(self.recipes, self.common)
        kept = self._store.recall(key)
        if kept is not None:
            return [Drifted(*row) for row in json.loads(kept)]
        from saponary.build.weighed import drifted

        found = [row for name, one in self.came_to(self.recipes).items() for row in drifted(name, one)]
        self._store.keep(key, json.dumps([list(asdict(row).values()) for row in found]).encode())
        return found

    def _computed(self, names: Collection[str]) -> dict[str, CameTo]:
        # What reads and computes a book is imported where something is lacking: it takes longer than all the rest.
        from saponary.build.weighed import weighed

        return weighed(self._files, names, self.lent)

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


def _names(files: Files, folder: str) -> list[str]:
    found = files.names(folder)
    return [] if isinstance(found, Unread) else found
