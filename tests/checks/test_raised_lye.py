"""The rule `raised-lye`: alkali is weighed for something that is not an acid by name."""

from __future__ import annotations

import pytest

from checks.books import found, more, recipe

BREAKER = recipe(more("additions: [{what: sodium-bicarbonate, amount: 5 g}]\n"))
TOLD = [
    (
        "recipes/tried.md:11:20",
        "warning",
        "'sodium-bicarbonate' takes 2.4 g of alkali, and the lye is raised by as much",
        "leave it out",
    ),
]
NEIGHBOUR = recipe(more("additions: [{what: citric-acid, amount: 5 g}]\n"))
ALSO = [
    (recipe(more("additions: [{what: sodium-bicarbonate, amount: 5 g, at: pour}]\n")), []),
    (
        recipe(
            more(
                "additions: [{what: sodium-bicarbonate, amount: 5 g}, {what: sodium-bicarbonate, amount: 5 g}, {what: citric-acid, amount: 5 g}, {what: kaolin, amount: 5 g}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:20",
                "warning",
                "'sodium-bicarbonate' takes 4.8 g of alkali, and the lye is raised by as much",
                "leave it out; or waive it with your reason: waive: [{rule: raised-lye, about: sodium-bicarbonate, because: …}]",
            )
        ],
    ),
]


def test_the_finding_says_how_much() -> None:
    """100 g of hydrogen carbonate take 47.6 g of sodium hydroxide (84.007 and 39.9971 g/mol)."""
    used = "additions: [{what: sodium-bicarbonate, amount: 60 g}, {what: sodium-bicarbonate, amount: 40 g}]\n"
    (one,) = found(recipe(more(used)), "raised-lye")
    assert "takes 47.6 g of alkali" in one.message and one.about == "sodium-bicarbonate"


@pytest.mark.parametrize(("grams", "count"), [("0.2 g", 0), ("0.22 g", 1)])
def test_less_than_a_tenth_of_a_gram_is_not_worth_a_word(grams: str, count: int) -> None:
    used = f"additions: [{{what: sodium-bicarbonate, amount: {grams}}}]\n"
    assert len(found(recipe(more(used)), "raised-lye")) == count
