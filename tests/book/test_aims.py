"""What a batch is made to: the figures a maker may quote, from the same balance as all others."""

from __future__ import annotations

import pytest

from saponary.book.computed import Computed
from saponary.book.rows import to_weigh
from support import PLAIN, prove_one


def one(more: str = "", text: str = PLAIN) -> Computed:
    proof = prove_one(text.replace("signed:", f"{more}\nsigned:") if more else text)
    assert proof.recipes, proof.findings
    return proof.recipes[0].computed


def test_what_is_weighed_from_a_stock_is_the_same_lye() -> None:
    """By hand: 139.8 g of NaOH are 279.6 g of a 50 % stock; of 283.9 g of water 139.8 g are in it."""
    dry, kept = one(), one("lye-stock: 50 %")
    lye, water = dry.catalogue["lye"].value, dry.catalogue["water"].value
    assert kept.catalogue["sodium-hydroxide-stock"].value == pytest.approx(2 * lye)
    assert kept.catalogue["water-beside-stock"].value == pytest.approx(water - lye)
    assert kept.catalogue["lye"].value == lye
    assert kept.fingerprint == dry.fingerprint
    assert "sodium-hydroxide-stock" not in dry.catalogue


def test_both_alkalis_have_their_own_stock() -> None:
    both = "lye: {sodium: 60 %, potassium: {share: 40 %, purity: 90 %}}\nlye-stock: {sodium: 50 %, potassium: 45 %}"
    found = one(both).catalogue
    assert found["sodium-hydroxide-stock"].value == pytest.approx(found["sodium-hydroxide"].value / 0.50)
    assert found["potassium-hydroxide-stock"].value == pytest.approx(
        found["potassium-hydroxide"].value / 0.45
    )
    jug = ("sodium-hydroxide-stock", "potassium-hydroxide-stock", "water-beside-stock")
    assert sum(found[name].value for name in jug) == pytest.approx(found["lye-solution"].value)


def test_a_record_is_prefilled_with_what_is_weighed() -> None:
    kept = one("lye-stock: 50 %")
    weighed = to_weigh(kept.resolved.formula, kept.figures, kept.pantry)
    assert weighed["sodium-hydroxide-stock"] == kept.catalogue["sodium-hydroxide-stock"].value
    assert weighed["water"] == kept.catalogue["water-beside-stock"].value
    assert "sodium-hydroxide" not in weighed


def test_a_thinned_paste_sums_up() -> None:
    soap = "method: liquid\nlye: {potassium: {share: 100 %, purity: 90 %}}\ndilute: 20 %"
    found = one(soap).catalogue
    assert found["paste"].value == found["batter"].value
    assert found["liquid-soap"].value == pytest.approx(found["paste"].value + found["dilution-water"].value)
    assert found["total-fatty-matter"].value / found["liquid-soap"].value == pytest.approx(0.20)
