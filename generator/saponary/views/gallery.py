"""The gallery: the book's face, its recipes by collection, and choices that need no script."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from typing import get_args

from markupsafe import Markup

from saponary.book.published import Published
from saponary.book.status import Name as StatusName
from saponary.messages.message import Message, Value, Within, commas, message, percent
from saponary.quantity.totals import totals
from saponary.schema.methods import BY_NAME
from saponary.views import links, names
from saponary.views.prose import Links, Prose
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class Option:
    """One choice: the id of its button, the mark on its cards, and how many cards bear it."""

    id: str
    mark: str
    label: Message
    count: int


@dataclass(frozen=True)
class Choice:
    """A row of options of which one is taken; the first takes all."""

    name: str
    legend: Message
    options: tuple[Option, ...]


@dataclass(frozen=True)
class Card:
    title: str
    href: str
    picture: str
    summary: str
    status: str
    oils: Value
    acids: Value
    portions: int
    marks: str


@dataclass(frozen=True)
class Group:
    id: str
    title: Value
    cards: tuple[Card, ...]


@dataclass(frozen=True)
class GalleryView:
    title: str
    subtitle: str
    maker: str
    place: str
    about: Markup | None
    groups: tuple[Group, ...]
    choices: tuple[Choice, ...]
    rules: Markup
    """Style rules that hide what a choice leaves out, and say so where nothing is left."""


@dataclass(frozen=True)
class Collection:
    """What a collection is called, and a fragment for it."""

    id: str
    title: Value


def collection(name: str | None) -> Collection:
    """Recipes of no collection stand together too."""
    if name is None:
        return Collection("single-recipes", message("collection.single"))
    return Collection(links.anchor(name), name)


def in_order(recipes: Iterable[Published]) -> list[Published]:
    """By collection, those without one last, then by title."""

    def key(recipe: Published) -> tuple[bool, str, str, str]:
        model = recipe.model
        return (
            model.collection is None,
            (model.collection or "").casefold(),
            model.title.casefold(),
            recipe.slug,
        )

    return sorted(recipes, key=key)


def gallery_view(site: SiteInput, recipes: Sequence[Published], published: frozenset[str]) -> GalleryView:
    settings = site.book.settings
    row = in_order(recipes)
    choices = tuple(choice for choice in _choices(row) if len(choice.options) > 2)
    groups: dict[str | None, list[Card]] = {}
    for recipe in row:
        groups.setdefault(recipe.model.collection or None, []).append(_card(recipe, site))
    return GalleryView(
        title=settings.title,
        subtitle=settings.subtitle,
        maker=settings.maker,
        place=settings.place,
        about=Prose({}, Links(published)).block(settings.about, front=True)
        if settings.about.strip()
        else None,
        groups=tuple(_group(name, cards, alone=len(groups) == 1) for name, cards in groups.items()),
        choices=choices,
        rules=_rules(choices),
    )


def _group(name: str | None, cards: Sequence[Card], *, alone: bool) -> Group:
    called = collection(name)
    title = message("gallery.recipes") if name is None and alone else called.title
    return Group(called.id, title, tuple(cards))


def _card(recipe: Published, site: SiteInput) -> Card:
    computed = recipe
    prose = Prose(computed.catalogue)
    title = prose.title(computed.model.title)
    return Card(
        title=title,
        href=links.recipe_page(recipe.slug),
        picture=links.drawing(recipe.slug, "cured"),
        summary=prose.plain(computed.model.summary),
        status=recipe.status.name,
        oils=main_oils(computed, numbers=site.edition.formula != "ingredients"),
        acids=_main_acids(computed) if site.shows("chemistry") else "",
        portions=len(computed.figures.portions),
        marks=" ".join(mark(recipe) for _, mark, _ in _CHOICES),
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


def _main_acids(computed: Published) -> Value:
    largest = sorted(computed.figures.chemistry.fatty_acids.items(), key=lambda item: -item[1])[:3]
    return commas(*(_share(message(f"acid.{key}"), part) for key, part in largest))


def _share(name: Value, part: float) -> Message:
    return message("gallery.share", name=name, share=percent(part, 0, tight=True))


def _status(recipe: Published) -> str:
    return f"is-{recipe.status.name}"


def _alkali(recipe: Published) -> str:
    alkali = recipe.resolved.formula.alkali
    if not recipe.resolved.formula.weighs_lye:
        return "of-none"
    return "of-sodium" if alkali.potassium <= 0 else "of-potassium" if alkali.sodium <= 0 else "of-both"


def _method(recipe: Published) -> str:
    return f"by-{recipe.model.method}"


def _colours(recipe: Published) -> str:
    return f"in-{min(max(len(recipe.figures.portions), 1), 4)}"


_CHOICES: tuple[tuple[str, Callable[[Published], str], tuple[str, ...]], ...] = (
    ("status", _status, ("is-tested", "is-signed")),
    ("alkali", _alkali, ("of-sodium", "of-potassium", "of-both", "of-none")),
    ("method", _method, tuple(f"by-{name}" for name in BY_NAME)),
    ("portions", _colours, ("in-1", "in-2", "in-3", "in-4")),
)
"""What is chosen by: its id, the mark it gives a recipe, and the marks there are."""

KEYS_BY_ID = {
    "status.": get_args(StatusName),
    "gallery.choice.": tuple(name for name, _, _ in _CHOICES),
    "gallery.option.": tuple(mark for _, _, known in _CHOICES for mark in known),
}
"""Keys that are put together here or in a template: what they start with, and the ids that may follow."""


def _choices(row: Sequence[Published]) -> Iterable[Choice]:
    for name, mark, known in _CHOICES:
        marks = [mark(recipe) for recipe in row]
        options = [Option(f"{name}-all", "", message("gallery.all"), len(row))]
        options += [
            Option(f"{name}-{word}", word, message(f"gallery.option.{word}"), marks.count(word))
            for word in known
            if word in marks
        ]
        yield Choice(name, message(f"gallery.choice.{name}"), tuple(options))


def _rules(choices: Sequence[Choice]) -> Markup:
    """One rule a choice for the cards, one a combination for the collections and the note."""
    cards: list[str] = []
    empty: list[str] = []
    none: list[str] = []
    for combination in product(*(choice.options for choice in choices)):
        taken = [option for option in combination if option.mark]
        if not taken:
            continue
        when = "main" + "".join(f":has(#{option.id}:checked)" for option in taken)
        wanted = ".card" + "".join(f".{option.mark}" for option in taken)
        empty.append(f"{when} .group:not(:has({wanted}))")
        none.append(f"{when}:not(:has({wanted})) .none")
        if len(taken) == 1:
            cards.append(f"{when} .card:not(.{taken[0].mark})")
    if not cards:
        return Markup("")
    return Markup(f"{','.join([*cards, *empty])}{{display:none}}{','.join(none)}{{display:block}}")
