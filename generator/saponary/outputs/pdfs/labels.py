"""Label sheets: every recipe that states a net weight, on every grid of the book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.label.beside_list import minds
from saponary.label.label_text import label_text
from saponary.messages.message import message
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import PdfContext, PdfKind, PdfSheet
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.label_sheet import LabelsView, labels_view

_SIZES = {size.name: size for size in SIZES}


def render(context: PdfContext) -> Iterator[PdfSheet]:
    site = context.site
    for recipe in site.recipes:
        bar = site.labels.get(recipe.slug)
        if bar is None:
            continue
        for name, grid in site.book.settings.label_sheets.items():
            said = label_text(recipe, bar, site.book.settings, grid.law)
            view = labels_view(said, grid) if said is not None else None
            if said is None or not isinstance(view, LabelsView):
                continue
            subject = message("label.subject", name=said.name, grid=name, caution=said.caution)
            title = message("label.title", name=said.name)
            mind = tuple(minds(bar, site.book.settings, grid.law))
            sheet = paper(site, _SIZES[grid.page], title, subject=subject)
            yield PdfSheet(
                f"labels/{recipe.slug}-{name}.pdf",
                fill(context.environment, "press/labels.html", paper=sheet, view=replace(view, minds=mind)),
            )


KIND = PdfKind("labels", render, needs="ingredients")
