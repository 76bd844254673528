"""What rests on the program alone is told again from the user's cache, and made anew where that is not sound."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.assets import for_user
from saponary.cli.said_before import said_before


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "kept"))
    return tmp_path / "kept" / "saponary" / "said"


def never() -> str:
    raise AssertionError("it is kept")


def texts(home: Path) -> list[Path]:
    return [path for path in home.rglob("*") if path.is_file()]


def test_a_text_is_made_once_for_its_words() -> None:
    assert said_before(("a", "b"), lambda: "lye\nñ\n") == "lye\nñ\n" == said_before(("a", "b"), never)
    assert said_before(("a",), lambda: "other") == "other" == said_before(("a",), never)


def test_a_text_that_is_cut_short_is_made_anew(home: Path) -> None:
    said_before(("a",), lambda: "the whole text")
    (one,) = texts(home)
    one.write_bytes(one.read_bytes()[:-4])
    assert said_before(("a",), lambda: "anew") == "anew" == said_before(("a",), never)


def test_another_program_tells_anew_and_lets_go_of_what_was_kept(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said_before(("a",), lambda: "old")
    monkeypatch.setattr(for_user, "program", lambda: "another")
    assert said_before(("a",), lambda: "new") == "new"
    assert len(texts(home)) == 1


def test_where_nothing_can_be_kept_it_is_told_all_the_same(home: Path) -> None:
    home.parent.parent.mkdir()
    home.parent.write_text("in the way")
    assert said_before(("a",), lambda: "told") == "told"
    assert home.parent.read_text() == "in the way"
