"""The rule `accent`."""

from __future__ import annotations

import re

import pytest

from checks.books import GOOD, found, recipe
from saponary.assets import resources
from saponary.quantity.contrast import contrast
from saponary.schema.look import PAPER

BREAKER = recipe(GOOD, book='look:\n  accent: {light: "#8a8a8a", dark: "#c3cf7c"}\n')
TOLD = [
    (
        "book.yaml:2:12",
        "warning",
        "#8a8a8a is 3.1:1 against the light paper #f6f4ec, and text needs 4.5:1",
        "take a darker colour",
    )
]
NEIGHBOUR = recipe(GOOD, book='look:\n  accent: {light: "#485211", dark: "#c3cf7c"}\n')


@pytest.mark.parametrize(
    ("first", "second", "ratio"),
    [("#000000", "#ffffff", 21.0), ("#777777", "#ffffff", 4.48), ("#767676", "#ffffff", 4.54)],
)
def test_ratios_are_those_that_everybody_gives(first: str, second: str, ratio: float) -> None:
    """#767676 is known as the lightest grey that passes 4.5:1 on white, #777777 as the first that fails (from memory)."""
    assert contrast(first, second) == pytest.approx(ratio, abs=0.005) == contrast(second, first)


def test_the_papers_are_those_of_the_style_sheet() -> None:
    style = (resources.templates() / "style" / "10-ground.css").read_text(encoding="utf-8")
    assert re.findall(r"--paper: (#[0-9a-f]{6})", style) == [PAPER["light"], PAPER["dark"]]


def test_a_dark_one_is_held_to_the_dark_paper() -> None:
    (one,) = found(recipe(GOOD, book='look: {accent: {dark: "#485211"}}\n'), "accent")
    assert "against the dark paper" in one.message and one.hint.startswith("take a lighter colour")
