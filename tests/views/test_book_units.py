"""A book shows its weights in its own units, on every page, on paper, in charts and in findings.

Both books of the repository are kept in grams. Here they are kept in ounces, and the figures that their makers quote
in grams are placed: what is left of grams must stand in the makers' own words, or be no weight of a recipe.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from html import unescape
from importlib.resources import files
from pathlib import Path
from tempfile import mkdtemp

import pytest

from outputs.pdfs.desk import desk_for
from saponary.build.proof import Proof, prove
from saponary.outputs.pdf_kind import PdfContext
from saponary.outputs.pdf_make import sheets
from support import BOOKS, copy_book, write_book

OUNCES = re.compile(r"(?<![\w/])[0-9][0-9.,]*[\s\u00a0]*(?:oz|lb)\b")
GRAMS = re.compile(r"(?<![\w/])[0-9][0-9.,]*[\s\u00a0]*k?g\b(?!/)")
_UNSEEN = re.compile(r"<(style|script|head)\b.*?</\1>", re.DOTALL)
_SOURCES = ("recipes/*.md", "batches/*", "classes/*.md", "pantry.yaml", "book.yaml")
_NO_WEIGHT = ("/100 g", "g per kg of o", "Net weight", "net weight of 4 oz")
"""The hundred grams of an iodine value, a source of a usual rate as it words it, and a label, which has both units."""
_GLOSSARY = " ".join(files("saponary.tables").joinpath("glossary.yaml").read_text("utf-8").split())
_QUOTED = re.compile(r"\{([a-z -]+?)\s*=\s*[0-9.]+\s*(?:g|kg|oz)\s*\}")

ONE_RECIPE = """\
---
title: Plain Bar
summary: Takes {lye} of lye and {portion red addition turmeric} of turmeric.
oils:
  total: 34 oz
  parts: {olive: 60 %, coconut: 40 %}
superfat: 5 %
water: {lye-strength: 33 %}
liquids: [{what: cow-milk, amount: 3 oz, at: trace}]
portions:
  - {name: white, share: 60 %}
  - {name: red, share: 40 %, additions: [{what: turmeric, amount: 9 g/kg}]}
pour:
  - beds: [{of: white}, {of: red}]
cut: {along: 25 mm}
mould: loaf
label: {net-weight: 4 oz}
sizes: [50 oz]
signed: {superfat: 5.0 %}
batches:
  - lot: PB-1
    poured: 2026-03-02
    as-weighed: {olive: 20.4 oz, coconut: 13.6 oz, sodium-hydroxide: 10 oz, water: 10 oz}
    weighed: {0: 4.40 oz, 7: 4.20 oz, 14: 4.10 oz, 28: 4.05 oz, 42: 0.11 kg}
---
Dissolve {sodium-hydroxide} in {plain-water}.
"""
PANTRY = "moulds: {loaf: {loaf: {length: 250 mm, width: 90 mm, height: 80 mm}}}\n"
CLASS = """\
---
title: First Bars
date: 2026-12-01
students: 4
per-bench: 2
recipes: [plain-bar]
oils: 1 lb
packs: {olive: 3 lb}
spare: 10 %
---
Each student weighs {lye} of lye.
"""


def settings(units: str) -> str:
    step = {"g": "1 g", "oz": "0.05 oz"}[units]
    return f"units: {units}\nscale-step: {step}\ncurrency: EUR\nalkali-price: {{sodium: 5 / kg}}\n"


@cache
def small(units: str) -> Proof:
    root = Path(mkdtemp())
    parts = {"recipes/plain-bar.md": ONE_RECIPE, "pantry.yaml": PANTRY, "classes/first.md": CLASS}
    return prove(write_book(root, {**parts, "book.yaml": settings(units)}))


@cache
def kept_in_ounces(book: str) -> Proof:
    root = copy_book(book, Path(mkdtemp()))
    for path in (
        path for source in ("recipes/*.md", "classes/*.md", "book.yaml") for path in root.glob(source)
    ):
        text = _QUOTED.sub(r"{\1}", path.read_text("utf-8"))
        path.write_text(text.replace("units: g\nboth-units: true", "units: oz"), "utf-8")
    if not (root / "book.yaml").is_file():
        (root / "book.yaml").write_text("units: oz\n", "utf-8")
    return prove(root)


def corpus(root: Path) -> str:
    """What a maker wrote, without marks."""
    texts = " ".join(path.read_text("utf-8") for source in _SOURCES for path in sorted(root.glob(source)))
    return " ".join(re.sub(r"[`*_{}=\\\"]|\[|\]\([^)]*\)", " ", texts).replace("'", "’").split())


def said(context: PdfContext) -> Iterator[tuple[str, str]]:
    """Every page, drawing, calendar and sheet, as text between its marks."""
    texts = {p: d.decode() for p, d in context.files.items() if p.endswith((".html", ".svg", ".ics", ".xml"))}
    kinds = ("recipe-sheet", "whole-book", "class-handout", "labels")
    for path, text in (texts | {sheet.path: sheet.html for sheet in sheets(context, kinds)}).items():
        shown = re.sub(r'(?:alt|aria-label|content)="([^"]*)"', r">\1<", _UNSEEN.sub(" ", text))
        yield path, unescape(re.sub(r"<[^>]+>", " ", shown))


def strange(proof: Proof, edition: str, unit: re.Pattern[str]) -> tuple[int, list[str]]:
    """How many weights of this unit there are, and those of them that no maker wrote, with the words around them."""
    mine, wrong, seen = corpus(proof.book.root), list[str](), 0
    for path, text in said(desk_for(proof, edition)):
        for found in unit.finditer(text):
            seen += 1
            around = " ".join(text[max(0, found.start() - 40) : found.end() + 12].split())
            written = " ".join(text[max(0, found.start() - 8) : found.end()].split())
            known = written in mine or written in _GLOSSARY or any(other in around for other in _NO_WEIGHT)
            if not known and f"sizes: {' '.join(found[0].split())}" not in mine:
                wrong.append(f"{path}: {around}")
    return seen, list(dict.fromkeys(wrong))


@pytest.mark.parametrize(("units", "own", "other"), [("oz", OUNCES, GRAMS), ("g", GRAMS, OUNCES)])
def test_pages_paper_and_findings_of_a_book_have_its_units(
    units: str, own: re.Pattern[str], other: re.Pattern[str]
) -> None:
    proof = small(units)
    for edition in ("maker", "class"):
        seen, wrong = strange(proof, edition, own)[0], strange(proof, edition, other)[1]
        assert seen > 40 and not wrong, "\n".join(wrong)
    texts = [f"{f.rule}: {f.message} / {f.hint}" for f in proof.findings]
    assert {"net-weight", "record-weights", "usual-rate"} <= {f.rule for f in proof.findings}, texts
    allowed = (" 9 g/kg",) if units == "oz" else ("34 oz", "3 oz", "50 oz", "4 oz")
    assert not [text for text in texts if other.search(text) and not any(one in text for one in allowed)]


@pytest.mark.slow
@pytest.mark.parametrize("edition", ["maker", "shop"])
@pytest.mark.parametrize("book", sorted(BOOKS))
def test_the_books_of_the_repository_have_no_grams_once_kept_in_ounces(book: str, edition: str) -> None:
    seen, _ = strange(kept_in_ounces(book), edition, OUNCES)
    _, wrong = strange(kept_in_ounces(book), edition, GRAMS)
    assert seen > (200 if edition == "maker" else 0)
    assert not wrong, "\n".join(wrong)
