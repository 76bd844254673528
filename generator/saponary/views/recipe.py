"""The view of one recipe, the same for its page, its sheet and the book; and what a page has beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple, get_args

from markupsafe import Markup

from saponary.book.published import Published
from saponary.draw.pour import PourDrawing
from saponary.label import cautions
from saponary.messages.message import Message, Number, Value, clauses, message, percent
from saponary.quantity.numbers import Scale
from saponary.quantity.totals import totals
from saponary.schema.methods.method import Waits
from saponary.views import links, names
from saponary.views.at_class import AtClass, at_class
from saponary.views.badge import Badge, badge
from saponary.views.batches import BatchView, Photo, batches
from saponary.views.chemistry import ChemistryView, chemistry
from saponary.views.colour_words import in_words
from saponary.views.contents import Entry, contents
from saponary.views.ingredients import Listing, listings
from saponary.views.key_figures import KeyFigure, key_figures
from saponary.views.lead_photo import lead_photo
from saponary.views.lot_cure import LotCure, lot_cures
from saponary.views.maker_only import MakerOnly, maker_only
from saponary.views.mind import by_stage
from saponary.views.neighbours import Neighbours, neighbours
from saponary.views.order import Beside
from saponary.views.panel import Panel, panel
from saponary.views.paper.record_fields import Blank, sheet_fields
from saponary.views.printed import Printed, of_labels, of_lot, of_recipe
from saponary.views.prose import Prose
from saponary.views.prose_links import Links
from saponary.views.readiness import held_lots
from saponary.views.scene import portions_alone
from saponary.views.site import SiteInput
from saponary.views.sizes import Sizes, sizes
from saponary.views.weigh_sheet import WeighSheet
from saponary.views.work import WorkOrder, work_order


class Swatch(NamedTuple):
    """A line of the drawing's key: a share of the batter, or what else it is; its two colours as SVG."""

    name: Value
    share: Number | None
    role: Message | None
    fresh: str
    cured: str


class FaceWords(NamedTuple):
    """What is said beside a recipe's two drawings, by what its soap passes through between them."""

    made: Message
    made_alt: Message
    kept: Message
    kept_alt: Message
    true_to: Message


class RecipeView(NamedTuple):
    """One recipe. `fresh` and `cured` are addresses of its drawing, from the page or sheet it stands on."""

    slug: str
    title: str
    collection: str
    summary: Markup | None
    held: tuple[Message, ...]
    """Of each lot that is held back, that it is and why."""
    faces: FaceWords
    fresh: str
    cured: str
    swatches: tuple[Swatch, ...]
    badge: Badge | None
    fingerprint: str
    lesson: AtClass | None
    """The class that makes it, at whose size its weights then are; their own figures it works out itself."""
    panel: Panel | None
    work: WorkOrder | None
    unit: str
    notes: Markup | None
    cautions: tuple[cautions.Caution, ...]
    record: tuple[Blank, ...]
    """What is written down beside the weights, on paper."""


class RecipePage(NamedTuple):
    """What the page of a recipe has beside the recipe itself."""

    description: Value
    contents: tuple[Entry, ...]
    collection_href: str
    photo: Photo | None
    faces: tuple[int, int]
    """Width and height of the drawing."""
    minded: Mapping[str, tuple[cautions.Caution, ...]]
    """Cautions by the stage of the work at which each stands."""
    key_figures: tuple[KeyFigure, ...]
    sheets: tuple[Printed, ...]
    labels: tuple[tuple[str, str], ...]
    labels_of_lot: str
    """The command that makes labels of one lot; empty where there are none."""
    sizes: Sizes | None
    chemistry: ChemistryView | None
    ingredients: tuple[Listing, ...]
    batches: tuple[BatchView, ...]
    cures: tuple[LotCure, ...]
    maker_only: MakerOnly | None
    history: str
    """Where its versions are told; '' where they are not."""
    beside: Neighbours


def recipe_view(
    recipe: Published, site: SiteInput, drawing: PourDrawing, to: Links, *, folder: str = "", top: int = 3
) -> RecipeView:
    """`to` says where its texts lead, `folder` where its drawing lies; headings in the maker's notes
    begin at the level `top`.
    """
    computed, settings = recipe, site.book.settings
    photos = {name: site.photos[name] for name in recipe.pictures if name in site.photos}
    model, prose = computed.model, Prose(computed.catalogue, to, photos, recipe.slug)
    lesson = at_class(recipe, site)
    if lesson is not None:
        prose = lesson.prose(prose)
    scale = Scale(settings.scale_step_grams, settings.units)
    body = prose.block(computed.notes, top=top)
    return RecipeView(
        slug=recipe.slug,
        title=prose.title(model.title),
        collection=model.collection or "",
        summary=prose.inline(model.summary) if model.summary else None,
        held=held_lots(computed) if site.shows("batches") else (),
        faces=face_words(computed, prose.title(model.title), drawing),
        fresh=f"{folder}fresh.svg",
        cured=f"{folder}cured.svg",
        swatches=_swatches(drawing, computed),
        badge=badge(recipe, site) if site.shows("badge") else None,
        fingerprint=computed.fingerprint,
        lesson=lesson,
        panel=panel(computed, scale) if site.shows("figures") and lesson is None else None,
        work=_work(recipe, scale, prose, lesson) if site.shows("work") else None,
        unit=settings.units,
        notes=body if body.strip() else None,
        cautions=cautions.for_recipe(computed, making=site.shows("work")),
        record=sheet_fields(model.by, settings.units),
    )


