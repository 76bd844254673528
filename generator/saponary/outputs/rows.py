"""What a page of the whole book says of each recipe, kept so that only what has changed is made again.

A page that says no more of its recipes than its rows do rests on the rows, and not on the recipes: where a recipe
has changed and its row has not, the page stays. Of each row two things are kept in an index: what it was made
from, and a mark of its text. The texts lie beside it, and are read where a page has to be made.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from functools import cached_property
from hashlib import sha256
from typing import Generic, NamedTuple, TypeVar, cast

from saponary.assets.json_parts import JsonParts
from saponary.assets.step import TO_THE_LABEL, Step
from saponary.assets.store import Key, NoStore, Store
from saponary.book.published import Published
from saponary.outputs import plain, rests_on
from saponary.outputs.rests_on import Rests

T = TypeVar("T")

ROWS = Step(
    "rows", ("kind", "edition", "what"), (*TO_THE_LABEL, "draw", "views", "outputs"), ("markdown-it-py",)
)
"""The rows of one page, with digests of what each was made from."""

DigestOf = Callable[[str], str]
"""The digest of a value that files rest on, by its name."""

Own = Callable[[str], Iterable[str]]
"""The names of what the row of a recipe rests on, by its slug."""

_SHORT = 32
"""Signs of a digest that tell one from any other."""


@dataclass
class Rows:
    """The rows of an edition's pages. Where `digest_of` is not given, they are made each time."""

    edition: str = ""
    store: Store = field(default_factory=NoStore)
    digest_of: DigestOf | None = None
    kinds: dict[str, TextRows] = field(default_factory=dict[str, "TextRows"])
    """All that were asked for, by the names under which files rest on them."""
    picks: dict[str, Pick] = field(default_factory=dict[str, "Pick"])
    """What pages say of some rows alone, or beside them, by the names under which they rest on it."""
    owns: dict[Own, dict[str, str]] = field(default_factory=dict[Own, "dict[str, str]"])
    """By what names the values that one row rests on, and by recipe: their digests. Most pages rest on the same."""

    def let_go(self) -> None:
        """Forget all that was asked for, which leads back here: nothing is left in circles when its pages go."""
        self.digest_of = None
        for asked in (self.kinds, self.picks, self.owns):
            asked.clear()

    def beside(self, recipe: Published) -> dict[str, str]:
        """The rows of a recipe on all pages, by the names of the rows, made while the recipe is at hand."""
        found = {name: rows.anew(recipe) for name, rows in self.kinds.items()}
        return {name: row for name, row in found.items() if row is not None}

    def take(self, slug: str, rows: Mapping[str, str]) -> None:
        """Rows of a recipe that were made beside its own files."""
        for name, row in rows.items():
            self.kinds[name].new[slug] = row

    def lacking(self, name: str, known: Collection[str]) -> int:
        """How many rows have to be made to tell what is under a name; all, where what they rest on is not yet known.

        Of what is picked out of rows, those that are new count too: whoever picks goes through all of them once more.
        """
        pick = self.picks.get(name)
        if pick is not None:
            return max(pick.rows.lacking(known), len(pick.rows.new))
        found = self.kinds.get(name)
        return 0 if found is None else found.lacking(known)

    def value(self, name: str) -> object:
        """What is under a name that is about rows; None for any other."""
        if name in self.kinds:
            return self.kinds[name].digest()
        return self.picks[name].value() if name in self.picks else None

    def of(
        self,
        kind: str,
        recipes: Iterable[Published],
        rests: Rests,
        make: Callable[[Published], str],
    ) -> TextRows:
        """What `make` makes of each recipe; `rests` names all that the rows rest on."""
        found = TextRows(self, kind, tuple(recipes), rests, make)
        self.kinds[found.name] = found
        return found

    def all(
        self,
        kind: str,
        row: type[T],
        recipes: Iterable[Published],
        rests: Rests,
        make: Callable[[Published], Iterable[T]],
    ) -> RowsOf[T]:
        """The rows that `make` makes of each recipe, one after another: dataclasses, which `row` is."""
        texts = self.of(kind, recipes, rests, lambda recipe: plain.as_text(tuple(make(recipe))))
        return RowsOf(texts, row)


@dataclass(frozen=True)
class RowsOf(Generic[T]):
    """The rows of one page."""

    texts: TextRows
    row: type[T]

    @property
    def name(self) -> str:
        """That under which files rest on them."""
        return self.texts.name

    def found(self) -> list[T]:
        """All of them."""
        return [one for text in self.texts.found() for one in cast("list[T]", plain.of_text(self.row, text))]


class Pick(NamedTuple):
    """A value that is made of rows, or picked by them."""

    rows: TextRows
    value: Callable[[], object]


class _Index(NamedTuple):
    """What is kept of rows beside their texts: what all rested on; by recipe, what its own rested on, and its mark."""

    common: str = ""
    own: Mapping[str, str] = {}
    marks: Mapping[str, str] = {}


