"""What a recipe may be chosen by: its oils, colours, scent, what it is free from, and whether it is ready."""

from __future__ import annotations

from typing import NamedTuple

from saponary.book.published import Published
from saponary.label.free_from import free_from
from saponary.label.lists import Bar
from saponary.messages.message import Listed, Value, Within, message
from saponary.quantity.totals import totals
from saponary.views import links, names
from saponary.views.colour_family import Family, family
from saponary.views.scene import portions_alone
from saponary.views.site import SiteInput

_LEAST = 0.05
"""The share of a bar below which nobody would choose it by that colour."""

Traits = dict[str, dict[str, Value]]
"""By what is chosen: the marks a recipe bears, and what each is called."""


class Scented(NamedTuple):
    """A mark for a scent, and its words; `added` is False where there is none."""

    mark: str
    words: Value
    added: bool


def scent_of(recipe: Published, bar: Bar | None) -> Scented | None:
    """None where it is not known."""
    offer = recipe.model.shop
    if offer is not None and offer.scent:
        return Scented(links.anchor(offer.scent), offer.scent, True)
    if bar is None:
        return None
    if not bar.scent.grams:
        return Scented("none", message("choose.unscented"), False)
    own = [a.id for a in recipe.resolved.formula.additions if a.id in bar.scent.grams]
    scents = dict.fromkeys(own or bar.scent.grams)
    words = Listed(tuple(Within(names.addition(bar.pantry, name)) for name in scents))
    return Scented("-".join(scents), words, True)


def colours_of(recipe: Published) -> dict[Family, float]:
    """The share of the bar that is of each family of colours once it has cured, the faintest left out."""
    shares = totals((family(p.shade.cured), p.volume_share) for p in portions_alone(recipe))
    return {name: share for name, share in shares.items() if share >= _LEAST}


def traits(recipe: Published, site: SiteInput, ready: bool) -> Traits:
    """All that a recipe of an edition may be chosen by."""
    bar = site.labels.get(recipe.slug)
    scented = scent_of(recipe, bar)
    oils = dict.fromkeys(oil.id for oil in recipe.resolved.formula.oils if oil.grams > 0)
    collection = recipe.model.collection
    return {
        "ready": {"now": message("choose.ready-now")} if ready else {},
        "scent": {scented.mark: scented.words if scented.added else message("choose.none")}
        if scented
        else {},
        "free": {name: message(f"choose.free.{name}") for name in (free_from(bar) if bar else ())},
        "colour": {name: message(f"choose.colour.{name}") for name in colours_of(recipe)},
        "oil": {name: names.oil(recipe.pantry, name) for name in oils},
        "method": {recipe.model.method: message(f"choose.made.{recipe.model.method}")},
        "status": {recipe.status.name: message(f"status.{recipe.status.name}")},
        "collection": {links.anchor(collection): collection} if collection else {},
    }
