"""Edits replace what they say and leave every other byte alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.reading.text_edits import Edit, apply, closing_line, newline_of, write
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


def test_a_file_is_replaced_whole_with_its_rights(tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    path.write_bytes(b"old")
    path.chmod(0o640)
    write(path, "new\r\n")
    assert path.read_bytes() == b"new\r\n" and path.stat().st_mode & 0o777 == 0o640
    assert [each.name for each in tmp_path.iterdir()] == ["a.md"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.md").write_text("old")
    (tmp_path / "link.md").symlink_to("real.md")
    write(tmp_path / "link.md", "new")
    assert (tmp_path / "link.md").is_symlink() and (tmp_path / "real.md").read_text() == "new"
