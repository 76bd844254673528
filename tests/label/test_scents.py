"""Scents: shares of the cured bar, blends of blends, certificates, and what a pantry may not say."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.cured import ASSUMED, cured_water
from saponary.book.library import Book, read_book
from saponary.build.proof import Proof
from saponary.label import lists
from saponary.label.contents import Contents
from saponary.label.ingredients import ingredient_list
from saponary.label.scents import Scent, made_of, scent
from saponary.label.tables import jurisdictions
from saponary.lye.contents import Part
from saponary.reading.files import Folder
from saponary.reading.findings import Finding
from saponary.schema.settings import Settings
from support import PLAIN, prove_one, write_book

EU, US = jurisdictions()["eu"], jurisdictions()["us"]


def book_with(folder: Path, pantry: str, settings: str = "title: Tried\n") -> Book:
    files = {"pantry.yaml": pantry, "book.yaml": settings, "recipes/x.md": PLAIN}
    return read_book(Folder(write_book(folder, files)))


def scented(*additions: str) -> str:
    return PLAIN.replace("signed:\n", f"additions: [{', '.join(additions)}]\nsigned:\n")


def label_findings(proof: Proof) -> list[Finding]:
    return [f for f in proof.findings if f.rule in ("fragrance", "allergens")]


def bar_of(proof: Proof) -> lists.Bar:
    computed = proof.recipes[0].computed
    return lists.bar(computed)


LAVENDER = (
    "fragrances: {lavender: {kind: essential-oil, composition: {linalool: 35 %, linalyl acetate: 0.2 %},"
    " certificate: {maximum: 5 %, category: rinse-off bar, from: sheet of lot 3}}}\n"
)


def test_shares_are_of_the_cured_bar(tmp_path: Path) -> None:
    proof = prove_one(scented("{what: lavender, amount: 30 g}"), book_with(tmp_path, LAVENDER))
    assert not [f for f in proof.findings if f.severity == "error"] and label_findings(proof) == []
    bar, figures = bar_of(proof), proof.recipes[0].computed.figures
    # Nothing but the water of the lye is wet, so the dry bar is the loaf without it.
    cured = (figures.loaf - figures.water.total) / 0.9
    assert bar.scent.cured_grams == pytest.approx(cured, rel=1e-12)
    assert bar.scent.share("lavender") == pytest.approx(30 / cured, rel=1e-12)
    doses = {dose.allergen.name: dose.share for dose in bar.scent.doses}
    # 35 % and 0.2 % of the scent's share of the bar.
    assert doses == pytest.approx({"Linalool": 0.35 * 30 / cured, "Linalyl Acetate": 0.002 * 30 / cured})


def test_the_european_list_names_what_is_above_the_threshold(tmp_path: Path) -> None:
    bar = bar_of(prove_one(scented("{what: lavender, amount: 30 g}"), book_with(tmp_path, LAVENDER)))
    # Linalool 0.8 % of the bar is named, linalyl acetate at 0.0046 % is not.
    assert "Parfum" in bar.ingredients(EU).text and bar.ingredients(EU).text.endswith("Linalool")
    assert "Linalyl" not in bar.ingredients(EU).text
    american = bar.ingredients(US)
    assert american.way == "charged" and "Fragrance" in american.text and "Linalool" not in american.text
    assert bar.ingredients(EU, "charged").text.endswith("Linalool")
    assert "Sodium Hydroxide" in bar.ingredients(EU, "charged").text


def test_exactly_the_threshold_is_not_named(tmp_path: Path) -> None:
    """1 g of a scent that is 10 % linalool in 1000 g of bar is 0.01 %: not above it."""
    shelf = book_with(tmp_path, "fragrances: {faint: {composition: {linalool: 10 %}}}\n").pantry
    for weight, named in ((1.0, False), (1.0001, True)):
        parts = (Part("oil", "olive", 1000.0 - weight), Part("addition", "faint", weight))
        contents = Contents("found", parts, (), None, ())
        found = ingredient_list(contents, shelf, EU, scent(contents, shelf))
        assert ("Linalool" in found.text) is named


BLENDS = """\
fragrances:
  wood: {composition: {coumarin: 2 %, limonene: 1 %}, certificate: 6 %}
  fruit: {composition: {limonene: 60 %, citral: 3 %}, certificate: 4 %}
  orchard: {blend: {wood: 50 %, fruit: 1/2}}
  harbour: {blend: {orchard: 40 %, wood: 60 %}}
