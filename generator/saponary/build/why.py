"""Why a file of the site is made again: what it rests on, and what of that has changed since the last build.

A build leaves behind the digests of all that its pages rested on, one record for each edition. A page is asked
about against that record; what a recipe rests on is told by the maker's own files and entries.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from saponary.assets.store import Key, Store
from saponary.outputs import rests_on
from saponary.outputs.page_kind import SiteFile

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
PROGRAM = "this program"
"""The name of a source that is no file of the maker's."""


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
    recipes: Mapping[str, Callable[[], Digests]],
    store: Store,
) -> Iterator[str]:
    """Lines that say what a file rests on, what has changed of it, and through which sources.

    `now` are the digests of the values that the edition's pages rest on, and of the sources; `recipes` tells of
    each recipe which sources it has.
    """
    kept = last_of(store, edition)
    then = kept or Last()
    if kept is None:
        yield "no earlier build of this edition is known"
    elif then.sources.get(PROGRAM) != now[1][PROGRAM]:
        yield "changed  the program itself, or a library: everything is made again"
    changed = [name for name in file.uses if then.pages.get(name) != now[0][name]]
    for name in changed:
        yield f"changed  {_told(name)}"
        slug = rests_on.slug_of(name)
        if slug is not None and slug in recipes:
            yield from (f"         by {part}" for part in _changed(recipes[slug](), then.sources))
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
