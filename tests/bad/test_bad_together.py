"""All bad files in one book: one run reports each, in every format, and nothing breaks a terminal."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from bad.cases import ODD, PLACES, WRITTEN, expected
from saponary.cli.main import main
from support import PLAIN, in_part, write_book

RECIPES = [path for path in WRITTEN if path.parent.name == "recipes"]


@pytest.fixture(scope="module")
def worst(tmp_path_factory: pytest.TempPathFactory) -> Path:
    files: dict[str, str | bytes] = {f"recipes/{path.name}": path.read_bytes() for path in RECIPES}
    book = write_book(tmp_path_factory.mktemp("worst") / "book", {**files, "recipes/plain.md": PLAIN})
    for odd in ODD:
        odd.make(book / "recipes" / odd.name)
    return book


def told(book: Path, how: str, capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["proof", str(book), "--format", how]) == 1
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]", said.out + said.err)
    assert said.err == ""
    return said.out


def everything() -> set[tuple[str, int, int]]:
    written = {(f"recipes/{path.name}", e.line, e.column) for path in RECIPES for e in expected(path)}
    return written | {(odd.reported, *odd.at) for odd in ODD}


@pytest.mark.slow
def test_text_reports_every_one(worst: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = told(worst, "text", capsys).splitlines()
    for file, line, column in everything():
        assert any(said.startswith(f"{file}:{line}:{column}: ") for said in lines), (file, line, column)


@pytest.mark.slow
def test_json_reports_every_one(worst: Path, capsys: pytest.CaptureFixture[str]) -> None:
    whole = json.loads(told(worst, "json", capsys))
    assert everything() <= {(f["file"], f["line"], f["column"]) for f in whole["findings"]}
    assert "plain" in {recipe["slug"] for recipe in whole["recipes"]}


@pytest.mark.slow
def test_sarif_reports_every_one(worst: Path, capsys: pytest.CaptureFixture[str]) -> None:
    results = json.loads(told(worst, "sarif", capsys))["runs"][0]["results"]
    assert all(result["message"]["text"] and result["level"] in ("error", "warning") for result in results)
    assert len(results) >= len(everything())


OTHERS = [path for path in WRITTEN if path.parent.name != "recipes"]


@pytest.mark.parametrize(
    "case",
    in_part([(path, how) for path in OTHERS for how in ("text", "json", "sarif")], lambda case: case[0]),
    ids=lambda case: f"{case[1]}-{case[0].parent.name}/{case[0].stem}",
)
def test_settings_and_pantries_in_every_format(
    case: tuple[Path, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, how = case
    name = PLACES[path.parent.name].format(name=path.name)
    book = write_book(tmp_path, {"recipes/plain.md": PLAIN, name: path.read_bytes()})
    status = main(["proof", str(book), "--format", how, "--strict"])
    said = capsys.readouterr()
    assert status == 1
    assert "Traceback" not in said.out + said.err
    if how == "text":
        assert f"{name}:{expected(path)[0].line}:{expected(path)[0].column}: " in said.out
    else:
        assert name in json.dumps(json.loads(said.out))
