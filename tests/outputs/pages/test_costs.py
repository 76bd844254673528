"""The page of costs: sums by hand, in the book's currency, for the maker alone."""

from __future__ import annotations

from pathlib import Path

from lot_books import parsed, site_of, words
from saponary.build.proof import prove
from saponary.schema.edition import STANDARD
from support import PLAIN, write_book

PAGE = "costs/index.html"
BOOK = "currency: EUR\nalkali-price: {sodium: 4.00 / kg}\n"
PANTRY = """\
oils:
  olive: {price: 8.00 / kg}
  coconut: {price: 6.00 / kg}
  sunflower-high-oleic: {price: 5.00 / kg}
"""
LOTS = "batches: [{lot: A1, poured: 2026-03-02}, {lot: A2, poured: 2026-04-02}]\n"


def made(tmp_path: Path, edition: str, pantry: str = PANTRY) -> dict[str, bytes]:
    text = PLAIN.replace("signed:\n", LOTS + "signed:\n")
    root = write_book(tmp_path, {"recipes/a.md": text, "pantry.yaml": pantry, "book.yaml": BOOK})
    return site_of(prove(root), edition=edition)


def test_a_batch_and_all_lots_are_summed(tmp_path: Path) -> None:
    """0.6 kg at 8, 0.25 at 6, 0.15 at 5, and 0.1398 kg of alkali at 4: 4.80 + 1.50 + 0.75 + 0.56 = 7.61 EUR."""
    every = next(name for name, edition in STANDARD.items() if "costs" in edition.shows)
    told = words(parsed(made(tmp_path, every), PAGE))
    assert "All amounts in EUR" in told
    assert " 7.61 " in told and " 15.22 " in told
    assert "The whole book 2 15.22 EUR" in told
    assert "Without a price" not in told


def test_what_has_no_price_is_named(tmp_path: Path) -> None:
    every = next(name for name, edition in STANDARD.items() if "costs" in edition.shows)
    told = words(parsed(made(tmp_path, every, PANTRY.replace("  coconut: {price: 6.00 / kg}\n", "")), PAGE))
    assert " 6.11 " in told and "Plain Bar Coconut" in told


def test_nobody_else_has_the_page_or_an_amount(tmp_path: Path) -> None:
    for name, edition in STANDARD.items():
        files = made(tmp_path / name, name)
        assert (PAGE in files) == ("costs" in edition.shows)
        if "costs" not in edition.shows:
            assert not any(b"EUR" in data for data in files.values())
