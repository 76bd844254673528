"""Each bad file gives exactly the errors it says it gives, each at its line and column."""

from __future__ import annotations

from pathlib import Path

import pytest

from bad.cases import WRITTEN, expected, in_book
from saponary.build.proof import prove
from saponary.reading.findings import Finding
from saponary.reading.tree import Lines
from support import PLAIN, some, write_book


def proofed(path: Path, root: Path) -> tuple[Finding, ...]:
    files = {"recipes/plain.md": PLAIN, in_book(path): path.read_bytes()}
    return prove(write_book(root, files)).findings


@pytest.mark.parametrize("path", WRITTEN, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_it_gives_what_it_says(path: Path, tmp_path: Path) -> None:
    left = list(proofed(path, tmp_path))
    wanted = expected(path)
    assert wanted, "a bad file says what it expects"
    for want in wanted:
        place = (in_book(path), want.line, want.column)
        found = [
            f for f in left
            if (f.place.file, f.place.line, f.place.column) == place and f.rule == want.rule
            and want.message in f.message and want.hint in f.hint
        ]  # fmt: skip
        assert found, f"{want} is not among {left}"
        left.remove(found[0])
    assert [f for f in left if f.severity == "error"] == []


@pytest.mark.parametrize("path", WRITTEN, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_every_error_has_a_hint_and_a_place_inside_the_file(path: Path, tmp_path: Path) -> None:
    lines = Lines(path.read_text(encoding="utf-8"))
    last = [*lines.starts[1:], len(path.read_text(encoding="utf-8")) + 1]
    for finding in some(proofed(path, tmp_path)):
        assert finding.hint
        if finding.place.file == in_book(path):
            line, column = finding.place.line, finding.place.column
            assert 1 <= line <= len(lines.starts)
            assert 1 <= column <= last[line - 1] - lines.starts[line - 1] + 1


def test_there_are_many() -> None:
    assert len(WRITTEN) >= 190
