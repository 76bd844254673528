"""The whole book as one PDF, on A4 and on US Letter."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.speaker import speaker
from saponary.outputs.figures_json import as_text, site_object
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import Attachment, PdfContext, PdfKind, PdfSheet
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.whole_book import whole_book


def _render(context: PdfContext) -> Iterator[PdfSheet]:
    site = context.site
    recipes = site.recipes
    if not recipes:
        return
    view = whole_book(site, recipes, context.drawings)
    about = speaker(site.book.settings.language, site.book.settings.units)("book.figures-file")
    figures = Attachment("figures.json", as_text(site_object(site)).encode(), about)
    for size in SIZES:
        sheet = paper(site, size, view.title, subject=view.subtitle)
        yield PdfSheet(
            f"book-{size.name}.pdf",
            fill(context.environment, "press/whole-book.html", paper=sheet, book=view),
            (figures,),
        )


KIND = PdfKind("whole-book", _render, needs="work")
