"""The kinds of PDF, in the order they are set. A new one is a module and its line here."""

from __future__ import annotations

from saponary.outputs.pdf_kind import PdfKind
from saponary.outputs.pdfs import class_handout, labels, recipe_sheet, whole_book

KINDS: tuple[PdfKind, ...] = (
    class_handout.KIND,
    labels.KIND,
    recipe_sheet.KIND,
    whole_book.KIND,
)