"""


def test_blends_of_blends_are_summed(tmp_path: Path) -> None:
    book = book_with(tmp_path, BLENDS)
    # Harbour: 40 % orchard, which is half wood and half fruit, and 60 % wood: wood 80 %, fruit 20 %.
    assert made_of("harbour", book.pantry) == pytest.approx(
        {"harbour": 1.0, "orchard": 0.4, "wood": 0.8, "fruit": 0.2}
    )
    proof = prove_one(scented("{what: harbour, amount: 20 g}", "{what: fruit, amount: 5 g}"), book)
    assert label_findings(proof) == []
    held = bar_of(proof).scent
    # Wood 16 g, fruit 4 + 5 = 9 g: limonene 0.16 + 5.4, coumarin 0.32, citral 0.27 g.
    assert held.grams == pytest.approx({"harbour": 20, "orchard": 8, "wood": 16, "fruit": 9})
    assert {dose.allergen.name: dose.grams for dose in held.doses} == pytest.approx(
        {"Limonene": 5.56, "Coumarin": 0.32, "Citral": 0.27}
    )
    european = bar_of(proof).ingredients(EU)
    assert european.text.count("Parfum") == 1 and european.text.endswith("Limonene, Coumarin, Citral")
    assert next(e.commons for e in european.entries if e.name == "Parfum") == ("Harbour", "Fruit")


def test_a_certificate_counts_what_all_blends_bring(tmp_path: Path) -> None:
    book = book_with(tmp_path, BLENDS)
    # The cured bar weighs about 1290 g; fruit at 4 % of it is some 52 g.
    under = prove_one(scented("{what: fruit, amount: 40 g}"), book)
    assert label_findings(under) == []
    text = scented("{what: orchard, amount: 40 g}", "{what: fruit, amount: 40 g}")
    over = label_findings(prove_one(text, book))
    assert [(f.rule, f.severity) for f in over] == [("fragrance", "error")]
    assert "'fruit' makes 4." in over[0].message and "allows 4 %" in over[0].message


def test_a_certificate_for_the_blend_speaks_for_its_parts(tmp_path: Path) -> None:
    bare = "fragrances: {a: {composition: {}}, b: {composition: {}}, both: {blend: {a: 1/2, b: 1/2}PAPER}}\n"
    text = scented("{what: both, amount: 10 g}")
    found = label_findings(prove_one(text, book_with(tmp_path / "1", bare.replace("PAPER", ""))))
    assert [
        ("'a'" in f.message, "'b'" in f.message, f.severity) for f in sorted(found, key=lambda f: f.message)
    ] == [
        (True, False, "warning"),
        (False, True, "warning"),
    ]
    covered = bare.replace("PAPER", ", certificate: {maximum: 3 %}")
    assert label_findings(prove_one(text, book_with(tmp_path / "2", covered))) == []


def test_an_oil_without_papers_is_warned_of_once(tmp_path: Path) -> None:
    lavender = "{what: essential-oil-lavender, amount: 8 g}"
    portions = (
        f"portions:\n  - {{name: a, share: 1/2, additions: [{lavender}]}}\n"
        f"  - {{name: b, share: 1/2, additions: [{lavender}]}}\n"
    )
    proof = prove_one(PLAIN.replace("signed:\n", portions + "signed:\n"))
    found = label_findings(proof)
    assert [(f.rule, f.severity, f.place.line) for f in found] == [
        ("allergens", "warning", 12),
        ("fragrance", "warning", 12),
    ]
    assert "no supplier sheet" in found[0].message
    # The oil itself is on the European list, whatever its sheet would say.
    european = bar_of(proof).ingredients(EU)
    assert "Parfum, Lavandula Oil/Extract" in european.text
    assert "allergens may be missing: Lavender essential oil." in european.notes[-1]


def test_a_standard_oil_takes_its_papers_from_the_pantry(tmp_path: Path) -> None:
    pantry = (
        "fragrances: {essential-oil-lavender: {composition: {linalool: 33 %}, certificate: {maximum: 6 %}}}\n"
    )
    book = book_with(tmp_path, pantry)
    entry = book.pantry.additions["essential-oil-lavender"]
    assert (entry.name, entry.density, entry.usual) == ("Lavender essential oil", 0.88, (10, 30))
    assert book.pantry.fragrances["essential-oil-lavender"].kind == "essential-oil"
    assert label_findings(prove_one(scented("{what: essential-oil-lavender, amount: 20 g}"), book)) == []


@pytest.mark.parametrize(
    ("word", "severity", "hint"),
    [
        ("linalol", "error", "linalool"),
        ("d limonen", "error", "limonene"),
        ("gunpowder", "warning", "take it out"),
    ],
)
def test_words_of_a_sheet_that_name_no_allergen(tmp_path: Path, word: str, severity: str, hint: str) -> None:
    pantry = f"fragrances: {{odd: {{composition: {{{word}: 3 %}}, certificate: {{maximum: 5 %}}}}}}\n"
    found = label_findings(prove_one(scented("{what: odd, amount: 5 g}"), book_with(tmp_path, pantry)))
    assert [(f.rule, f.severity) for f in found] == [("allergens", severity)]
    assert hint in found[0].hint


def test_a_prohibited_material_is_pointed_out(tmp_path: Path) -> None:
    pantry = (
        "fragrances: {old: {composition: {butylphenyl methylpropional: 3 %}, certificate: {maximum: 5 %}}}\n"
    )
    found = label_findings(prove_one(scented("{what: old, amount: 5 g}"), book_with(tmp_path, pantry)))
    assert ["no longer allowed" in f.message for f in found] == [True]


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ("a: {blend: {b: 100 %}}, b: {blend: {a: 100 %}}", "comes back to itself"),
        ("a: {blend: {a: 100 %}}", "comes back to itself"),
        ("a: {blend: {lavendar: 100 %}}", "'lavendar' is not in the pantry"),
        ("a: {blend: {essential-oil-lavender: 90 %}}", "sums to 90 %"),
        ("a: {composition: {}, blend: {essential-oil-lavender: 100 %}}", "a sheet and a blend"),
        ("a: {composition: {linalool: 60 %, citral: 50 %}}", "sums to 110 %"),
        ("kaolin: {composition: {}}", "is an addition already"),
        ("a: {blend: {kaolin: 100 %}}", "'kaolin' is not in the pantry"),
        ("a: {certificate: 4 g}", "does not fit here"),
    ],
)
def test_papers_that_cannot_be(tmp_path: Path, entry: str, says: str) -> None:
    found = book_with(tmp_path, f"fragrances: {{{entry}}}\n").findings
    assert found and {f.place.file for f in found} == {"pantry.yaml"}
    assert any(says in f.message for f in found), [f.message for f in found]


def test_blends_nest_only_so_deep(tmp_path: Path) -> None:
    chain = ", ".join(f"s{n}: {{blend: {{s{n + 1}: 100 %}}}}" for n in range(9))
    found = book_with(tmp_path, f"fragrances: {{{chain}, s9: {{composition: {{}}}}}}\n").findings
    assert ["'s0'" in f.message for f in found] == [True]


def test_a_volume_of_scent_needs_its_density(tmp_path: Path) -> None:
    text = scented("{what: lavender, amount: 10 ml}")
    bare = prove_one(text, book_with(tmp_path / "1", LAVENDER))
    assert any("density" in f.message for f in bare.findings)
    known = LAVENDER.replace("kind:", "density: 0.88 g/ml, kind:")
    proof = prove_one(text, book_with(tmp_path / "2", known))
    assert proof.recipes[0].computed.resolved.formula.additions[0].grams == pytest.approx(8.8)


def test_the_book_may_say_how_wet_its_bars_are(tmp_path: Path) -> None:
    assert cured_water(Settings()).share == ASSUMED == 0.10
    assert "assumed" in cured_water(Settings()).note
    book = book_with(tmp_path, LAVENDER, "cured-water: 6 %\n")
    water = cured_water(book.settings)
    assert (water.share, water.assumed) == (0.06, False)
    bar = bar_of(prove_one(scented("{what: lavender, amount: 30 g}"), book))
    assert "of which 6.0 % is water (as the book's settings say)" in " ".join(bar.ingredients(EU).notes)


def test_the_share_of_a_scent_in_little_soap_and_in_none() -> None:
    assert Scent(0.5, {"rosy": 0.1}, (), (), ()).share("rosy") == pytest.approx(0.2)
    assert Scent(0.0, {"rosy": 0.1}, (), (), ()).share("rosy") == 0.0
