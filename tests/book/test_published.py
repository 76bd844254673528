"""What an edition shows of a recipe: nothing of a batch that it does not show, in remarks either."""

from __future__ import annotations

from lot_books import ON
from saponary.book.published import published
from saponary.schema.edition import STANDARD
from support import PLAIN, prove_one

HELD = "{lot: SECRET-1, poured: 2026-01-05, formula: 123456, editions: [maker], free-alkali: {test: paper, result: trace, on: 2026-02-05}}"
SHOWN = HELD.replace("SECRET-1", "PLAIN-1").replace("editions: [maker], ", "")


def remarks(batches: str, edition: str) -> str:
    text = PLAIN.replace("signed:\n", f"batches: [{batches}]\nsigned:\n")
    (one,) = prove_one(text).recipes
    assert any("SECRET-1" in f.message for f in one.findings) == ("SECRET-1" in batches)
    return " ".join(published(one, STANDARD[edition], ON).remarks)


def test_a_remark_on_a_batch_goes_where_the_batch_goes() -> None:
    assert "SECRET-1" in remarks(HELD, "maker")
    assert "SECRET-1" not in remarks(HELD, "public")
    assert "PLAIN-1" in remarks(SHOWN, "public")
