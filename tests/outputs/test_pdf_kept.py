"""A PDF is kept for its sheet and for the files that the sheet shows, and for nothing less."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from importlib import metadata
from pathlib import Path

import pytest

from saponary.assets import step
from saponary.assets.store import DiskStore
from saponary.outputs import pdf_kept, pdf_make
from saponary.outputs.grafted.making import PartJob
from saponary.outputs.pdf_engine import set_sheet
from saponary.outputs.pdf_kind import Attachment, PdfSheet, SetPdf
from saponary.outputs.pdf_press import Failed, Job, Press

SHEET = PdfSheet("a.pdf", "<p>One</p>", (Attachment("a.md", b"source", "The source"),))
FILES = {"photo.jpg": b"photo", "other.html": b"other"}
PDF = b"%PDF-1.7 not really"
MADE = SetPdf(PDF, ("missing.jpg", "photo.jpg"))


@pytest.fixture
def store(tmp_path: Path) -> DiskStore:
    made = DiskStore(tmp_path)
    pdf_kept.keep(made, FILES, SHEET, MADE)
    return made


def test_the_same_sheet_is_recalled_under_any_path(store: DiskStore) -> None:
    assert pdf_kept.recall(store, FILES, SHEET) == MADE
    assert pdf_kept.recall(store, {**FILES, "other.html": b"changed"}, replace(SHEET, path="b.pdf")) == MADE


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


PART = PartJob("front", "<p>One</p>", left=False, numbers={"a": 3})


@pytest.mark.parametrize(
    "part",
    [
        replace(PART, html="<p>Two</p>"),
        replace(PART, left=True),
        replace(PART, numbers={"a": 4}),
        replace(PART, numbers=None),
        replace(PART, name="back"),
    ],
)
def test_a_part_is_kept_for_its_side_and_the_numbers_that_it_prints(part: PartJob, store: DiskStore) -> None:
    made = SetPdf(b"a part", ())
    pdf_kept.keep(store, FILES, PART, made)
    assert pdf_kept.recall(store, FILES, PART) == made
    assert pdf_kept.recall(store, FILES, part) is None


def test_only_what_is_not_kept_is_set(store: DiskStore, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = list[str]()

    def listening(press: Press, jobs: Sequence[Job]) -> Iterator[tuple[int, SetPdf | Failed]]:
        for at, job in enumerate(jobs):
            assert isinstance(job, PdfSheet)
            asked.append(job.path)
            yield at, SetPdf(b"%PDF-" + job.path.encode(), ())

    monkeypatch.setattr(Press, "each", listening)
    monkeypatch.setattr(pdf_make, "ready", lambda: None)
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
