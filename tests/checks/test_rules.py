"""For every rule a recipe that breaks just that rule, and one recipe that passes them all.

What the rules hold a recipe to is marked in each rule's own text; the limits of trade
custom are common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.library import Book, read_book
from saponary.checks import RULES
from saponary.checks.rule import Rule
from saponary.reading.files import Folder
from support import PLAIN, prove_one, write_book

SIGNED = PLAIN.replace("  superfat: 5.0 %\n", "  superfat: 5.0 %\n  formula: FINGERPRINT\n")
UNSIGNED = PLAIN.replace("  superfat: 5.0 %\n", "  superfat: SUPERFAT\n  formula: FINGERPRINT\n")


def signed(text: str, book: Book | None = None) -> str:
    """The text with its own fingerprint and superfat in place of the two words."""
    probe = text.replace("FINGERPRINT", "000000000000").replace("SUPERFAT", "1 %")
    one = prove_one(probe, book).recipes[0]
    return text.replace("FINGERPRINT", one.computed.fingerprint).replace(
        "SUPERFAT", one.computed.catalogue["superfat"].text()
    )


def put(old: str, new: str, text: str = UNSIGNED) -> str:
    assert old in text
    return text.replace(old, new, 1)


def before_stated(block: str, text: str = UNSIGNED) -> str:
    return put("stated:\n", block + "stated:\n", text)


TWO = before_stated("portions:\n  - {name: light, share: 1/2}\n  - {name: dark, share: 1/2}\n")

BROKEN: dict[str, str] = {
    "bare-figure": put("A plain bar.", "Weigh out 150 g of lye."),
    "stale": put("superfat: SUPERFAT", "superfat: 4.9 %"),
    "stated-too-coarse": put("stated:\n", "stated:\n  lye: 0.1 kg\n"),
    "unsigned": put("  formula: FINGERPRINT\n", ""),
    "superfat": put("superfat: 5 %", "superfat: -1 %"),
    "worst-case-superfat": put("superfat: 5 %", "superfat: 2 %"),
    "lye-strength": put("{lye-strength: 33 %}", "{lye-strength: 55 %}"),
    "usual-water": put("{lye-strength: 33 %}", "{lye-strength: 22 %}"),
    "potassium": before_stated("serves: paste\n"),
    "vessel": before_stated("vessel: the old aluminium stockpot\n"),
    "soap-cap": before_stated("additions: [{what: ready-made-soap, amount: 7 % of oils}]\n"),
    "usual-rate": before_stated("additions: [{what: kaolin, amount: 90 g/kg}]\n"),
    "sugar-in-lye": before_stated("liquids: [{what: goat-milk, amount: 60 g, at: lye}]\n"),
    "scale": put("total: 1000 g", "total: 60 g"),
    "unsaturated": put("sunflower-high-oleic: 15 %", "sunflower: 15 %"),
    "pour": before_stated("pour: [{beds: [{of: light}, {of: grey}, {of: dark}]}]\n", TWO),
    "steps": before_stated("steps: [{at: portion, portion: drak, say: Stir.}]\n", TWO),
    "photos": before_stated("photo: {file: nowhere.jpg, day: 0, alt: A bar}\n"),
    "batches": before_stated("batches: [{lot: A1, poured: 2026-03-02, formula: 123456}]\n"),
    "fading": before_stated(
        "pour: [{beds: [{of: light}, {of: dark}]}]\nadditions: [{what: turmeric, amount: 4 g/kg}]\n", TWO
    ),
    "as-poured": before_stated(
        "batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, as-weighed: {sodium-hydroxide: 160 g}}]\n"
    ),
    "net-weight": before_stated("label: {net-weight: 100 g}\n"),
    "editions": before_stated("editions: [shopp]\n"),
    "pour-depth": before_stated("pour: [{beds: [{of: light, depth: 70 %}, {of: dark, depth: 50 %}]}]\n", TWO),
    "sizes": before_stated("sizes: [20 g]\n"),
    "fragrance": before_stated("additions: [{what: harbour-scent, amount: 60 g}]\n"),
    "allergens": before_stated("additions: [{what: harbour-scent, amount: 20 g}]\n"),
    "claims": before_stated("summary: It heals dry skin.\n"),
    "portion-superfat": before_stated(
        "portions:\n  - {name: big, share: 9/10, additions: [{what: citric-acid, amount: 20 g/kg}]}\n"
        "  - {name: small, share: 1/10}\n"
    ),
    "uncheckable-figure": before_stated("vessel: 'a pot, {lye = 999 g}'\n"),
    "superfat-high": put("superfat: 5 %", "superfat: 25 %"),
    "free-alkali": before_stated(
        "batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, "
        "free-alkali: {test: zap, result: present, on: 2026-04-10}}]\n"
    ),
    "weighings": before_stated(
        "batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, weighed: {0: 1340 g, 7: 126 g}}]\n"
    ),
    "draft": put("stated:\n  superfat: SUPERFAT\n  formula: FINGERPRINT\n", ""),
}


SHELVES = {
    "fragrance": "fragrances: {harbour-scent: {composition: {linalool: 4 %}, certificate: {maximum: 3 %}}}\n",
    "allergens": "fragrances: {harbour-scent: {composition: {linalol: 4 %}, certificate: {maximum: 3 %}}}\n",
}
"""What the pantry holds for a breaker; the standard tables alone where nothing is said."""


def shelf(name: str, folder: Path) -> Book | None:
    if name not in SHELVES:
        return None
    return read_book(Folder(write_book(folder, {"pantry.yaml": SHELVES[name], "recipes/x.md": PLAIN})))


def test_a_good_recipe_passes_every_rule() -> None:
    assert prove_one(signed(SIGNED)).findings == ()


def test_every_rule_has_its_breaker() -> None:
    assert sorted(BROKEN) == [rule.name for rule in RULES]


@pytest.mark.parametrize("name", sorted(BROKEN))
def test_each_breaker_breaks_just_its_rule(name: str, tmp_path: Path) -> None:
    book = shelf(name, tmp_path)
    text = signed(BROKEN[name], book)
    proof = prove_one(text, book)
    assert {f.rule for f in proof.findings} == {name}
    for finding in proof.findings:
        lines = text.split("\n")
        assert 1 <= finding.place.line <= len(lines)
        assert 1 <= finding.place.column <= len(lines[finding.place.line - 1]) + 1
        assert finding.hint


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_waiver_needs_a_rule_that_can_be_waived(rule: Rule, tmp_path: Path) -> None:
    book = shelf(rule.name, tmp_path)
    waiver = f"waive: [{{rule: {rule.name}, because: the reason is written down here}}]\n"
    text = signed(BROKEN[rule.name].replace("water: {", waiver + "water: {", 1), book)
    found = {f.rule for f in prove_one(text, book).findings}
    assert found == (set() if rule.waivable else {rule.name, "waiver"})


def test_an_idle_waiver_and_an_unknown_rule_are_found() -> None:
    idle = before_stated("waive: [{rule: usual-rate, because: there is no reason here}]\n")
    assert [(f.rule, f.severity) for f in prove_one(signed(idle)).findings] == [("waiver", "warning")]
    unknown = before_stated("waive: [{rule: usual-ratee, because: there is no reason here}]\n")
    findings = prove_one(signed(unknown)).findings
    assert [(f.rule, f.severity, f.hint) for f in findings] == [
        ("waiver", "error", "did you mean 'usual-rate'?")
    ]


def test_the_soap_cap_holds_per_portion_and_for_the_batch() -> None:
    """85 g per 1275 g of oils, common practice, no source: 66.7 g per kg."""
    portions = (
        "portions:\n"
        "  - {name: light, share: 1/2, additions: [{what: ready-made-soap, amount: 33 g}]}\n"
        "  - {name: dark, share: 1/2, additions: [{what: ready-made-soap, amount: 34 g}]}\n"
    )
    found = prove_one(signed(before_stated(portions))).findings
    caps = [f for f in found if f.rule == "soap-cap"]
    assert ["the batch" in f.message for f in caps] == [True, False]
    assert all("at most" in f.hint for f in caps)
    under = portions.replace("34 g", "33 g")
    assert prove_one(signed(before_stated(under))).findings == ()


def test_a_milk_that_brings_all_the_water_is_refused() -> None:
    text = before_stated("liquids: [{what: goat-milk, amount: 300 g}]\n")
    found = prove_one(signed(text)).findings
    assert {f.rule for f in found} == {"lye-strength"}
    assert "50" in found[0].message or "strong" in found[0].message
    text = before_stated("liquids: [{what: goat-milk, amount: 400 g}]\n")
    assert "the liquids bring" in prove_one(signed(text)).findings[0].message


def test_words_about_vessels_are_read_sensibly() -> None:
    said = "steps: [{at: lye, say: Never use aluminium; stainless steel it is.}]\n"
    assert prove_one(signed(before_stated(said))).findings == ()
    said = "steps: [{at: lye, say: Mix it in the galvanised bucket.}]\n"
    assert {f.rule for f in prove_one(signed(before_stated(said))).findings} == {"vessel"}


def test_free_alkali_in_ready_made_soap_eats_into_the_superfat(tmp_path: Path) -> None:
    """4.53 % free caustic alkali, as one cocoa-ash soap was found to hold (abstract of a 2020 paper)."""
    pantry = "additions: {ready-made-soap: {free-alkali: 4.53 %}}\n"
    book = read_book(Folder(write_book(tmp_path, {"pantry.yaml": pantry, "recipes/x.md": PLAIN})))
    text = before_stated("additions: [{what: ready-made-soap, amount: 66 g}]\n")
    plain = prove_one(signed(text)).recipes[0].computed.figures
    caustic = prove_one(signed(text), book).recipes[0].computed.figures
    assert plain.superfat == pytest.approx(0.05)
    lost = 66 * 0.0453 / 39.9971 / (1000 * caustic.chemistry.saponification_value / 1000 / 56.1056)
    assert caustic.superfat == pytest.approx(0.05 - lost, rel=1e-4)
    assert caustic.weights == plain.weights
