"""The rule `usual-rate`: each addition against its own range, in what it goes into."""

from __future__ import annotations

import pytest

from checks.books import TWO, found, more, proofed, put, recipe, severities

BREAKER = recipe(more("additions: [{what: kaolin, amount: 90 g/kg}]\n"))
TOLD = [
    (
        "recipes/tried.md:11:36",
        "warning",
        "kaolin at 90 g/kg of oils is more than usual",
        "usual is 5 to 20 g/kg of oils",
    ),
]
NEIGHBOUR = recipe(more("additions: [{what: kaolin, amount: 20 g/kg}]\n"))
ALSO = [
    (
        recipe(
            more(
                "additions: [{what: kaolin, amount: 1 g}, {what: kaolin, amount: 200 g}, {what: salt, amount: 9 g, at: pour}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:36",
                "warning",
                "kaolin at 201 g/kg of oils is more than usual",
                "usual is 5 to 20 g/kg of oils; or waive it with your reason: waive: [{rule: usual-rate, about: kaolin, because: …}]",
            )
        ],
    ),
    (
        recipe(
            put(
                "- {name: light, share: 1/2}",
                "- {name: light, share: 1/2, additions: [{what: kaolin, amount: 60 g}]}",
                TWO,
            )
        ),
        [
            (
                "recipes/tried.md:12:66",
                "warning",
                "kaolin at 120 g/kg of oils is more than usual",
                "usual is 5 to 20 g/kg of oils; or waive it with your reason: waive: [{rule: usual-rate, about: kaolin in light, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(
    ("rate", "count"), [("20 g/kg", 0), ("20.1 g/kg", 1), ("5 g/kg", 0), ("4.9 g/kg", 1), ("0 g", 0)]
)
def test_the_ends_of_the_range_are_the_limits(rate: str, count: int) -> None:
    """Kaolin at 5 to 20 g per kg of oils: common practice, no source."""
    text = more(f"additions: [{{what: kaolin, amount: {rate}}}]\n")
    assert severities(recipe(text), "usual-rate") == ["warning"] * count


def test_a_portion_is_rated_on_its_own_oils() -> None:
    """A quarter of 1000 g: 6 g are 24 g/kg there, and would be 6 g/kg of the whole."""
    portions = "portions:\n  - {name: a, share: 1/4, additions: [{what: kaolin, amount: 6 g}]}\n  - {name: b, share: 3/4}\n"
    (one,) = found(recipe(more(portions)), "usual-rate")
    assert one.about == "kaolin in a" and "kaolin at 24 g/kg of oils is more" in one.message


def test_a_waiver_for_one_thing_lets_no_other_pass() -> None:
    text = more(
        "additions: [{what: salt, amount: 500 g/kg, at: trace}, {what: kaolin, amount: 200 g/kg}]\n"
        "waive: [{rule: usual-rate, about: salt, because: the salt is the bar itself}]\n"
    )
    assert [(f.rule, f.about) for f in proofed(recipe(text)).findings] == [("usual-rate", "kaolin")]