class TextRows:
    """The rows of one page as text, one for each recipe, in the recipes' order."""

    def __init__(
        self,
        rows: Rows,
        kind: str,
        recipes: Sequence[Published],
        rests: Rests,
        make: Callable[[Published], str],
    ) -> None:
        self._rows, self._kind, self._recipes = rows, kind, recipes
        self._rests, self._make, self._owns = rests, make, rows.owns.setdefault(rests.own, {})
        self.new: dict[str, str] = {}
        """Those that were made now."""

    @property
    def name(self) -> str:
        """That under which files rest on them."""
        return rests_on.rows(self._kind)

    @cached_property
    def slugs(self) -> frozenset[str]:
        """The recipes that have a row."""
        return frozenset(recipe.slug for recipe in self._recipes)

    def anew(self, recipe: Published) -> str | None:
        """The row of one recipe, where it has to be made."""
        return (
            None if recipe.slug not in self.slugs or self._is_as_before(recipe.slug) else self._make(recipe)
        )

    def lacking(self, known: Collection[str]) -> int:
        """How many have to be made; all, where the digests of what they rest on are not all `known`."""
        if "marks" in self.__dict__:
            return 0
        slugs = [slug for slug in self.slugs if slug not in self.new]
        names = (name for slug in slugs if slug not in self._owns for name in self._rests.own(slug))
        if any(name not in known and rests_on.is_of_recipe(name) for name in names):
            return len(self._recipes)
        return sum(slug not in self._as_before for slug in slugs)

    def as_kept(self) -> Mapping[str, str]:
        """The marks of those that are kept by now: a worker may have made them."""
        if "marks" in self.__dict__:
            return self.marks
        for name in ("_kept", "_as_before"):
            self.__dict__.pop(name, None)
        return self._as_before

    @cached_property
    def marks(self) -> Mapping[str, str]:
        """By recipe, a mark of its row."""
        before, now = self._as_before, dict[str, str]()
        for recipe in self._recipes:
            mark = None if recipe.slug in self.new else before.get(recipe.slug)
            now[recipe.slug] = self._made(recipe) if mark is None else mark
        if self._rows.digest_of is not None and (self.new or self._kept.marks.keys() != now.keys()):
            self._keep(now)
        return now

    def digest(self) -> str:
        """Of all of them, in their order."""
        return sha256("\n".join(f"{mark} {slug}" for slug, mark in self.marks.items()).encode()).hexdigest()

    def found(self) -> list[str]:
        """All of them."""
        marks, kept, texts = self.marks, self._texts, list[str]()
        for recipe in self._recipes:
            text = self.new.get(recipe.slug)
            if text is None:
                was = kept.get(recipe.slug)
                text = was[1] if was is not None and was[0] == marks[recipe.slug] else self._make(recipe)
            texts.append(text)
        return texts

    def picked(self, what: str, pick: Callable[[], Sequence[str]]) -> Sequence[str]:
        """What is picked out of them, such as recipes, kept while they are as they were."""
        key = ROWS.key(self._kind, self._rows.edition, (what, self.digest()))
        with suppress(ValueError):
            kept = self._rows.store.recall(key)
            if kept is not None:
                return cast("list[str]", json.loads(kept))
        found = pick()
        self._rows.store.keep(key, json.dumps(found).encode())
        return found

    def _made(self, recipe: Published) -> str:
        text = self.new.get(recipe.slug)
        if text is None:
            text = self.new[recipe.slug] = self._make(recipe)
        return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:_SHORT]

    @cached_property
    def _common(self) -> str:
        digest_of = self._rows.digest_of
        return " ".join(digest_of(name) for name in self._rests.common) if digest_of is not None else ""

    def _own(self, slug: str) -> str:
        """What one row rests on besides: digests."""
        own = self._owns.get(slug)
        if own is None:
            digest_of = self._rows.digest_of
            own = "".join([digest_of(name)[:_SHORT] for name in self._rests.own(slug)]) if digest_of else ""
            self._owns[slug] = own
        return own

    def _is_as_before(self, slug: str) -> bool:
        """Whether a row rests on what it rested on before."""
        was = self._kept
        return slug in was.own and was.common == self._common and was.own[slug] == self._own(slug)

    @cached_property
    def _kept(self) -> _Index:
        with suppress(ValueError):
            return _Index(*json.loads(self._rows.store.recall(self._key("index")) or b""))
        return _Index()

    @cached_property
    def _as_before(self) -> Mapping[str, str]:
        """Marks of the rows that rest on what they rested on before."""
        was = self._kept
        if was.common != self._common:
            return {}
        return {
            slug: was.marks[slug] for slug in self.slugs & was.own.keys() if was.own[slug] == self._own(slug)
        }

    @cached_property
    def _texts(self) -> Mapping[str, Sequence[str]]:
        """By recipe, the mark of a row and its text, as they are kept."""
        if self._rows.digest_of is None:
            return {}
        with suppress(ValueError):
            return cast(
                "dict[str, list[str]]", json.loads(self._rows.store.recall(self._key("texts")) or b"")
            )
        return {}

    def _keep(self, marks: Mapping[str, str]) -> None:
        if any(self._kept.marks.get(slug) != marks[slug] for slug in self.new):
            was, texts = self._texts, JsonParts()
            texts.put_map(
                {
                    slug: (mark, self.new[slug]) if slug in self.new else was.get(slug, ("", ""))
                    for slug, mark in marks.items()
                }
            )
            self._rows.store.keep(self._key("texts"), texts.written())
        index = _Index(self._common, {slug: self._own(slug) for slug in marks}, marks)
        self._rows.store.keep(self._key("index"), json.dumps(index).encode())

    def _key(self, what: str) -> Key:
        return ROWS.key(self._kind, self._rows.edition, what)
