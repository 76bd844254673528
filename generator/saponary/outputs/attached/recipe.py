"""A recipe as files to go on from: its figures, and a clean copy that an empty book can hold.

`recipe.md` says by itself all that makes its formula: superfat, water and purity stand in it
even where the book set them. `pantry.yaml` holds the maker's own values that the recipe
rests on, `book.yaml` the scale. Nothing of batches, prices, suppliers or private words is in
them, nor what an edition does not show.
"""

from __future__ import annotations

from typing import Any

from saponary.book.published import Published
from saponary.book.quotes import without_comments
from saponary.lye.formula import Alkali
from saponary.outputs.attached.pantry import pantry_source
from saponary.outputs.attached.written import amount, to_yaml
from saponary.outputs.figures_json import as_text, published_object
from saponary.outputs.pdf_kind import Attachment
from saponary.reading.markdown import without_pictures
from saponary.schema.fields import kebab
from saponary.schema.recipe import Recipe
from saponary.schema.seen import only_seen
from saponary.schema.settings import Settings
from saponary.views.at_class import left_blank
from saponary.views.site import SiteInput

_CARRIED: frozenset[str] = frozenset({"always", "full formula", "summary", "work"})
"""What of a recipe's fields may go along, if the edition shows them: not what rests on the maker's own
book, as photos and waivers do.
"""


def attachments(recipe: Published, site: SiteInput) -> tuple[Attachment, ...]:
    """What a recipe's sheet carries: figures always, the source where the formula is shown in full. A rebatch is
    nothing without the lots of other recipes, and carries none; nor does what students work out themselves."""
    text = as_text(published_object(recipe, site)) + "\n"
    carried = [Attachment("figures.json", text.encode(), "The figures of this recipe")]
    if site.edition.formula == "full" and not left_blank(recipe, site) and recipe.resolved.formula.weighs_lye:
        for name, source, about in (
            ("recipe.md", recipe_source(recipe), "This recipe; put it into recipes/"),
            ("pantry.yaml", pantry_source(recipe), "What it takes from the shelf"),
            ("book.yaml", book_source(site.book.settings), "The scale it is for"),
        ):
            carried.append(Attachment(name, source.encode(), about))
    return tuple(carried)


def recipe_source(recipe: Published) -> str:
    """The recipe file: front matter, then the notes without what is commented out, and without photos, which do
    not go along."""
    notes = (
        without_pictures(without_comments(recipe.notes)).replace("\r\n", "\n").replace("\r", "\n").strip("\n")
    )
    return f"---\n{to_yaml(_front(recipe))}---\n" + (f"{notes}\n" if notes else "")


def book_source(settings: Settings) -> str:
    """The settings that a recipe's weights and days are told by."""
    said: dict[str, object] = {"title": settings.title, "maker": settings.maker, "place": settings.place}
    said |= {"language": settings.language, "units": settings.units}
    said |= {"scale-step": amount(settings.scale_step_grams, "g"), "cure": settings.cure}
    return to_yaml({key: value for key, value in said.items() if value != ""})


def _front(recipe: Published) -> dict[str, Any]:
    """The recipe's fields by their keys in a file, with what the book's settings said for it."""
    model, settings = only_seen(recipe.model, _CARRIED), recipe.settings
    model = model.model_copy(
        update={"superfat": model.superfat or settings.superfat, "water": model.water or settings.water}
    )
    front = model.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    front["lye"] = _lye(recipe.resolved.formula.alkali)
    keys = [key for name in Recipe.model_fields if (key := kebab(name)) in front]
    return {key: front[key] for key in keys if front[key] not in ({}, [], None, "")}


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
