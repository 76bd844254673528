"""A liquid given as a share of the water: its grams are that share of the water of the lye, all of it."""

from __future__ import annotations

import pytest

from saponary.reading.findings import errors
from support import PLAIN, prove_one


def proofed(liquids: str) -> dict[str, float]:
    (one,) = prove_one(PLAIN.replace("superfat: 5 %\n", f"superfat: 5 %\n{liquids}", 1)).recipes
    figures = one.computed.figures
    return {
        "water": figures.water.total,
        "lye": figures.weights.total,
        "strength": figures.lye_strength,
        **{liquid.id: liquid.grams for liquid in one.computed.resolved.formula.liquids},
    }


def test_a_milk_takes_its_share_of_the_water() -> None:
    made = proofed("liquids: [{what: coconut-milk, amount: 25 % of water}]\n")
    assert made["coconut-milk"] == pytest.approx(0.25 * made["water"], rel=1e-12)
    assert made["water"] == pytest.approx(made["lye"] * (1 - 0.33) / 0.33, rel=1e-12), (
        "33 % by the lye as weighed"
    )


def test_an_acid_liquid_takes_its_share_of_the_water_that_its_own_lye_asks_for() -> None:
    plain = proofed("")
    sour = proofed("liquids: [{what: vinegar, amount: 20 % of water}]\n")
    assert sour["lye"] > plain["lye"]
    assert sour["vinegar"] == pytest.approx(0.20 * sour["water"], rel=1e-9)
    assert sour["strength"] == pytest.approx(0.33, rel=1e-9)


def test_a_portions_liquid_takes_its_share_of_the_portions_water() -> None:
    two = "portions:\n  - {name: a, share: 1/4, liquids: [{what: coconut-milk, amount: 40 % of water}]}\n  - {name: b, share: 3/4}\n"
    made = proofed(two)
    assert made["coconut-milk"] == pytest.approx(0.40 * 0.25 * made["water"], rel=1e-12)


def test_an_addition_has_no_share_of_the_water() -> None:
    text = PLAIN.replace(
        "superfat: 5 %\n", "superfat: 5 %\nadditions: [{what: kaolin, amount: 5 % of water}]\n", 1
    )
    (fault,) = errors(prove_one(text).findings)
    assert "is for a liquid" in fault.message
