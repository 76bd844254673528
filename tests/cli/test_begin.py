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
