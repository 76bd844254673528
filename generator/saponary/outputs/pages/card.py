"""The card of each recipe, which is shown where a link to its page is passed on (ogp.me, og:image)."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.assets.store import Key
from saponary.book.published import Published
from saponary.draw.card import HEIGHT, WIDTH, Card
from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.cards import CARD, as_jpeg
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.structured import Picture
from saponary.views import links
from saponary.views.batches import Photo
from saponary.views.lead_photo import lead_photo
from saponary.views.prose import Prose
from saponary.views.share_card import card_words


def card(context: PageContext, slug: str, title: str, photo: Photo | None) -> Picture | None:
    """What the page of a recipe says of its card; None where there is none."""
    if not _made(context):
        return None
    drawn = message("gallery.drawing", recipe=title)
    told = message("card.photo", drawing=drawn, photo=photo.alt) if photo is not None else drawn
    return Picture(context.top + links.card(slug), WIDTH, HEIGHT, told)


def _made(context: PageContext) -> bool:
    """A card is found by its whole address alone, and by nobody in an edition that is the maker's own."""
    return bool(context.top) and context.site.edition.published


def _each(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    if not _made(context):
        return
    drawn = (rests_on.recipe(recipe.slug), *rests_on.scraps(recipe))
    lesson = rests_on.taught(context.site)
    blanks = (rests_on.notes(recipe.slug),) if lesson else ()
    uses = (rests_on.SETTINGS, rests_on.EDITION, *lesson, *blanks, *drawn)
    draw, key = partial(_drawn, context, recipe), partial(_key, context, recipe)
    yield SiteFile(links.card(recipe.slug), draw, uses, recipe.slug, key)


def _drawn(context: PageContext, recipe: Published) -> bytes:
    return as_jpeg(_card(context, recipe))


def _key(context: PageContext, recipe: Published) -> Key:
    return CARD.key(_card(context, recipe))


def _card(context: PageContext, recipe: Published) -> Card:
    title, sentence = card_words(recipe, context.site)
    photo = lead_photo(recipe, context.site, Prose(recipe.catalogue))
    svg = context.drawings.of(recipe).cured_svg
    shown = context.photos.get(photo.src) if photo is not None else None
    return Card(context.site.book.settings.title, title, sentence, svg, shown)


KIND = PageKind("card", each=_each)
