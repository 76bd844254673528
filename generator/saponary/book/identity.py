"""One digest for all that a computed recipe rests on, so that what was made of it is known again.

Two recipes of one digest are equal, and so is whatever is made of them by the same code: findings, pages,
figures. What several recipes share, such as an oil of the pantry, is digested once.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import fields

from saponary.assets.digest import digest
from saponary.book.computed import Computed
from saponary.pantry.model import Pantry
from saponary.reading.plain import is_map


class Identities:
    """Digests of recipes, and of the values they share."""

    def __init__(self) -> None:
        self._shared: dict[int, tuple[object, str]] = {}
        self._recipes: dict[str, tuple[Computed, str]] = {}

    def of(self, computed: Computed) -> str:
        """The digest of one recipe: its text, its batches, its settings, the entries it names, and what it holds of others."""
        known = self._recipes.get(computed.slug)
        if known is None or known[0] is not computed:
            known = computed, self._of(computed)
            self._recipes[computed.slug] = known
        return known[1]

    def _of(self, computed: Computed) -> str:
        elsewhere = [record for record in computed.batches if record.file != computed.path]
        own = [computed.photos, computed.instead, computed.faults, computed.poured_to]
        lines = [
            repr((computed.slug, computed.path)),
            hashlib.sha256(computed.file.text.encode("utf-8", "surrogatepass")).hexdigest(),
            *(f"{record.file!r} {record.path!r} {self.shared(record.tree)}" for record in elsewhere),
            self.shared(computed.settings),
            *self._shelf(computed.pantry),
            digest(own) if any(own) else "-",
            *(f"{slug} {self._of(other)}" for slug, other in computed.scraps.items()),
        ]
        return hashlib.sha256("\n".join(lines).encode("utf-8", "surrogatepass")).hexdigest()

    def _shelf(self, pantry: Pantry) -> Iterator[str]:
        """A line for each entry of a pantry, told by its table and its id."""
        for one in fields(pantry):
            table: object = getattr(pantry, one.name)
            if is_map(table):
                for key, entry in table.items():
                    yield f"{one.name} {key!r} {self.shared(entry)}"
            else:
                yield f"{one.name} {self.shared(table)}"

    def shared(self, value: object) -> str:
        """The digest of a value that is looked at again as the very same object."""
        if id(value) not in self._shared:
            self._shared[id(value)] = value, digest(value)
        return self._shared[id(value)][1]
