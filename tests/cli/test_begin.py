"""`saponary begin` asks on a terminal, and `begin` and `new` never write over anything."""

from __future__ import annotations

import shlex
import sys
from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.cli.main import main


class Terminal:
    """Answers, one a question."""

    def __init__(self, *answers: str) -> None:
        self.answers = list(answers)

    def isatty(self) -> bool:
        return True

    def readline(self) -> str:
        return self.answers.pop(0) + "\n" if self.answers else ""


def test_on_a_terminal_it_asks_and_asks_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("stone", "oz", "eu", "en", "a pinch", "0.1 oz", "", "Ines"))
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    assert main(["begin", str(tmp_path / "b")]) == 0
    assert "'stone' is not one of g, oz" in capsys.readouterr().out
    told = prove(tmp_path / "b").book.settings
    assert (told.units, told.scale_step and told.scale_step.text, told.emergency) == ("oz", "0.1 oz", "112")
    assert told.maker == "Ines"


def test_it_asks_nothing_where_it_is_told_to(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("oz"))
    assert main(["begin", str(tmp_path / "b"), "--yes"]) == 0
    assert prove(tmp_path / "b").book.settings.units == "g"


def test_the_next_commands_can_be_pasted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "my soap"
    assert main(["begin", str(folder)]) == 0
    lines = [line for line in capsys.readouterr().out.splitlines() if "saponary build" in line]
    assert [shlex.split(line)[2] for line in lines] == [str(folder)]


def test_new_writes_a_recipe_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    book = str(tmp_path / "b")
    assert main(["begin", book]) == 0
    assert main(["new", "evening-bar", "--book", book]) == 0
    text = (tmp_path / "b" / "recipes" / "evening-bar.md").read_bytes()
    assert main(["new", "evening-bar", "--from", "two-clay-bar", "--book", book]) == 2
    assert "nothing was written" in capsys.readouterr().err
    assert (tmp_path / "b" / "recipes" / "evening-bar.md").read_bytes() == text


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["new", "Evening Bar"], "lower case with hyphens"),
        (["new", "evening-bar", "--from", "two-clay"], "did you mean 'two-clay-bar'?"),
    ],
)
def test_a_name_that_cannot_be_is_told(
    words: list[str], told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["begin", str(tmp_path / "b")]) == 0
    assert main([*words, "--book", str(tmp_path / "b")]) == 2
    assert told in capsys.readouterr().err


def test_a_book_is_begun_from_a_makers_own_table(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = tmp_path / "mine.csv"
    table.write_text("Wash day\ningredient;grams\nOlivenöl;450,5\nKokosöl;200\nWasser;190\nÜberfettung;5 %\n")
    assert main(["begin", str(tmp_path / "b"), "--from", str(table), "--yes"]) == 0
    proof = prove(tmp_path / "b")
    assert sorted(one.computed.slug for one in proof.recipes) == ["my-first-bar", "wash-day"]
    wash = next(one.computed for one in proof.recipes if one.computed.slug == "wash-day")
    assert wash.resolved.formula.oils_grams == pytest.approx(
        650.5
    ) and wash.figures.water.plain == pytest.approx(190)
    assert wash.model.signed == {}, "nobody has signed it yet"


def test_what_a_table_lacks_is_told_and_the_rest_is_brought_in(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = tmp_path / "mine.csv"
    table.write_text("ingredient,grams\nolive oil,450\nwonder oil,200\nwater,190\nsuperfat,5 %\n")
    assert main(["begin", str(tmp_path / "b"), "--from", str(table), "--yes"]) == 1
    assert "mine.csv:3:1: error [reading] 'wonder oil' is not known here" in capsys.readouterr().out
    assert (tmp_path / "b/recipes/mine.md").is_file()
    table.write_text("nothing,here\n")
    assert main(["begin", str(tmp_path / "c"), "--from", str(table), "--yes"]) == 1
    assert main(["begin", str(tmp_path / "c"), "--from", str(tmp_path / "none.csv"), "--yes"]) == 2
    assert not (tmp_path / "c").exists()
