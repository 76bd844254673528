"""What a recipe page prints against what the engine says: the panel, the weights, the pots."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import html5lib
import pytest

from composed import composed
from saponary.book.proofed import Proofed
from saponary.build.proof import Proof
from saponary.quantity.numbers import OUNCE, Scale
from saponary.quantity.rounding import show, to_step
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from support import BOOKS, PLAIN, proof_of, prove_one, some

X = "{http://www.w3.org/1999/xhtml}"


MADE: dict[tuple[int, str], ElementTree.Element] = {}


def recipe_page(proof: Proof, slug: str) -> ElementTree.Element:
    """The page of one recipe, read once for all tests."""
    if (id(proof), slug) not in MADE:
        MADE[id(proof), slug] = read_page(proof, slug)
    return MADE[id(proof), slug]


def read_page(proof: Proof, slug: str) -> ElementTree.Element:
    site = for_edition(Unpublished(proof.book, proof.recipes, "engine", "tables"), STANDARD[PUBLIC])
    path = f"recipes/{slug}/index.html"
    return html5lib.HTMLParser(strict=True).parse(composed(site)[path].decode("utf-8"))


def text(element: ElementTree.Element) -> str:
    return " ".join("".join(element.itertext()).split())


PUBLISHED = [
    pytest.param(name, path.stem, id=path.stem)
    for name in sorted(BOOKS)
    for path in sorted((BOOKS[name] / "recipes").glob("*.md"))
    if "\nsigned:" in path.read_text(encoding="utf-8")
]


def made_of(book: str, slug: str) -> tuple[Proofed, ElementTree.Element]:
    """A published recipe and its page."""
    proof = proof_of(book)
    (one,) = (one for one in proof.recipes if one.computed.file.slug == slug)
    return one, recipe_page(proof, slug)


def as_the_engine_says(one: Proofed, found: dict[str, ElementTree.Element]) -> None:
    """Each figure shows its value of the catalogue, and its machine-read value rounds to what is shown."""
    for name, element in found.items():
        figure = one.computed.catalogue[name]
        assert text(element).replace("−", "-") == figure.text()
        shown, value = re.match(r"-?[\d.]+", figure.text()), float(str(element.get("value")))
        assert shown is not None
        assert show(value, len(shown[0].partition(".")[2])) == shown[0]


@pytest.mark.slow
@pytest.mark.parametrize(("book", "slug"), PUBLISHED)
def test_the_panel_shows_the_engines_figures(book: str, slug: str) -> None:
    one, page = made_of(book, slug)
    found = {str(e.get("data-name")): e for e in page.iter(f"{X}data") if e.get("data-name")}
    f = one.computed.figures
    if not one.computed.resolved.formula.weighs_lye:
        assert found.keys() == {"grated-soap", "batter", "liquid oat-drink", "lye", "superfat"}
        for name, words in (("lye", "none"), ("superfat", "not given")):
            element = found.pop(name)
            assert (text(element), element.get("value")) == (words, "")
        as_the_engine_says(one, found)
        return
    assert {
        "oils",
        "water",
        "batter",
        "superfat",
        "lye-strength",
        "superfat-likely",
        "superfat-worst",
    } <= found.keys()
    for name, band in (("superfat-likely", f.bands.likely), ("superfat-worst", f.bands.worst)):
        element = found.pop(name)
        assert text(element).replace("−", "-") == f"{show(100 * band.low, 1)} to {show(100 * band.high, 1)} %"
        assert [float(v) for v in str(element.get("value")).split()] == pytest.approx(
            [100 * band.low, 100 * band.high], rel=1e-8
        )
    as_the_engine_says(one, found)


@pytest.mark.parametrize(("book", "slug"), PUBLISHED)
def test_every_weight_of_the_formula_is_in_the_work_order(book: str, slug: str) -> None:
    one, page = made_of(book, slug)
    formula, figures = one.computed.resolved.formula, one.computed.figures
    home = "stage-lye" if formula.weighs_lye else "stage-grate"
    stage = next(e for e in page.iter(f"{X}li") if e.get("id") == home)
    step = one.computed.settings.scale_step_grams
    mains = [text(td) for td in stage.iter(f"{X}td") if "main" in str(td.get("class"))]
    sodium = figures.weights.sodium_hydroxide
    alkali = sodium / (formula.stock.sodium or 1.0)
    weights = (alkali, figures.weights.potassium_hydroxide, figures.water.plain - (alkali - sodium))
    for value in some(grams for grams in (*weights, *(a.grams for a in formula.remelted)) if grams > 0):
        assert show(to_step(value, step), 0) in mains
    dose = [text(td) for td in page.iter(f"{X}td") if "main" in str(td.get("class"))]
    assert "0" not in dose, "no weight is rounded away"


@pytest.mark.parametrize(("book", "slug"), PUBLISHED)
def test_columns_add_up_as_printed(book: str, slug: str) -> None:
    one, page = made_of(book, slug)
    weights = [table for table in page.iter(f"{X}table") if "weights" in str(table.get("class"))]
    for table in some(weights):
        foot, body = table.find(f"{X}tfoot"), table.find(f"{X}tbody")
        assert body is not None
        if foot is None:
            continue
        cells = [float(text(td)) for td in body.iter(f"{X}td") if "main" in str(td.get("class"))]
        (total,) = [float(text(td)) for td in foot.iter(f"{X}td") if "main" in str(td.get("class"))]
        assert abs(sum(cells) - total) <= one.computed.settings.scale_step_grams / 2 + 1e-9


@pytest.mark.parametrize(
    ("step", "unit", "value", "main", "beside"),
    [
        (1.0, "g", 138.7, "139", "4.90"),
        (0.1, "g", 138.74, "138.7", "4.89"),
        (5.0, "g", 138.7, "140", "4.94"),
        (0.5, "g", 138.7, "138.5", "4.89"),
        (0.1 * OUNCE, "oz", 138.7, "4.9", "138.9"),
        (0.01 * OUNCE, "oz", 138.7, "4.89", "138.6"),
    ],
)
def test_a_weight_is_rounded_once_to_the_scale(
    step: float, unit: str, value: float, main: str, beside: str
) -> None:
    weighed = Scale(step, unit).weigh(value)  # type: ignore[arg-type]
    assert (weighed.main, weighed.beside, weighed.fine) == (main, beside, False)


@pytest.mark.parametrize(("value", "main"), [(0.4, "0.4"), (0.04, "0.04"), (1.35, "1.35"), (2.4, "2.4")])
def test_a_weight_too_small_for_the_scale_says_so(value: float, main: str) -> None:
    weighed = Scale(1.0, "g").weigh(value)
    assert weighed.main == main and weighed.fine


def test_pots_of_their_own_divide_the_one_lye() -> None:
    proof = proof_of("demo")
    page = recipe_page(proof, "ebb-below-flood-above")
    lye = next(e for e in page.iter(f"{X}li") if e.get("id") == "stage-lye")
    jug, divided = list(lye.iter(f"{X}table"))
    (total,) = [float(text(td)) for td in jug.iter(f"{X}td") if "main" in str(td.get("class"))][-1:]
    parts = [float(text(td)) for td in divided.iter(f"{X}td") if "main" in str(td.get("class"))]
    assert len(parts) == 3 and abs(sum(parts) - total) <= 2


def test_a_figure_that_does_not_hold_is_not_called_checked() -> None:
    proof = prove_one(PLAIN.replace("superfat: 5.0 %", "superfat: 7.0 %"))
    badge = next(e for e in read_page(proof, "tried").iter(f"{X}section") if "badge" in str(e.get("class")))
    assert "Does not match. 0 of 1 signed" in text(badge) and "Checked" not in text(badge)


def test_cautions_follow_the_ingredients() -> None:
    def own(slug: str, book: str = "starters") -> str:
        page = recipe_page(proof_of(book), slug)
        (mind,) = [text(e) for e in page.iter(f"{X}p") if e.get("class") == "mind"] or [""]
        lists = [text(e) for e in page.iter(f"{X}ul") if e.get("class") == "own-cautions"]
        assert bool(mind) == bool(lists)
        return " ".join(lists)

    assert "Carbon monoxide" in own("milk-at-trace") and "Contains milk" in own("milk-at-trace")
    assert "Two jars that look alike" in own("brush-bowl-two-alkalis")
    assert "Fine powder" in own("two-clay-bar")
    assert "It scratches" in own("morning-coffee")
    assert own("one-oil-olive") == ""
    assert "may hold free alkali" in own("quarry-strata", "demo") and "gluten" in own("quarry-strata", "demo")
    assert "Essential oils" in own("pressure-chart-tuesday", "demo")
