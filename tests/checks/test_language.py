"""The rule `language`: the lists of this package are the only source; `it` has none of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import GOOD, found, recipe, signed
from lot_books import site_of
from saponary.build.proof import prove
from saponary.checks.language import unchecked
from saponary.words.standard import standard
from support import write_book

BREAKER = recipe(GOOD, book="title: Un libro\nlanguage: it\n")
TOLD = [
    (
        "book.yaml:2:1",
        "warning",
        "for the language 'it' there is no list of claim words, so claims are not found; nor of words beside a "
        "weight, so bare figures are not found; nor of words of pages and labels, so these are in English",
        "read the book for these yourself, and waive this with the name of who read it; a claims.yaml of your own "
        "adds words",
    ),
]
NEIGHBOUR = recipe(GOOD, book="title: A book\nlanguage: en-GB\n")
ALSO = [
    (
        recipe(GOOD, book="language: xx-YY\n"),
        [
            (
                "book.yaml:1:1",
                "warning",
                "for the language 'xx-YY' there is no list of claim words, so claims are not found; nor of words beside a weight, so bare figures are not found; nor of words of pages and labels, so these are in English",
                "read the book for these yourself, and waive this with the name of who read it; a claims.yaml of your own adds words; or waive it with your reason: waive: [{rule: language, because: …}]",
            )
        ],
    ),
    (
        recipe(GOOD, book="language: de\n"),
        [
            (
                "book.yaml:1:1",
                "warning",
                "for the language 'de' there is no list of words of pages and labels, so these are in English",
                "read the book for these yourself, and waive this with the name of who read it; a claims.yaml of your own adds words; or waive it with your reason: waive: [{rule: language, because: …}]",
            )
        ],
    ),
]


def test_a_language_of_lists_without_a_catalogue_says_just_that() -> None:
    notice = unchecked("de-AT", standard())
    assert (
        notice
        == "for the language 'de-AT' there is no list of words of pages and labels, so these are in English"
    )
    assert unchecked("en", standard()) == ""


@pytest.mark.parametrize("language", ["it", "pt-BR", "pl"])
def test_it_may_be_waived_with_who_read_the_book(language: str) -> None:
    waived = (
        f"title: x\nlanguage: {language}\nwaive: [{{rule: language, because: read by a speaker of it}}]\n"
    )
    assert found(recipe(GOOD, book=waived), "language") == []


def test_the_badge_says_so(tmp_path: Path) -> None:
    for language, said in (("it", True), ("en", False)):
        files = signed(recipe(GOOD, book=f"title: x\nlanguage: {language}\n"))
        made = site_of(prove(write_book(tmp_path / language, files)))
        assert ("there is no list of" in made["recipes/tried/index.html"].decode()) is said
