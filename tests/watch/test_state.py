"""What a look came to, as it is told: what is new on the terminal, the errors first in a browser."""

from __future__ import annotations

from pathlib import Path

from saponary.reading.files import Folder
from saponary.reading.findings import Finding, Place
from saponary.watch.state import State, in_order
from support import write_book

FAULT = Finding("stale", "error", Place("recipes/b.md", 2, 6), "lye is wrong", "mend it")
NOTE = Finding("usual", "warning", Place("recipes/a.md", 9, 1), "much water")


def test_errors_come_first() -> None:
    assert in_order([NOTE, FAULT]) == (FAULT, NOTE)


def test_what_was_told_is_not_told_again() -> None:
    first, then = State(1, (NOTE,), recipes=2), State(2, (FAULT, NOTE), recipes=2)
    assert "much water" in first.as_text()
    told = then.as_text(first)
    assert "recipes/b.md:2:6: error [stale] lye is wrong" in told
    assert "much water" not in told
    assert "1 errors, 1 warnings" not in told
    assert "1 error, 1 warning" in told


def test_a_finding_brings_its_line(tmp_path: Path) -> None:
    write_book(tmp_path, {"recipes/b.md": "---\nlye: 9 g\n---\n"})
    data = State(1, (FAULT, NOTE)).as_data(Folder(tmp_path))
    assert isinstance(data["findings"], list)
    assert [one["line"] for one in data["findings"]] == ["lye: 9 g", ""]
    assert (data["errors"], data["count"], data["failed"]) == (1, 2, True)


def test_a_browser_is_not_given_more_than_it_can_show() -> None:
    many = tuple(Finding("usual", "warning", Place(f"recipes/{n}.md"), "much water") for n in range(250))
    data = State(1, in_order((*many, FAULT))).as_data(None)
    assert isinstance(data["findings"], list)
    assert len(data["findings"]) == 100
    assert data["findings"][0]["rule"] == "stale"
    assert data["count"] == 251
