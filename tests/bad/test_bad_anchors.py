"""Anchors and aliases: positions and signed figures are those of the value, never of its name."""

from __future__ import annotations

from pathlib import Path

import pytest

from bad.cases import fronted
from saponary.cli.main import main
from support import PLAIN, write_book

ANCHORED = PLAIN.replace("superfat: 5.0 %", "superfat: &s9 9.0 %")
ALIASED = fronted("private: {was: &w9 9.0 %}\n").replace("superfat: 5.0 %\n", "superfat: *w9\n", 1)
ALIASED = ALIASED.replace("signed:\n  superfat: *w9\n", "").replace(
    "---\nA", "signed:\n  superfat: *w9\n---\nA"
)


@pytest.mark.parametrize("text", [ANCHORED, ALIASED], ids=["anchored", "aliased"])
def test_sign_changes_the_value_and_not_its_name(text: str, tmp_path: Path) -> None:
    book = write_book(tmp_path, {"recipes/plain.md": text})
    assert main(["sign", "--book", str(book)]) == 0
    assert (book / "recipes" / "plain.md").read_text() == text.replace("9.0 %", "5.0 %")
