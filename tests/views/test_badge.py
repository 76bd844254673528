"""The badge says what stands behind the figures, and what was not checked."""

from __future__ import annotations

from lot_books import built, having, parsed, words
from support import PLAIN

PAGE = "recipes/tried/index.html"


def told(text: str) -> str:
    return words(parsed(built(text), PAGE))


def test_values_of_the_tables_are_called_so_and_what_is_not_checked_is_said() -> None:
    said = told(PLAIN)
    assert "Saponification values come from the tables." in said
    assert "Not checked: times, temperatures, prices" in said
    assert "set aside by the maker" not in said and "not known" not in said


def test_a_bare_number_that_was_set_aside_is_counted() -> None:
    text = PLAIN.replace("A plain bar.", "Weigh out 140 g of lye.")
    waiver = "waive:\n  - {rule: bare-figure, about: 140 g, because: it is a round number}\n"
    said = told(text.replace("signed:\n", f"{waiver}signed:\n"))
    assert "One number in its texts matches no figure here; the maker waived the warning." in said


def test_what_takes_an_unknown_share_of_the_alkali_is_named_once() -> None:
    extra = "additions: [{what: dead-sea-salt, amount: 100 g}]\n"
    page = parsed(built(PLAIN.replace("signed:\n", f"{extra}signed:\n")), PAGE)
    (badge,) = having(page, "badge")
    assert "Superfat not known: Dead Sea salt binds an unknown amount of alkali." in words(badge)
    assert words(badge).count("Dead Sea salt") == 1
