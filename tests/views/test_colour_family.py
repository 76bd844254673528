"""Broad colours: sRGB values whose names nobody disputes, and those this book's bars are known by."""

from __future__ import annotations

import pytest

from saponary.views.colour_family import family


@pytest.mark.parametrize(
    ("colour", "name"),
    [
        ("#ffffff", "white"),
        ("#f2e9d6", "white"),
        ("#000000", "dark"),
        ("#4d3a2c", "dark"),
        ("#808080", "grey"),
        ("#ffff00", "yellow"),
        ("#d8c07a", "yellow"),
        ("#ff8c00", "orange"),
        ("#c0692f", "orange"),
        ("#ffb6c1", "pink"),
        ("#008000", "green"),
        ("#a8b08a", "green"),
        ("#0000cd", "purple"),
        ("#4f6f9f", "blue"),
        ("#800080", "purple"),
    ],
)
def test_a_colour_belongs_to_one_family(colour: str, name: str) -> None:
    assert family(colour) == name
