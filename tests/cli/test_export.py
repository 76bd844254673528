"""Tables that go out are plain CSV, and come in again as the same soap."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from saponary.book.recipe_text import parse_recipe
from saponary.book.resolve import resolve
from saponary.build.from_table import recipes_from
from saponary.build.proof import prove
from saponary.cli.main import main
from saponary.lye.figures import weigh
from saponary.lye.formula import Formula
from saponary.quantity.totals import totals
from support import BOOKS, PLAIN, write_book

NEAR = 0.02
"""Grams: a weigh sheet is written to hundredths."""


def weights(formula: Formula) -> dict[str, float]:
    """Grams by id."""
    return totals((part.id, part.grams) for part in (*formula.oils, *formula.liquids, *formula.additions))


@pytest.fixture(scope="module", params=BOOKS)
def exported(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    book = BOOKS[request.param]
    out = tmp_path_factory.mktemp("out") / "tables"
    assert main(["export", str(out), "--book", str(book)]) == 0
    return book, out


def test_what_goes_out_comes_in_again(exported: tuple[Path, Path]) -> None:
    book, out = exported
    proof = prove(book)
    # A sheet says nothing of a cook, nor of the lots that a rebatch is made of.
    for one in (r for r in proof.recipes if r.computed.model.method == "cold"):
        data = (out / f"{one.computed.slug}.csv").read_bytes()
        recipes, findings = recipes_from(data, "sheet.csv", proof.book.settings, proof.book.pantry)
        assert [f for f in findings if f.severity == "error"] == []
        (text,) = recipes.values()
        read = parse_recipe("recipes/again.md", text)
        assert read.model is not None and read.model.title == one.computed.model.title
        resolved, _ = resolve(read.model, proof.book.settings, proof.book.pantry, read.tree, read.file)
        assert resolved is not None
        assert weights(resolved.formula) == pytest.approx(weights(one.computed.resolved.formula), abs=NEAR)
        made, was = weigh(resolved.formula), one.computed.figures
        alkali = one.computed.resolved.formula.alkali
        if not was.weights.potassium_hydroxide and alkali.sodium_purity == 1:  # no purity is in a sheet
            assert made.weights.total == pytest.approx(was.weights.total, rel=2e-3)
        assert made.water.plain == pytest.approx(was.water.plain, abs=NEAR)


def test_every_line_has_the_same_ends_and_reads_as_csv(exported: tuple[Path, Path]) -> None:
    _, out = exported
    for path in out.iterdir():
        text = path.read_bytes().decode()
        assert text.count("\n") == text.count("\r\n") and text.endswith("\r\n")
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
        assert (
            len({len(row) for row in rows[2:]} if path.name != "figures.csv" else {len(r) for r in rows}) == 1
        )


def test_nothing_is_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = write_book(tmp_path / "book", {"recipes/a.md": PLAIN})
    out = tmp_path / "out"
    write_book(out, {"a.csv": "mine"})
    assert main(["export", str(out), "a", "--book", str(root)]) == 2
    assert "a.csv is there already; nothing was written" in capsys.readouterr().err
    assert [path.name for path in out.iterdir()] == ["a.csv"] and (out / "a.csv").read_text() == "mine"
    assert main(["export", str(out), "b", "--book", str(root)]) == 2
    assert "there is no recipe 'b'" in capsys.readouterr().err


def test_a_title_is_no_formula_of_a_spreadsheet(tmp_path: Path) -> None:
    root = write_book(tmp_path / "b", {"recipes/a.md": PLAIN.replace("Plain Bar", "'=1+1'")})
    assert main(["export", str(tmp_path / "out"), "--book", str(root)]) == 0
    assert (tmp_path / "out/a.csv").read_text().startswith("'=1+1")


def test_a_rebatch_goes_out_without_lye_and_a_cook_with_its_late_oils_apart(tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert main(["export", str(out), "second-melt", "slow-cooker-oat", "--book", str(BOOKS["starters"])]) == 0
    soap = list(csv.reader(io.StringIO((out / "second-melt.csv").read_text())))
    assert (soap[2][2] == "% of soap" and soap[3][1:3] == ["600.00", "100.00"]) or soap[4][1:3] == [
        "600.00",
        "100.00",
    ]
    assert not {"superfat", "Water", "Sodium hydroxide"} & {row[0] for row in soap if row}
    oat = {
        row[3]: row[1]
        for row in csv.reader(io.StringIO((out / "slow-cooker-oat.csv").read_text()))
        if len(row) > 3
    }
    assert oat["after-cook-shea-butter"] == "40.00" and oat["olive"] == "500.00"


def test_what_was_killed_is_finished_and_what_is_another_stays(tmp_path: Path) -> None:
    book, out = write_book(tmp_path / "book", {"recipes/a.md": PLAIN}), tmp_path / "out"
    words = ["export", str(out), "--book", str(book)]
    assert main(words) == 0
    whole = {path.name: path.read_bytes() for path in out.iterdir()}
    (out / "a.csv").unlink()
    (out / ".a.csv.abcd1234.part").write_bytes(b"ha")
    assert main(words) == 0
    assert {path.name: path.read_bytes() for path in out.iterdir()} == whole
    assert main(words) == 2, "all are there"
    (out / "a.csv").write_bytes(b"mine")
    (out / "figures.csv").unlink()
    assert main(words) == 2
    assert {path.name: path.read_bytes() for path in out.iterdir()} == {"a.csv": b"mine"}
