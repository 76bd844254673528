"""The rule `as-poured`: recorded weights that leave free lye."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import GOOD, OTHER, batch, more, recipe, with_batch
from in_git import commit
from saponary.build.proof import prove
from saponary.checks.as_poured import check
from support import PLAIN, prove_one, write_book

KOH, NAOH = 56.1056, 39.9971
BREAKER = batch(", as-weighed: {sodium-hydroxide: 160 g}")
TOLD = [
    (
        "recipes/tried.md:11:64",
        "error",
        "as weighed, lot A1 has a superfat of -8.7 %: free lye",
        "do not use, sell or give away this lot; check the record against the scale",
    ),
]
NEIGHBOUR = batch(", as-weighed: {sodium-hydroxide: 136 g}")
ALSO = [
    (
        recipe(
            more(
                "batches: [{lot: A1, poured: 2026-03-02, as-weighed: {olive: 600 g, coconut: 250 g}}, {lot: A2, poured: 2026-03-02, formula: FINGERPRINT, as-weighed: {olvie: 600 g, sodium-hydroxide: 136 g, lard: 5 g}}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:41",
                "warning",
                "the superfat of lot A1 cannot be known: it records no formula, and no weight is recorded for sodium-hydroxide, sunflower-high-oleic",
                "add what the scale showed; until then the lot is not called ready",
            ),
            ("recipes/tried.md:11:152", "error", "'olvie' is not in this recipe", "did you mean 'olive'?"),
            (
                "recipes/tried.md:11:191",
                "error",
                "'lard' is not in this recipe",
                "known names: coconut, olive, sodium-hydroxide, sodium-hydroxide-stock, sunflower-high-oleic, water",
            ),
        ],
    ),
    (
        recipe(
            GOOD,
            **{
                "recipes/zeal.md": OTHER.replace("olive: 60 %", "olvie: 60 %").replace(
                    "{lot: A1, poured: 2026-03-03}",
                    "{lot: Z1, poured: 2026-03-03, as-weighed: {olive: 600 g, coconut: 250 g, sodium-hydroxide: 160 g, coconutt: 5 g}}",
                )
            },
        ),
        [
            (
                "recipes/zeal.md:11:109",
                "error",
                "'coconutt' is not in the pantry",
                "did you mean 'coconut'?",
            )
        ],
    ),
]

POTASH = PLAIN.replace(
    "superfat: 5 %\n",
    "superfat: 5 %\nlye: {sodium: {share: 60 %}, potassium: {share: 40 %, purity: 90 %}}\n",
    1,
)


@pytest.mark.parametrize(("above", "count"), [(-0.02, 0), (0.02, 1)])
def test_zero_is_the_limit_for_sodium_hydroxide(above: float, count: int) -> None:
    """All the oils take, worked here by plain arithmetic, and 0.02 g to either side of it."""
    most = _takes(PLAIN) * NAOH
    one = with_batch(f"as-weighed: {{sodium-hydroxide: {most + above:.3f} g}}")
    assert len([found for found in check(one) if found.severity == "error"]) == count


@pytest.mark.parametrize(("above", "count"), [(-0.02, 0), (0.02, 1)])
def test_recorded_potassium_hydroxide_is_read(above: float, count: int) -> None:
    """The sodium hydroxide as the formula has it; the flakes are 90 % potassium hydroxide."""
    figures = prove_one(POTASH).recipes[0].computed.figures
    left = _takes(POTASH) - figures.weights.sodium_hydroxide / NAOH
    one = with_batch(f"as-weighed: {{potassium-hydroxide: {left * KOH / 0.9 + above:.3f} g}}", POTASH)
    assert len([found for found in check(one) if found.severity == "error"]) == count


def _takes(text: str) -> float:
    """Moles of alkali that the oils of a recipe take."""
    oils = prove_one(text).recipes[0].computed.resolved.formula.oils
    return sum(oil.grams * oil.saponification_value for oil in oils) / 1000 / KOH


WHOLE = "as-weighed: {olive: 600 g, coconut: 250 g, sunflower-high-oleic: 150 g, sodium-hydroxide: 160 g}"
CAUSTIC = "as weighed, lot A1 has a superfat of -8.7 %: free lye"


@pytest.mark.parametrize(
    "change",
    [
        ("superfat: 5 %\n", "superfat: 6 %\n"),
        ("olive: 60 %\n    coconut: 25 %", "olive: 61 %\n    coconut: 24 %"),
        ("    olive: 60 %\n", "    lard: 60 %\n"),
        ("superfat: 5 %\n", "superfat: 5 %\nadditions: [{what: blue-clay, amount: 10 g}]\n"),
        ("total: 1000 g", "total: 400 g"),
        ("olive: 60 %", "olive: 6 %"),
        ("olive: 60 %", "olivine: 60 %"),
        ("title: Plain Bar\n", "title: Plain Bar\nnonsense: 1\n"),
    ],
    ids=["superfat", "oil", "other oil", "clay", "size", "sum", "unknown", "schema"],
)
def test_a_lot_with_free_lye_stays_an_error_whatever_becomes_of_its_recipe(
    tmp_path: Path, change: tuple[str, str]
) -> None:
    mark = prove_one(PLAIN).recipes[0].computed.fingerprint
    text = PLAIN.replace(*change).replace(
        "signed:\n", f"batches: [{{lot: A1, poured: 2026-03-02, formula: {mark}, {WHOLE}}}]\nsigned:\n"
    )
    proof = prove(write_book(tmp_path, {"recipes/tried.md": text}))
    told = [f.message for f in proof.findings if f.rule == "as-poured" and f.severity == "error"]
    assert told == [CAUSTIC]


def test_what_is_not_recorded_is_taken_from_the_formula_that_git_still_has(tmp_path: Path) -> None:
    mark = prove_one(PLAIN).recipes[0].computed.fingerprint
    record = f"batches: [{{lot: A1, poured: 2026-03-02, formula: {mark}, as-weighed: {{sodium-hydroxide: 160 g}}}}]\n"
    text = PLAIN.replace("signed:\n", f"{record}signed:\n")
    book = write_book(tmp_path, {"recipes/tried.md": text})
    changed = text.replace("superfat: 5 %\n", "superfat: 6 %\n")
    write_book(book, {"recipes/tried.md": changed})
    (lost,) = (f for f in prove(book).findings if f.rule == "as-poured")
    assert lost.severity == "warning" and "cannot be known" in lost.message
    write_book(book, {"recipes/tried.md": text})
    commit(book, "first")
    write_book(book, {"recipes/tried.md": changed})
    (told,) = (f.message for f in prove(book).findings if f.rule == "as-poured")
    assert told == CAUSTIC


def test_a_lot_that_does_not_say_enough_is_told() -> None:
    record = (
        "batches: [{lot: A1, poured: 2026-03-02, formula: 123456, as-weighed: {sodium-hydroxide: 136 g}}]\n"
    )
    (told,) = check(prove_one(PLAIN.replace("signed:\n", f"{record}signed:\n")).recipes[0].computed)
    assert told.severity == "warning" and told.about == "A1"
    assert told.message == (
        "the superfat of lot A1 cannot be known: the formula 123456 is not to be found, "
        "and no weight is recorded for its oils"
    )


def test_a_name_that_the_recipe_lacks_is_found() -> None:
    (found,) = check(with_batch("as-weighed: {olives: 600 g, sodium-hydroxide: 136 g}"))
    assert found.message == "'olives' is not in this recipe" and found.hint == "did you mean 'olive'?"
