"""What a maker comments out of a text is seen nowhere, and all else of it is."""

from __future__ import annotations

import pytest

from saponary.reading.published_text import blanked, only_seen, only_seen_in
from support import PLAIN, prove_one


@pytest.mark.parametrize(
    ("written", "seen"),
    [
        ("A bar <!-- the old one --> of olive", "A bar of olive"),
        ("A bar<!-- old -->", "A bar"),
        ("<!-- old -->A bar", "A bar"),
        ("A bar <!-- never ends", "A bar"),
        ("A <!-- one --> b <!-- two\nlines --> c", "A b c"),
        ("a < b --> c", "a < b --> c"),
        ("plain", "plain"),
    ],
)
def test_comments_go(written: str, seen: str) -> None:
    assert only_seen(written) == seen
    assert len(blanked(written)) == len(written)
    assert blanked(written).split() == seen.split()


def test_texts_are_found_however_deep() -> None:
    data = {"a": ["x <!-- y -->", {"b": "<!-- z -->w"}], "c": None}
    assert only_seen_in(data) == {"a": ["x", {"b": "w"}], "c": None}


def test_figures_and_words_in_a_comment_are_held_to_nothing() -> None:
    """A stale figure, a bare number and a claim: in the text each is found, commented out none is."""
    said = "It heals eczema, takes 300 g of lye and {lye = 1.0 g}."
    for comment, rules in (
        (f"Good. {said}", {"bare-figure", "claims", "stale"}),
        (f"Good. <!-- {said} -->", set()),
    ):
        for text in (
            PLAIN.replace("title: Plain Bar", f'title: Plain Bar\nsummary: "{comment}"'),
            PLAIN.replace("A plain bar.", comment),
        ):
            found = {f.rule for f in prove_one(text).findings if f.rule in ("bare-figure", "claims", "stale")}
            assert found == rules, text


def test_a_title_that_is_a_comment_alone_is_no_title() -> None:
    found = prove_one(PLAIN.replace("title: Plain Bar", 'title: "<!-- later -->"')).findings
    assert any(f.severity == "error" and f.place.line == 2 for f in found)
