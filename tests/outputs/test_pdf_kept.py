"""A PDF is kept for its sheet and for the files that the sheet shows, and for nothing less."""

from __future__ import annotations

from dataclasses import replace
from importlib import metadata
from pathlib import Path

import pytest

from saponary.assets import step
from saponary.assets.store import DiskStore
from saponary.outputs import pdf_kept, pdf_make
from saponary.outputs.pdf_engine import SetPdf, set_sheet
from saponary.outputs.pdf_kind import Attachment, PdfSheet

SHEET = PdfSheet("a.pdf", "<p>One</p>", (Attachment("a.md", b"source", "The source"),))
FILES = {"photo.jpg": b"photo", "other.html": b"other"}
PDF = b"%PDF-1.7 not really"


@pytest.fixture
def store(tmp_path: Path) -> DiskStore:
    made = DiskStore(tmp_path)
    pdf_kept.keep(made, FILES, SHEET, ("photo.jpg", "missing.jpg"), PDF)
    return made


def test_the_same_sheet_is_recalled_under_any_path(store: DiskStore) -> None:
    assert pdf_kept.recall(store, FILES, SHEET) == PDF
    assert pdf_kept.recall(store, {**FILES, "other.html": b"changed"}, replace(SHEET, path="b.pdf")) == PDF


@pytest.mark.parametrize(
    "sheet",
    [
        replace(SHEET, html="<p>Two</p>"),
        replace(SHEET, attachments=()),
        replace(SHEET, attachments=(Attachment("a.md", b"changed", "The source"),)),
    ],
)
def test_another_sheet_is_another_pdf(sheet: PdfSheet, store: DiskStore) -> None:
    assert pdf_kept.recall(store, FILES, sheet) is None


@pytest.mark.parametrize(
    "files", [{**FILES, "photo.jpg": b"retouched"}, {}, {**FILES, "missing.jpg": b"there now"}]
)
def test_a_file_that_it_shows_and_that_changed_has_it_set_again(
    files: dict[str, bytes], store: DiskStore
) -> None:
    assert pdf_kept.recall(store, files, SHEET) is None


@pytest.mark.parametrize("library", ["weasyprint", "font-source-serif-pro"])
def test_another_version_of_what_sets_it_has_it_set_again(
    library: str, store: DiskStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = metadata.version
    monkeypatch.setattr(metadata, "version", lambda name: "0" if name == library else real(name))
    monkeypatch.setattr(step, "made", lambda words, make: make())
    step._code.cache_clear()
    try:
        assert pdf_kept.recall(store, FILES, SHEET) is None
    finally:
        step._code.cache_clear()


def test_only_what_is_not_kept_is_set(store: DiskStore, monkeypatch: pytest.MonkeyPatch) -> None:
    def stand_in(files: object, wanted: list[PdfSheet], progress: object) -> dict[str, object]:
        return {sheet.path: SetPdf(b"%PDF-" + sheet.path.encode(), ()) for sheet in wanted}

    asked = list[str]()

    def listening(files: object, wanted: list[PdfSheet], progress: object) -> dict[str, object]:
        asked.extend(sheet.path for sheet in wanted)
        return stand_in(files, wanted, progress)

    monkeypatch.setattr(pdf_make, "_set_all", listening)
    fresh = PdfSheet("b.pdf", "<p>Two</p>")
    made, failed = pdf_make.make(FILES, [SHEET, fresh], store=store)
    assert (asked, failed) == (["b.pdf"], [])
    assert made == {"a.pdf": PDF, "b.pdf": b"%PDF-b.pdf"}
    again, _ = pdf_make.make(FILES, [SHEET, fresh], store=store)
    assert asked == ["b.pdf"] and again == made


@pytest.mark.slow
def test_the_files_that_a_sheet_shows_are_named() -> None:
    page = '<style>@import "s.css"; body {background: url(b.png)}</style><img src="a%20b.jpg" alt="x">'
    shown = set_sheet({"s.css": b"p {color: red}"}, PdfSheet("a.pdf", page)).shown
    assert set(shown) == {"s.css", "b.png", "a b.jpg"}
