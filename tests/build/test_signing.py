"""What is about to be signed is told with its reason first: the maker's own files, a table, or the engine."""

from __future__ import annotations

import io
import shutil
from collections.abc import Generator
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path

import pytest

from in_git import commit, git
from saponary.cli.main import main
from saponary.pantry import standard
from support import PLAIN, write_book

BOOK = {"recipes/a.md": PLAIN, "recipes/b.md": PLAIN.replace("Plain", "Other").replace("olive", "lard")}


@contextmanager
def other_tables(
    monkeypatch: pytest.MonkeyPatch, folder: Path, row: str, old: str, new: str
) -> Generator[None]:
    """The program with another value in a row of its table of oils."""
    for path in Path(str(files("saponary.tables"))).glob("*.yaml"):
        shutil.copy(path, folder)
    before, begun, after = (folder / "oils.yaml").read_text(encoding="utf-8").partition(f"\n  {row}:\n")
    assert begun and old in after.split("    source:")[0]
    (folder / "oils.yaml").write_text(before + begun + after.replace(old, new, 1), encoding="utf-8")
    with monkeypatch.context() as patched:
        patched.setattr(standard, "files", lambda _: folder)
        patched.setattr(standard, "made", lambda _, make: make())
        standard.standard.cache_clear()
        yield
    standard.standard.cache_clear()


@pytest.fixture
def upgraded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A book that was signed, and committed, when the table had another value for olive oil."""
    root, tables = write_book(tmp_path / "book", BOOK), tmp_path / "tables"
    tables.mkdir()
    with other_tables(monkeypatch, tables, "olive", "{value: 191 mg/g,", "{value: 188 mg/g,"):
        assert main(["sign", "a", "b", "--book", str(root)]) == 0
    shutil.rmtree(root / ".cache")
    (root / ".gitignore").write_text(".cache/\n.saponary/\n")
    commit(root, "signed in spring")
    return root


def test_what_a_table_moved_is_told_and_nothing_is_written(
    upgraded: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = (upgraded / "recipes/a.md").read_bytes()
    capsys.readouterr()
    assert main(["sign", "--dry-run", "--book", str(upgraded)]) == 0
    said = capsys.readouterr().out
    assert (upgraded / "recipes/a.md").read_bytes() == before
    assert "recipes/a.md, signed " in said and "(signed in spring)" in said and "recipes/b.md" not in said
    assert "  because the standard tables give other values\n" in said and "the recipe changed" not in said
    assert "and with it, not signed" not in said
    assert "1 recipe would be signed" in said


def test_the_message_keeps_the_reason(upgraded: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert main(["sign", "--book", str(upgraded)]) == 0
    said = capsys.readouterr().out
    message = [line[4:] for line in said.split("a message for the commit:\n")[1].splitlines()]
    assert message[0] == "Sign a: the standard tables give other values" and message[1] == ""
    lye = next(line for line in said.splitlines() if line.startswith("  lye "))
    before, after = lye.split("  (")[0].removeprefix("  lye").split("->")
    assert message[2].startswith(f"a: lye {before.strip()} -> {after.strip()}, water ")
    git(upgraded, "commit", "-qam", "\n".join(message))
    assert main(["sign", "--dry-run", "--book", str(upgraded)]) == 0
    said = capsys.readouterr().out
    assert "0 recipes would be signed" in said and "message" not in said


def test_both_reasons_stand_apart(upgraded: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = upgraded / "recipes/a.md"
    path.write_text(path.read_text().replace("superfat: 5 %", "superfat: 8 %"))
    capsys.readouterr()
    assert main(["sign", "--dry-run", "--book", str(upgraded)]) == 0
    said = capsys.readouterr().out
    assert "  because the recipe changed\n  because the standard tables give other values\n" in said
    alone = said.split("of that alone because the standard tables give other values:\n")[1].splitlines()
    assert alone[0].startswith("    lye ") and not any("superfat" in line for line in alone[:3])


def test_a_figure_that_moved_under_the_same_fingerprint_is_the_engines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    assert main(["sign", "a", "--book", str(root)]) == 0
    text = (root / "recipes/a.md").read_text()
    assert "lye: 139.8 g" in text
    (root / "recipes/a.md").write_text(text.replace("lye: 139.8 g", "lye: 139.2 g"))
    commit(root, "by an older engine")
    capsys.readouterr()
    assert main(["sign", "--dry-run", "--book", str(root)]) == 0
    said = capsys.readouterr().out
    assert "  lye  139.2 g  ->  139.8 g  (+0.6 g)\n  because the engine calculates otherwise\n" in said


def test_the_pantrys_own_change_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    own = "oils:\n  olive: {saponification-value: %s mg/g}\n"
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "pantry.yaml": own % 188})
    assert main(["sign", "a", "--book", str(root)]) == 0
    commit(root, "first")
    write_book(root, {"pantry.yaml": own % 192})
    capsys.readouterr()
    assert main(["sign", "--book", str(root)]) == 0
    assert "Sign a: pantry.yaml changed" in capsys.readouterr().out


def test_a_first_signature_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN.replace("signed:\n  superfat: 5.0 %\n", "")})
    assert main(["sign", "a", "--book", str(root)]) == 0
    assert "message" not in capsys.readouterr().out, "there is no git here to commit to"
    git(root, "init", "-q")
    write_book(root, {"recipes/a.md": PLAIN.replace("signed:\n  superfat: 5.0 %\n", "")})
    assert main(["sign", "a", "--book", str(root)]) == 0
    said = capsys.readouterr().out
    assert "    Sign a: it is signed for the first time\n\n    a: lye 139.8 g, water 283.9 g" in said


def test_each_is_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    stale = {name: text.replace("superfat: 5 %", "superfat: 7 %") for name, text in BOOK.items()}
    root = write_book(tmp_path, stale)
    monkeypatch.setattr("sys.stdin", io.StringIO("n\ny\n"))
    assert main(["sign", "--ask", "--book", str(root)]) == 0
    assert (root / "recipes/a.md").read_text() == stale["recipes/a.md"]
    assert "superfat: 7.0 %" in (root / "recipes/b.md").read_text()
    said = capsys.readouterr().out
    assert said.index("->  7.0 %") < said.index("sign recipes/a.md? [y/n]"), "told before it is asked"
    assert said.endswith("1 recipe signed\n")
