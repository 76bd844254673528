"""Label sheets: every recipe that states a net weight, on every grid of the book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.book.published import Published
from saponary.label.beside_list import minds
from saponary.label.label_text import label_text
from saponary.messages.message import message
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import PdfContext, PdfKind, PdfSheet
from saponary.views import links
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.label_sheet import LabelsView, Seen, labels_view
from saponary.views.paper.short_code import code, lot_address

_SIZES = {size.name: size for size in SIZES}


def render(context: PdfContext) -> Iterator[PdfSheet]:
    """None for customers, who stick nothing on a bar."""
    site = context.site
    if site.edition.reader == "customer":
        return
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
            mind = tuple(minds(bar, site.book.settings, law))
            sheet = paper(site, _SIZES[grid.page], title, subject=subject)
            yield PdfSheet(
                f"labels/{recipe.slug}-{name}.pdf",
                fill(context.environment, "press/labels.html", paper=sheet, view=replace(view, minds=mind)),
            )


def _seen(context: PdfContext, recipe: Published) -> Seen:
    """What stands beside a label's text: the code only where labels are made for one lot."""
    site = context.site
    logo, drawing, lot = site.book.logo, links.drawing(recipe.slug, "cured"), recipe.labelled.lot
    return Seen(
        mark=links.LOGO if logo is not None and links.LOGO in context.files else "",
        mark_wide=logo.width / logo.height if logo is not None else 1.0,
        drawing=drawing if drawing in context.files else "",
        code=code(lot_address(site, recipe, lot)) if lot else None,
    )


KIND = PdfKind("labels", render, needs="ingredients")
