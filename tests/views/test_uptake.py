"""Where a thing's uptake of alkali is not known, no page, sheet or file gives a superfat."""

from __future__ import annotations

import json
import re
from functools import cache

import pytest

from checks.books import LESSON, more, proofed, put, recipe
from outputs.pdfs.desk import desk_for, sheets_of

TOLD = "uperfat not known: Dead Sea salt binds an unknown amount of alkali."
BARE = re.compile(r"superfat\W+(?:nominal\W+)?(?:is )?-?\d", re.IGNORECASE)


@cache
def made(salt: str) -> dict[str, str]:
    """What is read of each page and sheet of a recipe with a salt, without its markup."""
    text = put("A plain bar.", "The superfat is {superfat}, or {superfat = SUPERFAT}.")
    lines = more(f"additions: [{{what: {salt}, amount: 30 g}}]\n", text)
    desk = desk_for(proofed(recipe(lines, lesson=LESSON)))
    pages = {name: desk.files[f"recipes/tried/{name}.html"].decode() for name in ("index", "at-the-bench")}
    sheets = sheets_of(desk, "recipe-sheet", "class-handout", "whole-book")
    raw = desk.files["recipes/tried/figures.json"].decode()
    found = pages | {path.rpartition("/")[2]: sheet.html for path, sheet in sheets.items()}
    assert len(found) >= 5
    return {"figures.json": raw} | {
        name: " ".join(re.sub(r"<[^>]+>", " ", html).replace("\N{NO-BREAK SPACE}", " ").split())
        for name, html in found.items()
    }


def test_every_page_and_sheet_says_that_it_is_not_known() -> None:
    for name, text in made("dead-sea-salt").items():
        if name != "figures.json":
            assert TOLD in text and not BARE.search(text), name
            assert "worst case" not in text.casefold(), name
    assert "The superfat is ? % , or ? %" in made("dead-sea-salt")["index"]
    assert "1 quoted" not in made("dead-sea-salt")["index"]


def test_of_a_salt_that_binds_none_the_superfat_is_given() -> None:
    for name, text in made("salt").items():
        assert "not known: " not in text, name
    assert BARE.search(made("salt")["index"]) and "Worst case" in made("salt")["index"]


@pytest.mark.parametrize(("salt", "known"), [("salt", True), ("dead-sea-salt", False)])
def test_programs_are_told_so_too(salt: str, known: bool) -> None:
    figures = json.loads(made(salt)["figures.json"])["figures"]
    assert figures["superfat_known"] is known and ("superfat_percent" in figures) is known
    assert figures.get("superfat_not_known_for", ["none"]) == (["none"] if known else ["dead-sea-salt"])
