"""late-alkali: an acid after the cook, and what brings alkali into a rebatch."""

from __future__ import annotations

from checks.books import GOOD, more, put, recipe, severities

HOT = put("superfat: 5 %", "method: hot\nsuperfat: 5 %", GOOD)


def with_acid(at: str) -> dict[str, str]:
    return recipe(more(f"additions: [{{what: citric-acid, amount: 15 g, at: {at}}}]\n", HOT))


BREAKER = with_acid("after-cook")
TOLD = [
    (
        "recipes/tried.md:12:20",
        "warning",
        "'citric-acid' goes in when no lye is left: it splits soap, and no lye is weighed for it",
        "put it in at lye, or leave it out",
    )
]
NEIGHBOUR = with_acid("lye")


def test_ash_soap_in_a_rebatch_finds_nothing_that_takes_up_its_alkali() -> None:
    from checks.test_rebatch import LOT, MELTED

    for what, told in (("ready-made-soap", ["error"]), ("kaolin", [])):
        text = MELTED.replace("soap:", f"additions: [{{what: {what}, amount: 1 g}}]\nsoap:")
        files = recipe(LOT, **{"recipes/again.md": text})
        assert severities(files, "late-alkali") == told
