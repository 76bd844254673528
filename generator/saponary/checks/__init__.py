"""The rules, one file each, listed below in the order they run.

A rule is a small pure function from a case (one recipe, its figures, its book) to findings.
A new one is a module with a `RULE` and its line in `RULES`.
"""

from __future__ import annotations

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.checks import (
    allergens,
    as_poured,
    bare_figure,
    batches,
    claims,
    draft,
    editions,
    fading,
    fragrance,
    free_alkali,
    lye_strength,
    net_weight,
    photos,
    portion_superfat,
    potassium,
    pour,
    pour_depth,
    scale,
    sizes,
    soap_cap,
    stale,
    stated_too_coarse,
    steps,
    sugar_in_lye,
    superfat,
    superfat_high,
    uncheckable_figure,
    unsaturated,
    unsigned,
    usual_rate,
    usual_water,
    vessel,
    weighings,
    worst_case_superfat,
)
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding
from saponary.schema.waivers import set_aside
from saponary.words.entries import WordList

RULES: tuple[Rule, ...] = (
    allergens.RULE,
    as_poured.RULE,
    bare_figure.RULE,
    batches.RULE,
    claims.RULE,
    draft.RULE,
    editions.RULE,
    fading.RULE,
    fragrance.RULE,
    free_alkali.RULE,
    lye_strength.RULE,
    net_weight.RULE,
    photos.RULE,
    portion_superfat.RULE,
    potassium.RULE,
    pour.RULE,
    pour_depth.RULE,
    scale.RULE,
    sizes.RULE,
    soap_cap.RULE,
    stale.RULE,
    stated_too_coarse.RULE,
    steps.RULE,
    sugar_in_lye.RULE,
    superfat.RULE,
    superfat_high.RULE,
    uncheckable_figure.RULE,
    unsaturated.RULE,
    unsigned.RULE,
    usual_rate.RULE,
    usual_water.RULE,
    vessel.RULE,
    weighings.RULE,
    worst_case_superfat.RULE,
)
"""All rules, by name."""


def check(computed: Computed, words: WordList) -> list[Finding]:
    """Every rule over one recipe, its waivers applied."""
    found = [finding for rule in RULES for finding in rule.check(computed)]
    found += claims.of_recipe(computed, words)
    return set_aside(found, computed.file.waived(), {rule.name: rule.waivable for rule in RULES})


def check_book(book: Book, words: WordList) -> list[Finding]:
    """What the book says outside its recipes. Each of its files may waive `claims`, and nothing else."""
    found = list(claims.of_the_book(book, words))
    found += uncheckable_figure.of_the_book(book)
    kept: list[Finding] = []
    for file in sorted({f.place.file for f in found} | {w.place.file for w in book.waived}):
        kept += set_aside(
            [f for f in found if f.place.file == file],
            [w for w in book.waived if w.place.file == file],
            {rule.name: rule is claims.RULE for rule in RULES},
        )
    return kept
