"""A file that is as it was is told by its stamp and not read; one that may not be is read."""

from __future__ import annotations

import hashlib
import os
import time
from pathlib import Path

import pytest

from saponary.assets.stamps import clock
from saponary.reading.files import Folder, ReadOnce
from saponary.reading.stamped import Noted, Stamped

OLD = time.time_ns() - 60 * 10**9


def put(root: Path, name: str, text: str, at: int = OLD) -> None:
    (root / name).parent.mkdir(exist_ok=True)
    (root / name).write_text(text)
    os.utime(root / name, ns=(at, at))


def looked(root: Path, known: dict[str, Noted], now: int | None) -> tuple[str, dict[str, Noted], ReadOnce]:
    stamped = Stamped(root, known, now)
    files = ReadOnce(Folder(root), stamped)
    return files.digest("recipes/a.md"), stamped.kept, files


def later(root: Path) -> int:
    """A time of the file system at which nothing is fresh any more."""
    return (clock(root / ".cache") or 0) + 10 * 10**9


def refused(files: Folder, name: str) -> bytes:
    pytest.fail(f"{name} was read")


def of(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def test_what_is_as_it_was_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(tmp_path, "recipes/a.md", "one")
    first, kept, _ = looked(tmp_path, {}, later(tmp_path))
    assert first == of("one") and list(kept) == ["recipes/a.md"]
    monkeypatch.setattr(Folder, "read", refused)
    assert looked(tmp_path, kept, later(tmp_path))[:2] == (first, kept)


@pytest.mark.parametrize("at", [OLD, OLD + 1], ids=["the same time", "another"])
def test_a_changed_file_of_the_same_length_is_read(tmp_path: Path, at: int) -> None:
    """Its times may be set back: the time of change of its record cannot be."""
    put(tmp_path, "recipes/a.md", "one")
    _, kept, _ = looked(tmp_path, {}, later(tmp_path))
    put(tmp_path, "recipes/a.md", "two", at)
    assert looked(tmp_path, kept, later(tmp_path))[0] == of("two")


def test_what_was_changed_just_before_is_read_the_next_time_too(tmp_path: Path) -> None:
    put(tmp_path, "recipes/a.md", "one")
    assert looked(tmp_path, {}, clock(tmp_path / ".cache"))[1] == {}
    assert looked(tmp_path, {}, None)[1] == {}


def test_a_link_is_read_each_time(tmp_path: Path) -> None:
    put(tmp_path, "recipes/b.md", "one")
    (tmp_path / "recipes" / "a.md").symlink_to("b.md")
    assert looked(tmp_path, {}, later(tmp_path))[1] == {}
    put(tmp_path, "elsewhere/a.md", "two")
    (tmp_path / "recipes").rename(tmp_path / "aside")
    (tmp_path / "recipes").symlink_to("elsewhere")
    assert looked(tmp_path, {}, later(tmp_path))[1] == {}


def test_a_file_that_changes_after_its_digest_was_told_is_not_taken_for_the_other(tmp_path: Path) -> None:
    put(tmp_path, "recipes/a.md", "one")
    _, kept, _ = looked(tmp_path, {}, later(tmp_path))
    _, _, files = looked(tmp_path, kept, later(tmp_path))
    put(tmp_path, "recipes/a.md", "two")
    with pytest.raises(OSError, match="changed meanwhile"):
        files.read("recipes/a.md")
