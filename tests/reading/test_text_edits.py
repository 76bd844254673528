"""Edits replace what they say and leave every other byte alone."""

from __future__ import annotations

import pytest

from saponary.reading.text_edits import Edit, apply, closing_line, newline_of
from saponary.reading.textfile import TextFile


def test_edits_are_made_in_any_order() -> None:
    text = "a: 1\r\nb: 2 # two\r\n"
    assert apply(text, [Edit(9, 10, "20"), Edit(3, 4, "")]) == "a: \r\nb: 20 # two\r\n"
    assert apply(text, []) == text


@pytest.mark.parametrize(
    ("text", "newline"),
    [("a\nb\n", "\n"), ("a\r\nb\r\n", "\r\n"), ("a\rb\r", "\r"), ("a", "\n"), ("a\rb\n", "\n")],
)
def test_lines_end_as_the_file_ends_them(text: str, newline: str) -> None:
    assert newline_of(text) == newline


def test_the_front_matter_ends_at_its_last_dashes() -> None:
    text = "---\ntitle: a\nnote: |\n  ---\n---\nbody ---\n"
    file = TextFile("recipes/a.md", "a", text, body_start=text.index("body"))
    assert closing_line(file) == text.index("---\nbody")
