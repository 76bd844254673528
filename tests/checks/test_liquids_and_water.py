"""Liquids by the trade's rate of 1 oz per 15 oz of oils (common practice, no source) count as water."""

from __future__ import annotations

import pytest

from support import PLAIN, prove_one


def test_an_ounce_for_fifteen_is_counted_in_the_water() -> None:
    """A tea of 99.7 % water (USDA, from memory): 1000 g of oils take 66.67 g, which bring 66.47 g."""
    plain = prove_one(PLAIN).recipes[0].computed.figures
    text = PLAIN.replace("signed:\n", "liquids: [{what: black-tea, amount: 1 oz per 15 oz}]\nsigned:\n")
    wet = prove_one(text).recipes[0].computed.figures
    assert wet.water.total == pytest.approx(plain.water.total)
    assert wet.water.liquids == pytest.approx(1000 / 15 * 0.997)
    assert wet.water.plain == pytest.approx(plain.water.total - 1000 / 15 * 0.997)
    assert wet.weights == plain.weights
