"""`saponary manual`: topics, keys, rules and words, and the nearest name on a miss."""

from __future__ import annotations

import pytest

from saponary.cli.main import main


def asked(*words: str, capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["manual", *words]) == 0
    return capsys.readouterr().out


def test_without_a_word_it_tells_what_there_is(capsys: pytest.CaptureFixture[str]) -> None:
    said = asked(capsys=capsys)
    assert "first-recipe" in said and "pantry.yaml" in said


@pytest.mark.parametrize(
    ("words", "holds"),
    [
        (("first-recipe",), ["A first recipe", "saponary begin my_book"]),
        (("first", "recipe"), ["A first recipe"]),
        (("superfat",), ["superfat: 5 %", "book.yaml at superfat", "superfat (danger"]),
        (("oils.parts",), ["Shares make 100 %", "infused-with"]),
        (("lye-strength:",), ["water: {lye-strength: 33 %}"]),
        (("class",), ["students", "per-bench"]),
        (("usual-water",), ["wrong, in a recipe:", "water: {lye-strength: 22 %}"]),
        (("ricing",), ["batches.faults"]),
        (("static", "host"), ["editions-and-publishing"]),
        (("labels",), ["Labels and law", "label-sheets:"]),
        (("shop",), ["saponary manual editions-and-publishing"]),
    ],
)
def test_it_finds(words: tuple[str, ...], holds: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    said = asked(*words, capsys=capsys)
    assert [text for text in holds if text not in said] == []


def test_a_miss_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["manual", "superfatt"]) == 2
    assert "did you mean 'superfat'?" in capsys.readouterr().err


def test_what_holds_for_a_key_that_is_left_out_is_as_it_is_written(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """A word, a number, true or false; of a key with keys of its own nothing is told."""
    assert "else    false" in asked("both-units", capsys=capsys)
    assert "else" not in asked("shop", capsys=capsys)


def test_who_sees_a_key_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert "by nobody but you" in asked("supplier", capsys=capsys)
    assert "where an edition shows costs" in asked("price", capsys=capsys)
