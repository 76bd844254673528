"""Every recipe that a text leads to is told, however its address is written (CommonMark 0.31, section 2.4 and 2.5)."""

from __future__ import annotations

import pytest

from saponary.book.led_to import led_to
from saponary.reading.markdown import RECIPES, addresses, in_book, named


@pytest.mark.parametrize(
    "text",
    [
        "[it](plain-bar.md)",
        "[it](../recipes/plain-bar.md#work)",
        "[it](pl%61in-bar.md)",
        "[it](plain&#45;bar.md)",
        "[it](plain\\-bar\\.md)",
        "[it](<./plain-bar.md?a> 'A title')",
        "[it][1]\n\n[1]: plain-bar.md",
        "![a photo](x.jpg) [it](plain-bar%2Emd)",
    ],
)
def test_a_link_is_told(text: str) -> None:
    led = {named(in_book(one.to, "recipes"), RECIPES) for one in addresses(text)}
    assert "plain-bar" in led
    assert led_to({"texts": [("x", text)]}) == ("plain-bar",)


def test_what_is_no_link_is_not() -> None:
    assert led_to("plain-bar.md", ["[it](https://book.invalid/)", 4, None]) == ()
