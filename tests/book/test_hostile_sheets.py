"""Tables that are made to break what reads them: findings, soon, and no more memory than a table needs."""

from __future__ import annotations

import io
import re
import resource
import zipfile
from pathlib import Path

import pytest

from harnesses.sheets import BOMBS, BOOK, fault_of, with_part
from saponary.build.from_table import recipes_from
from saponary.cli.main import main
from saponary.pantry.standard import standard
from saponary.reading.addresses import address_fault
from saponary.reading.grid import MOST_BYTES, MOST_CELLS, read_grids

HEAD = "Oil,Grams\nOlive oil,600\nCoconut oil,300\n"


def told_of(data: bytes) -> str:
    return " ".join(one.message for one in recipes_from(data, "t.csv", BOOK, standard())[1])


def workbook(rows: list[list[object]], far: tuple[int, int] | None = None) -> bytes:
    openpyxl = pytest.importorskip("openpyxl")
    book, out = openpyxl.Workbook(), io.BytesIO()
    for row in rows:
        book.active.append(row)
    if far is not None:
        book.active.cell(*far, "far")
    book.save(out)
    return out.getvalue()


ROWS: list[list[object]] = [["Oil", "Grams"], ["Olive oil", 600], ["Coconut oil", 300]]


@pytest.mark.parametrize(
    ("table", "told"),
    [
        (HEAD + f"Castor,{'9' * 5000}\n", "is not an amount"),
        (HEAD + f"Castor,{'9' * 40}\n", "is not an amount"),
        (HEAD + "Castor,99999999999999999999999999\n", "is not an amount"),
        (HEAD + "Castor,99999999\n", "no recipe can be made of this table: "),
        (HEAD + 'Castor,"1,2.3"\nLard,"1.000,5"\nTallow,"2,000.5"\n', "is not an amount"),
        ("Oil,Grams\nOlive oil,0\nWater,100\n", "the oils of this table weigh nothing"),
        ("Oil,Grams\nOlive oil,0\nNaOH,100\n", "the oils of this table weigh nothing"),
        ("Oil,Grams\n", "no recipe is found in this table"),
        (HEAD + f"{'x' * 30_000},5\n", "xxx…' is not known here"),
        (HEAD + "Water,50000000\n", "no recipe can be made of this table: "),
    ],
)
def test_what_no_recipe_can_be_made_of_is_told(table: str, told: str) -> None:
    assert told in told_of(table.encode())
    assert fault_of(table.encode()) is None


@pytest.mark.parametrize("title", ["con", "NUL", "com1", "日本", "-", "x" * 90])
def test_a_recipes_name_is_one_that_a_file_can_have(title: str) -> None:
    recipes, _ = recipes_from(f"{title},\n{HEAD}".encode(), "t.csv", BOOK, standard())
    assert [address_fault(name) for name in recipes] == [None]


def test_long_rows_of_digits_are_passed_over_at_once() -> None:
    assert "is not known here" in told_of(f"{HEAD}{'1' * 100_000}a,5\n".encode())


@pytest.mark.slow
def test_many_faults_and_many_tables_end() -> None:
    faults = told_of((HEAD + "zzz,1\n" * 20_000).encode())
    assert "100 rows above are found fault with" in faults and faults.count("zzz") < 200
    recipes, told = recipes_from((HEAD * 2_000).encode(), "t.csv", BOOK, standard())
    assert len(recipes) == 200 and any("more than 200 tables" in one.message for one in told)


@pytest.mark.parametrize("far", [(1_048_576, 16_384), (1_048_576, 1)])
def test_a_cell_far_from_the_table_is_told_of(far: tuple[int, int]) -> None:
    _, found = read_grids(workbook(ROWS, far), "t.xlsx", "t")
    assert [one.message for one in found] == ["this table is too large"]
    assert "far from the table" in found[0].hint


def test_a_size_that_a_sheet_only_claims_is_not_believed() -> None:
    data = workbook(ROWS)
    sheet = "xl/worksheets/sheet1.xml"
    part = zipfile.ZipFile(io.BytesIO(data)).read(sheet)
    claims = re.sub(rb'<dimension ref="[^"]*"', b'<dimension ref="A1:XFD1048576"', part)
    assert claims != part
    assert len(recipes_from(with_part(data, sheet, claims), "t.xlsx", BOOK, standard())[0]) == 1


@pytest.mark.slow
@pytest.mark.parametrize("part", ["xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/workbook.xml"])
@pytest.mark.parametrize("bomb", BOMBS)
def test_a_small_archive_of_very_much_is_not_unpacked(bomb: object, part: str) -> None:
    data = workbook(ROWS)
    packed = with_part(data, part, bomb())  # type: ignore[operator]
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    assert fault_of(packed) is None
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 300_000, "kilobytes"


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device here")
def test_a_table_without_end_is_too_large(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "t.csv").symlink_to("/dev/zero")
    assert main(["begin", str(tmp_path / "b"), "--yes", "--from", str(tmp_path / "t.csv")]) == 1
    assert "this table is too large" in capsys.readouterr().out
    assert not (tmp_path / "b").exists()


def test_bounds_are_those_that_are_told() -> None:
    row = ",".join(["1"] * 1000)
    assert read_grids(f"{row}\n".encode() * (MOST_CELLS // 1000), "t.csv", "t")[1] == []
    over = read_grids(f"{row}\n".encode() * (MOST_CELLS // 1000 + 1), "t.csv", "t")[1]
    assert [one.hint for one in over] == [f"at most {MOST_CELLS} cells"]
    assert "at most 10 MB" in read_grids(b" " * (MOST_BYTES + 1), "t.csv", "t")[1][0].hint


def test_a_recipe_cannot_be_begun_under_a_devices_name(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "recipes").mkdir()
    assert main(["new", "con", "--book", str(tmp_path)]) == 2
    assert "device" in capsys.readouterr().err
    assert not list((tmp_path / "recipes").iterdir())


def test_the_library_prints_nothing(recwarn: pytest.WarningsRecorder) -> None:
    data = workbook(ROWS)
    assert read_grids(with_part(data, "xl/styles.xml", b"<styleSheet/>"), "t.xlsx", "t")
    assert not recwarn.list
