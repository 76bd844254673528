"""A folder's files as names and bytes: what is refused, and in what words."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from saponary.reading.files import MAX_FILE_BYTES, Folder, ReadOnce, Unread


def message(files: Folder, name: str) -> str:
    read = files.read(name)
    assert isinstance(read, Unread)
    return read.message


def test_bytes_come_as_they_stand(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_bytes(b"one\r\ntwo\rthree\n\xff")
    assert Folder(tmp_path).read("a.md") == b"one\r\ntwo\rthree\n\xff"


def test_what_is_no_file_of_the_book_is_refused(tmp_path: Path) -> None:
    book = tmp_path / "book"
    book.mkdir()
    (tmp_path / "secret.md").write_text("mine")
    (book / "out.md").symlink_to(tmp_path / "secret.md")
    (book / "nowhere.md").symlink_to(book / "gone.md")
    (book / "round.md").symlink_to(book / "round.md")
    (book / "folder.md").mkdir()
    (book / "large.md").write_bytes(b"x" * (MAX_FILE_BYTES + 1))
    os.mkfifo(book / "pipe.md")
    files = Folder(book)
    assert message(files, "out.md") == "this link leads out of the book"
    assert message(files, "nowhere.md") == "this link leads nowhere"
    assert message(files, "folder.md") == message(files, "pipe.md") == "this is not a file"
    assert message(files, "large.md") == "this file has 2 MB"
    assert "link" in message(files, "round.md")


def test_a_link_within_the_book_is_followed(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text("a")
    (tmp_path / "b.md").symlink_to("a.md")
    assert Folder(tmp_path).read("b.md") == b"a"


@pytest.mark.parametrize("made", [True, False])
def test_names_are_sorted_and_a_folder_may_be_missing(made: bool, tmp_path: Path) -> None:
    if made:
        (tmp_path / "recipes").mkdir()
        for name in ("b.md", "a.md", "c.txt"):
            (tmp_path / "recipes" / name).touch()
    assert Folder(tmp_path).names("recipes") == (["a.md", "b.md", "c.txt"] if made else [])


def test_a_file_in_place_of_a_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "recipes").touch()
    assert isinstance(Folder(tmp_path).names("recipes"), Unread)


def test_below_leaves_out_what_leads_out(tmp_path: Path) -> None:
    photos = tmp_path / "book" / "photos"
    (photos / "day").mkdir(parents=True)
    (photos / "a.jpg").touch()
    (photos / "day" / "b.jpg").touch()
    (tmp_path / "c.jpg").touch()
    (photos / "c.jpg").symlink_to(tmp_path / "c.jpg")
    assert Folder(tmp_path / "book").below("photos") == {"a.jpg", "day/b.jpg"}


def test_what_was_let_go_of_is_read_again_as_it_was_or_not_at_all(tmp_path: Path) -> None:
    for name in ("a.md", "b.md"):
        (tmp_path / name).write_bytes(b"first")
    files = ReadOnce(Folder(tmp_path))
    for name in ("a.md", "b.md"):
        files.digest(name)
    (tmp_path / "a.md").write_bytes(b"other")
    assert files.read("a.md") == b"first"
    files.let_go(["a.md", "b.md", "never-asked-for.md"])
    assert files.read("b.md") == b"first"
    with pytest.raises(OSError, match="changed meanwhile"):
        files.read("a.md")
