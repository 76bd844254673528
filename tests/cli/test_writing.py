"""Commands that write: alone in the book, anew where an editor saved, and clear about what kept them from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build import batch_record, save
from saponary.build.at_work import at_work
from saponary.cli import sign, writing
from saponary.cli.main import main
from support import PLAIN, write_book

REMARK = PLAIN.replace("A plain bar.", "A plain bar, with a remark saved meanwhile.")


def edited_once(monkeypatch: pytest.MonkeyPatch, module: object, path: Path, times: int = 1) -> list[int]:
    """An editor that saves a recipe just before the first writes of a command."""
    done = list[int]()

    def then(target: Path, was: str, text: str) -> None:
        done.append(1)
        if len(done) <= times:
            path.write_text(REMARK + "\n" * len(done))
        save.save(target, was, text)

    monkeypatch.setattr(module, "save", then)
    return done


@pytest.mark.parametrize("times", [1, 3])
def test_a_record_is_set_into_what_was_saved_meanwhile(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, times: int
) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    done = edited_once(monkeypatch, batch_record, root / "recipes/a.md", times)
    assert main(["record", "a", "--book", str(root), "--on", "2026-11-01"]) == 0
    after = (root / "recipes/a.md").read_text()
    assert "saved meanwhile" in after and after.count("- lot:") == 1 and len(done) == times + 1


def test_a_figure_is_signed_in_what_was_saved_meanwhile(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN.replace("superfat: 5.0 %", "superfat: 6.0 %")})
    edited_once(monkeypatch, sign, root / "recipes/a.md")
    assert main(["sign", "a", "--book", str(root)]) == 0
    after = (root / "recipes/a.md").read_text()
    assert "saved meanwhile" in after and "lye:" in after
    assert "1 recipe signed" in capsys.readouterr().out


def test_an_editor_that_saves_without_end_is_told_of(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    edited_once(monkeypatch, batch_record, root / "recipes/a.md", 99)
    assert main(["record", "a", "--book", str(root), "--on", "2026-11-01"]) == 1
    said = capsys.readouterr().err
    assert "a.md:1:1: error [writing]" in said and "nothing was written" in said
    assert "- lot:" not in (root / "recipes/a.md").read_text()


@pytest.mark.parametrize(
    "words", [["build"], ["record", "a", "--book"], ["sign", "--book"]], ids=["build", "record", "sign"]
)
def test_a_book_at_work_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], words: list[str]
) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    monkeypatch.setattr(writing, "WAIT", 0.1)
    with at_work(root, "build"):
        assert main([*words, str(root)]) == 1
        assert main(["proof", str(root)]) == 0, "who only reads need not wait"
        assert main(["sign", "--dry-run", "--book", str(root)]) == 0
    said = capsys.readouterr().err
    assert "waiting for saponary build (process " in said and ".:1:1: error [writing]" in said
    assert (root / "recipes/a.md").read_text() == PLAIN and not (root / "site").exists()


def test_what_is_in_the_way_of_a_build_is_a_finding(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    root = write_book(
        tmp_path, {"recipes/a.md": PLAIN, "site/index.html": "by hand", "site/CNAME": "a.example"}
    )
    assert main(["build", str(root)]) == 1
    said = capsys.readouterr().err
    assert "site/index.html:1:1: error [writing] no build wrote this file" in said and "--adopt" in said
    assert (root / "site/index.html").read_text() == "by hand"
    assert main(["build", "--adopt", str(root)]) == 0
    assert "kept as it was, since no build wrote it: site/CNAME" in capsys.readouterr().out
    assert (root / "site/CNAME").read_text() == "a.example" and (
        root / "site/index.html"
    ).stat().st_size > 1000