def _work(recipe: Published, scale: Scale, prose: Prose, lesson: AtClass | None) -> WorkOrder:
    if lesson is None:
        return work_order(WeighSheet(recipe, scale, prose))
    return replace(lesson, bench=replace(lesson.bench, prose=prose)).work


def recipe_page(
    recipe: Published,
    site: SiteInput,
    between: Beside,
    view: RecipeView,
    drawing: PourDrawing,
    to: Links,
) -> RecipePage:
    """`between` are its neighbours in the order of the gallery."""
    computed, model = recipe, recipe.model
    prose, lesson = Prose(computed.catalogue, to), view.lesson
    scale = Scale(site.book.settings.scale_step_grams, site.book.settings.units)
    summary = (lesson.prose(prose) if lesson is not None else prose).plain(model.summary)
    sums = lesson is not None and bool(lesson.blank)
    shares = site.edition.formula != "ingredients" and not sums
    listed = listings(site.labels.get(recipe.slug), shares=shares) if site.shows("ingredients") else ()
    stages = view.work.stages if view.work is not None else ()
    made = batches(computed, site, prose)
    return RecipePage(
        contents=contents(
            recipe, site, stages, listed=bool(listed), lots=bool(made), taught=lesson is not None
        ),
        description=summary or message("recipe.description", title=prose.title(model.title)),
        collection_href=f"{to.up}{links.GALLERY}" if model.collection else "",
        photo=lead_photo(recipe, site, prose),
        faces=drawing.size,
        minded=by_stage(recipe, view.cautions, stages),
        key_figures=key_figures(recipe, view.panel) if view.panel is not None else (),
        sheets=of_recipe(recipe.slug, site, to.up),
        labels=of_labels(recipe.slug, site, to.up),
        labels_of_lot=of_lot("", recipe, site) if recipe.batches else "",
        sizes=sizes(computed, scale) if site.shows("sizes") and lesson is None else None,
        chemistry=chemistry(computed)
        if site.shows("chemistry") and computed.resolved.formula.weighs_lye and not sums
        else None,
        ingredients=listed,
        batches=made,
        cures=lot_cures(computed, site, prose),
        maker_only=maker_only(computed, site),
        history=to.up + links.history(recipe.slug) if site.versions.get(recipe.slug) and not sums else "",
        beside=neighbours(between, to.up),
    )


def face_words(computed: Published, title: str, drawing: PourDrawing) -> FaceWords:
    """What is said beside the drawings of a recipe, by its title."""
    waits = computed.model.by.days.waits
    return FaceWords(
        message(f"drawing.as-made.{waits}"),
        message(f"drawing.made-alt.{waits}", title=title, drawing=drawing.description),
        message(f"drawing.as-kept.{waits}"),
        message(f"drawing.kept-alt.{waits}", title=title, colours=_cured(computed)),
        message(f"drawing.true-to.{waits}"),
    )


def _cured(recipe: Published) -> Value:
    """`chalk white; ochre straw`."""
    each = (
        message("drawing.cured-colour", portion=names.spoken(p.name), colour=in_words(p.shade.cured))
        for p in portions_alone(recipe)
    )
    return clauses(*each)


def _swatches(drawing: PourDrawing, recipe: Published) -> tuple[Swatch, ...]:
    """Shares are of the batter by weight, as the work order has them; the areas drawn are by volume."""
    shares = totals((portion.name, portion.share) for portion in recipe.figures.portions)
    return tuple(
        Swatch(
            names.spoken(line.name) if line.role == "portion" else line.name,
            percent(shares[line.name], 0, tight=True)
            if line.name in shares and line.role == "portion"
            else None,
            message(f"drawing.{line.role}") if line.role != "portion" else None,
            line.fresh_swatch,
            line.cured_swatch,
        )
        for line in drawing.legend
    )


_WAITS = get_args(Waits)
KEYS_BY_ID = {
    "drawing.": ("line", "embed", "sprinkle"),
    "drawing.as-made.": _WAITS,
    "drawing.made-alt.": _WAITS,
    "drawing.as-kept.": _WAITS,
    "drawing.kept-alt.": _WAITS,
    "drawing.true-to.": _WAITS,
}
"""Keys that are put together here: what they start with, and the ids that may follow."""
