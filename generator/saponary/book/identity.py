"""One digest for all that a computed recipe rests on, so that what was made of it is known again.

Two recipes of one digest are equal, and so is whatever is made of them by the same code: findings, pages,
figures. What several recipes share, such as an oil of the pantry, is digested once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from saponary.assets.digest import digest
from saponary.book.computed import Computed
from saponary.pantry.model import Pantry


class Identities:
    """Digests of recipes, and of the values they share."""

    def __init__(self) -> None:
        self._shared: dict[int, tuple[object, str]] = {}
        self._recipes: dict[str, tuple[Computed, str]] = {}

    def of(self, computed: Computed) -> str:
        """The digest of one recipe: its text, its batches, its settings, the entries it names, and what it holds of others."""
        known = self._recipes.get(computed.slug)
        if known is None or known[0] is not computed:
            known = computed, digest(self._parts(computed))
            self._recipes[computed.slug] = known
        return known[1]

    def _parts(self, computed: Computed) -> list[object]:
        elsewhere = [record for record in computed.batches if record.file != computed.path]
        return [
            computed.slug,
            computed.path,
            computed.file.text,
            [(record.file, self.shared(record.tree), record.path) for record in elsewhere],
            self.shared(computed.settings),
            self._shelf(computed.pantry),
            computed.photos,
            computed.instead,
            computed.faults,
            computed.poured_to,
            [(slug, self._parts(other)) for slug, other in computed.scraps.items()],
        ]

    def _shelf(self, pantry: Pantry) -> list[object]:
        tables = ((one.name, getattr(pantry, one.name)) for one in fields(pantry))
        return [
            (name, [(key, self.shared(entry)) for key, entry in table.items()])
            if isinstance(table, Mapping)
            else (name, self.shared(table))
            for name, table in tables
        ]

    def shared(self, value: object) -> str:
        """The digest of a value that is looked at again as the very same object."""
        if id(value) not in self._shared:
            self._shared[id(value)] = value, digest(value)
        return self._shared[id(value)][1]
