"""Settings and pantry enter every sum: where one is broken, that alone is told, and nothing is signed, recorded or exported."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.cli.main import main
from saponary.reading.findings import Finding, has_errors
from support import PLAIN, write_book

OLIVE = """oils:
  olive:
    saponification-value: {value: 186.0 mg/g, range: [185 mg/g, 187 mg/g], from: certificate}
  gannet-seed:
    like: olive
    name: Gannet seed oil
    inci: Invented Seed Oil
moulds:
  tray: {slab: {length: 200 mm, width: 100 mm, height: 40 mm}}
"""
BOOK = "purity: {sodium: 97 %}\n"
OTHER = PLAIN.replace("title: Plain", "title: Other").replace("    coconut:", "    gannet-seed:")
BROKEN = {
    "a pantry with a wrong key": {"pantry.yaml": OLIVE.replace("value: 186.0", "valeu: 186.0")},
    "a pantry that is no YAML": {"pantry.yaml": OLIVE + "additions: [\n"},
    "a pantry of the wrong kind": {"pantry.yaml": "- olive\n"},
    "a pantry that is no text": {"pantry.yaml": OLIVE.encode() + b"\xff\xfe"},
    "settings with a wrong key": {"book.yaml": BOOK + "moulds-are: here\n"},
    "settings that are no YAML": {"book.yaml": BOOK + "title: [\n"},
    "a purity that is none": {"book.yaml": "purity: {sodium: 12 %}\n"},
}


@pytest.fixture
def book(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """Signed with an oil and a purity of its own."""
    files = {"book.yaml": BOOK, "pantry.yaml": OLIVE, "recipes/plain.md": PLAIN, "recipes/other.md": OTHER}
    root = write_book(tmp_path, files)
    assert main(["sign", "--book", str(root), "--drafts"]) == 0
    capsys.readouterr()
    assert not has_errors(prove(root).findings)
    return root


FAST = ("a pantry with a wrong key", "a purity that is none")


@pytest.mark.parametrize(
    "files",
    [
        pytest.param(files, id=name, marks=() if name in FAST else pytest.mark.slow)
        for name, files in BROKEN.items()
    ],
)
def test_it_alone_is_told_and_nothing_is_made_of_it(
    files: dict[str, str | bytes], book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (name,) = files
    write_book(book, files)
    found: tuple[Finding, ...] = prove(book).findings
    assert has_errors(found) and {one.place.file for one in found} == {name}, found
    before = {path: path.read_bytes() for path in (book / "recipes").iterdir()}
    for words in (
        ["sign", "plain", "--book", str(book)],
        ["sign", "--book", str(book), "--drafts"],
        ["record", "plain", "--book", str(book), "--on", "2026-03-02"],
        ["export", str(tmp_path / "out"), "--book", str(book)],
    ):
        assert main(words) == 1, words
        told = capsys.readouterr()
        assert name in told.out and "enters every sum" in told.err
    assert {path: path.read_bytes() for path in (book / "recipes").iterdir()} == before
    assert not (tmp_path / "out").exists()
