"""One command at a time writes to a book, and no lock outlasts its holder."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from saponary.build.at_work import Busy, at_work
from support import REPOSITORY

HOLD = """
import sys
from pathlib import Path
from saponary.build.at_work import at_work
with at_work(Path(sys.argv[1]), "build"):
    print("held", flush=True)
    sys.stdin.read()
"""


def holder(root: Path) -> subprocess.Popen[bytes]:
    """Another process that holds the book's lock."""
    child = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(root)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(REPOSITORY / "generator")},
    )
    assert child.stdout is not None and child.stdout.readline() == b"held\n"
    return child


def end(child: subprocess.Popen[bytes]) -> None:
    child.kill()
    child.communicate()


def test_a_second_command_is_told_who_holds_the_book(tmp_path: Path) -> None:
    child, told = holder(tmp_path), list[str]()
    try:
        with pytest.raises(Busy) as busy, at_work(tmp_path, "record", wait=0.1, tell=told.append):
            pytest.fail("two at work")
    finally:
        end(child)
    for said in (str(busy.value), *told):
        assert f"saponary build (process {child.pid}, since 2" in said


def test_a_lock_ends_with_its_holder_however_that_ends(tmp_path: Path) -> None:
    end(holder(tmp_path))
    assert (tmp_path / ".saponary/at-work").exists(), "the kill came too late to show anything"
    told = list[str]()
    with at_work(tmp_path, "record", wait=0, tell=told.append):
        assert "record" in (tmp_path / ".saponary/at-work").read_text()
    assert told == [] and not (tmp_path / ".saponary/at-work").exists()


def test_it_is_let_go_when_the_command_fails(tmp_path: Path) -> None:
    for _ in range(2):
        with pytest.raises(RuntimeError, match="fault"), at_work(tmp_path, "record", wait=0):
            raise RuntimeError("fault")


def test_what_a_killed_command_was_writing_is_cleared_away(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    for name in (".a.md.abcd1234.part", "a.md", ".hidden.part", "b.part", ".a.md.swp"):
        (tmp_path / "recipes" / name).write_text("")
    with at_work(tmp_path, "record"):
        left = {path.name for path in (tmp_path / "recipes").iterdir()}
    assert left == {"a.md", ".hidden.part", "b.part", ".a.md.swp"}


def test_another_book_is_not_held(tmp_path: Path) -> None:
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
    with at_work(tmp_path / "one", "build"), at_work(tmp_path / "two", "build", wait=0):
        pass


def test_a_waiting_command_writes_nothing_before_its_turn(tmp_path: Path) -> None:
    """In a new book the holder would clear away what another is just writing."""
    child = holder(tmp_path)
    (tmp_path / ".saponary/.gitignore").unlink()
    try:
        with pytest.raises(Busy), at_work(tmp_path, "record", wait=0.1):
            pass
        assert not (tmp_path / ".saponary/.gitignore").exists()
    finally:
        end(child)
    with at_work(tmp_path, "record"):
        assert (tmp_path / ".saponary/.gitignore").read_bytes() == b"*\n"


@pytest.mark.parametrize("what", ["file", "link", "dangling link"])
def test_only_a_folder_is_the_program_s_own(what: str, tmp_path: Path) -> None:
    root, far = tmp_path / "book", tmp_path / "far"
    root.mkdir()
    far.mkdir()
    if what == "file":
        (root / ".saponary").write_text("mine")
    else:
        (root / ".saponary").symlink_to(far if what == "link" else tmp_path / "nowhere")
    with pytest.raises(NotADirectoryError), at_work(root, "build"):
        pass
    assert not list(far.iterdir()) and not (tmp_path / "nowhere").exists()
