"""A book adds claim words of its own, and silences some of the standard list with a reason."""

from __future__ import annotations

from pathlib import Path

from saponary.build.proof import prove
from support import PLAIN, write_book

OWN = """\
claims:
  - id: moon-washed
    group: cosmetic
    language: en
    forms: ["moon-washed|moonwashed"]
    why: our own promise not to say it
    neutral: made at night
"""


def test_the_books_own_words_are_read(tmp_path: Path) -> None:
    text = PLAIN.replace("A plain bar.", "A moon-washed bar.")
    assert prove(write_book(tmp_path / "a", {"recipes/a.md": text})).findings[0].rule == "unsigned"

    found = [
        f
        for f in prove(write_book(tmp_path / "b", {"recipes/a.md": text, "claims.yaml": OWN})).findings
        if f.rule == "claims"
    ]
    assert [(f.severity, f.place.line, f.place.column) for f in found] == [("warning", 14, 3)]
    assert "moon-washed" in found[0].message and "made at night" in found[0].hint


def test_what_is_silenced_is_kept_with_its_reason(tmp_path: Path) -> None:
    silence = "silence:\n  - {id: organic, because: every oil here is certified}\n"
    (waived,) = prove(write_book(tmp_path, {"recipes/a.md": PLAIN, "claims.yaml": silence})).book.waived
    assert (waived.name, waived.because) == ("claims, entry organic", "every oil here is certified")
    assert (waived.place.file, waived.place.line) == ("claims.yaml", 2)


def test_what_the_book_says_of_itself_is_read_too(tmp_path: Path) -> None:
    settings = "title: A book\nabout: >-\n  Our bars heal eczema.\n"
    proof = prove(write_book(tmp_path, {"recipes/a.md": PLAIN, "book.yaml": settings}))
    found = [f for f in proof.findings if f.rule == "claims"]
    assert found and all(f.place.file == "book.yaml" and f.place.line == 2 for f in found)
    assert proof.failed


def test_a_broken_list_is_a_finding(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "claims.yaml": "claims: [{id: x, groop: drug}]\n"})
    found = [f for f in prove(root).findings if f.place.file == "claims.yaml"]
    assert any("groop" in f.message for f in found)
