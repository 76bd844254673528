"""A part of a sheet that would run over is set tighter, step by step; one that fits is left alone."""

from __future__ import annotations

import pytest

from outputs.pdfs.desk import read
from saponary.outputs.pdf_engine import set_sheet
from saponary.outputs.pdf_kind import PdfSheet

pytestmark = pytest.mark.slow

_PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Fit</title><style>
@page { size: 60mm 50mm; margin: 10mm } body { margin: 0; font: 12pt/1 "Source Sans Pro" }
p { margin: 0 } [data-step="1"] { font-size: 10pt } [data-step="2"] { font-size: 6pt }
#next { break-before: page }
</style></head><body><div id="one" data-pages="1" data-steps="2"%s>%s</div><p id="next">Next.</p></body></html>"""


def _of(lines: int, more: str = "") -> str:
    return _PAGE % (more, "".join(f"<p>line {n}</p>" for n in range(lines)))


def pages(lines: int) -> list[str]:
    """The text of each page, of so many lines. A page has room for 85 points: seven lines of twelve."""
    html = _of(lines)
    return [page.extract_text() for page in read(set_sheet({}, PdfSheet("one.pdf", html)).data).pages]


def sizes(lines: int, more: str = "") -> set[float]:
    html = _of(lines, more)
    found: set[float] = set()
    page = read(set_sheet({}, PdfSheet("one.pdf", html)).data).pages[0]
    page.extract_text(
        visitor_text=lambda text, cm, tm, font, size: (
            found.add(round(size * abs(tm[3] * cm[3]), 1)) if text.strip() else None
        )
    )
    return found


@pytest.mark.parametrize(("lines", "size"), [(7, 12.0), (8, 10.0), (9, 6.0), (14, 6.0)])
def test_the_first_step_that_fits_is_taken(lines: int, size: float) -> None:
    assert sizes(lines) == {size}
    assert len(pages(lines)) == 2


def test_what_does_not_fit_at_the_last_step_runs_over() -> None:
    assert len(pages(15)) == 3
    assert "line 14" in pages(15)[1]


@pytest.mark.parametrize(("lines", "size"), [(8, 10.0), (9, 10.0), (24, 10.0), (25, 6.0)])
def test_a_step_that_goes_overleaf_may_fill_two_pages_more(lines: int, size: float) -> None:
    """Three pages have room for twenty-four lines of ten points."""
    assert sizes(lines, ' data-overleaf="1"') == {size}
