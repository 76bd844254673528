"""Two facing pages of a student's copy: each weight once, small ones for a group, no sum that tells a blank."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from outputs.pdfs.desk import desk_at, sheets_of
from saponary.outputs.pdf_kind import PdfContext
from saponary.quantity.rounding import show
from saponary.views.paper.handout_bench import at_class_size
from support import PLAIN, write_book

CLASS = """\
---
title: A day at the bench
students: 5
per-bench: 2
oils: 500 g
recipes: [plain]
---
The class.
"""
POWDERS = (
    "additions:\n"
    "  - {what: kaolin, amount: 0.12 % of oils}\n"
    "  - {what: zinc-oxide, amount: 0.3 % of oils}\n"
    "  - {what: colloidal-oatmeal, amount: 1 % of oils}\n"
    "portions: [{name: pale, share: 60 %}, {name: dark, share: 40 %}]\n"
    "pour: [{beds: [{of: pale}, {of: dark}]}]\nsigned:"
)


def desk(folder: Path, notes: str) -> PdfContext:
    recipe = PLAIN.replace("A plain bar.", notes).replace("signed:", POWDERS, 1)
    return desk_at(write_book(folder, {"recipes/plain.md": recipe, "classes/day.md": CLASS}), "class")


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> PdfContext:
    return desk(tmp_path_factory.mktemp("book"), "In all {batter}.")


def html(context: PdfContext) -> str:
    return sheets_of(context, "class-handout")["classes/day-student-a4.pdf"].html


def numbers(page: str) -> set[str]:
    """All numbers that are read on a page."""
    text = re.sub(r"<[^>]*>", " ", page[page.index("<body") :])
    return set(re.findall(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])", text))


def row(page: str, name: str) -> str:
    (found,) = (each for each in re.findall(r"<tr>.*?</tr>", page, re.DOTALL) if name in each)
    return found


@pytest.mark.parametrize(
    ("name", "weight", "group"),
    [
        ("Kaolin", "3", "for 5 together, then divided"),  # 0.6 g each, 1.2 g two: 3 g all five
        ("Zinc oxide", "3", "for 2 together, then divided"),  # 1.5 g each
        ("Colloidal oatmeal", "5", ""),
    ],
)
def test_a_weight_under_two_steps_of_the_scale_is_that_of_a_group(
    plain: PdfContext, name: str, weight: str, group: str
) -> None:
    found = row(html(plain), name)
    assert f'<td class="n main">{weight}</td>' in found
    assert group in found if group else "together" not in found


def test_every_weight_stands_once(plain: PdfContext) -> None:
    page = html(plain)
    assert len(re.findall(r'<th scope="row">Sodium hydroxide', page)) == 1
    assert len(re.findall(r'<th scope="row">Olive oil', page)) == 1


def test_what_is_blank_is_told_by_no_sum(plain: PdfContext, tmp_path: Path) -> None:
    """With the other weights of the batter, its whole or a portion of it would give the lye by subtraction."""
    context = desk(
        tmp_path, "Work it out: {blank sodium-hydroxide}. In all {batter}, or {portion pale batter}."
    )
    (read,) = context.site.book.classes
    (recipe,) = context.site.recipes
    assert read.plan is not None
    one = at_class_size(recipe, read.plan)
    assert one is not None
    hidden = html(context)
    for name in ("batter", "portion pale batter", "portion dark batter", "lye-solution"):
        grams = one.catalogue[name].value
        near = {show(grams + off, 0) for off in (-2, -1, 0, 1, 2)} | {show(grams, 1)}
        assert not near & numbers(hidden), name
        assert near & numbers(html(plain)), name
    parts = re.findall(r"<tr><th scope=\"row\">Batter from the pot.*?</tr>", hidden, re.DOTALL)
    assert len(parts) == 2 and all('<span class="blank gap"></span>' in part for part in parts)


@pytest.mark.parametrize(("gap", "told"), [("lye", 0), ("water", 0), ("oil olive", 1)])
def test_no_strength_gives_the_lye_away_beside_its_water(tmp_path: Path, gap: str, told: int) -> None:
    """Lye is what the water is times s / (1 - s), s the strength; the sentence keeps a line to write on."""
    page = html(desk(tmp_path, f"Work it out: {{blank {gap}}}."))
    (sentence,) = (each for each in re.findall(r"<p.*?</p>", page) if "dissolves at a strength of" in each)
    assert ("33.0" in sentence) == bool(told)
    assert ('<span class="blank' in sentence) != bool(told)
