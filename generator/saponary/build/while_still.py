"""A store for as long as some folders are as they were, so that nothing is kept under the key of what has changed.

A book's own templates are looked at when their digest is made and again when the first page is filled. One that is
saved in between would be kept under the key of the other, and shown when that is put back.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from errno import ESTALE
from pathlib import Path

from saponary.assets.stamps import tree
from saponary.assets.store import Key, Store


class WhileStill:
    """Another store. Raises OSError where something is to be kept and a folder is not as it was."""

    def __init__(self, store: Store, folders: Sequence[Path]) -> None:
        self._store, self._folders, self._was = store, folders, tree(folders)

    def recall(self, key: Key) -> bytes | None:
        return self._store.recall(key)

    def needs(self, key: Key) -> None:
        self._store.needs(key)

    def keep(self, key: Key, value: bytes) -> None:
        self.look()
        self._store.keep(key, value)

    def get(self, key: Key, make: Callable[[], bytes]) -> bytes:
        def made() -> bytes:
            value = make()
            self.look()
            return value

        return self._store.get(key, made)

    def look(self) -> None:
        """Raises OSError where a folder is not as it was."""
        if self._folders and tree(self._folders) != self._was:
            raise OSError(ESTALE, "something in this folder was changed meanwhile", str(self._folders[0]))
