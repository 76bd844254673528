"""A new book is written beside what lies in its folder, and over nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from saponary.assets import disk
from saponary.build import begin as module
from saponary.build.begin import Occupied, begin
from saponary.build.proof import prove
from saponary.reading.findings import errors


def held(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_what_lies_in_the_folder_stays(tmp_path: Path) -> None:
    mine = {
        "README.md": b"my book",
        ".gitignore": b"*.bak\n",
        ".git/config": b"[core]",
        "photos/a.jpg": b"\xff\xd8",
    }
    for name, data in mine.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(data)
    begin(tmp_path)
    found = held(tmp_path)
    assert {name: found[name] for name in mine} == mine and "book.yaml" in found
    assert not errors(prove(tmp_path).findings)


@pytest.mark.parametrize("name", ["book.yaml", "recipes/salt-bar.md"])
def test_a_file_of_somebody_elses_is_not_written_over(tmp_path: Path, name: str) -> None:
    (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / name).write_bytes(b"mine")
    with pytest.raises(Occupied, match=name):
        begin(tmp_path)
    assert held(tmp_path) == {name: b"mine"}


@pytest.mark.parametrize("name", ["recipes", "book.yaml"])
def test_a_link_or_a_file_in_the_way_is_told_of(tmp_path: Path, name: str) -> None:
    (tmp_path / name).symlink_to(tmp_path / "nowhere")
    with pytest.raises(Occupied, match=name):
        begin(tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == [name]
    (tmp_path / "file").write_bytes(b"mine")
    with pytest.raises(Occupied, match="file"):
        begin(tmp_path / "file")


def test_a_begin_that_was_stopped_is_finished_by_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begin(tmp_path / "whole")
    whole, done = held(tmp_path / "whole"), list[Path]()

    def full(path: Path, data: bytes) -> None:
        if len(done) == 5:
            raise OSError(28, "No space left on device", str(path))
        done.append(path)
        disk.put_new(path, data)

    folder = tmp_path / "book" / "whole"
    with monkeypatch.context() as broken, pytest.raises(OSError, match="space"):
        broken.setattr(module, "put_new", full)
        begin(folder)
    assert len(held(folder)) == 5 and held(folder).items() <= whole.items()
    assert {path.relative_to(folder).as_posix() for path in begin(folder)} == whole.keys() - {
        path.relative_to(folder).as_posix() for path in done
    }
    assert held(folder) == whole
    with pytest.raises(Occupied):
        begin(folder)


def test_a_file_that_comes_in_between_is_not_written_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for links in (True, False):
        folder = tmp_path / str(links)
        with monkeypatch.context() as patch:
            if not links:
                patch.setattr(os, "link", lambda *_: (_ for _ in ()).throw(OSError("no links here")))
            disk.put_new(folder / "a", b"first")
            with pytest.raises(FileExistsError):
                disk.put_new(folder / "a", b"second")
        assert held(folder) == {"a": b"first"}
