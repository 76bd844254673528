"""Why a file of the site is made again: what it rests on, and what of that has changed since the last build.

A build leaves behind the digests of all that its pages rested on, one record for each edition. A page is asked
about against that record; what a recipe rests on is told by the maker's own files and entries.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import fields
from typing import NamedTuple

from saponary.assets.digest import digest
from saponary.assets.store import Key, Store
from saponary.book.computed import Computed
from saponary.book.identity import Identities
from saponary.outputs import rests_on
from saponary.outputs.page_kind import SiteFile
from saponary.reading.plain import is_map

Digests = Mapping[str, str]

_STEP = "last"
_IN_WORDS = {
    rests_on.SETTINGS: "book.yaml, as this edition shows it",
    rests_on.EDITION: "what the edition shows",
    rests_on.TEMPLATES: "the templates and style sheets",
    rests_on.NAVIGATION: "which pages the site has",
    rests_on.VERSIONS: "the versions of the engine and of the standard tables",
    rests_on.PANTRY: "the pantry",
    rests_on.DAY: "the day that the site speaks of",
    rests_on.TITLES: "the titles of the recipes, and their order",
    rests_on.WAIVERS: "what is waived",
}
_PROGRAM = "this program"


def sources(recipes: Iterable[Computed], identities: Identities, program: str) -> dict[str, str]:
    """Digests of the maker's files and entries that recipes rest on, and of the program."""
    found = {_PROGRAM: program}
    for one in recipes:
        found |= of_recipe(one, identities)
    return found


def of_recipe(computed: Computed, identities: Identities) -> dict[str, str]:
    """The files and entries of the pantry that one recipe rests on, each with its digest."""
    found = {computed.path: digest(computed.file.text)}
    for record in computed.batches:
        if record.file != computed.path:
            found[record.file] = identities.shared(record.tree)
    found["book.yaml"] = identities.shared(computed.settings)
    for table in fields(computed.pantry):
        entries: object = getattr(computed.pantry, table.name)
        for name, entry in entries.items() if is_map(entries) else ():
            found[f"pantry: {table.name}: {name}"] = identities.shared(entry)
    for other in computed.scraps.values():
        found |= of_recipe(other, identities)
    return found


class Last(NamedTuple):
    """What the last build of an edition left behind: digests of what its pages rested on, and of what that was
    made of; of each file, under which key it was made, and the digest of its bytes."""

    pages: Digests = {}
    sources: Digests = {}
    files: Mapping[str, Sequence[str]] = {}


def remember(store: Store, edition: str, last: Last) -> None:
    """Leave it behind for the next build."""
    store.keep(_key(edition), json.dumps(last._asdict(), ensure_ascii=False).encode("utf-8"))


def last_of(store: Store, edition: str) -> Last | None:
    """What was left behind; None where no build was."""
    kept = store.recall(_key(edition))
    return Last(**json.loads(kept)) if kept is not None else None


def why(
    file: SiteFile,
    edition: str,
    now: tuple[Digests, Digests],
    recipes: Mapping[str, Computed],
    identities: Identities,
    store: Store,
) -> Iterator[str]:
    """Lines that say what a file rests on, what has changed of it, and through which sources.

    `now` are the digests of the values that the edition's pages rest on, and of the sources.
    """
    kept = last_of(store, edition)
    then = kept or Last()
    if kept is None:
        yield "no earlier build of this edition is known"
    elif then.sources.get(_PROGRAM) != now[1][_PROGRAM]:
        yield "changed  the program itself, or a library: everything is made again"
    changed = [name for name in file.uses if then.pages.get(name) != now[0][name]]
    for name in changed:
        yield f"changed  {_told(name)}"
        slug = rests_on.slug_of(name)
        if slug is not None and slug in recipes:
            parts = of_recipe(recipes[slug], identities)
            yield from (f"         by {part}" for part in _changed(parts, then.sources))
    yield from (f"as it was  {line}" for line in _gathered(name for name in file.uses if name not in changed))
    if kept is not None and not changed:
        yield "nothing that it rests on has changed since the last build"


def _changed(now: Digests, then: Digests) -> list[str]:
    return [name for name, one in now.items() if then.get(name) != one]


_MANY = 5


def _gathered(names: Iterable[str]) -> Sequence[str]:
    """In words; many recipes as their number."""
    listed = list(names)
    recipes = [name for name in listed if rests_on.slug_of(name) is not None]
    if len(recipes) <= _MANY:
        return [_told(name) for name in listed]
    others = [_told(name) for name in listed if name not in recipes]
    return [*others, f"{len({rests_on.slug_of(name) for name in recipes})} recipes"]


def _told(name: str) -> str:
    slug = rests_on.slug_of(name)
    return _IN_WORDS.get(name, name) if slug is None else f"{name.removesuffix(slug)}of {slug}"


def _key(edition: str) -> Key:
    return Key(_STEP, hashlib.sha256(edition.encode()).hexdigest())
