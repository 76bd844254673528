"""The gallery: the book's face, its recipes by collection, and choices that need no script."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import product

from markupsafe import Markup

from saponary.book.computed import Computed
from saponary.lye.fatty_acids import FATTY_ACIDS
from saponary.quantity.numbers import percent, tight
from saponary.quantity.totals import totals
from saponary.views import links, names
from saponary.views.prose import Prose
from saponary.views.site import RecipeInput, SiteInput

_LOOSE = "Single recipes"


@dataclass(frozen=True)
class Option:
    """One choice: the id of its button, the word on its cards, and how many cards bear it."""

    id: str
    mark: str
    label: str
    count: str


@dataclass(frozen=True)
class Choice:
    """A row of options of which one is taken; the first takes all."""

    name: str
    legend: str
    options: tuple[Option, ...]


@dataclass(frozen=True)
class Card:
    title: str
    href: str
    picture: str
    alt: str
    summary: str
    status: str
    status_name: str
    oils: str
    acids: str
    portions: str
    marks: str


@dataclass(frozen=True)
class Group:
    id: str
    title: str
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
    count: str


def in_order(recipes: Iterable[RecipeInput]) -> list[RecipeInput]:
    """By collection, those without one last, then by title."""

    def key(recipe: RecipeInput) -> tuple[bool, str, str, str]:
        model = recipe.computed.model
        return (
            model.collection is None,
            (model.collection or "").casefold(),
            model.title.casefold(),
            recipe.slug,
        )

    return sorted(recipes, key=key)


def gallery_view(site: SiteInput, recipes: Sequence[RecipeInput], published: frozenset[str]) -> GalleryView:
    settings = site.book.settings
    row = in_order(recipes)
    choices = tuple(choice for choice in _choices(row) if len(choice.options) > 2)
    groups: dict[str, list[Card]] = {}
    for recipe in row:
        groups.setdefault(recipe.computed.model.collection or _LOOSE, []).append(_card(recipe, site))
    bare = len(groups) == 1 and _LOOSE in groups
    return GalleryView(
        title=settings.title,
        subtitle=settings.subtitle,
        maker=settings.maker,
        place=settings.place,
        about=Prose({}, published).block(settings.about, front=True) if settings.about.strip() else None,
        groups=tuple(
            Group(links.anchor(name), "Recipes" if bare else name, tuple(cards))
            for name, cards in groups.items()
        ),
        choices=choices,
        rules=_rules(choices),
        count="1 recipe" if len(row) == 1 else f"{len(row)} recipes",
    )


def _card(recipe: RecipeInput, site: SiteInput) -> Card:
    computed = recipe.computed
    prose = Prose(computed.catalogue)
    title = prose.title(computed.model.title)
    return Card(
        title=title,
        href=links.recipe_page(recipe.slug),
        picture=links.drawing(recipe.slug, "cured"),
        alt=f"Drawing of {title} after the cure",
        summary=prose.plain(computed.model.summary),
        status=recipe.status.name,
        status_name=recipe.status.name.capitalize(),
        oils=main_oils(computed, numbers=site.edition.formula != "ingredients"),
        acids=_main_acids(computed) if site.shows("chemistry") else "",
        portions=_portions(computed),
        marks=" ".join((_status(recipe), _alkali(recipe), _colours(recipe))),
    )


def main_oils(computed: Computed, most: int = 3, *, numbers: bool = True) -> str:
    whole = computed.figures.oils or 1.0
    summed = totals((oil.id, oil.grams) for oil in computed.resolved.formula.oils)
    largest = sorted(summed.items(), key=lambda item: -item[1])[:most]
    return ", ".join(
        names.inside(names.oil(computed.pantry, name))
        + (f"\u00a0{tight(percent(grams / whole, 0))}" if numbers else "")
        for name, grams in largest
    )


def _main_acids(computed: Computed) -> str:
    largest = sorted(computed.figures.chemistry.fatty_acids.items(), key=lambda item: -item[1])[:3]
    return ", ".join(f"{FATTY_ACIDS[key].name}\u00a0{tight(percent(part, 0))}" for key, part in largest)


def _portions(computed: Computed) -> str:
    count = len(computed.figures.portions)
    return "one batter" if count < 2 else f"{count} portions"


def _status(recipe: RecipeInput) -> str:
    return f"is-{recipe.status.name}"


def _alkali(recipe: RecipeInput) -> str:
    alkali = recipe.computed.resolved.formula.alkali
    return "of-sodium" if alkali.potassium <= 0 else "of-potassium" if alkali.sodium <= 0 else "of-both"


def _colours(recipe: RecipeInput) -> str:
    return f"in-{min(max(len(recipe.computed.figures.portions), 1), 4)}"


_KINDS: tuple[tuple[str, str, Callable[[RecipeInput], str], tuple[tuple[str, str], ...]], ...] = (
    ("status", "Status", _status, (("is-tested", "tested"), ("is-stated", "stated"))),
    (
        "alkali",
        "Alkali",
        _alkali,
        (("of-sodium", "sodium"), ("of-potassium", "potassium"), ("of-both", "both")),
    ),
    (
        "portions",
        "Portions",
        _colours,
        (("in-1", "one"), ("in-2", "two"), ("in-3", "three"), ("in-4", "four or more")),
    ),
)


def _choices(row: Sequence[RecipeInput]) -> Iterable[Choice]:
    for name, legend, mark, known in _KINDS:
        marks = [mark(recipe) for recipe in row]
        options = [Option(f"{name}-all", "", "all", str(len(row)))]
        options += [
            Option(f"{name}-{word}", word, label, str(marks.count(word)))
            for word, label in known
            if word in marks
        ]
        yield Choice(name, legend, tuple(options))


def _rules(choices: Sequence[Choice]) -> Markup:
    """One rule a choice for the cards, one a combination for the collections and the note."""
    cards, empty, none = [], [], []
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
