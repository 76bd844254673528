"""The work order says how high the batter stands in its mould, wherever the work order is read."""

from __future__ import annotations

import re

import pytest

from checks.books import proofed
from checks.test_mould_fill import of
from outputs.pdfs.desk import desk_for, sheets_of
from saponary.lye.mould import Mould, rim_height
from support import some


def test_page_bench_and_sheet_say_how_high_the_mould_is_filled() -> None:
    """A straight box of 250 by 90 mm holds 22.5 ml in each millimetre of its height."""
    desk = desk_for(proofed(of("1000 g")))
    height = round(desk.site.recipes[0].figures.batter_ml / 22.5)
    pages = [desk.files[f"recipes/tried/{name}.html"].decode() for name in ("index", "at-the-bench")]
    sheets = [sheet.html for sheet in sheets_of(desk, "recipe-sheet").values()]
    for html in some([*pages, *some(sheets)]):
        said = " ".join(re.sub(r"<[^>]+>", "", html).replace("\N{NO-BREAK SPACE}", " ").split())
        assert f"Fills the mould to {height} mm of 80 mm." in said


@pytest.mark.parametrize(
    ("mould", "rim"),
    [
        (Mould("loaf", 250, 90, 80, liner=2), 78),
        (Mould("cylinder", length=300, diameter=70, liner=1), 299),
    ],
)
def test_the_rim_is_measured_from_the_liner(mould: Mould, rim: float) -> None:
    assert rim_height(mould) == rim
