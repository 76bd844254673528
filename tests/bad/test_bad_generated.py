"""Files that are huge, binary, nested without end, or no files at all: one error each, at its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from bad.cases import ODD, Odd, fronted
from saponary.build.proof import prove
from support import PLAIN, assert_listed, write_book


@pytest.mark.parametrize("odd", ODD, ids=lambda odd: ascii(odd.name))
def test_it_gives_one_error_at_its_place(odd: Odd, tmp_path: Path) -> None:
    book = write_book(tmp_path / "book", {"recipes/plain.md": PLAIN})
    odd.make(book / "recipes" / odd.name)
    findings = prove(book).findings
    assert_listed(findings)
    errors = [f for f in findings if f.severity == "error"]
    assert [(f.place.file, f.place.line, f.place.column) for f in errors] == [(odd.reported, *odd.at)]
    assert odd.message in errors[0].message
    assert errors[0].hint
    assert len(errors[0].message) < 200


def test_brackets_on_one_line(tmp_path: Path) -> None:
    """The parser itself may stop first; either way it is one finding on that line."""
    text = fronted("private: " + "[" * 100_000 + "\n")
    errors = [
        f for f in prove(write_book(tmp_path, {"recipes/plain.md": text})).findings if f.severity == "error"
    ]
    assert [f.place.line for f in errors] == [13]
    assert "nest" in errors[0].message


@pytest.mark.parametrize("name", ["book.yaml", "pantry.yaml"])
@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "this file is empty"),
        (b"title: \0", "this is not a text file"),
        (b"\xff\xfe", "this file is in UTF-16"),
        (b"a: \xe8", "the byte 0xe8 is not UTF-8"),
        (b"a: &a [*a]", "has no anchor before it"),
        (b"[" * 100_000, "nest"),
    ],
)
def test_settings_and_pantry_are_read_as_warily(
    name: str, content: bytes, message: str, tmp_path: Path
) -> None:
    book = write_book(tmp_path, {"recipes/plain.md": PLAIN, name: content})
    errors = [f for f in prove(book).findings if f.severity == "error"]
    assert [f.place.file for f in errors] == [name]
    assert message in errors[0].message


def test_a_file_that_the_system_refuses(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: Path, *_: object, **__: object) -> object:
        raise PermissionError(13, "Permission denied", str(path))

    book = write_book(tmp_path, {"recipes/plain.md": PLAIN})
    monkeypatch.setattr(Path, "open", refuse)
    errors = [f for f in prove(book).findings if f.severity == "error"]
    assert [(f.place.file, f.message) for f in errors] == [
        ("recipes/plain.md", "this file cannot be read: Permission denied")
    ]


def test_recipes_that_are_no_folder(tmp_path: Path) -> None:
    book = write_book(tmp_path, {"book.yaml": "title: A book\n", "recipes": ""})
    errors = [f for f in prove(book).findings if f.severity == "error"]
    assert [f.message for f in errors] == ["the recipes cannot be read: Not a directory"]


def test_faults_without_end_are_counted(tmp_path: Path) -> None:
    text = PLAIN.replace("signed:", "".join(f"wrong-{n}: x\n" for n in range(500)) + "signed:")
    findings = prove(write_book(tmp_path, {"recipes/plain.md": text})).findings
    assert findings[0].message == "300 more faults are not listed"
    assert len(findings) == 201
