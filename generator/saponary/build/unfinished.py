"""A proof without the recipes that nobody has signed and that have errors: they keep no other page back."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

from saponary.build.proof import Proof

_SIGNED = re.compile(r"^signed\s*:", re.MULTILINE)


def without_unfinished(proof: Proof) -> tuple[Proof, dict[str, int]]:
    """What of a book can be built, and how many errors each file has that is left out of it.

    An error of a recipe that is signed, or of any other file, stays: it stops the build.
    """
    wrong = Counter(found.place.file for found in proof.findings if found.severity == "error")
    left = {file: wrong[file] for file in sorted(_drafts(proof)) if file in wrong}
    if not left:
        return proof, {}
    kept = replace(
        proof,
        recipes=tuple(one for one in proof.recipes if one.computed.file.file not in left),
        findings=tuple(f for f in proof.findings if f.severity != "error" or f.place.file not in left),
    )
    return kept, left


def _drafts(proof: Proof) -> set[str]:
    """The files of recipes that are not signed, whether they can be computed or not."""
    computed = {one.computed.file.file: one.status.name == "draft" for one in proof.recipes}
    read = {one.file: not _SIGNED.search(one.text) for one in proof.book.recipes}
    return {file for file, draft in {**read, **computed}.items() if draft}
