"""Sentences with a weight of the maker's own are left out; rates, figures in braces and all else stay."""

from __future__ import annotations

import pytest

from saponary.words.at_another_size import has_weight, without

WEIGHTS = [
    "Weigh out 140 g of lye.", "It takes 1,000 g.", "About 2.5kg of oils.", "Add two ounces of honey.",
    "Half a pound of shea.", "Use 100-140 g.", "A 500-g bag.", "Take ½ oz.", "Wiege 140 Gramm ab.",
    "Pesez 140 grammes de soude.", "Pese 30 gramos.", "Zwei Kilogramm Öl.", "A litre of water.", "330 ml of milk.",
]  # fmt: skip
OTHERS = [
    "Stir at 40 °C.", "Wait 24 hours.", "It costs 3 euros.", "Add 20 g/kg.", "Add 20 g per kg of oils.",
    "The lye is {lye = 138.7 g}.", "A third of it is olive.", "Leave 5 % of the oils.", "10 bars, 25 mm thick.",
    "Pour it on 2026-01-02.", "1 tsp per pound of oils.", "Ten bars a head.", "A good bar.",
]  # fmt: skip


@pytest.mark.parametrize("text", WEIGHTS)
def test_a_weight(text: str) -> None:
    assert has_weight(text)


@pytest.mark.parametrize("text", OTHERS)
def test_no_weight(text: str) -> None:
    assert not has_weight(text)


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Stir. Weigh 140 g of lye. Pour.", "Stir. [.] Pour."),
        ("Weigh 140 g. Add 20 g. Pour.", "[.]  Pour."),
        ("- Stir.\n- Weigh 140 g.\n- Pour.", "- Stir.\n- [.]\n- Pour."),
        ("# Head\n\n1. Weigh\n140 g at once.\n2. Pour.", "# Head\n\n1. [.]\n2. Pour."),
        ("| oil | weight |\n|---|---|\n| olive | 600 g |", "| oil | weight |\n|---|---|\n| olive | [.] |"),
        ("It is {lye = 138.7 g} of it. Well.", "It is {lye = 138.7 g} of it. Well."),
    ],
)
def test_what_is_left_of_a_text(text: str, left: str) -> None:
    assert without(text, has_weight, "[.]") == left
