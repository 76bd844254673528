"""Label sheets without a build: of recipes, or of one lot with its name, its date and its code."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.cli.main import main
from saponary.outputs.pdf_kind import PdfSheet
from support import PLAIN, write_book

BOOK = """\
base-url: https://soap.example
durability-months: 24
sold-in: {eu: {responsible: {name: Ines Harrowgate, address: 1 Example Street}}}
label-sheets:
  wide: {width: 90 mm, height: 50 mm, columns: 2, rows: 5}
  us: {width: 90 mm, height: 50 mm, columns: 2, rows: 5, law: us}
"""
LOTS = """\
label: {net-weight: 100 g}
batches:
  - {lot: A1, poured: 2026-03-02, formula: "000000000000"}
  - {lot: A/2, poured: 2026-03-03}
  - {lot: A3, poured: 2026-03-04, formula: 0123456789ab}
  - {lot: A4, poured: 2026-03-05, free-alkali: {test: paper, result: present, on: 2026-05-01}}
signed:"""


@pytest.fixture
def book(tmp_path: Path) -> Path:
    text = PLAIN.replace("signed:", LOTS, 1)
    other = PLAIN.replace("Plain Bar", "Other").replace(
        "signed:", "batches: [{lot: B1, poured: 2026-03-02}]\nsigned:", 1
    )
    root = write_book(
        tmp_path / "book", {"book.yaml": BOOK, "recipes/plain.md": text, "recipes/other.md": other}
    )
    (one,) = (r for r in prove(root).recipes if r.slug == "plain")
    (root / "recipes/plain.md").write_text(text.replace("000000000000", one.computed.fingerprint))
    return root


@pytest.fixture
def composed(monkeypatch: pytest.MonkeyPatch) -> dict[str, str]:
    """What is to be set, by its path; nothing is."""
    found = dict[str, str]()

    def make(files: object, wanted: list[PdfSheet], *_: object) -> tuple[dict[str, bytes], list[object]]:
        found.update({one.path: one.html for one in wanted})
        return {one.path: one.html.encode() for one in wanted}, []

    monkeypatch.setattr("saponary.build.label_sheets.make", make)
    return found


def run(book: Path, *words: str) -> int:
    return main(["labels", str(book.parent / "out"), *words, "--book", str(book)])


def test_labels_of_a_lot_have_its_name_its_date_and_its_code(book: Path, composed: dict[str, str]) -> None:
    assert run(book, "--lot", "A1") == 0
    assert set(composed) == {"labels/plain-wide-a1.pdf", "labels/plain-us-a1.pdf"}
    assert sorted(p.name for p in (book.parent / "out").iterdir()) == ["plain-us-a1.pdf", "plain-wide-a1.pdf"]
    html = composed["labels/plain-wide-a1.pdf"]
    assert html.count("Lot A1") == 10 and "https://soap.example/lots/plain/a1/index.html" in html
    assert "by what is known" not in html


def test_what_a_lot_lacks_is_told_on_its_sheet(book: Path, composed: dict[str, str]) -> None:
    """No oil has a dated lot, so that 24 months after the pour are the latest that the date may be."""
    assert run(book, "--lot", "A/2") == 0
    html = re.sub(r"</?time[^>]*>", "", composed["labels/plain-wide-a-2.pdf"].replace("\u00a0", " "))
    assert "names no formula" in html and "good until 3 March 2028 at the latest" in html
    assert "at the latest" not in composed["labels/plain-us-a-2.pdf"], "there a label has no date"


def test_without_a_lot_they_are_those_of_the_makers_edition(book: Path, composed: dict[str, str]) -> None:
    assert run(book) == 0
    assert set(composed) == {"labels/plain-wide.pdf", "labels/plain-us.pdf"}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--lot", "A3"], "lot A3 was poured to another formula than the recipe has now"),
        (["--lot", "A4"], "lot A4 is held back"),
        (["--lot", "A9"], "no batch of the lot 'A9' is recorded; did you mean 'A1'?"),
        (["plain", "--lot", "B1"], "no batch of the lot 'B1' is recorded"),
        (["--lot", "B1"], "recipes/other.md states no net weight"),
        (["other"], "recipes/other.md states no net weight"),
        (["plane"], "there is no recipe 'plane'"),
    ],
)
def test_what_cannot_be_labelled_is_told(
    words: list[str], told: str, book: Path, composed: dict[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(book, *words) == 2
    assert told in capsys.readouterr().err
    assert not composed and not (book.parent / "out").exists()


def test_of_a_lot_that_two_recipes_record_none_are_made(
    book: Path, composed: dict[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    path = book / "recipes/other.md"
    path.write_text(path.read_text().replace("lot: B1", "lot: A1"))
    assert run(book, "plain", "--lot", "A1") == 1
    assert "the lot 'A1' is recorded for 'other' too" in capsys.readouterr().out and not composed


def test_none_go_into_what_is_uploaded(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for folder in ("site", "site/labels", "site/../site/x"):
        assert main(["labels", str(book / folder), "--book", str(book)]) == 2
        assert "what you upload" in capsys.readouterr().err


def test_a_book_without_label_paper_is_told_how(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (book / "book.yaml").write_text("title: Bare\n")
    assert run(book) == 2 and "label-sheets:" in capsys.readouterr().err


def test_labels_that_do_not_fit_are_told_and_not_made(
    book: Path, composed: dict[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    (book / "book.yaml").write_text(
        "label-sheets: {tiny: {width: 20 mm, height: 10 mm, columns: 1, rows: 1}}\n"
    )
    assert run(book, "plain") == 1
    assert "[label-fit]" in capsys.readouterr().out and not (book.parent / "out").exists()


@pytest.mark.slow
def test_the_sheets_are_the_very_ones_of_a_build(book: Path) -> None:
    assert run(book) == 0
    assert main(["build", str(book), "--edition", "maker", "--press", "--on", "2026-06-01"]) == 0
    for name in ("plain-wide.pdf", "plain-us.pdf"):
        assert (book.parent / "out" / name).read_bytes() == (
            book / "private/maker/labels" / name
        ).read_bytes()
