"""Label sheets, the maker's alone: every recipe that states a net weight, on every grid of the book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.book.published import Published
from saponary.label.beside_list import minds, wanted
from saponary.label.label_text import label_text
from saponary.messages.message import Message, day, message
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import PdfContext, PdfKind, PdfSheet
from saponary.schema.selling import PlaceOfSale
from saponary.views import links, names
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.label_sheet import LabelsView, Seen, labels_view
from saponary.views.paper.short_code import code, lot_address, without_address
from saponary.views.readiness import lots_of
from saponary.views.site import SiteInput

_SIZES = {size.name: size for size in SIZES}


def render(context: PdfContext) -> Iterator[PdfSheet]:
    site = context.site
    for recipe in site.recipes:
        bar = site.labels.get(recipe.slug)
        if bar is None:
            continue
        seen = _seen(context, recipe)
        for name, grid in site.book.settings.label_sheets.items():
            law = site.book.settings.law_of(grid)
            said = label_text(recipe, bar, site.book.settings, law)
            view = labels_view(said, grid, law, seen) if said is not None else None
            if said is None or not isinstance(view, LabelsView):
                continue
            subject = message("label.subject", name=said.name, grid=name, caution=said.caution)
            title = message("label.title", name=said.name)
            mind = (*minds(bar, site.book.settings, law), *_of_lot(site, recipe, law, view))
            sheet = paper(site, _SIZES[grid.page], title, subject=subject)
            yield PdfSheet(
                f"labels/{recipe.slug}-{name}.pdf",
                fill(context.environment, "press/labels.html", paper=sheet, view=replace(view, minds=mind)),
            )


def _of_lot(site: SiteInput, recipe: Published, law: PlaceOfSale, view: LabelsView) -> Iterator[Message]:
    """What labels of a lot lack, and why."""
    lot = recipe.labelled.lot
    if not lot:
        return
    yield from _not_yet(site, recipe, lot)
    if view.seen.code is None:
        yield without_address(site, recipe.slug, lot) or message("label.no-code.no-room", lot=lot)
    good = recipe.best_before.get(lot)
    if (
        good is not None
        and not good.sure
        and wanted(law, "durability")
        and site.book.settings.durability_months
    ):
        oils = names.together(recipe.pantry, good.undated)
        yield message("label.undated", lot=lot, oils=oils, day=day(good.day))
    if any(r.batch.lot == lot and r.batch.formula is None for r in recipe.batches):
        yield message("label.no-formula", lot=lot)


def _not_yet(site: SiteInput, recipe: Published, lot: str) -> Iterator[Message]:
    """What keeps a lot from being labelled on the day."""
    one = next((one for one in lots_of(recipe) if one.batch.lot == lot), None)
    if one is None or one.standing.held:
        return
    if one.readiness.on > site.on:
        yield message("label.curing", lot=lot, day=day(one.readiness.on))
    elif not one.standing.ready:
        yield message("label.untested", lot=lot)


def _seen(context: PdfContext, recipe: Published) -> Seen:
    """What stands beside a label's text: the code only where labels are made for one lot."""
    site = context.site
    logo, lot = site.book.logo, recipe.labelled.lot
    return Seen(
        mark=links.LOGO if logo is not None else "",
        mark_wide=logo.width / logo.height if logo is not None else 1.0,
        drawing=links.drawing(recipe.slug, "cured"),
        code=code(lot_address(site, recipe.slug, lot)) if lot else None,
    )


KIND = PdfKind("labels", render, needs="private")
