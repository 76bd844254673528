"""A save is told once, whatever way an editor saves; what no build reads is not told."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from in_git import git
from saponary.watch.changes import CLOSED, QUIET, Changes, is_read
from support import PLAIN, write_book

LONG = 5.0
"""Seconds that a change is waited for, at most."""
SHORT = 0.15
"""Seconds in which nothing is to be told."""


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path, {"book.yaml": "title: A book\n", "recipes/plain.md": PLAIN})


@pytest.fixture
def changes(book: Path) -> Iterator[Changes]:
    with Changes(book) as found:
        yield found


def by_rename(path: Path) -> None:
    aside = path.with_name(".plain.md.swp")
    aside.write_text("changed")
    aside.replace(path)


def by_backup(path: Path) -> None:
    path.rename(path.with_name("plain.md~"))
    path.write_text("changed")


def in_place(path: Path) -> None:
    path.write_text("changed")


def by_deleting(path: Path) -> None:
    path.unlink()


@pytest.mark.parametrize("save", [by_rename, by_backup, in_place, by_deleting])
def test_a_save_is_told_once(book: Path, changes: Changes, save: object) -> None:
    assert callable(save)
    save(book / "recipes" / "plain.md")
    assert changes.wait(LONG)
    assert not changes.wait(SHORT)


def test_a_file_that_is_closed_is_not_waited_for_as_long_as_several(book: Path) -> None:
    one, other = str(book / "recipes" / "plain.md"), str(book / "recipes" / "other.md")
    found = Changes(book)
    found.tell(one)
    assert found.quiet == QUIET, "it is being written"
    found.tell(one, closed=True)
    assert found.quiet == CLOSED
    found.tell(other, closed=True)
    assert found.quiet == QUIET, "more may follow"


def test_hundreds_of_files_at_once_are_told_together(book: Path, changes: Changes) -> None:
    for number in range(300):
        (book / "recipes" / f"r{number}.md").write_text("new")
    assert changes.wait(LONG)
    assert not changes.wait(SHORT)


def test_what_no_build_reads_is_not_told(book: Path, changes: Changes) -> None:
    write_book(
        book, {"site/index.html": "x", ".cache/x": "x", "notes.txt": "x", "recipes/.plain.md.swp": "x"}
    )
    (book / "recipes" / "plain.md").read_text()
    assert not changes.wait(SHORT)


def test_a_folder_may_go_and_come_back(book: Path, changes: Changes) -> None:
    shutil.rmtree(book / "recipes")
    assert changes.wait(LONG)
    write_book(book, {"recipes/plain.md": PLAIN})
    assert changes.wait(LONG)
    changes.wait(SHORT)
    in_place(book / "recipes" / "plain.md")
    assert changes.wait(LONG)


def test_a_folder_that_is_new_is_watched(book: Path, changes: Changes) -> None:
    write_book(book, {"batches/plain/one.md": "x"})
    assert changes.wait(LONG)
    changes.wait(SHORT)
    in_place(book / "batches" / "plain" / "one.md")
    assert changes.wait(LONG)


@pytest.mark.slow
def test_the_whole_book_may_be_renamed_away_and_back(book: Path, tmp_path: Path) -> None:
    home = book / "inner"
    write_book(home, {"recipes/plain.md": PLAIN})
    with Changes(home) as changes:
        home.rename(book / "elsewhere")
        assert changes.wait(LONG)
        (book / "elsewhere").rename(home)
        assert changes.wait(LONG)
        changes.wait(SHORT)
        in_place(home / "recipes" / "plain.md")
        assert changes.wait(LONG)


def test_a_commit_is_told_and_what_git_writes_as_it_reads_is_not(book: Path) -> None:
    git(book, "init", "-q")
    git(book, "add", ".")
    git(book, "commit", "-qm", "first")
    with Changes(book) as changes:
        os.utime(book / ".git" / "description")
        assert not changes.wait(SHORT)
        git(book, "commit", "-q", "--allow-empty", "-m", "second")
        assert changes.wait(LONG)


def test_where_the_system_gives_no_events_the_folders_are_looked_at(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(28, "inotify watch limit reached")

    changes = Changes(book)
    monkeypatch.setattr(changes._observer, "schedule", refuse)
    with changes:
        in_place(book / "recipes" / "plain.md")
        assert changes.wait(LONG)


@pytest.mark.parametrize(
    ("path", "read"),
    [
        ("recipes/plain.md", True),
        ("book.yaml", True),
        ("templates/style/90-mine.css", True),
        ("recipes/plain.md~", False),
        ("recipes/.#plain.md", False),
        ("site/index.html", False),
        ("private/maker/index.html", False),
        ("", False),
    ],
)
def test_what_counts(path: str, read: bool) -> None:
    assert is_read(tuple(filter(None, path.split("/")))) is read
