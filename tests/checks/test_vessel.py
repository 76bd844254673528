"""The rule `vessel`: words about vessels are read sensibly."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import more, recipe, severities

BREAKER = recipe(more("vessel: the old aluminium stockpot\n"))
TOLD = [
    ("recipes/tried.md:11:9", "error", "lye eats aluminium", "use stainless steel, polypropylene or HDPE"),
]
NEIGHBOUR = recipe(more("vessel: a steel pot\n"))


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("Never use aluminium; stainless steel it is.", 0),
        ("Mix it in the galvanised bucket.", 1),
        ("Stir in the zinc oxide.", 0),
        ("Stir in a zinc tub.", 1),
        ("An aluminum pot will do.", 1),
        ("Take the brass spoon.", 1),
    ],
)
def test_metals_that_lye_eats(said: str, count: int, tmp_path: Path) -> None:
    found = severities(tmp_path, recipe(more(f"steps: [{{at: lye, say: {said}}}]\n")), "vessel")
    assert found == ["error"] * count
