"""What a bar may bring to one who must avoid it, and what it is free from."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, get_args

from saponary.label.free_from import SCENT, free_from
from saponary.label.holds import holds
from saponary.label.lists import Bar
from saponary.messages.message import Listed, Value, Within, message
from saponary.schema.ingredient import Allergen
from saponary.schema.settings import Settings
from saponary.views.shop_contents import law_of


class Brought(NamedTuple):
    """Allergens that a bar holds, and what brings them."""

    what: Value
    sources: Value


def allergens(bar: Bar, settings: Settings) -> Iterator[Brought]:
    """Each food allergen with what brings it, then those of the scent that have to be named."""
    for allergen, sources in holds(bar).allergens:
        yield Brought(message(f"shop.allergens.{allergen}"), Listed(tuple(map(Within, sources))))
    law = law_of(settings)
    named = [d.allergen for d in bar.scent.doses if law.wants_named(d.share, d.allergen.since)]
    if named:
        yield Brought(Listed(tuple(one.name.casefold() for one in named)), message("shop.the-scent"))


KEYS_BY_ID = {"shop.allergens.": get_args(Allergen)}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def free(bar: Bar | None) -> Value | None:
    named = [
        message(f"choose.free.{name}")
        for name in (free_from(bar) if bar is not None else ())
        if name != SCENT
    ]
    return Listed(tuple(named)) if named else None
