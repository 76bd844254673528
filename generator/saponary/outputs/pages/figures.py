"""The figures for programs: of each recipe as JSON beside its page, and a list of them at the top of the site."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.book.published import Published
from saponary.outputs import rests_on
from saponary.outputs.figures_json import as_text, figures_index, figures_rows, published_object
from saponary.outputs.page_kind import RECIPES, PageContext, PageKind, SiteFile
from saponary.views import links


def _render(context: PageContext) -> Iterator[SiteFile]:
    site = context.site
    rows = figures_rows(site, context.rows)
    listed = (rests_on.SETTINGS, rests_on.EDITION, rests_on.VERSIONS, rows.name)
    yield SiteFile(links.FIGURES, lambda: figures_index(site, rows.found()).encode(), listed)


def _each(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    taught = rests_on.taught(context.site)
    uses = (rests_on.SETTINGS, rests_on.EDITION, *taught, rests_on.recipe(recipe.slug))
    yield SiteFile(links.figures(recipe.slug), partial(_of, context, recipe), uses, recipe.slug)


def _of(context: PageContext, recipe: Published) -> bytes:
    return as_text(published_object(recipe, context.site)).encode()


KIND = PageKind("figures", _render, _each, readers=RECIPES)
