"""The whole book on paper: its chapters, its shelf of colours, its index and its colophon."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.pour_uses import pour_uses
from saponary.book.published import Published
from saponary.messages.message import Message, Value, Within, message
from saponary.pantry.model import Addition
from saponary.views import names
from saponary.views.colour_words import in_words
from saponary.views.drawings import Drawings
from saponary.views.gallery import collection
from saponary.views.glossary import Word, words
from saponary.views.pantry import Shelf, Use, shelves, taken
from saponary.views.paper.print_photo import BOOK, PAIR, PrintPhoto, other_photos, print_photo
from saponary.views.paper.recipe_sheet import paper_recipe
from saponary.views.paper.weekly import weekly_days
from saponary.views.prose import Prose
from saponary.views.prose_links import PaperLinks
from saponary.views.recipe import RecipeView
from saponary.views.site import SiteInput


class Chapter(NamedTuple):
    """A collection, with its recipes; the last chapter holds those of none."""

    id: str
    title: Value
    recipes: tuple[RecipeView, ...]


class Hue(NamedTuple):
    """A colourant of the book: two colours, each in words too, and where it is used."""

    name: str
    latin: str
    fresh: str
    cured: str
    fresh_words: Message
    cured_words: Message
    stays: bool
    uses: tuple[Use, ...]


@dataclass(frozen=True)
class WholeBook:
    title: str
    subtitle: str
    maker: str
    place: str
    cover: RecipeView | None
    about: Markup | None
    chapters: tuple[Chapter, ...]
    hues: tuple[Hue, ...]
    index: tuple[Shelf, ...]
    words: tuple[Word, ...]
    photos: Mapping[str, PrintPhoto]
    """By the recipe, where it has one."""
    more: Mapping[str, tuple[PrintPhoto, ...]]
    """Others of the same lot, for a page that has room."""
    days: Mapping[str, tuple[int, ...]]
    """On which days a bar is weighed, by the recipe."""


def whole_book(site: SiteInput, drawings: Drawings) -> WholeBook:
    settings, row, slugs = site.book.settings, site.in_order, site.slugs
    everything = [one for recipe in row for one in taken(recipe)]
    made = {recipe.slug: paper_recipe(recipe, site, drawings.of(recipe), slugs) for recipe in row}
    about = (
        Prose({}, PaperLinks(slugs, folder="")).block(settings.about, top=2, front=True)
        if settings.about.strip()
        else None
    )
    return WholeBook(
        title=settings.title,
        subtitle=settings.subtitle,
        maker=settings.maker,
        place=settings.place,
        cover=made[_richest(row).slug] if row else None,
        about=about,
        chapters=tuple(_chapters(list(made.values()))),
        hues=tuple(_hues(site, row)),
        index=tuple(_anchored(shelf) for shelf in shelves(site.book.pantry, everything)),
        words=words(site.book.pantry),
        photos={
            recipe.slug: found for recipe in row if (found := print_photo(recipe, site, BOOK)) is not None
        },
        more={recipe.slug: other_photos(recipe, site, PAIR, 2) for recipe in row},
        days={recipe.slug: weekly_days(recipe) for recipe in row},
    )


def _richest(row: Sequence[Published]) -> Published:
    """The recipe for the cover: the first of those with most portions."""
    return max(row, key=lambda recipe: len(recipe.figures.portions))


def _chapters(made: Sequence[RecipeView]) -> Iterator[Chapter]:
    by_title: dict[str | None, list[RecipeView]] = {}
    for recipe in made:
        by_title.setdefault(recipe.collection or None, []).append(recipe)
    for title, recipes in by_title.items():
        name = collection(title)
        yield Chapter(f"chapter-{name.id}", name.title, tuple(recipes))


def _anchored(shelf: Shelf) -> Shelf:
    """The shelf with its uses leading into the book."""
    return replace(
        shelf, items=tuple(replace(item, uses=tuple(map(_inside, item.uses))) for item in shelf.items)
    )


def _inside(use: Use) -> Use:
    return replace(use, href=f"#recipe-{PurePosixPath(use.href).parent.name}")


def _hues(site: SiteInput, row: Sequence[Published]) -> Iterator[Hue]:
    """Colourants of the published recipes by name: stirred in, dusted on, or drawn into an oil."""
    shelf = site.book.pantry
    uses: dict[str, list[Use]] = {}
    for recipe in row:
        title = Prose(recipe.catalogue).title(recipe.model.title)
        for entry, how in dict(_coloured(recipe)).items():
            uses.setdefault(entry, []).append(Use(title, f"#recipe-{recipe.slug}", how))
    for name in sorted(uses, key=lambda name: (shelf.additions[name].name.casefold(), name)):
        yield _hue(shelf.additions[name], tuple(uses[name]))


def _coloured(recipe: Published) -> Iterator[tuple[str, Value]]:
    shelf, computed = recipe.pantry, recipe
    for oil in computed.resolved.formula.oils:
        botanical = shelf.botanical(oil.infused_with) if oil.infused_with else None
        if botanical is not None and botanical.colour is not None:
            yield botanical.id, message("book.hue.in-oil", oil=Within(names.oil(shelf, oil.id)))
    for use in pour_uses(computed):
        if use.how == "line" and _has_colour(shelf.additions.get(use.what)):
            yield use.what, message("colours.use.line")
    for part in computed.resolved.formula.additions:
        if _has_colour(shelf.additions.get(part.id)):
            yield part.id, ""


def _has_colour(entry: Addition | None) -> bool:
    return entry is not None and entry.colour is not None


def _hue(entry: Addition, uses: tuple[Use, ...]) -> Hue:
    colour = entry.colour
    assert colour is not None
    return Hue(
        name=entry.name,
        latin=entry.latin or "",
        fresh=colour.fresh,
        cured=colour.cured,
        fresh_words=in_words(colour.fresh),
        cured_words=in_words(colour.cured),
        stays=colour.stays,
        uses=uses,
    )
