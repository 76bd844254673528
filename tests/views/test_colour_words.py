"""Colours in words, against what the plainest of them are called by everybody."""

from __future__ import annotations

from itertools import product

import pytest

from saponary.messages.speaker import speaker
from saponary.views.colour_words import in_words


def test_every_colour_has_words() -> None:
    for channels in product(range(0, 256, 15), repeat=3):
        assert speaker().say(in_words("#{:02x}{:02x}{:02x}".format(*channels)))


@pytest.mark.parametrize(
    ("colour", "said"),
    [
        ("#000000", "black"),
        ("#ffffff", "white"),
        ("#808080", "grey"),
        ("#d8bf78", "yellow"),
        ("#4b5f9c", "blue"),
        ("#6d865d", "green"),
        ("#96483b", "brick red"),
        ("#4b3626", "deep brown"),
        ("#0000ff", "bright blue"),
        ("#7c8590", "bluish grey"),
        ("#4f5866", "dark grey, bluish"),
    ],
)
def test_common_colours_are_called_what_they_are(colour: str, said: str) -> None:
    assert speaker().say(in_words(colour)) == said
