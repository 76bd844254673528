"""Why a file of the site is made again: what it rests on, and what of that has changed since the last build.

A build leaves behind the digests of all that its pages rested on, one record for each edition. A page is asked
about against that record; what a recipe rests on is told by the maker's own files and entries.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from saponary.assets.json_parts import JsonParts
from saponary.assets.store import Key, Store
from saponary.build.pages import Earlier
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
    rests_on.LOTS: "which lots are shown, and their days",
}
_OF_OTHERS = {
    rests_on.beside(""): "which recipes stand beside ",
    rests_on.leads(""): "which recipes are published of those that its texts lead to: ",
    rests_on.notes_lead(""): "which recipes are published of those that its notes lead to: ",
    rests_on.day_of(""): "the day, until all its lots have cured: ",
}
PROGRAM = "this program"
"""The name of a source that is no file of the maker's."""


class Last(NamedTuple):
    """What the last build of an edition left behind: digests of what its pages rested on, and of what that was
    made of; and of the files themselves."""

    pages: Digests = {}
    sources: Digests = {}
    made: Earlier = Earlier()


def remember(store: Store, edition: str, last: Last) -> None:
    """Leave it behind for the next build."""
    parts, made = JsonParts(), last.made
    parts.put("[")
    parts.put_map(last.pages)
    parts.put(", ")
    parts.put_map(last.sources)
    parts.put(", [")
    parts.put_map(made.files)
    parts.put(", ")
    parts.put_map(made.groups)
    parts.put(", ")
    parts.put_maps(made.rows)
    parts.put("]]")
    store.keep(_key(edition), parts.written())


def last_of(store: Store, edition: str) -> Last | None:
    """What was left behind; None where no build was."""
    kept = store.recall(_key(edition))
    if kept is None:
        return None
    pages, sources, made = json.loads(kept)
    return Last(pages, sources, Earlier(*made))


def why(
    file: SiteFile,
    edition: str,
    now: Last,
    recipes: Mapping[str, Callable[[], Digests]],
    store: Store,
) -> Iterator[str]:
    """Lines that say what a file rests on, what has changed of it, and through which sources.

    `now` is what a build would leave behind; `recipes` tells of each recipe which sources it has.
    """
    kept = last_of(store, edition)
    then = kept or Last()
    if kept is None:
        yield "no earlier build of this edition is known"
    elif then.sources.get(PROGRAM) != now.sources[PROGRAM]:
        yield "changed  the program itself, or a library: everything is made again"
    changed = [name for name in file.uses if then.pages.get(name) != now.pages[name]]
    for name in changed:
        for line, slug in _in_full(name, then, now):
            yield f"changed  {line}"
            if slug is not None and slug in recipes:
                yield from (f"         by {part}" for part in _changed(recipes[slug](), then.sources))
    yield from (
        f"as it was  {line}" for line in _gathered((n for n in file.uses if n not in changed), now.made.rows)
    )
    if kept is not None and not changed:
        yield "nothing that it rests on has changed since the last build"


def _in_full(name: str, then: Last, now: Last) -> Iterator[tuple[str, str | None]]:
    """What has changed, each with the recipe that it is about: of rows, those that are other ones."""
    if name not in now.made.rows:
        yield _told(name), rests_on.slug_of(name)
        return
    before, after = then.made.rows.get(name, {}), now.made.rows[name]
    changed = _changed(after, before)
    yield from ((f"what it says of {slug}", slug) for slug in changed)
    yield from ((f"what it said of {slug}", slug) for slug in before if slug not in after)
    if before and not changed and before.keys() <= after.keys():
        yield "the order of the recipes", None


def _changed(now: Digests, then: Digests) -> list[str]:
    return [name for name, one in now.items() if then.get(name) != one]


_MANY = 5


def _gathered(names: Iterable[str], rows: Mapping[str, Digests]) -> Sequence[str]:
    """In words; many recipes as their number."""
    listed = list(names)
    recipes = [name for name in listed if rests_on.slug_of(name) is not None]
    said = [f"what it says of {len(rows[name])} recipes" for name in listed if name in rows]
    if len({rests_on.slug_of(name) for name in recipes}) <= _MANY:
        return [*(_told(name) for name in listed if name not in rows), *said]
    others = [_told(name) for name in listed if name not in recipes and name not in rows]
    return [*others, *said, f"{len({rests_on.slug_of(name) for name in recipes})} recipes"]


def _told(name: str) -> str:
    if name.startswith(rests_on.PICKED):
        return "the recipes whose drawings give its swatches"
    if name.startswith(rests_on.PART):
        return "the words of the recipes that stand in this file"
    slug = rests_on.slug_of(name)
    if slug is not None and name.removesuffix(slug) in _OF_OTHERS:
        return _OF_OTHERS[name.removesuffix(slug)] + slug
    return _IN_WORDS.get(name, name) if slug is None else f"{name.removesuffix(slug)}of {slug}"


def _key(edition: str) -> Key:
    """What another version of this program left behind, in another shape, lies under another key."""
    shape = (edition, *Last._fields, *Earlier._fields)
    return Key(_STEP, hashlib.sha256("\n".join(shape).encode()).hexdigest())
