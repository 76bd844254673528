"""Recipe pages, each with its two drawings as files beside it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.book.published import Published
from saponary.messages.speaker import speaker
from saponary.outputs import rests_on
from saponary.outputs.page_kind import RECIPES, PageContext, PageKind, SiteFile
from saponary.outputs.pages.card import card
from saponary.outputs.structured import how_to, picture
from saponary.views import links
from saponary.views.recipe import recipe_page, recipe_view


def _each(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    path = links.recipe_page(recipe.slug)
    drawn = (rests_on.recipe(recipe.slug), *rests_on.scraps(recipe))
    own = (rests_on.notes(recipe.slug), rests_on.history(recipe.slug))
    others = (*rests_on.others(recipe.slug), rests_on.pdfs(recipe.slug))
    uses = (*rests_on.FRAME, *others, *own, *rests_on.taught(context.site), *drawn)
    yield SiteFile(path, partial(_page, context, recipe, path), uses, recipe.slug)
    yield from drawing_files(context, recipe)


def drawing_files(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    """The two faces of a recipe's drawing."""
    drawn = (rests_on.recipe(recipe.slug), *rests_on.scraps(recipe))
    for when in ("fresh", "cured"):
        write = partial(_drawing, context, recipe, when)
        yield SiteFile(links.drawing(recipe.slug, when), write, (rests_on.SETTINGS, *drawn), recipe.slug)


def _page(context: PageContext, recipe: Published, path: str) -> bytes:
    to = context.links(path)
    view = recipe_view(recipe, context.site, context.drawings.of(recipe), to)
    beside = recipe_page(
        recipe, context.site, context.site.beside[recipe.slug], view, context.drawings.of(recipe), to
    )
    shown = picture(beside.photo, context.top, path)
    say = speaker(context.site.book.settings.language, context.site.book.settings.units)
    told = how_to(view, say.say(beside.description), shown, say)
    passed_on = card(context, recipe.slug, view.title, beside.photo)
    return context.page("recipe.html", path, recipe=view, page=beside, picture=passed_on, structured=told)


def _drawing(context: PageContext, recipe: Published, when: str) -> bytes:
    drawn = context.drawings.of(recipe)
    return (drawn.fresh_svg if when == "fresh" else drawn.cured_svg).encode("utf-8")


KIND = PageKind("recipe", each=_each, readers=RECIPES)
