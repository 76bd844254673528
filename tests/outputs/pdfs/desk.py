"""What the tests of the press share: the desk of an edition of one of the repository's books."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import cache
from io import BytesIO
from pathlib import Path

from pypdf import PdfReader

from composed import composed, drawings, spoken
from saponary.assets import resources
from saponary.book.engine import ENGINE
from saponary.build.proof import Proof, prove
from saponary.label.lists import bar
from saponary.outputs.pdf_kind import PdfContext, Wanted
from saponary.outputs.pdf_make import make, sheets
from saponary.schema.edition import editions
from saponary.views.for_edition import Unpublished, for_edition
from support import proof_of

ON = date(2026, 10, 1)


@cache
def desk_of(book: str, edition: str = "public") -> PdfContext:
    """The desk of a book by its name (`starters`, `demo`), or of one at a path; without photos."""
    return desk_for(proof_of(book), edition)


def desk_at(root: Path, edition: str = "public") -> PdfContext:
    return desk_for(prove(root), edition)


def desk_for(proof: Proof, edition: str = "public") -> PdfContext:
    """The desk of an edition of a proofed book, as a build lays it out, but without photos."""
    book = proof.book
    labels = {r.slug: bar(r.computed) for r in proof.recipes}
    whole = Unpublished(book, proof.recipes, ENGINE, book.pantry.version, labels=labels, on=ON)
    wanted = editions(book.settings.editions)[edition]
    site = for_edition(whole, wanted)
    own = book.root / "templates"
    templates = (own, resources.templates()) if own.is_dir() and own != resources.templates() else ()
    drawn = drawings(site)
    files = composed(site, templates, drawn)
    fills = spoken(templates or (resources.templates(),), book.settings.language, book.settings.units)
    return PdfContext(site, files, fills, drawn)


def sheets_of(desk: PdfContext, *kinds: str) -> dict[str, Wanted]:
    """The composed sheets of some kinds by their path."""
    return {sheet.path: sheet for sheet in sheets(desk, kinds)}


def pdfs_of(desk: PdfContext, wanted: Sequence[Wanted]) -> dict[str, bytes]:
    """Sheets set as PDFs; every one of them must come out."""
    pdfs, failed = make(desk.files, wanted)
    assert not failed, failed
    return pdfs


def read(pdf: bytes) -> PdfReader:
    return PdfReader(BytesIO(pdf))
