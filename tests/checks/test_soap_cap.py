"""The rule `soap-cap`: 85 g per 1275 g of oils (common practice, no source), for each portion and the batch."""

from __future__ import annotations

import pytest

from checks.books import TWO, found, more, put, recipe, severities
from saponary.pantry.standard import standard

BREAKER = recipe(
    more("additions: [{what: ready-made-soap, amount: 7 % of oils}]\n").replace(
        "superfat: 5 %", "superfat: 8 %"
    )
)
TOLD = [
    (
        "recipes/tried.md:11:45",
        "error",
        "70.0 g of ready-made-soap in the batch is over its cap",
        "at most 66.7 g for 1000 g of oils",
    ),
]
NEIGHBOUR = recipe(more("additions: [{what: ready-made-soap, amount: 6 % of oils}]\n"))
ALSO = [
    (
        recipe(
            put(
                "- {name: dark, share: 1/2}",
                "- {name: dark, share: 1/2, additions: [{what: ready-made-soap, amount: 50 g}]}",
                more("additions: [{what: ready-made-soap, amount: 10 g}]\n", TWO),
            )
        ),
        [
            (
                "recipes/tried.md:13:74",
                "error",
                "50.0 g of ready-made-soap in the portion 'dark' is over its cap",
                "at most 33.3 g for 500 g of oils; or waive it with your reason: waive: [{rule: soap-cap, about: ready-made-soap in dark, because: …}]",
            )
        ],
    ),
]


def test_the_cap_has_one_home() -> None:
    """The same rule as 3 oz per 45 oz."""
    assert standard().additions["ready-made-soap"].cap == pytest.approx(1000 * 85 / 1275, abs=1e-3)
    assert standard().additions["ready-made-soap"].cap == pytest.approx(1000 * 3 / 45, abs=1e-3)


@pytest.mark.parametrize(("amount", "count"), [("66.66 g", 0), ("66.68 g", 1)])
def test_the_cap_is_the_limit(amount: str, count: int) -> None:
    text = more(f"additions: [{{what: ready-made-soap, amount: {amount}}}]\n")
    assert severities(recipe(text), "soap-cap") == ["error"] * count


def test_it_holds_per_portion_and_for_the_batch() -> None:
    portions = (
        "portions:\n"
        "  - {name: light, share: 1/2, additions: [{what: ready-made-soap, amount: 33 g}]}\n"
        "  - {name: dark, share: 1/2, additions: [{what: ready-made-soap, amount: 34 g}]}\n"
    )
    caps = found(recipe(more(portions)), "soap-cap")
    assert [f.about for f in caps] == ["ready-made-soap", "ready-made-soap in dark"]
    assert ["the batch" in f.message for f in caps] == [True, False]
    assert all("at most" in f.hint for f in caps)
    under = recipe(more(portions.replace("34 g", "33 g")))
    assert found(under, "soap-cap") == []
