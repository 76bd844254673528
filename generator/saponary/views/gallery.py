"""The index: the book's face, a card for each recipe, and what they may be chosen by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.published import Published
from saponary.messages.message import Message, Value, Within, commas, message, percent
from saponary.quantity.totals import totals
from saponary.views import links, names
from saponary.views.batches import Photo
from saponary.views.choices import Choice, What, choices, marks
from saponary.views.lead_photo import lead_photo
from saponary.views.printed import Printed, of_book
from saponary.views.prose import Prose, first_sentence
from saponary.views.prose_links import Links
from saponary.views.site import SiteInput
from saponary.views.swatches import Tinted, tinted
from saponary.views.traits import Traits, traits


@dataclass(frozen=True)
class Card:
    """One recipe; `photo` is None where there is none, and its drawing stands alone."""

    slug: str
    title: str
    href: str
    photo: Photo | None
    drawing: str
    collection: str
    summary: str
    status: str
    ready: bool
    oils: Value
    marks: str


class GalleryRow(NamedTuple):
    """One recipe on the index: its card, what it may be chosen by, and the colours of its parts."""

    card: Card
    traits: Traits
    tinted: tuple[Tinted, ...]


@dataclass(frozen=True)
class GalleryView:
    title: str
    subtitle: str
    maker: str
    place: str
    about: Markup | None
    cards: tuple[Card, ...]
    choices: tuple[Choice, ...]
    printed: tuple[Printed, ...]
    """The whole book on paper."""


class Collection(NamedTuple):
    """What a collection is called, and a fragment for it."""

    id: str
    title: Value


def collection(name: str | None) -> Collection:
    """Recipes of no collection stand together too."""
    if name is None:
        return Collection("single-recipes", message("collection.single"))
    return Collection(links.anchor(name), name)


_CHOSEN_BY: tuple[What, ...] = ("ready", "status", "method", "scent", "free", "colour", "oil", "collection")


def gallery_row(recipe: Published, site: SiteInput, up: str = "") -> GalleryRow:
    """`up` leads from the page to the top of the site."""
    has = traits(recipe, site, bool(recipe.on_sale.lots))
    return GalleryRow(_card(recipe, site, marks(has), up), has, tinted(recipe))


def gallery_view(
    site: SiteInput, rows: Sequence[GalleryRow], published: frozenset[str], up: str = ""
) -> GalleryView:
    """`rows` in their order; `up` leads from its page to the top of the site."""
    settings = site.book.settings
    return GalleryView(
        title=settings.title,
        subtitle=settings.subtitle,
        maker=settings.maker,
        place=settings.place,
        about=Prose({}, Links(published, up, "", site.pages)).block(settings.about, front=True)
        if settings.about.strip()
        else None,
        cards=tuple(row.card for row in rows),
        choices=gallery_choices(rows),
        printed=of_book(site, up),
    )


def gallery_choices(rows: Sequence[GalleryRow]) -> tuple[Choice, ...]:
    """What the recipes of these rows may be chosen by."""
    return choices([row.traits for row in rows], _CHOSEN_BY)


def _card(recipe: Published, site: SiteInput, borne: str, up: str) -> Card:
    prose = Prose(recipe.catalogue, Links(up=up))
    return Card(
        slug=recipe.slug,
        title=prose.title(recipe.model.title),
        href=up + links.recipe_page(recipe.slug),
        photo=lead_photo(recipe, site, prose),
        drawing=up + links.drawing(recipe.slug, "cured"),
        collection=recipe.model.collection or "",
        summary=first_sentence(prose.plain(recipe.model.summary)),
        status=recipe.status.name,
        ready=bool(recipe.on_sale.lots),
        oils=main_oils(recipe, numbers=site.edition.formula != "ingredients"),
        marks=borne,
    )


def main_oils(computed: Published, most: int = 3, *, numbers: bool = True) -> Value:
    """The largest oils, or of a rebatch the soaps it is melted of, with their shares where the edition gives
    numbers."""
    formula = computed.resolved.formula
    summed = totals((part.id, part.grams) for part in formula.base)
    largest = sorted(summed.items(), key=lambda item: -item[1])[:most]
    return commas(
        *(
            _share(_name(computed, name), grams / formula.base_grams) if numbers else _name(computed, name)
            for name, grams in largest
        )
    )


def _name(computed: Published, name: str) -> Value:
    """An oil within a sentence; a soap goes by the title of its recipe."""
    if computed.resolved.formula.weighs_lye:
        return Within(names.oil(computed.pantry, name))
    return names.addition(computed.pantry, name)


def _share(name: Value, part: float) -> Message:
    return message("gallery.share", name=name, share=percent(part, 0, tight=True))
