"""`build --why PATH` names what a page rests on, and what of it has changed since the last build."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.cli.main import main
from support import PLAIN, write_book

OCHRE = PLAIN.replace("Plain Bar", "Ochre").replace(
    "superfat: 5 %\n", "additions:\n  - {what: own, amount: 3 g, at: pour}\nsuperfat: 5 %\n", 1
)
PANTRY = "colourants:\n  own: {name: Own, inci: CI 77492, fresh: '#a4503c', cured: '#b98f86', usual: [1 g/kg, 9 g/kg]}\n"
FILES = {
    "book.yaml": "title: A Small Book\n",
    "pantry.yaml": PANTRY,
    "recipes/ochre.md": OCHRE,
    "recipes/plain.md": PLAIN,
}
ON = ["--on", "2026-03-20"]


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = write_book(tmp_path_factory.mktemp("why") / "book", FILES)
    assert main(["build", str(root), *ON]) == 0
    return root


def why(book: Path, path: str, capsys: pytest.CaptureFixture[str], *more: str) -> list[str]:
    capsys.readouterr()
    assert main(["build", str(book), *(more or ON), "--why", path]) == 0
    return capsys.readouterr().out.splitlines()


def changed(lines: list[str]) -> list[str]:
    return [" ".join(line.split()) for line in lines if not line.startswith("as it was")][1:]


def test_where_nothing_has_changed_it_says_so(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = why(book, "site/recipes/ochre/index.html", capsys)
    assert lines[0] == "public: recipes/ochre/index.html"
    assert "as it was  recipe of ochre" in lines and "as it was  the templates and style sheets" in lines
    assert changed(lines) == ["nothing that it rests on has changed since the last build"]
    assert why(book, str(book / "site/recipes/ochre/index.html"), capsys) == lines


@pytest.mark.parametrize(
    ("name", "old", "new", "path", "told"),
    [
        ("recipes/ochre.md", "A plain bar.", "Another.", "recipes/ochre/index.html", ["changed notes of ochre", "by recipes/ochre.md"]),
        ("pantry.yaml", "#b98f86", "#b98f87", "site/recipes/ochre/index.html", ["changed recipe of ochre", "by pantry: own"]),
        ("pantry.yaml", "#b98f86", "#b98f87", "recipes/plain/index.html", ["nothing that it rests on has changed since the last build"]),
        ("recipes/ochre.md", "title: Ochre", "title: Umber", "recipes/plain/index.html", ["changed which recipes stand beside plain"]),
        ("recipes/ochre.md", "A plain bar.", "Another.", "index.html", ["nothing that it rests on has changed since the last build"]),
        ("recipes/ochre.md", "total: 1000 g", "total: 900 g", "figures.json", ["nothing that it rests on has changed since the last build"]),
        ("recipes/ochre.md", "signed:", "summary: Yellow.\nsigned:", "index.html", ["changed what it says of ochre", "by recipes/ochre.md", "changed the recipes whose drawings give its swatches"]),
        ("book.yaml", "A Small Book", "A Book", "recipes/plain/fresh.svg", ["changed book.yaml, as this edition shows it"]),
    ],
)  # fmt: skip
def test_what_has_changed_is_named(
    name: str, old: str, new: str, path: str, told: list[str], book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert old in FILES[name]
    (book / name).write_text(FILES[name].replace(old, new))
    before = {file: file.read_bytes() for file in (book / "site").rglob("*.html")}
    try:
        assert changed(why(book, path, capsys)) == told
        assert {file: file.read_bytes() for file in (book / "site").rglob("*.html")} == before
    finally:
        write_book(book, FILES)


def test_a_book_that_was_never_built_for_an_edition_says_so(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert (
        changed(why(book, "site/maker/index.html", capsys))[0] == "no earlier build of this edition is known"
    )


def test_a_path_that_is_no_page_is_told(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", str(book), "--why", "recipes/elsewhere/index.html"]) == 2
    assert "no page 'recipes/elsewhere/index.html'" in capsys.readouterr().err
