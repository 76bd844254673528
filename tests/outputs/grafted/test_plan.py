"""Which page a part begins on: a right page has an odd number, as in any printed book."""

from __future__ import annotations

import pytest

from saponary.outputs.grafted.plan import Extent, plan
from saponary.outputs.pdf_kind import Part

FRONT = Part("front", "", "right")
RECIPE = Part("recipe", "")
BACK = Part("back", "", "next")


@pytest.mark.parametrize(
    ("pages", "first"),
    [
        ((3, 2, 2, 4), (1, 4, 6, 8)),
        ((4, 2, 2, 4), (1, 6, 8, 10)),
        ((3, 3, 2, 4), (1, 4, 8, 10)),
        ((3, 2, 3, 4), (1, 4, 6, 9)),
        ((1, 1, 1, 1), (1, 2, 4, 5)),
    ],
)
def test_a_recipe_opens_left_whatever_comes_before(pages: tuple[int, ...], first: tuple[int, ...]) -> None:
    extents = [Extent(count, {}) for count in pages]
    assert plan((FRONT, RECIPE, RECIPE, BACK), extents).first == first


def test_a_name_has_the_number_of_its_page_and_the_first_of_two_counts() -> None:
    extents = [Extent(3, {"contents": 1, "twice": 2}), Extent(2, {"soap": 0, "work": 1, "twice": 0})]
    assert plan((FRONT, RECIPE), extents).numbers == {"contents": 2, "twice": 3, "soap": 4, "work": 5}
