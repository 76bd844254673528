"""Pages say what a batch is made to: its stocks and the water beside, the cured bar, the least batch, the thinned soap."""

from __future__ import annotations

from pathlib import Path

import pytest

from lot_books import having, parsed, site_of, words
from saponary.build.proof import Proof, prove
from support import PLAIN, write_book

PAGE, BENCH = "recipes/a/index.html", "recipes/a/at-the-bench.html"
PANTRY = "moulds:\n  tray: {cavities: {count: 8, volume: 95 ml}}\n"


def proofed(tmp_path: Path, recipe: str, book: str = "") -> Proof:
    files = {"recipes/a.md": recipe, "pantry.yaml": PANTRY} | ({"book.yaml": book} if book else {})
    return prove(write_book(tmp_path, files))


def told(proof: Proof, path: str = PAGE, part: str = "panel") -> str:
    page = parsed(site_of(proof, edition="public"), path)
    return " ".join(words(each) for each in having(page, part))


def test_a_stock_is_weighed_with_its_water_beside(tmp_path: Path) -> None:
    """139.8 g of NaOH in 283.9 g of water: 279.6 g of a 50 % stock, 144.1 g beside. On the bench in whole grams."""
    proof = proofed(tmp_path, PLAIN, "lye-stock: 50 %\n")
    panel = told(proof)
    assert "Sodium hydroxide, of the stock 279.6 g a solution of 50 %" in panel
    assert "Water beside the stock 144.1 g of 283.9 g in all" in panel
    for path, part in ((PAGE, "work"), (BENCH, "screen")):
        work = told(proof, path, part)
        assert "280" in work and "144" in work and "stock of 50 %" in work
        assert "Plain water, beside the stock" in work
        assert "Pour the stock slowly into the water." in work


def test_the_cured_bar_and_the_pour_for_its_label(tmp_path: Path) -> None:
    mould = PLAIN.replace("  total: 1000 g", "  fill: {mould: tray, to: 95 %}").replace(
        "signed:", "label: {net-weight: 90 g}\nsigned:"
    )
    proof = proofed(tmp_path, mould)
    found, panel = proof.recipes[0].computed.catalogue, told(proof)
    assert f"Cured bar, expected {found['cured-bar'].text()}" in panel
    assert f"for a label of 90 g, pour {found['bar-for-label'].text()} for each bar" in panel
    kept = found["cured-bar"].value / found["bar"].value
    assert found["bar-for-label"].value * kept == pytest.approx(90.0)
    told_so = [f.message for f in proof.findings if f.rule == "net-weight"]
    less = found["cured-bar"].value < 90
    assert any("is expected to come to" in message for message in told_so) == less


def test_the_smallest_batch_names_what_sets_it(tmp_path: Path) -> None:
    clay = PLAIN.replace("signed:", "additions: [{what: kaolin, amount: 4 g/kg}]\nsigned:")
    panel = told(proofed(tmp_path / "a", clay))
    assert "Smallest batch 2500.0 g of oils on a scale that shows 1 g" in panel
    assert "aolin is then 10 steps; for the superfat alone, 486 g would be enough" in panel
    plain = told(proofed(tmp_path / "b", PLAIN))
    assert "of oils on a scale that shows 1 g: rounding then moves the superfat by 1.0 % at most" in plain


def test_a_thinned_soap(tmp_path: Path) -> None:
    soap = PLAIN.replace("superfat: 5 %", "superfat: 2 %", 1).replace(
        "signed:",
        "method: liquid\nlye: {potassium: {share: 100 %, purity: 90 %}}\ndilute: {total-fatty-matter: 25 %, acid: citric-acid}\nsigned:",
    )
    proof = proofed(tmp_path, soap)
    found, panel = proof.recipes[0].computed.catalogue, told(proof)
    assert f"Total fatty matter {found['total-fatty-matter'].text()}" in panel
    assert f"Water to thin with {found['dilution-water'].text()} to 25 % of total fatty matter" in panel
    assert "for what alkali is left" not in panel
