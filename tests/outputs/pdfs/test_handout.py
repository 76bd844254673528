"""Class handouts: both copies, read back from the PDF."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from outputs.pdfs.desk import desk_at, desk_of, pdfs_of, read, sheets_of
from outputs.pdfs.reading import smallest_type, sound
from saponary.book.classes import parse_class
from saponary.build.proof import prove
from saponary.messages.speaker import speaker
from saponary.outputs.pdf_kind import PdfContext
from saponary.quantity.numbers import Scale
from saponary.quantity.rounding import show
from saponary.views.paper.handout import Handout, handout
from saponary.views.paper.handout_bench import at_class_size
from saponary.views.paper.handout_prep import purchases
from saponary.views.paper.pictograms import CORROSION, EXCLAMATION
from support import PLAIN, some, write_book

CLASS = """\
---
title: A day at the bench
date: 2026-05-09
teacher: Somebody
students: 5
per-bench: 2
oils: 500 g
recipes: [plain, double]
timetable:
  - {at: "10:00", what: Weighing}
packs: {olive: 1000 g, sodium-hydroxide: 250 g}
spare: 10 %
emergency: Ring 000.
---
Work out the lye: {blank sodium-hydroxide}. The oils are {oils}.
"""
DOUBLE = PLAIN.replace("Plain Bar", "Double Lye").replace(
    "superfat: 5 %", "lye: {sodium: 60 %, potassium: {share: 40 %, purity: 90 %}}\nsuperfat: 5 %"
)
FILES = {
    "recipes/plain.md": PLAIN.replace("A plain bar.", "It takes {blank lye} here and {lye} in the loaf."),
    "recipes/double.md": DOUBLE,
    "classes/day.md": CLASS,
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> PdfContext:
    return desk_at(write_book(tmp_path_factory.mktemp("book"), FILES), "maker")


@pytest.fixture(scope="module")
def pdfs(desk: PdfContext) -> dict[str, Any]:
    made = pdfs_of(desk, list(sheets_of(desk, "class-handout").values()))
    return {path: read(pdf) for path, pdf in made.items()}


def text_of(pdf: Any) -> str:
    return " ".join(" ".join(page.extract_text() for page in pdf.pages).split())


def view(desk: PdfContext, *, answers: bool) -> Handout:
    (file,) = desk.site.book.classes
    assert file.plan is not None
    made = handout(file, file.plan, desk.site, answers=answers)
    assert made is not None
    return made


@pytest.mark.slow
def test_a_book_with_a_sound_class_has_no_finding_about_it(tmp_path: Path) -> None:
    assert not [f for f in prove(write_book(tmp_path, FILES)).findings if f.place.file.startswith("classes/")]


@pytest.mark.slow
def test_four_sheets_a_class(desk: PdfContext) -> None:
    assert set(sheets_of(desk, "class-handout")) == {
        f"classes/day-{copy}-{size}.pdf" for copy in ("student", "teacher") for size in ("a4", "letter")
    }


@pytest.mark.slow
def test_shopping_is_the_sum_of_the_weigh_sheets(desk: PdfContext) -> None:
    made = view(desk, answers=True)
    summed: dict[str, float] = {}
    for recipe in made.recipes:
        for row in recipe.weights.lines:
            assert row.student is not None
            what = speaker().say(row.what)
            summed[what] = summed.get(what, 0.0) + 5 * row.student.value
    assert made.preparation is not None
    for line in made.preparation.shopping.lines:
        assert line.needed.unit == "g"
        assert line.needed.value == pytest.approx(summed.pop(speaker().say(line.what)))
    assert not summed


@pytest.mark.slow
def test_whole_packs_hold_the_spare(desk: PdfContext) -> None:
    (file,) = desk.site.book.classes
    assert file.plan is not None
    cases = list(desk.site.recipes)
    for line in purchases(file.plan, cases, Scale(1.0, "g")):
        if line.pack:
            assert line.packs * line.pack >= line.wanted > (line.packs - 1) * line.pack


@pytest.mark.slow
def test_a_class_is_left_out_where_one_of_its_recipes_is(tmp_path: Path) -> None:
    files = {**FILES, "recipes/double.md": DOUBLE.replace("oils:", "editions: [maker]\noils:", 1)}
    root = write_book(tmp_path, files)
    assert not sheets_of(desk_at(root, "class"), "class-handout")
    assert len(sheets_of(desk_at(root, "maker"), "class-handout")) == 4


@pytest.mark.slow
def test_students_are_not_given_the_answers(tmp_path: Path) -> None:
    root = write_book(tmp_path, FILES)
    given = sheets_of(desk_at(root, "class"), "class-handout")
    assert sorted(given) == ["classes/day-student-a4.pdf", "classes/day-student-letter.pdf"]
    assert not sheets_of(desk_at(root, "public"), "class-handout")


@pytest.mark.slow
def test_a_class_is_kept_to_its_editions(tmp_path: Path) -> None:
    files = {**FILES, "classes/day.md": CLASS.replace("students:", "editions: [maker]\nstudents:", 1)}
    root = write_book(tmp_path, files)
    assert desk_at(root, "class").site.book.classes == ()
    assert not sheets_of(desk_at(root, "shop"), "class-handout")
    assert len(sheets_of(desk_at(root, "maker"), "class-handout")) == 4


@pytest.mark.slow
def test_positions_are_those_of_the_file() -> None:
    read_class = parse_class("classes/day.md", CLASS.replace("students: 5", "students: none"))
    (found,) = read_class.findings
    assert str(found.place) == "classes/day.md:5:11"


@pytest.mark.slow
def test_the_students_copy_leaves_blank_what_the_teachers_fills_in(
    desk: PdfContext, pdfs: dict[str, Any]
) -> None:
    plan = desk.site.book.classes[0].plan
    assert plan is not None
    computed = at_class_size(next(r for r in desk.site.recipes if r.slug == "plain"), plan)
    assert computed is not None
    answer = computed.catalogue["sodium-hydroxide"].text()
    rounded = show(computed.catalogue["sodium-hydroxide"].value, 0)
    for size in ("a4", "letter"):
        student, teacher = (
            text_of(pdfs[f"classes/day-{copy}-{size}.pdf"]) for copy in ("student", "teacher")
        )
        assert answer not in student
        assert answer in teacher
        assert f"Sodium hydroxide {rounded} " in teacher
        assert f"Sodium hydroxide {rounded} " not in student
        assert "500.0 g" in student


@pytest.mark.slow
def test_no_string_inside_the_students_pdf_holds_the_answer(desk: PdfContext, pdfs: dict[str, Any]) -> None:
    """Not in what describes it, its outline, its tags, words for pictures, or a file carried inside."""
    plan = desk.site.book.classes[0].plan
    assert plan is not None
    computed = at_class_size(next(r for r in desk.site.recipes if r.slug == "plain"), plan)
    assert computed is not None
    figures = [computed.catalogue[name] for name in ("sodium-hydroxide", "lye", "batter")]
    answers = {show(figure.value, decimals) for figure in figures for decimals in (1, 2, 3)}
    for copy, told in (("student", False), ("teacher", True)):
        reader = pdfs[f"classes/day-{copy}-a4.pdf"]
        strings = [*_strings(reader), text_of(reader)]
        found = {answer for answer in answers if any(answer in text for text in strings)}
        assert bool(found) == told, found
        assert not reader.attachments
        assert any("bench" in text for text in strings), "strings were read"


def _strings(reader: Any) -> list[str]:
    """Every string of every object, and what is told of the document in XML."""
    found = [str(reader.trailer["/Root"]["/Metadata"].get_object().get_data())]
    waiting: list[Any] = [reader.get_object(number) for number in {*reader.xref_objStm, *reader.xref[0]}]
    while waiting:
        one = waiting.pop()
        if isinstance(one, dict):
            waiting += [one.raw_get(key) for key in one]
        elif isinstance(one, list):
            waiting += list(one)
        elif isinstance(one, str):
            found.append(str(one))
    return found


@pytest.mark.slow
def test_weights_on_paper_are_the_engines(desk: PdfContext, pdfs: dict[str, Any]) -> None:
    plan = desk.site.book.classes[0].plan
    assert plan is not None
    scale = Scale(1.0, "g")
    for size in ("a4", "letter"):
        text = text_of(pdfs[f"classes/day-teacher-{size}.pdf"])
        for recipe in desk.site.recipes:
            one, two = at_class_size(recipe, plan), at_class_size(recipe, plan, 2)
            assert one is not None and two is not None
            for name, label in (("sodium-hydroxide", "Sodium hydroxide"), ("plain-water", "Plain water")):
                pair = f"{label} {scale.weigh(one.catalogue[name].value).main} {scale.weigh(two.catalogue[name].value).main}"
                assert pair in text
            held = re.escape(show(100 * one.figures.superfat_as_weighed, 1))
            assert re.search(rf"Each student {held} %", text)


@pytest.mark.slow
def test_cautions_emergency_and_pictograms_are_on_every_copy(pdfs: dict[str, Any]) -> None:
    for pdf in some(pdfs.values()):
        text = text_of(pdf)
        for said in ("Lye into water, never water onto lye.", "No aluminium.", "Ring 000.", "Danger",
                     "Follow local codes and licensed practice", "Two jars that look alike.", "H314", "P280"):  # fmt: skip
            assert said in text, said
        alts = set(alternatives(pdf.trailer["/Root"]["/StructTreeRoot"]))
        assert {speaker().say(sign.alt) for sign in (CORROSION, EXCLAMATION)} <= alts


def alternatives(node: Any) -> list[str]:
    """Alternative texts of a tagged PDF's figures, from its tree."""
    node = node.get_object()
    if not hasattr(node, "get"):
        return []
    found = [str(node["/Alt"])] if "/Alt" in node else []
    children = node.get("/K")
    children = children.get_object() if children is not None else []
    for child in children if isinstance(children, list) else [children]:
        found += alternatives(child)
    return found


