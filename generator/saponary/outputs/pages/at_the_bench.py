"""A recipe's work order for a phone in gloved hands, and the script that keeps its ticks."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from functools import partial

from saponary.book.published import Published
from saponary.label import cautions
from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.templating import script
from saponary.quantity.numbers import Scale
from saponary.views import links
from saponary.views.at_class import at_class
from saponary.views.bench_screens import screens
from saponary.views.prose import Prose
from saponary.views.readiness import held_lots
from saponary.views.weigh_sheet import WeighSheet
from saponary.views.work import work_order


def _render(context: PageContext) -> Iterator[SiteFile]:
    keeper = script(context.templates, "ticks.js")
    worker = script(context.templates, OFFLINE)
    yield SiteFile(context.script("ticks.js"), lambda: keeper, (rests_on.TEMPLATES,))
    yield SiteFile(OFFLINE, lambda: worker, (rests_on.TEMPLATES,))


def _each(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    path = links.at_the_bench(recipe.slug)
    of = (*rests_on.taught(context.site), rests_on.recipe(recipe.slug), *rests_on.scraps(recipe))
    uses = (*rests_on.FRAME, rests_on.leads(recipe.slug), *of)
    yield SiteFile(path, partial(_page, context, recipe, path), uses, recipe.slug)


def _page(context: PageContext, recipe: Published, path: str) -> bytes:
    computed, settings, up = recipe, context.site.book.settings, links.root(path)
    prose = Prose(computed.catalogue, context.links(path))
    scale = Scale(settings.scale_step_grams, settings.units)
    lesson = at_class(recipe, context.site)
    order = lesson.work if lesson is not None else work_order(WeighSheet(computed, scale, prose))
    return context.page(
        "at-the-bench.html",
        path,
        title=prose.title(computed.model.title),
        home=up + links.recipe_page(recipe.slug),
        formula=computed.fingerprint if context.site.shows("badge") else "",
        ticks=_key(settings.title, recipe.slug, computed.fingerprint, lesson.title if lesson else ""),
        lesson=lesson,
        screens=screens(order.stages),
        held=held_lots(computed) if context.site.shows("batches") else (),
        cautions=cautions.for_recipe(computed),
        unit=order.unit,
        beside=order.beside,
        script=up + context.script("ticks.js"),
        worker=up + OFFLINE,
        face=context.drawings.of(recipe),
    )


OFFLINE = "offline.js"
"""The worker that keeps pages for a bench without a network. It serves what lies beside and below it, and so
stands at the top of the site."""


def _key(*named: str) -> str:
    """What the ticks are kept under: another for every book, recipe and formula."""
    return f"saponary {hashlib.sha256(chr(0).join(named).encode()).hexdigest()[:16]}"


KIND = PageKind("at-the-bench", _render, _each, needs="work")
