"""Small books for the tests of rules: a good one, and what is changed in it to break a rule or to pass it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from saponary.book.computed import Computed
from saponary.build.proof import Proof, prove
from saponary.reading.findings import Finding
from support import PLAIN, prove_one, write_book

RECIPE = "recipes/tried.md"
GOOD = PLAIN.replace("  superfat: 5.0 %\n", "  superfat: SUPERFAT\n  formula: FINGERPRINT\n")
"""The two words in capitals are filled in by `signed`, so that no rule about figures speaks up."""

LESSON = """\
---
title: An afternoon
students: 4
oils: 500 g
recipes: [tried]
---
Weigh, then stir.
"""

Files = Mapping[str, str]


def put(old: str, new: str, text: str = GOOD) -> str:
    """The good recipe with one thing changed."""
    assert old in text
    return text.replace(old, new, 1)


def more(block: str, text: str = GOOD) -> str:
    """The good recipe with more lines in its front matter."""
    return put("signed:\n", block + "signed:\n", text)


TWO = more("portions:\n  - {name: light, share: 1/2}\n  - {name: dark, share: 1/2}\n")


def recipe(text: str, **files: str) -> dict[str, str]:
    """A book of this recipe; its other files by name, `book`, `pantry` and so on, or by path."""
    names = {
        "book": "book.yaml",
        "pantry": "pantry.yaml",
        "claims": "claims.yaml",
        "lesson": "classes/one.md",
    }
    names["batches"] = "batches/tried.yaml"
    return {RECIPE: text, **{names.get(name, name): content for name, content in files.items()}}


OTHER = put(
    "signed:\n  superfat: SUPERFAT\n  formula: FINGERPRINT\n",
    "batches: [{lot: A1, poured: 2026-03-03}]\nsigned:\n  superfat: 5 %\n",
    put("Plain Bar", "Zeal"),
)
"""Another recipe, unsigned, with a batch of its own."""


def batch(fields: str, text: str = GOOD) -> dict[str, str]:
    """The good recipe with one batch, poured to its formula."""
    return recipe(more(f"batches: [{{lot: A1, poured: 2026-03-02, formula: FINGERPRINT{fields}}}]\n", text))


def signed(files: Files) -> dict[str, str]:
    """The files with the recipe's own fingerprint and superfat in place of the two words."""
    probe = {
        name: text.replace("FINGERPRINT", "000000000000").replace("SUPERFAT", "1 %")
        for name, text in files.items()
    }
    (one,) = (r for r in _proved(tuple(probe.items())).recipes if r.computed.file.file == RECIPE)
    superfat = one.computed.catalogue["superfat"].text()
    return {
        name: text.replace("FINGERPRINT", one.computed.fingerprint).replace("SUPERFAT", superfat)
        for name, text in files.items()
    }


def proofed(files: Files) -> Proof:
    """The book, signed and proofed: once for all tests of a process that ask for the same."""
    return _proved(tuple(signed(files).items()))


@cache
def _proved(files: tuple[tuple[str, str], ...]) -> Proof:
    with TemporaryDirectory() as root:
        return prove(write_book(Path(root), dict(files)))


def found(files: Files, rule: str) -> list[Finding]:
    """What one rule finds in the book."""
    return [finding for finding in proofed(files).findings if finding.rule == rule]


def severities(files: Files, rule: str) -> list[str]:
    return [finding.severity for finding in found(files, rule)]


@cache
def good() -> Computed:
    """The good recipe, computed."""
    return prove_one(PLAIN).recipes[0].computed


def with_figures(computed: Computed | None = None, **figures: object) -> Computed:
    """A recipe with some of its figures replaced, to try a limit from both sides."""
    one = computed or good()
    return replace(one, figures=replace(one.figures, **figures))


def with_batch(text: str, recipe: str = PLAIN) -> Computed:
    """A recipe with one batch poured to its formula, its fields as a YAML flow map's."""
    mark = prove_one(recipe).recipes[0].computed.fingerprint
    batch = f"batches: [{{lot: A1, poured: 2026-03-02, formula: {mark}, {text}}}]\n"
    return prove_one(recipe.replace("signed:\n", batch + "signed:\n")).recipes[0].computed
