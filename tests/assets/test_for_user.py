"""What is kept for a user is believed where nobody else can have written it, and is made anew where not."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from saponary.assets import for_user


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path


def test_a_value_comes_back_under_its_own_words_alone() -> None:
    for_user.keep(("a", "b"), b"\0\n\xff")
    assert for_user.recall(("a", "b")) == b"\0\n\xff"
    assert for_user.recall(("a",)) is None


@pytest.mark.skipif(sys.platform == "win32", reason="modes of folders are of POSIX")
def test_nothing_is_believed_in_a_folder_that_others_can_write_to(home: Path) -> None:
    for_user.keep(("a",), b"value")
    (folder,) = (home / "saponary" / "kept").iterdir()
    assert folder.stat().st_mode & 0o777 == 0o700
    for mode, kept in ((0o777, None), (0o720, None), (0o755, b"value")):
        folder.chmod(mode)
        assert for_user.recall(("a",)) == kept


def test_a_value_whose_bytes_were_changed_is_none(home: Path) -> None:
    for_user.keep(("a",), b"value")
    (file,) = (path for path in home.rglob("*") if path.is_file())
    file.write_bytes(file.read_bytes().replace(b"value", b"other"))
    assert for_user.recall(("a",)) is None
