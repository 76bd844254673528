"""An edition of a whole book: what its readers may see, made anew before any view or template is reached."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from typing import TypeVar

from saponary.assets.once import Once
from saponary.book.changes import Changed, Version
from saponary.book.classes import ClassFile
from saponary.book.late import LateMap, late
from saponary.book.library import Book
from saponary.book.pictures import in_notes
from saponary.book.proofed import Proofed
from saponary.book.published import Glance, Published, belongs, is_shown, published
from saponary.label.lists import Bar
from saponary.messages.message import Message
from saponary.pantry.model import Pantry
from saponary.schema.edition import Edition
from saponary.schema.seen import only_seen
from saponary.views.on_the_web import on_the_web
from saponary.views.site import PhotoSet, PublishedBook, PublishedPage, SiteInput

T = TypeVar("T")

_THE_MAKERS = ["maker"]
"""Where a page of the book's own is shown that does not say."""
_TAUGHT = ["class", "maker"]
"""Where a class is shown that does not say: not on the open site."""


@dataclass(frozen=True)
class Unpublished:
    """A whole book, proofed, with all that any edition may need. `SiteInput` tells of the fields."""

    book: Book
    recipes: tuple[Proofed, ...]
    engine: str
    tables: str
    photos: Mapping[str, PhotoSet] = field(default_factory=dict[str, PhotoSet])
    earlier: Mapping[str, Mapping[str, tuple[Message, ...]]] = field(
        default_factory=dict[str, Mapping[str, tuple[Message, ...]]]
    )
    changed: Mapping[str, Changed] = field(default_factory=dict[str, Changed])
    versions: Mapping[str, tuple[Version, ...]] = field(default_factory=dict[str, tuple[Version, ...]])
    labels: Mapping[str, Bar] = field(default_factory=dict[str, Bar])
    on: date = date.max


def for_edition(whole: Unpublished, edition: Edition, known: Mapping[str, Glance] | None = None) -> SiteInput:
    """The site as an edition may show it. What is `known` of a recipe is asked of it alone, until more is."""
    shows = edition.shows
    once: Once = {}
    shown = [one for one in whole.recipes if is_shown(one, edition)]
    known = known or {}

    def as_shown(one: Proofed) -> Published:
        make = partial(published, one, edition, whole.on, once)
        glance = known.get(one.slug)
        if glance is None:
            return make()
        return late(Published, make, slug=one.slug, path=one.computed.path, glance=glance)

    recipes = _with_shown_pictures(whole, list(map(as_shown, shown)))
    book = _book(whole.book, edition)
    if any(page.pictures for page in book.pages):
        hidden = _hidden(whole, recipes)
        pages = (replace(p, pictures=tuple(n for n in p.pictures if n not in hidden)) for p in book.pages)
        book = replace(book, pages=tuple(pages))
    slugs = {recipe.slug for recipe in recipes}
    return SiteInput(
        book=book,
        recipes=recipes,
        engine=whole.engine,
        tables=whole.tables,
        photos={name: whole.photos[name] for name in _photos(recipes, book.pages) if name in whole.photos},
        earlier=_of(whole.earlier, slugs) if "batches" in shows else {},
        changed={
            slug: one if "private" in shows else replace(one, again=False)
            for slug, one in _of(whole.changed, slugs).items()
            if "badge" in shows
        },
        versions={
            slug: found if "private" in shows else tuple(replace(one, about="") for one in found)
            for slug, found in _of(whole.versions, slugs).items()
            if "history" in shows
        },
        labels=_labels(whole.labels, slugs) if "ingredients" in shows else {},
        on_the_web=LateMap(
            {one.slug: one for one in shown}, lambda one: on_the_web(one, edition, whole.book.settings)
        ),
        edition=edition,
        on=whole.on,
    )


def _of(found: Mapping[str, T], slugs: set[str]) -> dict[str, T]:
    return {slug: one for slug, one in found.items() if slug in slugs}


def _labels(found: Mapping[str, Bar], slugs: set[str]) -> Mapping[str, Bar]:
    return LateMap({slug: slug for slug in found if slug in slugs}, found.__getitem__)


def _with_shown_pictures(whole: Unpublished, recipes: Sequence[Published]) -> tuple[Published, ...]:
    """Notes show no photo of a lot that the edition does not show, whichever recipe the lot is of."""
    if not any(recipe.glance.pictures for recipe in recipes):
        return tuple(recipes)
    hidden = _hidden(whole, recipes)
    return tuple(
        recipe if hidden.isdisjoint(recipe.glance.pictures) else _without(hidden, recipe)
        for recipe in recipes
    )


def _hidden(whole: Unpublished, recipes: Sequence[Published]) -> set[str]:
    """Photos of lots that the edition does not show."""
    of_lots = {name for one in whole.recipes for name in one.facts.lot_photos}
    return of_lots.difference(*(recipe.glance.of_lots for recipe in recipes))


def _without(photos: set[str], recipe: Published) -> Published:
    kept = tuple(name for name in recipe.pictures if name not in photos)
    return late(
        Published,
        lambda: replace(recipe, pictures=kept),
        slug=recipe.slug,
        path=recipe.path,
        pictures=kept,
        glance=recipe.glance,
    )


def _photos(recipes: tuple[Published, ...], pages: tuple[PublishedPage, ...]) -> dict[str, None]:
    in_notes = (name for recipe in recipes if recipe.glance.pictures for name in recipe.pictures)
    on_pages = (name for page in pages for name in page.pictures)
    return dict.fromkeys(
        (*(name for recipe in recipes for name in recipe.glance.photos), *in_notes, *on_pages)
    )


def _book(book: Book, edition: Edition) -> PublishedBook:
    return PublishedBook(
        settings=only_seen(book.settings, edition.sight),
        pantry=late(Pantry, lambda: only_seen(book.pantry, edition.sight), stays=True),
        own_pantry=late(Pantry, lambda: only_seen(book.pantry.own, edition.sight), stays=True),
        classes=tuple(lesson for read in book.classes if (lesson := _lesson(read, edition)) is not None),
        waived=book.waived if "waivers" in edition.shows else (),
        pages=_own_pages(book, edition),
        logo=book.logo,
    )


def _own_pages(book: Book, edition: Edition) -> tuple[PublishedPage, ...]:
    """Those that say they are of this edition; one that says nothing is the maker's."""
    plans = [(page, page.plan) for page in book.pages if page.plan is not None]
    own = [(page, plan) for page, plan in plans if edition.name in (plan.editions or _THE_MAKERS)]
    return tuple(
        PublishedPage(
            page.slug,
            plan.title,
            plan.menu or plan.title,
            page.body,
            tuple(dict.fromkeys(photo.name for photo in in_notes(page))) if "photos" in edition.shows else (),
        )
        for page, plan in sorted(own, key=lambda one: (one[1].order, one[1].title.casefold(), one[0].slug))
    )


def _lesson(read: ClassFile, edition: Edition) -> ClassFile | None:
    if read.plan is None or not belongs(read.plan.editions or _TAUGHT, edition):
        return None
    return ClassFile(read.file, read.slug, read.body, plan=only_seen(read.plan, edition.sight))
