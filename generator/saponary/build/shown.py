"""An edition's recipes as it showed them last, so that one that is as it was is not published anew.

Of each is kept what the rest of the edition asks of it, and digests of what its pages rest on.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from pydantic import TypeAdapter, ValidationError

from saponary.assets.digest import digest
from saponary.assets.once import Once
from saponary.assets.spread import is_for_several, spread
from saponary.assets.store import Key, Store
from saponary.book.late import let_go
from saponary.book.proofed import Proofed
from saponary.book.published import Glance, is_shown, published
from saponary.build.graph import SHOWN
from saponary.outputs import rests_on
from saponary.pantry.prices import prices
from saponary.schema.edition import Edition
from saponary.views.for_edition import Unpublished


@dataclass(frozen=True)
class Shown:
    """A recipe as an edition shows it; `of` is a digest of all that it was made from."""

    of: str
    glance: Glance
    digests: Mapping[str, str]
    """Of what pages rest on, by its name (`outputs/rests_on.py`)."""


_KEPT_AS = TypeAdapter(dict[str, Shown])


def made_from(whole: Unpublished, edition: Edition) -> dict[str, str]:
    """By recipe, a digest of all that an edition's view of it is made from."""
    of_edition = SHOWN.key(edition).of
    if "costs" in edition.shows:
        of_edition += digest(prices(whole.book.pantry, whole.book.settings))
    photos = {name: digest(one) for name, one in whole.photos.items()}
    return {one.slug: _made_from(one, of_edition, whole.on, photos) for one in whole.recipes}


def _made_from(one: Proofed, of_edition: str, on: date, photos: Mapping[str, str]) -> str:
    """What is for sale, and nothing else, is told by the day: by how many days have come on which a lot turns."""
    turned = sum(day <= on for day in one.facts.turns)
    lines = [f"{of_edition} {turned}", one.identity]
    lines += [f"{name} {photos.get(name, '')}" for name in one.facts.photos]
    for found in one.findings:
        at = found.place
        lines.append(f"{found.rule} {found.severity} {at.file} {at.line} {at.column} {found.message!r}")
    return hashlib.sha256("\n".join(lines).encode("utf-8", "surrogatepass")).hexdigest()


def as_before(known: Mapping[str, Shown], now: Mapping[str, str]) -> dict[str, Shown]:
    """The recipes that an edition showed last, and would show the same again."""
    return {slug: one for slug, one in known.items() if now.get(slug) == one.of}


def at_a_glance(
    whole: Unpublished, edition: Edition, known: Mapping[str, object], workers: int | None
) -> dict[str, Glance]:
    """What an edition's other pages ask of recipes of which it is not known, over as many processes as there are.

    Nothing where one process does all the work, or where there are few.
    """
    todo = [one for one in whole.recipes if one.slug not in known and is_shown(one, edition)]
    if not is_for_several(len(todo), workers):
        return {}
    once: Once = {}

    def glance(number: int) -> Glance:
        with let_go():
            return published(todo[number], edition, whole.on, once).glance

    found = spread(len(todo), glance, workers)
    return {one.slug: told for one, told in zip(todo, found, strict=True)}


def recalled(store: Store, edition: Edition) -> dict[str, Shown]:
    """The recipes that an edition showed last."""
    kept = store.recall(_key(edition))
    try:
        return _KEPT_AS.validate_json(kept) if kept is not None else {}
    except ValidationError:
        return {}


def keep(store: Store, edition: Edition, shown: Mapping[str, Shown]) -> None:
    """Keep what an edition shows, in the place of what it showed before."""
    store.keep(_key(edition), _KEPT_AS.dump_json(dict(shown)))


def shown_now(
    recipes: Mapping[str, Glance],
    now: Mapping[str, str],
    digests: Mapping[str, str],
    before: Mapping[str, Shown] | None = None,
) -> dict[str, Shown]:
    """What an edition shows, with those of the digests that rest on one recipe alone. What is the same as `before`, and
    tells of them, is that.

    Which photos of lots its notes may show depends on other recipes.
    """
    before, found = before or {}, dict[str, Shown]()
    for slug, glance in recipes.items():
        was = before.get(slug)
        if was is not None and was.of == now[slug] and was.glance is glance and was.digests:
            found[slug] = was
            continue
        names = (rests_on.recipe(slug), *(() if glance.pictures else (rests_on.notes(slug),)))
        found[slug] = Shown(now[slug], glance, {name: digests[name] for name in names if name in digests})
    return found


def _key(edition: Edition) -> Key:
    return Key("shown", digest(edition.name))
