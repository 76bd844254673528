"""A build reads nothing of a book that has no stamp."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from saponary.assets import stamps
from saponary.build import git_stamps
from support import BOOKS, REPOSITORY, copy_book

_WATCH = """
import json, os, sys
seen = set()
def note(event, given):
    if event in ("open", "os.listdir", "os.scandir") and isinstance(given[0], (str, bytes)):
        seen.add(os.path.abspath(os.fsdecode(given[0])))
sys.addaudithook(note)
from saponary.cli.main import main
status = main(json.loads(sys.argv[1]))
print(json.dumps([status, sorted(seen)]), file=sys.stderr)
"""
WRITTEN = ("site", "private", ".saponary", ".cache", ".git")
"""What a build keeps or writes itself, and the history, which has stamps of its own."""


@pytest.mark.slow
@pytest.mark.parametrize("name", BOOKS)
def test_a_build_reads_nothing_that_has_no_stamp(name: str, tmp_path: Path) -> None:
    root = copy_book(name, tmp_path / "book")
    words = ["build", str(root), "--edition", "all", "--on", "2026-03-20"]
    run = subprocess.run(
        [sys.executable, "-c", _WATCH, json.dumps(words)],
        env={**os.environ, "PYTHONPATH": str(REPOSITORY / "generator")},
        capture_output=True,
        text=True,
        check=True,
    )
    status, seen = json.loads(run.stderr.splitlines()[-1])
    assert status == 0, run.stderr
    inside = {
        path.relative_to(root).parts[0]
        for path in map(Path, seen)
        if path.is_relative_to(root) and path != root
    }
    assert "recipes" in inside
    assert inside - set(stamps.SOURCES) - set(WRITTEN) == set()


def commit(root: Path, message: str) -> None:
    words = ["-c", "user.name=n", "-c", "user.email=n@book.invalid", "commit", "-q", "-m", message]
    for given in (["add", "-A"], [*words, "--allow-empty"]):
        subprocess.run(["git", "-C", str(root), *given], check=True, capture_output=True)


def test_a_history_is_told_by_its_last_commit_and_by_what_is_staged(tmp_path: Path) -> None:
    root = tmp_path / "house" / "book"
    (root / "recipes").mkdir(parents=True)
    assert git_stamps.history(root) == git_stamps.history(root)
    subprocess.run(["git", "init", "-q", str(tmp_path / "house")], check=True, capture_output=True)
    seen = [git_stamps.history(root)]
    for change in (
        lambda: commit(root, "first"),
        lambda: commit(root, "second"),
        lambda: subprocess.run(["git", "-C", str(root), "checkout", "-q", "-b", "other"], check=True),
        lambda: (
            (root / "recipes/a.md").touch(),
            subprocess.run(["git", "-C", str(root), "add", "."], check=True),
        ),
        lambda: (tmp_path / "house/.gitignore").write_text("*.md"),
        lambda: (root / "recipes/.gitattributes").write_text("*.md text"),
    ):
        change()
        seen.append(git_stamps.history(root))
        assert seen[-1] not in seen[:-1]
        assert seen[-1] == git_stamps.history(root)
    worktree = tmp_path / "aside"
    subprocess.run(
        ["git", "-C", str(root), "worktree", "add", "-q", str(worktree)], check=True, capture_output=True
    )
    before = git_stamps.history(worktree)
    commit(worktree, "third")
    assert git_stamps.history(worktree) != before


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_a_pipe_among_the_files_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "recipes.md"
    os.mkfifo(pipe)
    # Were the pipe read, this would be what is in it.
    threading.Thread(target=pipe.write_bytes, args=(b"read",), daemon=True).start()
    assert stamps.content(str(pipe)) == "-"
