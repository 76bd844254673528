"""The view of one recipe, in the order a maker uses its page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from saponary.draw.pour import PourDrawing
from saponary.label import cautions
from saponary.quantity.numbers import Scale
from saponary.views import links
from saponary.views.badge import Badge, badge
from saponary.views.batches import BatchView, Photo, batches, photo
from saponary.views.chemistry import ChemistryView, chemistry
from saponary.views.ingredients import Listing, listings
from saponary.views.lot_cure import LotCure, lot_cures
from saponary.views.maker_only import Own, own
from saponary.views.panel import Panel, panel
from saponary.views.prose import Prose
from saponary.views.site import RecipeInput, SiteInput
from saponary.views.sizes import Sizes, sizes
from saponary.views.weigh_sheet import Bench
from saponary.views.work import Stage, work_order


@dataclass(frozen=True)
class Swatch:
    """A line of the drawing's key."""

    name: str
    share: str
    role: str
    fresh: Markup
    cured: Markup


@dataclass(frozen=True)
class Neighbour:
    title: str
    href: str


@dataclass(frozen=True)
class RecipeView:
    slug: str
    title: str
    description: str
    summary: Markup | None
    collection: str
    collection_href: str
    drawing: str
    swatches: tuple[Swatch, ...]
    photo: Photo | None
    badge: Badge | None
    panel: Panel | None
    unit: str
    beside: str
    stages: tuple[Stage, ...]
    sizes: Sizes | None
    notes: Markup | None
    chemistry: ChemistryView | None
    ingredients: tuple[Listing, ...]
    batches: tuple[BatchView, ...]
    cures: tuple[LotCure, ...]
    own: Own | None
    cautions: tuple[cautions.Caution, ...]
    before: Neighbour | None
    after: Neighbour | None


_ROLES = {"portion": "", "line": "dusted line", "embed": "set in", "strewn": "strewn"}


def recipe_view(
    recipe: RecipeInput,
    site: SiteInput,
    drawing: PourDrawing,
    row: Sequence[RecipeInput],
    published: frozenset[str],
) -> RecipeView:
    """`row` is the recipes in the order of the gallery, for the ways to the neighbours."""
    computed, settings = recipe.computed, site.book.settings
    model, up = computed.model, links.root(links.recipe_page(recipe.slug))
    prose = Prose(computed.catalogue, published, up)
    scale = Scale(settings.scale_step_grams, settings.units)
    place = next(i for i, other in enumerate(row) if other.slug == recipe.slug)
    body = prose.block(computed.notes)
    title = prose.title(model.title)
    return RecipeView(
        slug=recipe.slug,
        title=title,
        description=prose.plain(model.summary) or f"{title}: weights, work order and drawing.",
        summary=prose.inline(model.summary) if model.summary else None,
        collection=model.collection or "",
        collection_href=f"{up}{links.GALLERY}#{links.anchor(model.collection)}" if model.collection else "",
        drawing=drawing.description,
        swatches=_swatches(drawing),
        photo=photo(model.photo, site, prose, model.title) if model.photo else None,
        badge=badge(recipe, site) if site.shows("badge") else None,
        panel=panel(computed, scale) if site.shows("figures") else None,
        unit=settings.units,
        beside=scale.beside,
        stages=work_order(Bench(computed, scale, prose)) if site.shows("work") else (),
        sizes=sizes(computed, scale) if site.shows("sizes") else None,
        notes=body if body.strip() else None,
        chemistry=chemistry(computed) if site.shows("chemistry") else None,
        ingredients=listings(site.labels.get(recipe.slug), shares=site.edition.formula != "ingredients")
        if site.shows("ingredients")
        else (),
        batches=batches(computed, site, prose),
        cures=lot_cures(computed, site, prose),
        own=own(computed, site),
        cautions=cautions.for_recipe(computed, making=site.shows("work")),
        before=_neighbour(row[place - 1], up) if place > 0 else None,
        after=_neighbour(row[place + 1], up) if place + 1 < len(row) else None,
    )


def _swatches(drawing: PourDrawing) -> tuple[Swatch, ...]:
    return tuple(
        Swatch(
            line.name.replace("-", " ") if line.role == "portion" else line.name,
            f"{line.share_percent} %" if line.share_percent is not None else "",
            _ROLES[line.role],
            Markup(line.fresh_swatch),
            Markup(line.cured_swatch),
        )
        for line in drawing.legend
    )


def _neighbour(recipe: RecipeInput, up: str) -> Neighbour:
    title = Prose(recipe.computed.catalogue).title(recipe.computed.model.title)
    return Neighbour(title, up + links.recipe_page(recipe.slug))
