"""The temperatures of a recipe: where they are said, to whom, and what is refused."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest

from checks.books import LESSON, found, more, recipe
from outputs.pdfs.desk import desk_at
from saponary.outputs.pdf_kind import PdfContext
from saponary.outputs.pdf_make import sheets
from support import PLAIN, prove_one, write_book

WARM = "temperatures: {lye: 38 °C, oils: 104 °F}\n"
LYE = "Have it at 38 °C when it goes into the oils."
OILS = "Have them at 104 °F when the lye solution goes in."
"""As the recipe writes them: nobody's thermometer is read in the other unit."""
PLACES = ["recipes/tried/index.html", "recipes/tried/at-the-bench.html"]


def sound(lines: str) -> str:
    """The plain recipe, signed, with more lines in its front matter."""
    return PLAIN.replace("signed:\n", f"{lines}signed:\n")


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    text = more(WARM).replace("SUPERFAT", "5.0 %").replace("  formula: FINGERPRINT\n", "")
    files = {
        "recipes/tried.md": text,
        "classes/one.md": LESSON,
        "book.yaml": "base-url: https://soap.example\n",
    }
    return write_book(tmp_path_factory.mktemp("book"), files)


def words(page: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).replace("\u00a0", " ").split())


@pytest.fixture(scope="module")
def desk(book: Path) -> PdfContext:
    return desk_at(book, "maker")


@pytest.mark.parametrize("path", PLACES)
def test_they_stand_in_the_order_of_work(path: str, desk: PdfContext) -> None:
    said = words(desk.files[path].decode())
    assert said.count(LYE) >= 1 and said.count(OILS) >= 1


@pytest.mark.parametrize("kind", ["recipe-sheet", "class-handout"])
def test_they_stand_on_paper(kind: str, desk: PdfContext) -> None:
    made = list(sheets(desk, [kind]))
    assert made
    for sheet in made:
        said = words(sheet.html)
        assert LYE in said and OILS in said, sheet.path


def test_programs_are_told_of_them(desk: PdfContext) -> None:
    page = desk.files[PLACES[0]].decode()
    (text,) = re.findall(r'<script type="application/ld\+json">(.*?)</script>', page, re.DOTALL)
    steps = " ".join(step["text"] for step in json.loads(html.unescape(text))["step"])
    assert LYE in steps.replace("\u00a0", " ") and OILS in steps.replace("\u00a0", " ")


def test_a_customer_reads_none(book: Path) -> None:
    files = desk_at(book, "shop").files
    assert not [path for path, data in files.items() if "38 °C" in words(data.decode("utf-8", "replace"))]


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("temperatures: {lye: 180 °C}\n", "from -30 °C, where lye is frozen, to 150 °C, where it boils"),
        ("temperatures: {oils: 105 °C}\n", "from 0 °C to 100 °C, above which the water of the lye boils"),
        ("temperatures: {oils: 221 °F}\n", "from 0 °C to 100 °C, above which the water of the lye boils"),
        (
            "method: hot\ntemperatures: {cook: 30 °C}\n",
            "the temperature of a pot that cooks, from 40 °C to 120 °C",
        ),
        ("temperatures: {cook: 85 °C}\n", "nothing is cooked in cold process"),
        ("temperatures: {lye: 38}\n", "°C"),
        ("temperatures: {oil: 38 °C}\n", "'oils'"),
    ],
)
def test_what_cannot_be_is_found(lines: str, told: str) -> None:
    findings = [one for one in prove_one(sound(lines)).findings if one.severity == "error"]
    assert findings and any(told in f"{one.message} {one.hint}" for one in findings), findings
    line = PLAIN[: PLAIN.index("signed:")].count("\n") + lines.count("\n")
    assert {one.place.line for one in findings} == {line}


@pytest.mark.parametrize(("at", "count"), [("0 °C", 1), ("32 °F", 1), ("10 °C", 0), ("38 °C", 0)])
def test_a_lye_colder_than_it_can_be(at: str, count: int) -> None:
    """Of 33 % by weight are 49.3 g in 100 g of water; 42 dissolve at 0 °C and 109 at 20 °C, 75 half way."""
    assert len(found(recipe(more(f"temperatures: {{lye: {at}}}\n")), "cold-lye")) == count
