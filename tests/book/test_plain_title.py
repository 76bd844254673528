"""A title's figures are shown as a reader sees them."""

from __future__ import annotations

import pytest

from saponary.book.plain_title import plain_title
from support import PLAIN, prove_one


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Plain *Bar*", "Plain *Bar*"),
        ("{superfat} of oil", "5.0 % of oil"),
        ("{superfat =  5 %} of oil", "5 % of oil"),
        ("{superfat = five} of oil", "{superfat = five} of oil"),
        ("{nothing} of oil", "{nothing} of oil"),
        ("A \\{brace}", "A {brace}"),
    ],
)
def test_figures_stand_as_text(text: str, shown: str) -> None:
    assert plain_title(text, prove_one(PLAIN).recipes[0].computed.catalogue) == shown
