"""A digit or a sign that a reader takes for part of a figure is found, however it is written; words are not."""

from __future__ import annotations

import pytest

from saponary.book.beside import stuck, stuck_in_notes

STUCK = [
    "1{lye}", "The lye is 1{lye}.", "٣{lye}", "½{lye}", "²{lye}", "1.{lye}", "1,{lye}", "1\u00a0{lye}", "1\u202f{lye}",
    "1'{lye}", "1**{lye}**", "**1**{lye}", "1_{lye}_", "1\u200b{lye}", "1\u2060{lye}", "1\ufeff{lye}", "1\u00ad{lye}",
    "&#49;{lye}", "&#x31;{lye}", "1&nbsp;{lye}", "1&zwnj;{lye}", "1[{lye}](a.md)", "about −{lye}", "-{lye}", "(−{lye})",
    "{lye}5", "{lye}.5", "{lye},5", "{lye}**5**", "{lye}&#53;", "{lye}\u200b5", "{lye}²", "1{lye = 139 g}",
]  # fmt: skip
APART = [
    "{lye}", "The lye is {lye}.", "{lye}, 5 minutes", "{lye}. 5 minutes", "in 2 parts {lye}", "lye-{lye}", "{lye}-heavy", "{lye}–{water}",
    "({lye})", "[{lye}](a.md)", "**{lye}**", "A1: {lye}", "5 % and {lye}", "{lye} in 3 jugs", "x{lye}", "`1{lye}`",
    "- {lye} of lye", "lye – {lye}", "\\{lye} 5", "1 kg {lye}", "{lye}.\n\n1. Next", "2\n{lye}",
]  # fmt: skip


@pytest.mark.parametrize("text", STUCK)
def test_what_is_read_as_part_of_a_figure_is_found(text: str) -> None:
    assert list(stuck_in_notes(text)) != []


@pytest.mark.parametrize("text", APART)
def test_words_beside_a_figure_are_none(text: str) -> None:
    assert list(stuck_in_notes(text)) == []


def test_its_place_is_that_of_the_brace() -> None:
    assert list(stuck_in_notes("a <!-- b --> 1<!-- c -->{lye}", offset=100)) == [124]
    assert list(stuck("a {lye} 1{water}")) == [9]
