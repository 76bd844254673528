"""The hook that this repository offers: its command runs, and it looks at the files of a book and no others."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
import yaml

from saponary.cli.main import main
from support import BOOKS, PLAIN, REPOSITORY, write_book

(HOOK,) = yaml.safe_load((REPOSITORY / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))


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


@pytest.mark.parametrize("book", BOOKS.values(), ids=BOOKS)
def test_it_looks_at_every_file_that_a_proof_reads(book: Path) -> None:
    read = [*book.glob("recipes/*.md"), *book.glob("classes/*.md"), *book.glob("[a-z]*.yaml")]
    assert read and all(re.search(HOOK["files"], path.relative_to(book).as_posix()) for path in read)
    assert re.search(HOOK["files"], "my-book/recipes/a.md") and re.search(HOOK["files"], "batches/a.yaml")
    for other in ("README.md", "site/recipes/a/index.html", "photos/a.jpg"):
        assert not re.search(HOOK["files"], other)
