"""Each bad file gives exactly the errors it says it gives, each at its line and column."""

from __future__ import annotations

from pathlib import Path

import pytest

from bad.cases import WRITTEN, Expected, expected, in_book
from saponary.build.proof import prove
from saponary.reading.findings import Finding
from saponary.reading.tree import Lines
from support import PLAIN, assert_listed, some, write_book


@pytest.mark.parametrize("path", WRITTEN, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_it_gives_what_it_says(path: Path, tmp_path: Path) -> None:
    """And nothing else; every finding by a listed rule, with a hint, at a place inside the file."""
    files = {"recipes/plain.md": PLAIN, in_book(path): path.read_bytes()}
    findings = some(prove(write_book(tmp_path, files)).findings)
    wanted = expected(path)
    assert wanted, "a bad file says what it expects"
    _given(findings, wanted, in_book(path))
    _placed(findings, path)
    assert_listed(findings)


def _given(findings: list[Finding], wanted: list[Expected], file: str) -> None:
    left = list(findings)
    for want in wanted:
        place = (file, want.line, want.column)
        found = [
            f for f in left
            if (f.place.file, f.place.line, f.place.column) == place and f.rule == want.rule
            and want.message in f.message and want.hint in f.hint
        ]  # fmt: skip
        assert found, f"{want} is not among {left}"
        left.remove(found[0])
    assert [f for f in left if f.severity == "error"] == []


def _placed(findings: list[Finding], path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    lines = Lines(text)
    last = [*lines.starts[1:], len(text) + 1]
    for finding in findings:
        assert finding.hint
        if finding.place.file == in_book(path):
            line, column = finding.place.line, finding.place.column
            assert 1 <= line <= len(lines.starts)
            assert 1 <= column <= last[line - 1] - lines.starts[line - 1] + 1


def test_there_are_many() -> None:
    assert len(WRITTEN) >= 190
