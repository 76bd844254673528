"""Label sheets, the maker's alone: every recipe that states a net weight, on every grid of the book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.book.published import Published
from saponary.label.beside_list import minds
from saponary.label.label_text import label_text
from saponary.messages.message import Message, message
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import PdfContext, PdfKind, PdfSheet
from saponary.views import links
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.label_sheet import LabelsView, Seen, labels_view
from saponary.views.paper.short_code import code, lot_address, without_address
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
            mind = (*minds(bar, site.book.settings, law), *_without_code(site, recipe, view))
            sheet = paper(site, _SIZES[grid.page], title, subject=subject)
            yield PdfSheet(
                f"labels/{recipe.slug}-{name}.pdf",
                fill(context.environment, "press/labels.html", paper=sheet, view=replace(view, minds=mind)),
            )


def _without_code(site: SiteInput, recipe: Published, view: LabelsView) -> Iterator[Message]:
    """Why labels of a lot have no code."""
    lot = recipe.labelled.lot
    if lot and view.seen.code is None:
        yield without_address(site, recipe.slug, lot) or message("label.no-code.no-room", lot=lot)


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
