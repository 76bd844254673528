"""The rule `cut`: a loaf is cut into bars."""

from __future__ import annotations

import pytest

from checks.books import found, more, recipe

MOULD = "moulds:\n  loaf: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}\n"


def _cut(along: str) -> dict[str, str]:
    return recipe(more(f"mould: loaf\ncut: {along}\n"), pantry=MOULD)


BREAKER = _cut("300 mm")
TOLD = [
    (
        "recipes/tried.md:12:6",
        "error",
        "no bar comes of a mould 250 mm long that is cut every 300 mm",
        "the length of one bar along the mould, such as 25 mm",
    ),
]
NEIGHBOUR = _cut("25 mm")


@pytest.mark.parametrize(
    ("along", "told"), [("250 mm", []), ("251 mm", ["error"]), ("5 mm", []), ("4.9 mm", ["warning"])]
)
def test_the_limits(along: str, told: list[str]) -> None:
    """The mould's own length is one bar; the least that is meant is this book's own."""
    assert [f.severity for f in found(_cut(along), "cut")] == told
