"""What a command said is said again only while nothing that it rested on has changed."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from saponary.assets import stamps
from saponary.build import last_run
from saponary.build.last_run import LastRun, Told
from support import write_book

SAID = Told(0, (("out", "12 recipes recomputed"), ("err", "a warning, ä\x07")))
FILES = {
    "book.yaml": "title: A\n",
    "recipes/a.md": "---\ntitle: A\n---\n",
    "photos/deep/a.jpg": b"\xff\xd8",
    "templates/base.html": "x",
    "site/index.html": "<p>",
    "site/recipes/a/index.html": "<p>a",
}


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small book, written long ago; this program is taken to be as it was."""
    monkeypatch.setattr(last_run, "program", lambda: ["a program"])
    root = write_book(tmp_path / "book", FILES)
    ran(root)
    return root


def ran(root: Path, day: str | None = None) -> None:
    run = LastRun(root, ("build",))
    run.begin()
    run.keep(SAID, [root / "site"], day)


def told(root: Path, day: str = "2026-03-02") -> Told | None:
    return LastRun(root, ("build",)).stands(day)


def same_stamp(path: Path, text: str) -> None:
    """Other bytes of the same number, with the times set back as far as a program can."""
    was = path.stat()
    assert len(text.encode()) == was.st_size
    path.write_text(text)
    os.utime(path, ns=(was.st_atime_ns, was.st_mtime_ns))


def link(path: Path, to: str) -> None:
    path.unlink(missing_ok=True)
    path.symlink_to(to)


CHANGES: dict[str, Callable[[Path], object]] = {
    "an edit": lambda root: (root / "recipes/a.md").write_text("---\ntitle: Another\n---\n"),
    "an edit of the same size and date": lambda root: same_stamp(
        root / "recipes/a.md", "---\ntitle: B\n---\n"
    ),
    "a recipe added": lambda root: (root / "recipes/b.md").write_text("---\n"),
    "a recipe deleted": lambda root: (root / "recipes/a.md").unlink(),
    "a recipe renamed": lambda root: (root / "recipes/a.md").rename(root / "recipes/b.md"),
    "another file moved over it": lambda root: (
        write_book(root, {"new": "---\ntitle: C\n---\n"}) / "new"
    ).replace(root / "recipes/a.md"),
    "a file turned into a link": lambda root: link(root / "recipes/a.md", "../book.yaml"),
    "a link that leads nowhere": lambda root: link(root / "recipes/c.md", "nowhere.md"),
    "settings": lambda root: (root / "book.yaml").write_text("title: B\n"),
    "a pantry": lambda root: (root / "pantry.yaml").touch(),
    "claim words": lambda root: (root / "claims.yaml").touch(),
    "batches": lambda root: write_book(root, {"batches/a.yaml": "batches: []\n"}),
    "a class": lambda root: write_book(root, {"classes/a.md": "---\n"}),
    "an empty folder": lambda root: (root / "classes").mkdir(),
    "a photo": lambda root: (root / "photos/deep/a.jpg").write_bytes(b"\xff\xd9"),
    "a template": lambda root: (root / "templates/base.html").write_text("y"),
    "a folder that cannot be read": lambda root: (root / "recipes/a.md").chmod(0),
    "a page edited": lambda root: (root / "site/index.html").write_text("<b>"),
    "a page deleted": lambda root: (root / "site/recipes/a/index.html").unlink(),
    "the site deleted": lambda root: shutil.rmtree(root / "site"),
    "a stranger's file in the site": lambda root: (root / "site/other.txt").touch(),
    "the store deleted": lambda root: shutil.rmtree(root / ".cache"),
    "the whole book copied elsewhere and back": lambda root: (
        shutil.copytree(root, root.with_name("copy"), copy_function=shutil.copy2),
        shutil.rmtree(root),
        root.with_name("copy").rename(root),
    ),
    "a history begun": lambda root: subprocess.run(
        ["git", "init", "-q", str(root)], check=True, capture_output=True
    ),
    "rules of git": lambda root: (root / ".gitignore").write_text("*\n"),
}


@pytest.mark.parametrize("what", CHANGES)
def test_after_a_change_nothing_is_told_again(what: str, book: Path) -> None:
    if what == "rules of git":
        subprocess.run(["git", "init", "-q", str(book)], check=True, capture_output=True)
        ran(book)
    assert told(book) == SAID
    CHANGES[what](book)
    assert told(book) is None
    if book.is_dir():
        ran(book)
        assert told(book) == SAID, "and it stands again after the next run"


def test_it_stands_while_what_is_not_read_changes(book: Path) -> None:
    write_book(book, {"notes.txt": "x", ".git-blame": "x", ".cache/page/abc": "x"})
    assert told(book) == told(book) == SAID


@pytest.mark.parametrize("words", [("build", "all"), ("proof",)])
def test_what_else_was_asked_is_another_run(words: tuple[str, ...], book: Path) -> None:
    assert LastRun(book, words).stands("2026-03-02") is None


def test_another_program_is_not_believed(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(last_run, "program", lambda: ["another program"])
    assert told(book) is None


def test_the_day_matters_where_it_was_spoken_of(book: Path) -> None:
    ran(book, "2026-03-02")
    assert told(book, "2026-03-02") == SAID and told(book, "2026-03-03") is None


def test_what_changed_while_it_ran_is_not_kept(book: Path) -> None:
    shutil.rmtree(book / ".cache")
    run = LastRun(book, ("build",))
    run.begin()
    (book / "recipes/a.md").write_text("---\ntitle: D\n---\n")
    run.keep(SAID, [book / "site"])
    assert told(book) is None


def test_a_page_changed_since_the_run_saw_it_is_not_taken_for_its_own(book: Path) -> None:
    page = book / "site/recipes/a/index.html"
    seen = {str(page): stamps.numbers(page.lstat())}
    for edited, stands in ((False, SAID), (True, None)):
        run = LastRun(book, ("build",))
        run.begin()
        if edited:
            same_stamp(page, "<p>b")
        run.keep(SAID, [book / "site"], None, seen)
        assert told(book) == stands


def test_an_edit_within_the_tick_of_the_clock_is_seen(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Some clocks stand still for two seconds: there an edit may leave every number as it was."""
    frozen = "9 1 9 33188 1"
    monkeypatch.setattr(stamps, "_line", lambda path, found: f"{path}\t{frozen}")
    monkeypatch.setattr(last_run, "fresh", lambda lines, now: stamps.fresh(lines, 2_000_000_000))
    ran(book)
    assert told(book) == SAID
    (book / "recipes/a.md").write_text("---\ntitle: E\n---\n")
    assert told(book) is None


def test_what_was_fresh_is_looked_at_by_its_stamp_alone_when_it_is_old(book: Path) -> None:
    line = stamps.stamp(str(book / "recipes/a.md"))
    changed = (book / "recipes/a.md").stat().st_mtime_ns
    assert stamps.fresh([line], changed + 1) == [str(book / "recipes/a.md")]
    assert stamps.fresh([line], changed + 60_000_000_000) == []


@pytest.mark.parametrize(
    "harm", [lambda data: b"", lambda data: data[:-9], lambda data: data.replace(b"12", b"13")]
)
def test_a_damaged_record_is_not_believed(harm: Callable[[bytes], bytes], book: Path) -> None:
    (kept,) = (book / ".cache" / "run").iterdir()
    kept.write_bytes(harm(kept.read_bytes()))
    assert told(book) is None


def test_nothing_is_begun_in_a_folder_that_is_asked_about(tmp_path: Path) -> None:
    assert told(tmp_path) is None
    assert list(tmp_path.iterdir()) == []