@pytest.mark.slow
def test_the_same_book_gives_the_same_bytes(desk: PdfContext) -> None:
    sheet = sheets_of(desk, "class-handout")["classes/day-teacher-a4.pdf"]
    assert pdfs_of(desk, [sheet]) == pdfs_of(desk, [sheet])


@pytest.mark.slow
def test_the_demo_book_teaches_on_facing_pages() -> None:
    """A cover, two facing pages for each of two recipes, and the day; a left page has an even number."""
    desk = desk_of("demo", "class")
    wanted = sheets_of(desk, "class-handout")
    assert len(wanted) == 2
    for pdf in pdfs_of(desk, list(wanted.values())).values():
        pages = [page.extract_text() for page in read(pdf).pages]
        assert len(pages) == 6
        assert "Lye burns." in pages[0] and "Danger" in pages[0]
        for title, left in (("Quarry Strata", 2), ("Twice-Painted Ladder", 4)):
            assert title in pages[left - 1] and "To weigh" in pages[left - 1]
            assert f"{title}: my record" in pages[left] and "weighed every week" in pages[left]
        assert smallest_type(pdf) >= 7.99
        sound(pdf, desk.site.book.settings.maker)


@pytest.mark.slow
def test_the_teachers_safety_fills_one_page_on_both_papers() -> None:
    desk = desk_of("demo", "maker")
    wanted = [sheet for path, sheet in sheets_of(desk, "class-handout").items() if "teacher" in path]
    assert len(wanted) == 2
    for pdf in pdfs_of(desk, wanted).values():
        pages = [page.extract_text() for page in read(pdf).pages]
        assert "Lye burns." in pages[1] and "Regulation (EC) No 1272/2008" in pages[1]
        assert "Shopping" in pages[2]
        sound(pdf, desk.site.book.settings.maker)


def test_the_demo_class_tells_no_weight_that_gives_its_lye_away() -> None:
    """The batter less all that is weighed into it but the lye would be the lye."""
    desk = desk_of("demo", "class")
    (read_class,) = desk.site.book.classes
    assert read_class.plan is not None
    page = sheets_of(desk, "class-handout")["classes/first-winter-bench-student-a4.pdf"].html
    told = set(re.findall(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])", re.sub(r"<[^>]*>", " ", page)))
    recipe = next(recipe for recipe in desk.site.recipes if recipe.slug == "quarry-strata")
    moulds = desk.site.book.pantry.moulds
    recipe = replace(recipe, pantry=replace(recipe.pantry, moulds=moulds))
    first = at_class_size(recipe, read_class.plan)
    assert first is not None
    for name in ("batter", "water", "sodium-hydroxide", "lye-solution"):
        grams = first.catalogue[name].value
        assert not {show(grams, 0), show(grams, 1)} & told, name
    assert show(first.catalogue["oils"].value, 1) in told
