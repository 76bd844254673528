"""The whole book as one PDF, on A4 and on US Letter."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.speaker import speaker
from saponary.outputs.figures_json import as_text, site_object
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import Attachment, Part, PdfBook, PdfContext, PdfKind
from saponary.views.paper.frame import SIZES, Paper, paper
from saponary.views.paper.whole_book import WholeBook, whole_book


def _render(context: PdfContext) -> Iterator[PdfBook]:
    site = context.site
    if not site.recipes:
        return
    view = whole_book(site, context.drawings)
    about = speaker(site.book.settings.language, site.book.settings.units)("book.figures-file")
    figures = Attachment("figures.json", as_text(site_object(site)).encode(), about)
    for size in SIZES:
        sheet = paper(site, size, view.title, subject=view.subtitle)
        yield PdfBook(f"book-{size.name}.pdf", tuple(_parts(context, sheet, view)), (figures,))


def _parts(context: PdfContext, sheet: Paper, book: WholeBook) -> Iterator[Part]:
    """What stands before the recipes, each recipe, and what stands after them."""

    def filled(name: str, **view: object) -> str:
        return fill(context.environment, f"press/book-{name}.html", paper=sheet, **view)

    yield Part("front", filled("front", book=book), "right", numbers=True)
    for chapter in book.chapters:
        for recipe in chapter.recipes:
            html = filled(
                "recipe",
                chapter=chapter,
                opens_chapter=recipe is chapter.recipes[0],
                recipe=recipe,
                photo=book.photos.get(recipe.slug),
                more=book.more[recipe.slug],
                days=book.days[recipe.slug],
            )
            yield Part(f"recipe-{recipe.slug}", html, within=chapter.id)
    yield Part("back", filled("back", book=book), "next", numbers=True)


KIND = PdfKind("whole-book", _render, needs="work")
