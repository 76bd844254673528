"""The hook that this repository offers: its command runs, whatever is committed."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from saponary.cli.main import main
from support import PLAIN, REPOSITORY, read_plain, write_book

(HOOK,) = read_plain((REPOSITORY / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))


def test_its_command_lets_a_sound_book_pass_and_stops_a_stale_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program, *words = shlex.split(HOOK["entry"])
    assert program == "saponary"
    monkeypatch.chdir(write_book(tmp_path / "a", {"recipes/a.md": PLAIN}))
    assert main(words) == 0
    monkeypatch.chdir(
        write_book(tmp_path / "b", {"recipes/a.md": PLAIN.replace("superfat: 5 %", "superfat: 6 %")})
    )
    assert main(words) == 1


def test_it_runs_whatever_is_committed_and_proofs_the_whole_book() -> None:
    """By the framework's own words: without `always_run` a hook is left out where no file that is left matches."""
    assert HOOK["always_run"] is True and HOOK["pass_filenames"] is False and HOOK["language"] == "python"
    assert not {"files", "types", "exclude", "stages"} & HOOK.keys()
