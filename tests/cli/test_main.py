"""A command brings in the libraries it needs and no others."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from in_git import commit
from saponary.cli.main import COMMANDS
from support import PLAIN, REPOSITORY, copy_book, write_book

WATCHED = ("PIL", "fontTools", "jinja2", "markdown_it", "numpy", "pydantic", "shapely", "weasyprint", "yaml")
"""Third-party libraries that cost time to import."""

_THEN_TELL = """
import json, sys
from saponary.cli.main import main
status = main(json.loads(sys.argv[1]))
top = {name.partition(".")[0] for name in sys.modules}
print(json.dumps([status, sorted(top.intersection(json.loads(sys.argv[2])))]), file=sys.stderr)
"""


COSTLY = ("dataclasses", "decimal", "inspect", "logging", "subprocess", "tempfile")
"""Parts of Python's own library that cost more than to find that nothing has changed."""


def loaded(words: list[str], folder: Path, watched: Sequence[str] = WATCHED) -> set[str]:
    """The watched libraries that are loaded when a command is done."""
    run = subprocess.run(
        [sys.executable, "-c", _THEN_TELL, json.dumps(words), json.dumps(watched)],
        cwd=folder,
        env={
            **os.environ,
            "PYTHONPATH": str(REPOSITORY / "generator"),
            "XDG_CACHE_HOME": str(folder / "kept"),
        },
        capture_output=True,
        text=True,
        check=True,
    )
    status, names = json.loads(run.stderr.splitlines()[-1])
    assert status == 0, run.stderr
    return set(names)


@pytest.mark.parametrize(
    ("words", "needed"),
    [
        (["--version"], set()),
        (["--help"], set()),
        pytest.param(["begin", "new"], {"markdown_it", "pydantic", "yaml"}, marks=pytest.mark.slow),
        (["rules"], set()),
        (["rules", "superfat"], {"yaml"}),
        (["manual", "first-recipe"], set()),
        (["manual"], set()),
        (["manual", "superfat"], {"yaml"}),
        (["manual", "oils.parts"], set()),
        (["manual", "grams", "lye"], set()),
        (["pantry"], {"yaml"}),
        (["pantry", "oils"], {"yaml"}),
        (["schema"], set()),
        (["schema", "pantry"], set()),
        pytest.param(["proof", "new"], {"markdown_it", "pydantic", "yaml"}, marks=pytest.mark.slow),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_a_command_loads_what_it_needs(words: list[str], needed: set[str], tmp_path: Path) -> None:
    if words[0] == "proof":
        write_book(tmp_path / "new", {"recipes/plain.md": PLAIN})
    assert loaded(words, tmp_path) == needed


@pytest.mark.slow
def test_two_sides_whose_figures_are_kept_are_compared_without_what_computes_them(tmp_path: Path) -> None:
    commit(write_book(tmp_path, {"recipes/a.md": PLAIN}), "first")
    write_book(tmp_path, {"recipes/a.md": PLAIN.replace("superfat: 5 %", "superfat: 6 %")})
    assert loaded(["compare"], tmp_path) >= {"pydantic"}
    assert loaded(["compare"], tmp_path) == {"yaml"}


@pytest.mark.slow
def test_a_proof_that_measures_labels_loads_fonts_and_nothing_that_draws(tmp_path: Path) -> None:
    found = loaded(["proof", str(copy_book("demo", tmp_path / "book"))], tmp_path)
    assert "fontTools" in found, "the demo book has label sheets, whose texts are measured"
    assert not found & {"PIL", "jinja2", "numpy", "shapely", "weasyprint"}


@pytest.mark.slow
@pytest.mark.parametrize("words", [["proof"], ["build", "--edition", "all"]])
def test_where_nothing_has_changed_nothing_is_loaded(words: list[str], tmp_path: Path) -> None:
    recipe = write_book(tmp_path, {"recipes/plain.md": PLAIN}) / "recipes" / "plain.md"
    assert "pydantic" in loaded(words, tmp_path)
    assert loaded(words, tmp_path, WATCHED + COSTLY) == set()
    recipe.write_text(PLAIN + "More.\n")
    assert "pydantic" in loaded(words, tmp_path)


def test_every_command_is_listed_with_a_module_that_runs_it() -> None:
    modules = {path.stem for path in (REPOSITORY / "generator" / "saponary" / "cli").glob("*.py")}
    assert {command.module.rpartition(".")[2] for command in COMMANDS} <= modules
    assert len({command.name for command in COMMANDS}) == len(COMMANDS)
