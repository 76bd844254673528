"""The words of every recipe's oils, additions and notes, for the search of the index: a script, so that it opens
from a disk too, and asked for only when somebody searches."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator
from html import unescape

from saponary.book.published import Published
from saponary.outputs import rests_on
from saponary.outputs.page_kind import RECIPES, PageContext, PageKind, SiteFile
from saponary.views import names
from saponary.views.prose import Prose

_TAG = re.compile(r"<[^>]*>")
_WORD = re.compile(r"[^\W_]{2,}")


def address(context: PageContext) -> str:
    """Where the words lie, from the top of the site."""
    return "assets/words.js"


def folded(text: str) -> str:
    """Small letters without their accents, as the script folds what is typed."""
    apart = unicodedata.normalize("NFD", text.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def words_of(recipe: Published) -> str:
    """Each word once, in order."""
    shelf, formula = recipe.pantry, recipe.resolved.formula
    used = [oil.id for oil in formula.oils] + [q.id for q in formula.liquids]
    used += [addition.id for addition in formula.additions]
    said = [names.anything(shelf, name) for name in used]
    said += [names.botanical(shelf, oil.infused_with) for oil in formula.oils if oil.infused_with]
    said += [
        recipe.model.collection or "",
        _TAG.sub(" ", unescape(Prose(recipe.catalogue).block(recipe.notes))),
    ]
    return " ".join(sorted(set(_WORD.findall(folded(" ".join(said))))))


def _of_recipe(slug: str) -> tuple[str, ...]:
    return rests_on.recipe(slug), rests_on.notes(slug)


def _render(context: PageContext) -> Iterator[SiteFile]:
    def write() -> bytes:
        rows = context.rows.of("words", context.recipes, _of_recipe, words_of)
        words = {recipe.slug: row for recipe, row in zip(context.recipes, rows, strict=True)}
        return f"saponaryWords({json.dumps(words, ensure_ascii=False, indent=0)});\n".encode()

    said = (rests_on.notes(recipe.slug) for recipe in context.recipes)
    uses = (rests_on.SETTINGS, *rests_on.recipes(context.recipes), *said)
    yield SiteFile(address(context), write, uses)


KIND = PageKind("searching", _render, readers=RECIPES)
