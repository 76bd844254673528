"""cook-loss: a pot that gains by its cook, or loses more than all its water."""

from __future__ import annotations

from checks.books import GOOD, batch, put, severities

HOT = put("superfat: 5 %", "method: hot\nsuperfat: 5 %", GOOD)

BREAKER = batch(", pot: {before: 3000 g, after: 3010 g}", HOT)
TOLD = [
    (
        "recipes/tried.md:12:93",
        "error",
        "lot A1: the pot is 10.0 g heavier after the cook than before it",
        "weigh the pot with its spoon and without its lid both times, and look for a typing mistake",
    )
]
NEIGHBOUR = batch(", pot: {before: 3000 g, after: 2930 g}", HOT)


def test_no_more_than_the_water_there_was_can_boil_off() -> None:
    """1000 g of these oils take 139 g of sodium hydroxide and 282 g of water (33 %)."""
    for after, told in (("2725 g", []), ("2700 g", ["error"])):
        files = batch(f", pot: {{before: 3000 g, after: {after}}}", HOT)
        assert severities(files, "cook-loss") == told
