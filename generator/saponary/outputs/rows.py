"""What a page of the whole book says of each recipe, kept so that only what has changed is made again."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import field
from typing import TypeVar, cast

from saponary.assets.digest import digest
from saponary.assets.step import TO_THE_LABEL, Step
from saponary.assets.store import NoStore, Store
from saponary.book.published import Published
from saponary.outputs import plain
from saponary.quantity.dataclass import dataclass

T = TypeVar("T")

ROWS = Step("rows", ("kind", "edition"), (*TO_THE_LABEL, "draw", "views", "outputs"), ("markdown-it-py",))
"""The rows of one page, with digests of what each was made from."""

DigestOf = Callable[[str], str]
"""The digest of a value that files rest on, by its name."""


@dataclass
class Rows:
    """The rows of an edition's pages. Where `digest_of` is not given, they are made each time."""

    edition: str = ""
    store: Store = field(default_factory=NoStore)
    digest_of: DigestOf | None = None

    def of(
        self,
        kind: str,
        recipes: Iterable[Published],
        rests_on: Callable[[str], Iterable[str]],
        make: Callable[[Published], str],
    ) -> list[str]:
        """What `make` makes of each recipe; `rests_on` names, by its slug, all that the row rests on."""
        if self.digest_of is None:
            return [make(recipe) for recipe in recipes]
        key = ROWS.key(kind, self.edition)
        was: dict[str, list[str]] = {}
        with suppress(ValueError):
            was = json.loads(self.store.recall(key) or b"{}")
        now: dict[str, list[str]] = {}
        for recipe in recipes:
            of = digest([self.digest_of(name) for name in rests_on(recipe.slug)])
            known = was.get(recipe.slug)
            now[recipe.slug] = known if known is not None and known[0] == of else [of, make(recipe)]
        if now != was:
            self.store.keep(key, json.dumps(now, ensure_ascii=False).encode("utf-8"))
        return [row for _, row in now.values()]

    def all(
        self,
        kind: str,
        row: type[T],
        recipes: Iterable[Published],
        rests_on: Callable[[str], Iterable[str]],
        make: Callable[[Published], Iterable[T]],
    ) -> list[T]:
        """The rows that `make` makes of each recipe, one after another: dataclasses, which `row` is."""
        return [
            one
            for text in self.of(kind, recipes, rests_on, lambda recipe: plain.as_text(tuple(make(recipe))))
            for one in cast("list[T]", plain.of_text(row, text))
        ]
