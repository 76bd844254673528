"""What a student works out is hidden by what it is: with other words on the page, the same is hidden."""

from __future__ import annotations

import hashlib
import re
from dataclasses import replace
from pathlib import Path

import pytest

from outputs.pdfs.desk import desk_at, sheets_of
from saponary.assets import resources
from saponary.label import label_text
from saponary.label.cautions import for_buyers
from saponary.messages.speaker import Speaker, Text, speaker
from saponary.outputs.pdf_kind import PdfContext
from saponary.outputs.templating import environment
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
ROW = re.compile(r"<tr>.*?</tr>", re.DOTALL)
GAP = '<span class="blank gap"></span>'


def nonsense(key: str, text: str) -> str:
    """A word that says nothing, with the places of the text it stands for."""
    word = "q" + "".join("bcdfghjklmnpqrtz"[int(c, 16)] for c in hashlib.sha256(key.encode()).hexdigest()[:9])
    return word + "".join(f" {place} {word}" for place in re.findall(r"\{[a-z_]+\}", text))


def nonsense_speaker() -> Speaker:
    """A language of which no word is English."""

    def other(key: str, text: Text) -> Text:
        if isinstance(text, str):
            return nonsense(key, text)
        return {form: nonsense(f"{key} {form}", said) for form, said in text.items()}

    return Speaker("zz", {key: other(key, text) for key, text in speaker().texts.items()})


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[str, PdfContext]:
    """A class by the figure that its recipe leaves blank."""
    made = {}
    for figure in FIGURES:
        recipe = PLAIN.replace("A plain bar.", f"Work it out: {{blank {figure}}}.")
        root = write_book(
            tmp_path_factory.mktemp("book"), {"recipes/plain.md": recipe, "classes/day.md": CLASS}
        )
        made[figure] = desk_at(root, "maker")
    return made


FIGURES = {
    "lye": 1,
    "sodium-hydroxide": 1,
    "water": 1,
    "plain-water": 1,
    "lye-solution": 1,
    "oils": 1,
    "oil olive": 1,
}
"""Figures left blank, and how many lines at least are hidden for them."""


def rows(context: PdfContext, copy: str) -> list[str]:
    html = sheets_of(context, "class-handout")[f"classes/day-{copy}-a4.pdf"].html
    return ROW.findall(html)


@pytest.mark.parametrize("figure", FIGURES)
def test_the_same_lines_are_blank_in_a_language_of_nonsense(
    books: dict[str, PdfContext], figure: str
) -> None:
    english = books[figure]
    other = replace(english, environment=environment([resources.templates()], nonsense_speaker()))
    hidden = [GAP in row for row in rows(english, "student")]
    assert sum(hidden) >= FIGURES[figure]
    assert [GAP in row for row in rows(other, "student")] == hidden
    assert not any(GAP in row for row in rows(other, "teacher"))


@pytest.mark.parametrize(("figure", "label"), [("plain-water", "Plain water"), ("lye", "Sodium hydroxide")])
def test_a_hidden_weight_is_nowhere_on_the_students_copy(
    books: dict[str, PdfContext], figure: str, label: str
) -> None:
    teacher = {row for row in rows(books[figure], "teacher") if label in row}
    weights = {found for row in teacher for found in re.findall(r'<td class="n main">([\d.]+)</td>', row)}
    student = " ".join(row for row in rows(books[figure], "student") if label in row)
    assert weights and student
    assert not any(f">{weight}<" in student for weight in weights)


def test_a_labels_cautions_are_the_same_in_a_language_of_nonsense(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    recipe = PLAIN.replace(
        "signed:",
        "label: {net-weight: 100 g}\nadditions:\n  - {what: coffee-grounds, amount: 10 g}\n"
        "liquids:\n  - {what: goat-milk, amount: 50 g, at: trace}\nsigned:",
    )
    context = desk_at(write_book(tmp_path, {"recipes/plain.md": recipe}), "shop")
    (one,) = context.site.recipes
    ids = [caution.id for caution in for_buyers(one)]
    assert ids == ["scratch", "milk"]
    other = nonsense_speaker()
    monkeypatch.setattr(label_text, "speaker", lambda *_: other)
    said = label_text.label_text(one, context.site.labels["plain"], context.site.book.settings, "us")
    assert said is not None
    assert said.caution == " ".join((other("label.eyes"), *(other(f"caution.{name}.head") for name in ids)))
