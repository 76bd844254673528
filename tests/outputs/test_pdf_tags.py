"""The tags of a PDF, read back by a reader of our own; WeasyPrint's alone have the faults that are mended."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from outputs.pdfs.desk import read
from outputs.pdfs.tagged import contents, faults
from saponary.outputs import pdf_engine
from saponary.outputs.pdf_engine import set_sheet
from saponary.outputs.pdf_kind import PdfSheet

pytestmark = pytest.mark.slow

_PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Tags</title><style>
@page { size: 90mm 70mm; margin: 12mm; @top-left { content: "head" } @bottom-right { content: counter(page) } }
body { margin: 0; font: 9pt/1.2 "Source Sans Pro" } .next { break-before: page }
.number::before { content: target-counter(attr(href), page) }
</style></head><body><h1>One</h1><p>To <a href="#two">the second part</a>, page <a class="number" href="#two"
title="Second part"></a>, or <a href="https://book.example/about">elsewhere</a>.</p>
<table><thead><tr><th scope="col">What</th><th scope="col">g</th></tr></thead><tbody><tr><th scope="row">Olive oil</th>
<td>450</td></tr></tbody></table>
<svg viewBox="0 0 10 10" width="40" height="40"><title>A square</title><rect width="10" height="10"/></svg>
<h2 class="next" id="two">Two</h2><p>Text.</p></body></html>"""


@cache
def mended() -> bytes:
    return set_sheet({}, PdfSheet("one.pdf", _PAGE)).data


def test_nothing_is_amiss_with_what_is_mended() -> None:
    assert faults(mended()) == []


def test_a_link_is_described_in_its_words() -> None:
    assert list(dict.fromkeys(contents(mended()))) == ["the second part", "Second part", "elsewhere"]


def test_running_heads_and_folios_are_of_the_pagination() -> None:
    for page in read(mended()).pages:
        content = page.get_contents()
        assert content is not None
        data = content.get_data()
        for part in (b"/Header", b"/Footer"):
            assert data.count(b"/Type /Pagination/Subtype " + part) == 1, data


def _left_alone(document: Any, pdf: Any) -> None:
    """No finisher."""


def test_the_reader_finds_what_is_amiss_without_the_mending(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf_engine, "mend", _left_alone)
    found = "\n".join(faults(set_sheet({}, PdfSheet("one.pdf", _PAGE)).data))
    for words in (
        "page 1: content",
        "page 2: content",
        "the tree of IDs is another",
        "a head of no row",
        "described by its address, https://book.example/about",
        "described by its address, two",
        "a picture said to lie outside",
    ):
        assert words in found, words
