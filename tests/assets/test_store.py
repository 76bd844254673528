"""The store: kept by content, never believed blindly, and bounded."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from saponary.assets.step import key
from saponary.assets.store import DiskStore


def refuse() -> bytes:
    raise AssertionError("made again in spite of the store")


def only_entry(folder: Path) -> Path:
    (found,) = [path for path in folder.glob("*/*") if path.is_file()]
    return found


def test_a_value_is_made_once(tmp_path: Path) -> None:
    store, where = DiskStore(tmp_path), key("step", "1", "input")
    assert store.get(where, lambda: b"\0made\n") == b"\0made\n"
    assert store.get(where, refuse) == DiskStore(tmp_path).get(where, refuse) == b"\0made\n"


@pytest.mark.parametrize(
    "other", [key("other", "1", "input"), key("step", "2", "input"), key("step", "1", "put in")]
)
def test_another_step_version_or_input_is_another_value(other: object, tmp_path: Path) -> None:
    store = DiskStore(tmp_path)
    store.keep(key("step", "1", "input"), b"kept")
    assert store.recall(other) is None  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "harm",
    [
        lambda data: b"",
        lambda data: data[:-1],
        lambda data: data + b"x",
        lambda data: data.replace(b"value", b"valve"),
        lambda data: b"value",
        lambda data: b"x" + data[1:],
        lambda data: data.replace(b"\n", b"", 1),
    ],
)
def test_what_is_damaged_is_made_again(harm: object, tmp_path: Path) -> None:
    store, where = DiskStore(tmp_path), key("step", "1")
    store.keep(where, b"the value")
    entry = only_entry(tmp_path)
    entry.write_bytes(harm(entry.read_bytes()))  # type: ignore[operator]
    assert store.get(where, lambda: b"made again") == b"made again"
    assert store.get(where, refuse) == b"made again"


def test_an_entry_moved_to_another_key_is_not_believed(tmp_path: Path) -> None:
    store, here, there = DiskStore(tmp_path), key("step", "here"), key("step", "there")
    store.keep(here, b"of here")
    entry = only_entry(tmp_path)
    entry.rename(entry.with_name(there.of))
    assert store.recall(there) is None


def test_a_folder_in_the_place_of_an_entry_is_no_value(tmp_path: Path) -> None:
    store, where = DiskStore(tmp_path), key("step", "1")
    (tmp_path / where.step / where.of).mkdir(parents=True)
    assert store.get(where, lambda: b"made") == b"made"


def test_a_store_that_cannot_be_written_only_costs_time(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    store = DiskStore(tmp_path / "file" / "store")
    assert store.get(key("step", "1"), lambda: b"made") == b"made"
    store.tidy()


def test_nothing_half_written_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError("no space left on device")

    monkeypatch.setattr(Path, "replace", full)
    DiskStore(tmp_path).keep(key("step", "1"), b"value")
    assert [path for path in tmp_path.glob("*/*") if path.is_file()] == []


def test_what_was_used_longest_ago_leaves_first(tmp_path: Path) -> None:
    before = DiskStore(tmp_path)
    keys = [key("step", str(n)) for n in range(6)]
    for n, one in enumerate(keys):
        before.keep(one, bytes(1000))
        os.utime(tmp_path / one.step / one.of, (n, n))
    store = DiskStore(tmp_path)
    store.recall(keys[0])
    store.tidy(3500)
    left = [n for n, one in enumerate(keys) if DiskStore(tmp_path).recall(one) is not None]
    assert left == [0, 4, 5], "the first was used again, and so is the latest"


def test_what_this_build_used_stays_whatever_its_size(tmp_path: Path) -> None:
    store = DiskStore(tmp_path)
    for n in range(3):
        store.keep(key("step", str(n)), bytes(1000))
    store.tidy(10)
    assert all(store.recall(key("step", str(n))) for n in range(3))


def test_what_a_killed_build_was_writing_is_cleared_away_when_it_is_old(tmp_path: Path) -> None:
    store = DiskStore(tmp_path)
    (tmp_path / "step").mkdir()
    old, new = tmp_path / "step" / ".new-old", tmp_path / "step" / ".new-new"
    old.touch()
    new.touch()
    os.utime(old, (1, 1))
    store.tidy()
    assert not old.exists() and new.exists()


def test_a_copy_of_a_store_is_not_believed(tmp_path: Path) -> None:
    """A book may come from a stranger, with a store that says what its pages and figures are."""
    store, where = DiskStore(tmp_path / "own"), key("step", "1")
    store.keep(where, b"kept")
    shutil.copytree(tmp_path / "own", tmp_path / "copy")
    copy = DiskStore(tmp_path / "copy")
    assert copy.recall(where) is None
    assert copy.get(where, lambda: b"made again") == b"made again"
    assert copy.get(where, refuse) == b"made again"
    shutil.copytree(tmp_path / "own" / "step", tmp_path / "copy" / "step", dirs_exist_ok=True)
    assert DiskStore(tmp_path / "copy").recall(where) is None


def test_a_store_that_was_moved_is_still_believed(tmp_path: Path) -> None:
    DiskStore(tmp_path / "a").keep(key("step", "1"), b"kept")
    (tmp_path / "a").rename(tmp_path / "b")
    assert DiskStore(tmp_path / "b").recall(key("step", "1")) == b"kept"


def test_a_store_is_looked_through_once_an_hour(tmp_path: Path) -> None:
    (tmp_path / "step").mkdir()
    old = tmp_path / "step" / ".new-old"

    def left() -> bool:
        old.touch()
        os.utime(old, (1, 1))
        DiskStore(tmp_path).tidy_at_times()
        return old.exists()

    assert not left()
    assert left()
    (mark,) = (path for path in tmp_path.iterdir() if path.is_file())
    os.utime(mark, (1, 1))
    assert not left()
