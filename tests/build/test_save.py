"""What somebody saves while a command writes the same file is never lost."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from saponary.build import save as module
from saponary.build.save import SavedMeanwhile, save

LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the one-step exchange is Linux's")


def in_place(path: Path) -> None:
    """As many editors save: into the file itself."""
    path.write_text("by hand")


def by_rename(path: Path) -> None:
    """As others do: a new file in its place."""
    (path.parent / "x").write_text("by hand")
    (path.parent / "x").replace(path)


EDITORS = pytest.mark.parametrize("editor", [in_place, by_rename])
Editor = Callable[[Path], None]


def test_a_file_is_replaced_whole_with_its_rights(tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    path.write_bytes(b"old\r\n")
    path.chmod(0o640)
    save(path, "old\r\n", "new\r\n")
    assert path.read_bytes() == b"new\r\n" and path.stat().st_mode & 0o777 == 0o640
    assert [each.name for each in tmp_path.iterdir()] == ["a.md"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.md").write_text("old")
    (tmp_path / "link.md").symlink_to("real.md")
    save(tmp_path / "link.md", "old", "new")
    assert (tmp_path / "link.md").is_symlink() and (tmp_path / "real.md").read_text() == "new"


@EDITORS
def test_a_save_before_is_refused(tmp_path: Path, editor: Editor) -> None:
    path = tmp_path / "a.md"
    path.write_text("old")
    editor(path)
    with pytest.raises(SavedMeanwhile, match=r"a\.md"):
        save(path, "old", "new")
    assert path.read_text() == "by hand" and [each.name for each in tmp_path.iterdir()] == ["a.md"]


@LINUX
@EDITORS
def test_a_save_at_the_last_instant_is_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, editor: Editor
) -> None:
    path, swap, done = tmp_path / "a.md", module.exchange, list[int]()
    path.write_text("old")

    def exchange(first: Path, second: Path) -> bool:
        if not done:
            editor(path)
        done.append(1)
        return swap(first, second)

    monkeypatch.setattr(module, "exchange", exchange)
    with pytest.raises(SavedMeanwhile):
        save(path, "old", "new")
    assert path.read_text() == "by hand" and [each.name for each in tmp_path.iterdir()] == ["a.md"]


@LINUX
def test_a_program_that_writes_on_into_the_old_file_is_heeded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, swap = tmp_path / "a.md", module.exchange
    path.write_text("old")
    with path.open("r+") as opened:

        def exchange(first: Path, second: Path) -> bool:
            done = swap(first, second)
            if not opened.tell():
                opened.truncate(0)
                opened.write("by hand")
                opened.flush()
            return done

        monkeypatch.setattr(module, "exchange", exchange)
        with pytest.raises(SavedMeanwhile):
            save(path, "old", "new")
    assert path.read_text() == "by hand"


@LINUX
def test_of_two_saves_the_later_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path, swap, done = tmp_path / "a.md", module.exchange, list[int]()
    path.write_text("old")

    def exchange(first: Path, second: Path) -> bool:
        done.append(1)
        if len(done) == 1:
            path.write_text("by hand")
        made = swap(first, second)
        if len(done) == 1:
            path.write_text("by hand, later")
        return made

    monkeypatch.setattr(module, "exchange", exchange)
    with pytest.raises(SavedMeanwhile):
        save(path, "old", "new")
    assert path.read_text() == "by hand, later"


def test_stopped_in_between_nothing_is_left_and_nothing_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(seconds: float) -> None:
        raise KeyboardInterrupt

    path = tmp_path / "a.md"
    path.write_text("old")
    monkeypatch.setattr(module.time, "sleep", stopped)
    if sys.platform.startswith("linux"):
        with pytest.raises(KeyboardInterrupt):
            save(path, "old", "new")
    assert path.read_text() in ("old", "new") and [each.name for each in tmp_path.iterdir()] == ["a.md"]


def test_where_nothing_can_be_exchanged_it_is_renamed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "exchange", lambda first, second: False)
    path = tmp_path / "a.md"
    path.write_text("old")
    save(path, "old", "new")
    assert path.read_text() == "new"
    with pytest.raises(SavedMeanwhile):
        save(path, "old", "newer")
    assert path.read_text() == "new"
