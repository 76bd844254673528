"""The rule `certificate-needed`.

Neem: 50.49 mg/g in International Journal of Advanced Research 8 (2020), 1436-1441 (abstract), which no
fat of its acids can have; other papers go above 200 (from memory). Tamanu: crude oil holds 10-30 % of resin
acids that take alkali too (an encyclopaedia, last resort).
"""

from __future__ import annotations

import pytest

from checks.books import found, put, recipe
from saponary.pantry.standard import standard
from saponary.schema.oil_entry import OilEntry

NEEM = put("sunflower-high-oleic: 15 %", "sunflower-high-oleic: 10 %\n    neem: 5 %")
CERTIFIED = "oils: {neem: {saponification-value: {value: 194 mg/g, from: certificate of lot 3}}}\n"

BREAKER = recipe(NEEM)
TOLD = [
    (
        "recipes/tried.md:9:5",
        "error",
        "published saponification values of neem scatter too far to weigh lye by",
        "state the saponification-value of neem in pantry.yaml, from the certificate of this oil",
    ),
]
NEIGHBOUR = recipe(NEEM, pantry=CERTIFIED)


def test_the_oils_that_need_one() -> None:
    shelf = standard().oils
    needed = [
        name
        for name in shelf
        if isinstance(entry := shelf[name].entry, OilEntry) and entry.certificate_needed
    ]
    assert sorted(needed) == ["neem", "tamanu"]


@pytest.mark.parametrize(
    ("pantry", "count"),
    [
        ("oils: {neem: {price: 9.00 / kg}}\n", 1),
        ("oils: {neem: {iodine-value: 70 g/100 g}}\n", 1),
        (CERTIFIED, 0),
    ],
)
def test_only_a_saponification_value_will_do(pantry: str, count: int) -> None:
    assert len(found(recipe(NEEM, pantry=pantry), "certificate-needed")) == count


def test_an_oil_like_it_and_a_stock_of_it_need_one_too() -> None:
    for name, pantry in (
        ("my-neem", "oils: {my-neem: {like: neem}}\n"),
        ("infused", "infusions: {infused: {botanical: calendula, carrier: neem}}\n"),
    ):
        text = NEEM.replace("neem:", f"{name}:")
        faults = found(recipe(text, pantry=pantry), "certificate-needed")
        assert [fault.about for fault in faults] == [name]
