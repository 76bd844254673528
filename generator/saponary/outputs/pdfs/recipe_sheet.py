"""Recipe sheets: every recipe for the bench, on A4 and on US Letter, its source inside."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs.attached.recipe import attachments
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import PdfContext, PdfKind, PdfSheet
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.print_photo import SHEET, print_photo
from saponary.views.paper.recipe_sheet import paper_recipe
from saponary.views.paper.short_code import code, page_address


def _render(context: PdfContext) -> Iterator[PdfSheet]:
    site = context.site
    for recipe in site.in_order:
        view = paper_recipe(recipe, site, context.drawings.of(recipe))
        photo = print_photo(recipe, site, SHEET)
        square = code(page_address(site, recipe.slug))
        carried = attachments(recipe, site)
        for size in SIZES:
            head = message("sheet.head", title=view.title, formula=view.fingerprint)
            subject = message("sheet.subject", book=site.book.settings.title)
            sheet = paper(site, size, view.title, subject=subject, head=head)
            path = f"recipes/{recipe.slug}/{recipe.slug}-{size.name}.pdf"
            yield PdfSheet(
                path,
                fill(
                    context.environment,
                    "press/recipe-sheet.html",
                    paper=sheet,
                    recipe=view,
                    photo=photo,
                    code=square,
                ),
                carried,
            )


KIND = PdfKind("recipe-sheet", _render, needs="work")
