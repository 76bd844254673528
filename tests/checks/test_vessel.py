"""The rule `vessel`: words about vessels are read sensibly."""

from __future__ import annotations

import pytest

from checks.books import found, more, put, recipe, severities

BREAKER = recipe(more("vessel: the old aluminium stockpot\n"))
TOLD = [
    ("recipes/tried.md:11:9", "error", "lye eats aluminium", "use stainless steel, polypropylene or HDPE"),
]
NEIGHBOUR = recipe(more("vessel: a steel pot\n"))
ALSO = [
    (
        recipe(
            more(
                "vessel: a tin\nsteps: [{at: lye, say: Use no tin pot. Pour it into a Tin  pot.}, {at: lye, say: Open a tin of milk.}]\n"
            )
            + "Never use copper. A zinc bucket, and brass, will do; not so pewter.\n\nA cast-iron pan.\n"
        ),
        [
            ("recipes/tried.md:11:9", "error", "lye eats tin", "use stainless steel, polypropylene or HDPE"),
            ("recipes/tried.md:12:24", "error", "lye eats tin", "use stainless steel, polypropylene or HDPE"),
            (
                "recipes/tried.md:18:21",
                "error",
                "lye eats zinc",
                "use stainless steel, polypropylene or HDPE",
            ),
            (
                "recipes/tried.md:20:3",
                "error",
                "lye eats cast-iron",
                "use stainless steel, polypropylene or HDPE",
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("Never use aluminium; stainless steel it is.", 0),
        ("Mix it in the galvanised bucket.", 1),
        ("Stir in the zinc oxide.", 0),
        ("Stir in a zinc tub.", 1),
        ("An aluminum pot will do.", 1),
        ("Take the brass spoon.", 1),
        ("Melt it in an aluminium pan.", 1),
        ("Use a tin bowl.", 1),
        ("Open a tin of coconut milk.", 0),
        ("The pewter jug is prettiest.", 1),
        ("A cast-iron pot keeps warm.", 1),
        ("Never use plastic. Melt it in an aluminium pan.", 1),
        ("Do not use the aluminium pan.", 0),
        ("Aluminium foil goes over the top.", 1),
        ("An aluminium pan won't do.", 0),
    ],
)
def test_metals_that_lye_eats(said: str, count: int) -> None:
    found = severities(recipe(more(f"steps: [{{at: lye, say: {said}}}]\n")), "vessel")
    assert found == ["error"] * count


@pytest.mark.parametrize(
    ("said", "count"),
    [("a tin bucket", 1), ("an old tin", 1), ("steel, never tin", 0), ("pewter", 1), ("a zinc pail", 1)],
)
def test_a_vessel_of_metals_that_lye_eats(said: str, count: int) -> None:
    assert severities(recipe(more(f"vessel: {said}\n")), "vessel") == ["error"] * count


def test_the_notes_are_read_too_and_the_place_is_the_word() -> None:
    text = put(
        "A plain bar.", "A plain bar.\n\nWarm it in an aluminium pan, gently. Aluminium is no good for lye."
    )
    (one,) = found(recipe(text), "vessel")
    line = text.split("\n")[one.place.line - 1]
    assert line[one.place.column - 1 :].startswith("aluminium pan")
