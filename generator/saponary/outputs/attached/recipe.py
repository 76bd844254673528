"""A recipe as files to go on from: its figures, and a clean copy that an empty book can hold.

`recipe.md` says by itself all that makes its formula: superfat, water and purity stand in it
even where the book set them. `pantry.yaml` holds the maker's own values that the recipe
rests on, `book.yaml` the scale. Nothing of batches, prices, suppliers or private words is in
them, nor what an edition does not show.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from saponary.book.computed import Computed
from saponary.book.quotes import without_comments
from saponary.lye.formula import Alkali
from saponary.outputs.attached.pantry import pantry_source
from saponary.outputs.attached.written import amount, to_yaml
from saponary.outputs.figures_json import site_object
from saponary.outputs.pdf_kind import Attachment
from saponary.quantity.units import Amount, Quantity
from saponary.reading.plain import is_map, is_row
from saponary.schema.fields import Part, kebab
from saponary.schema.recipe import Cut, OilPart, Recipe
from saponary.schema.settings import Settings
from saponary.views.site import RecipeInput, SiteInput

_LEFT_OUT = frozenset({"editions", "batches", "waive", "private", "photo", "label"})
"""What belongs to the maker's own book, or rests on what does."""

_SHORT: Mapping[type[Part], str] = {OilPart: "share", Cut: "along"}
"""Parts that are written as one value where only that is said."""


def figures_of(site: SiteInput) -> dict[str, Any]:
    """The object that the site publishes of each recipe, by slug."""
    return {found["slug"]: found for found in site_object(site)["recipes"]}


def attachments(recipe: RecipeInput, site: SiteInput, figures: Mapping[str, Any]) -> tuple[Attachment, ...]:
    """What a recipe's sheet carries: figures always, the source where the formula is shown in full."""
    found = figures.get(recipe.slug, {"slug": recipe.slug})
    text = json.dumps(found, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
    carried = [Attachment("figures.json", text.encode(), "The figures of this recipe")]
    if site.edition.formula == "full":
        for name, source, about in (
            ("recipe.md", recipe_source(recipe.computed), "This recipe; put it into recipes/"),
            ("pantry.yaml", pantry_source(recipe.computed), "What it takes from the shelf"),
            ("book.yaml", book_source(site.book.settings), "The scale it is for"),
        ):
            carried.append(Attachment(name, source.encode(), about))
    return tuple(carried)


def recipe_source(computed: Computed) -> str:
    """The recipe file: front matter, then the notes without what is commented out."""
    front = {key: value for key, value in _plain(_said(computed)).items() if value not in ({}, [], None, "")}
    notes = without_comments(computed.notes).replace("\r\n", "\n").replace("\r", "\n").strip("\n")
    return f"---\n{to_yaml(front)}---\n" + (f"{notes}\n" if notes else "")


def book_source(settings: Settings) -> str:
    """The settings that a recipe's weights and days are told by."""
    said: dict[str, object] = {"title": settings.title, "maker": settings.maker, "place": settings.place}
    said |= {"language": settings.language, "units": settings.units}
    said |= {"scale-step": amount(settings.scale_step_grams, "g"), "cure": settings.cure}
    return to_yaml({key: value for key, value in said.items() if value != ""})


def _said(computed: Computed) -> dict[str, object]:
    """The recipe's fields by their names in a file, with what the book's settings said for it."""
    model, settings = computed.model, computed.settings
    said: dict[str, object] = {}
    for name in Recipe.model_fields:
        if name in _LEFT_OUT:
            continue
        value = getattr(model, name)
        if name == "lye":
            value = _lye(computed.resolved.formula.alkali)
        elif name == "superfat":
            value = value or settings.superfat
        elif name == "water":
            value = value or settings.water
        elif value == Recipe.model_fields[name].get_default(call_default_factory=True):
            continue
        said[kebab(name)] = value
    return said


def _lye(alkali: Alkali) -> dict[str, object]:
    """The alkalis as they were reckoned; one that has no share is not named."""
    both = (
        ("sodium", alkali.sodium, alkali.sodium_purity),
        ("potassium", alkali.potassium, alkali.potassium_purity),
    )
    said: dict[str, object] = {}
    for name, share, purity in both:
        if share > 0:
            written = amount(100 * share, "%")
            said[name] = written if purity == 1.0 else {"share": written, "purity": amount(100 * purity, "%")}
    return said


def _plain(value: Any) -> Any:
    """Models and quantities as maps, lists and text, the maker's own wording of amounts kept."""
    if isinstance(value, (Quantity, Amount)):
        return " ".join(value.text.split())
    if isinstance(value, Part):
        fields = type(value).model_fields
        said = {
            kebab(name): _plain(given)
            for name in fields
            if (given := getattr(value, name)) != fields[name].get_default(call_default_factory=True)
        }
        return said.get(_SHORT[type(value)], said) if type(value) in _SHORT and len(said) == 1 else said
    if is_map(value):
        return {key: _plain(given) for key, given in value.items()}
    if is_row(value):
        return [_plain(given) for given in value]
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value.isoformat() if isinstance(value, date) else value
