"""Books kept in git, for tests: a repository is begun, and what stands in a folder committed, by nobody real."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Mapping
from pathlib import Path

WHO = {
    f"GIT_{role}_{what}": value
    for role in ("AUTHOR", "COMMITTER")
    for what, value in (("NAME", "A"), ("EMAIL", "a@example.invalid"))
}


def _run(root: Path, words: tuple[str, ...], more: Mapping[str, str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["git", "-C", str(root), *words],
        check=False,
        env={**os.environ, **WHO, **more},
        capture_output=True,
        text=True,
    )


def git(root: Path, *words: str, **more: str) -> str:
    """What git prints; `more` are variables of its environment."""
    done = _run(root, words, more)
    done.check_returncode()
    return done.stdout.strip()


def tried(root: Path, *words: str) -> bool:
    """Whether git could do it."""
    return _run(root, words, {}).returncode == 0


def commit(root: Path, about: str, **more: str) -> None:
    """Commit all that stands in a folder, in a repository of its own."""
    for words in (["init", "-q"], ["add", "-A"], ["commit", "-qm", about]):
        git(root, *words, **more)
