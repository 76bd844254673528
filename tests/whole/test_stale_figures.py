"""Every figure that is stated or quoted, in both books, is corrupted digit by digit: each must be found.

A recipe is corrupted in memory and proofed in its own book; one corruption a book goes
through the `build` command too, with a site in place that must survive untouched. The fast tests
corrupt one digit of each figure, now the first and now a later one; the slow ones all of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from saponary.book import quotes
from saponary.book.classes import parse_class
from saponary.book.figure import FINGERPRINT
from saponary.book.library import Book, read_book
from saponary.book.proofed import Proofed
from saponary.book.recipe_file import RecipeFile
from saponary.build.proof import prove_book
from saponary.cli.main import main
from saponary.reading.files import Folder
from saponary.reading.findings import errors
from saponary.reading.textfile import TextFile
from support import BOOKS, copy_book, prove_one, some


def _read(name: str) -> Book:
    return read_book(Folder(BOOKS[name]))


def _proofed(book: Book) -> tuple[Proofed, ...]:
    return prove_book(book).recipes


def figure_spans(one: Proofed) -> Iterator[tuple[str, int, int]]:
    """Name and span of the text of every stated and quoted figure."""
    recipe = one.computed.file
    for name in one.computed.model.signed:
        span = recipe.tree.values["signed", name]
        yield name, span.start, span.end
    for quote in one.computed.quotes:
        if quote.value is not None:
            yield quote.name, quote.value_start, quote.value_start + len(quote.value)


def corruptions(recipe: TextFile, start: int, end: int) -> Iterator[tuple[int, str]]:
    """The text with each digit of a span changed in turn, and where."""
    number = re.compile(r"[0-9a-f]{6,}|[0-9.]+").search(recipe.text, start, end)
    assert number is not None
    for at in range(number.start(), number.end()):
        if recipe.text[at].isdigit():
            digit = str((int(recipe.text[at]) + 1) % 10)
            yield at, recipe.text[:at] + digit + recipe.text[at + 1 :]


def one_of(found: Iterator[tuple[int, str]], turn: int) -> list[tuple[int, str]]:
    """One of the corruptions, another at each turn."""
    each = list(found)
    return [each[turn % len(each)]] if each else []


@pytest.mark.parametrize(
    ("name", "every", "least"),
    [
        ("starters", False, 50),
        pytest.param("starters", True, 150, marks=pytest.mark.slow),
        pytest.param("demo", True, 150, marks=pytest.mark.slow),
    ],
)
def test_every_digit_of_every_figure_is_held(name: str, every: bool, least: int) -> None:
    book = _read(name)
    tried = 0
    for one in _proofed(book):
        for turn, (figure, start, end) in enumerate(figure_spans(one)):
            corrupted = corruptions(one.computed.file, start, end)
            for at, text in corrupted if every else one_of(corrupted, turn):
                tried += 1
                proof = prove_one(text, book, one.computed.file.slug)
                found = [f for f in errors(proof.findings) if f.rule == "stale"]
                where = f"{one.computed.file.file}: {figure} corrupted at {one.computed.file.place_at(at)}"
                assert found, where
                place = one.computed.file.place_at(start)
                assert any((f.place.line, f.place.column) == (place.line, place.column) for f in found), where
                assert any(_names_the_truth(f.message, f.hint, one, figure) for f in found), where
    assert tried > least, "the books state and quote too few figures for this test to mean anything"


@pytest.mark.parametrize("every", [False, pytest.param(True, marks=pytest.mark.slow)])
def test_every_digit_of_every_figure_in_a_lesson_is_held(every: bool) -> None:
    book = _read("demo")
    tried = 0
    for lesson in book.classes:
        for turn, quote in enumerate(quotes.find(lesson.body, offset=lesson.body_start)):
            if quote.value is None:
                continue
            end = quote.value_start + len(quote.value)
            corrupted = corruptions(lesson, quote.value_start, end)
            for at, text in corrupted if every else one_of(corrupted, turn):
                tried += 1
                taught = tuple(parse_class(one.file, text) if one is lesson else one for one in book.classes)
                found = [
                    f for f in errors(prove_book(replace(book, classes=taught)).findings) if f.rule == "stale"
                ]
                assert [f.place for f in found] == [lesson.place_at(quote.value_start)], text[at - 20 : at]
                assert f"saponary sign {lesson.slug}" in found[0].hint and quote.value in found[0].message
    assert tried


def _names_the_truth(message: str, hint: str, one: Proofed, figure: str) -> bool:
    if figure == FINGERPRINT:
        return one.computed.fingerprint in message and "saponary sign" in hint
    return figure in message and "and is now" in message and f"saponary sign {one.computed.file.slug}" in hint


@pytest.mark.parametrize("name", ["starters", pytest.param("demo", marks=pytest.mark.slow)])
def test_moving_any_share_of_any_oil_is_found(name: str) -> None:
    """Two points from one oil to its neighbour keep the sum; the stated figures must not hold."""
    book = _read(name)
    tried = 0
    for one in some(one for one in _proofed(book) if one.computed.model.signed):
        recipe = one.computed.file
        parts = list(one.computed.model.oils.parts)
        for giver, taker in zip(parts, parts[1:] + parts[:1], strict=True):
            moved = _move(recipe, giver, taker)
            if moved is None:
                continue
            tried += 1
            proof = prove_one(moved, book, recipe.slug)
            assert errors(proof.findings), f"{recipe.file}: from {giver} to {taker} goes unnoticed"
    assert tried >= len(_proofed(book)), "some recipe's shares were not moved"


def _move(recipe: RecipeFile, giver: str, taker: str) -> str | None:
    text = recipe.text
    spans = []
    for name, change in ((giver, -2), (taker, 2)):
        path = ("oils", "parts", name)
        span = recipe.tree.values.get((*path, "share"), recipe.tree.values[path])
        number = re.compile(r"\d+(?= *%)").search(text, span.start, span.end)
        if number is None or giver == taker:
            return None
        spans.append((number.start(), number.end(), str(int(number[0]) + change)))
    for start, end, new in sorted(spans, reverse=True):
        text = text[:start] + new + text[end:]
    return text


@pytest.mark.parametrize("name", BOOKS)
def test_build_of_a_stale_book_writes_nothing(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    root = copy_book(name, tmp_path / "book")
    site = root / "site"
    site.mkdir()
    (site / "index.html").write_text("the last good site")
    one = next(r for r in _proofed(read_book(Folder(root))) if r.computed.model.signed)
    figure, start, end = next(figure_spans(one))
    at, text = next(corruptions(one.computed.file, start, end))
    (root / one.computed.file.file).write_bytes(text.encode())

    assert main(["build", str(root)]) == 1

    said = capsys.readouterr()
    place = one.computed.file.place_at(start)
    assert (
        f"{one.computed.file.file}:{place.line}:{place.column}: error [stale] {figure} is signed as"
        in said.out
    )
    assert f"saponary sign {one.computed.file.slug}" in said.out
    assert sorted(p.name for p in root.iterdir() if p.name.startswith(".")) == [".cache", ".saponary"]
    assert [p.name for p in site.iterdir()] == ["index.html"]
    assert (site / "index.html").read_text() == "the last good site"
    assert at >= start
