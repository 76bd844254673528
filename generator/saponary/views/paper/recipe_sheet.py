"""One recipe on paper: what a student takes to the bench and writes on."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup

from saponary.draw.pour import PourDrawing
from saponary.label import cautions
from saponary.quantity.numbers import Scale
from saponary.views import links
from saponary.views.badge import Badge, badge
from saponary.views.panel import Entry, Panel, panel
from saponary.views.paper.short_code import code, page_address, told
from saponary.views.prose import Prose
from saponary.views.site import RecipeInput, SiteInput
from saponary.views.weigh_sheet import Bench
from saponary.views.work import Stage, work_order

FIGURE_FONT = "Source Sans Pro"
"""Of charts: an SVG inside a sheet does not take the face of the text round it."""

_ROLES = {"portion": "", "line": "dusted line", "embed": "set in", "strewn": "strewn"}


@dataclass(frozen=True)
class Key:
    """A line of the drawing's key, with its two colours."""

    name: str
    note: str
    fresh: Markup
    cured: Markup


@dataclass(frozen=True)
class PaperRecipe:
    """A recipe as `press/part/recipe.html` and its neighbours show it."""

    slug: str
    title: str
    collection: str
    summary: Markup | None
    fresh: str
    cured: str
    fresh_alt: str
    cured_alt: str
    keys: tuple[Key, ...]
    badge: Badge | None
    fingerprint: str
    figures: tuple[Entry, ...]
    superfat: tuple[Entry, ...]
    band: Markup
    unit: str
    stages: tuple[Stage, ...]
    cautions: tuple[cautions.Caution, ...]
    notes: Markup | None
    code: Markup
    address: str


def paper_recipe(
    recipe: RecipeInput,
    site: SiteInput,
    drawing: PourDrawing,
    linked: frozenset[str] = frozenset(),
) -> PaperRecipe:
    """`linked` are the recipes that stand on the same paper, to which a text may lead."""
    computed, settings = recipe.computed, site.book.settings
    prose = Prose(computed.catalogue, linked)
    scale = Scale(settings.scale_step_grams, settings.units)
    title = prose.title(computed.model.title)
    figures = panel(computed, scale) if site.shows("figures") else None
    body = prose.block(computed.notes, top=5)
    address = page_address(site, recipe.slug)
    return PaperRecipe(
        slug=recipe.slug,
        title=title,
        collection=computed.model.collection or "",
        summary=on_paper(prose.inline(computed.model.summary)) if computed.model.summary else None,
        fresh=links.drawing(recipe.slug, "fresh"),
        cured=links.drawing(recipe.slug, "cured"),
        fresh_alt=f"{title} as poured. {drawing.description}",
        cured_alt=f"{title} as cured: the same pour in its later colours.",
        keys=_keys(drawing),
        badge=badge(recipe, site) if site.shows("badge") else None,
        fingerprint=computed.fingerprint,
        figures=(*figures.weights, *figures.lye) if figures else (),
        superfat=figures.superfat if figures else (),
        band=_band(figures),
        unit=settings.units,
        stages=work_order(Bench(computed, scale, Prose(computed.catalogue))),
        cautions=cautions.for_recipe(computed),
        notes=on_paper(body) if body.strip() else None,
        code=code(address),
        address=address,
    )


def _band(figures: Panel | None) -> Markup:
    return told(figures.band.svg, figures.band.description, FIGURE_FONT) if figures else Markup("")


def _keys(drawing: PourDrawing) -> tuple[Key, ...]:
    return tuple(
        Key(
            name := line.name.replace("-", " ") if line.role == "portion" else line.name,
            f"{line.share_percent} %" if line.share_percent is not None else _ROLES[line.role],
            told(line.fresh_swatch, f"{name}, colour as poured"),
            told(line.cured_swatch, f"{name}, colour as cured"),
        )
        for line in drawing.legend
    )


_LINK = re.compile(r'<a href="([^"]*)"([^>]*)>(.*?)</a>', re.DOTALL)
_PAGE = re.compile(r"recipes/([a-z0-9-]+)/index\.html(?:#.*)?")
_OUTSIDE = ("http:", "https:", "mailto:")


def on_paper(text: Markup) -> Markup:
    """Links as paper can hold them: to a recipe of the same paper, or to the web; others are text."""
    return Markup(_LINK.sub(_kept, text))


def _kept(found: re.Match[str]) -> str:
    address, more, words = found.groups()
    page = _PAGE.fullmatch(address)
    if page is not None:
        return f'<a href="#recipe-{page[1]}"{more}>{words}</a>'
    return found[0] if address.lower().startswith(_OUTSIDE) else words
