"""A revision is the folder as it was committed: held against git's own checkout of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from in_git import git
from saponary.book.library import read_book
from saponary.reading.files import Folder, Unread
from saponary.reading.git import Revision, objects
from support import PLAIN, write_book


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A book in a folder of a repository, committed, and changed since."""
    top = tmp_path / "top"
    root = write_book(
        top / "shelf" / "book",
        {"recipes/a.md": PLAIN, "pantry.yaml": "oils:\n  olive: {price: 8.40 / kg}\n", "notes.txt": "n"},
    )
    (root / "photos" / "day").mkdir(parents=True)
    (root / "photos" / "day" / "b.jpg").write_bytes(b"\0\xff\r\n" * 500)
    (root / "photos" / "c ä.jpg").write_bytes(b"c")
    (root / "link.md").symlink_to("notes.txt")
    git(top, "init", "-q")
    git(top, "add", "-A")
    git(top, "commit", "-qm", "first")
    write_book(root, {"recipes/a.md": PLAIN + "More.\n", "recipes/b.md": PLAIN})
    return root


def test_a_revision_reads_as_its_checkout_does(book: Path, tmp_path: Path) -> None:
    git(book, "worktree", "add", "-q", str(tmp_path / "out"), "HEAD")
    out = Folder(tmp_path / "out" / "shelf" / "book")
    with objects(book) as held:
        assert held is not None
        old = Revision(book, held, "HEAD")
        for folder in ("", "recipes", "photos", "none"):
            assert old.names(folder) == out.names(folder or ".")
        for name in ("recipes/a.md", "pantry.yaml", "notes.txt", "photos/day/b.jpg"):
            assert old.has(name) and old.read(name) == out.read(name)
        assert old.below("photos") == out.below("photos") == {"day/b.jpg", "c ä.jpg"}
        assert not old.has("recipes/b.md") and not old.has("no/where.md")
        read = read_book(old)
        assert [recipe.text for recipe in read.recipes] == [PLAIN]
        assert read.pantry == read_book(out).pantry and read.photos == out.below("photos")


def test_what_is_no_file_of_a_revision_is_refused(book: Path) -> None:
    with objects(book) as held:
        assert held is not None
        old = Revision(book, held, "HEAD")
        for name in ("link.md", "recipes", "none.md", "notes.txt/deeper.md"):
            assert isinstance(old.read(name), Unread)
        assert isinstance(old.names("notes.txt"), Unread)


def test_a_revision_that_is_not_there_holds_nothing(book: Path) -> None:
    with objects(book) as held:
        assert held is not None
        assert Revision(book, held, "no-such-branch").names("recipes") == []


def test_a_content_has_one_id(book: Path) -> None:
    with objects(book) as held:
        assert held is not None
        old = Revision(book, held, "HEAD")
        assert old.id("notes.txt") == git(book, "hash-object", "notes.txt")
        assert old.id("none.md") is None


def test_a_folder_outside_git_has_no_objects(tmp_path: Path) -> None:
    with objects(tmp_path) as held:
        assert held is None
