"""What a batch costs, summed by hand."""

from __future__ import annotations

import pytest

from saponary.lye.alkali import Weights
from saponary.lye.cost import cost
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water

BATCH = Formula(
    (Oil("olive", 600, 190, 190, 190), Oil("olive", 100, 190, 190, 190, infused_with="madder")),
    Alkali(),
    0.05,
    Water("of-oils", 0.3),
    (Liquid("milk", 50.0, 0.88),),
    (Addition("kaolin", 20.0), Addition("salt", 0.0)),
)


def test_every_weight_by_its_price() -> None:
    """0.7 kg at 8, 0.09 kg at 4, 0.05 kg at 2, 0.02 kg at 10: 5.6 + 0.36 + 0.1 + 0.2."""
    prices = {"olive": 8.0, "sodium-hydroxide": 4.0, "milk": 2.0, "kaolin": 10.0}
    found = cost(BATCH, Weights(90.0, 0.0), prices)
    assert found.batch == pytest.approx(6.26)
    assert found.unpriced == ()
    assert found.per_bar(10) == pytest.approx(0.626)
    assert found.per_bar(0) == 0.0


def test_what_has_no_price_is_named_and_not_counted() -> None:
    found = cost(BATCH, Weights(90.0, 5.0), {"olive": 8.0})
    assert found.batch == pytest.approx(5.6)
    assert found.unpriced == ("sodium-hydroxide", "potassium-hydroxide", "milk", "kaolin")


def test_half_a_gram_has_its_price_too() -> None:
    """0.4 g of saffron at 5000 a kilogram: 2."""
    pinch = Formula((), Alkali(), 0.05, Water("of-oils", 0.3), additions=(Addition("saffron", 0.4),))
    assert cost(pinch, Weights(0.0, 0.0), {"saffron": 5000.0}).batch == pytest.approx(2.0)
    assert cost(pinch, Weights(0.0, 0.0), {}).unpriced == ("saffron",)
