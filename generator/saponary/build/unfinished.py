"""A proof without the recipes that nobody has signed and that have errors: they keep no other page back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import replace

from saponary.build.proof import Proof
from saponary.reading.findings import errors


def without_unfinished(proof: Proof) -> tuple[Proof, dict[str, int]]:
    """What of a book can be built, and how many errors each file has that is left out of it.

    An error of a recipe that is signed, or of any other file, stays: it stops the build.
    """
    wrong = Counter(found.place.file for found in errors(proof.findings))
    left = {file: wrong[file] for file in sorted(_drafts(proof, wrong))}
    if not left:
        return proof, {}
    kept = replace(
        proof,
        recipes=tuple(one for one in proof.recipes if one.computed.path not in left),
        findings=tuple(f for f in proof.findings if f.severity != "error" or f.place.file not in left),
    )
    return kept, left


def _drafts(proof: Proof, among: Collection[str]) -> set[str]:
    """Which of these files are recipes that are not signed, whether they can be computed or not."""
    computed = {
        file: one.facts.status == "draft" for one in proof.recipes if (file := one.computed.path) in among
    }
    read = {
        one.file: not one.signs
        for one in proof.book.recipes
        if one.file in among and one.file not in computed
    }
    return {file for file, draft in {**read, **computed}.items() if draft}
