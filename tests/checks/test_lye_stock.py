"""The rule `lye-stock`: a stock is strong enough for its lye, and stays dissolved where it stands."""

from __future__ import annotations

import pytest

from checks.books import more, recipe
from support import PLAIN, prove_one

BREAKER = recipe(more("lye-stock: 30 %\n"))
TOLD = [
    (
        "recipes/tried.md:11:1",
        "error",
        "the stock brings 326.2 g of water, and there is room for 283.9 g beside what else brings water",
        "use a stronger stock, give the lye more water, or write lye-stock: 0 % and weigh it dry",
    ),
]
NEIGHBOUR = recipe(more("lye-stock: 50 %\n"))


@pytest.mark.parametrize(
    ("stock", "told"),
    [
        ("33 %", 0),
        ("32.9 %", 1),
        ("0 %", 0),
        ("52 %", 0),
        ("53 %", 1),
        ("{strength: 50 %, coldest: 10 °C}", 1),
        ("{strength: 29 %, coldest: 0 °C}", 1),
        ("{potassium: 20 %}", 0),
        ("{sodium: 40 %, coldest: 12 °C}", 0),
    ],
)
def test_strength_and_cold(stock: str, told: int) -> None:
    """NaOH in 100 g of water: 42 g at 0, 109 g at 20 °C (handbook table, second-hand): 52.2 % and 29.6 %, and
    between them straight: 75.5 g at 10 °C, 43.0 %. 29 % stays dissolved, and is too weak for a 33 % lye."""
    found = prove_one(PLAIN.replace("signed:", f"lye-stock: {stock}\nsigned:")).findings
    assert len([f for f in found if f.rule == "lye-stock"]) == told


def test_milk_that_stands_in_for_all_the_water_leaves_no_room_for_a_stock() -> None:
    milk = "liquids: [{what: cow-milk, amount: 300 g, at: lye}]\nlye-stock: STOCK\nsigned:"
    for stock, told in (("50 %", 1), ("0 %", 0)):
        text = PLAIN.replace("signed:", milk.replace("STOCK", stock))
        found = [f for f in prove_one(text).findings if f.rule == "lye-stock"]
        assert len(found) == told


def test_what_cannot_be_read() -> None:
    for stock, told in (
        ("100 %", "a stock holds water beside its alkali"),
        ("{coldest: 5 °C}", "no strength of the stock is given"),
    ):
        found = prove_one(PLAIN.replace("signed:", f"lye-stock: {stock}\nsigned:")).findings
        assert told in [f.message for f in found]
