"""Mistakes as makers make them: each gives a finding that says where and what to write, and no second one of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from bad.provoked import CASES
from saponary.build.proof import prove
from support import write_book

READ = frozenset(
    {
        "footnote", "comma-decimal", "total-space", "lb-oz", "water-ratio", "water-ratio-quoted", "water-ratio-block", "lye-naoh",
        "lye-scalar", "liquids-of-water", "batch-weighed-dates", "purity",
    }
)  # fmt: skip
"""What is read as it is meant."""
NOT_TOLD = frozenset({"sugar-in-lye", "currency-2", "edition-open", "edition-typo", "pantry-price"})
"""What is allowed, or met when pages are made."""
PARTS = frozenset({"pantry-mould"})
"""Several keys that are each wrong."""
SAYS = {
    "water-weight": "its keys are: lye-strength, to-lye, of-oils",
    "mould-too-small": "make less, or take a mould",
    "liquids-too-much": "the liquids bring 145.8 g of the water",
    "bad-indent": "this line does not fit the lines above it",
    "language-xx": "for the language 'xx' there is no list of claim words",
    "image": "is not one of the book's photos",
    "dead-link": "there is no recipe 'other-bar'",
    "html": "<b> would show as these very signs",
    "oil-capitals": "such as olive-oil",
    "addition-unknown": "did you mean 'oatmeal-ground'?",
    "total-comma": "write 1000 g, or 1.000 g",
    "water-ratio-odd": "turned round it is 2:1",
    "stale-four": "superfat is signed as 5.0 % and is now 6.0 %; the formula",
    "citric-one-portion": "'ochre' contains free lye",
    "waive-no-because": "add because: ",
    "claims-drug": "waive: [{rule: claims, about: cures eczema, because: …}]",
}
"""What some of them must say, in the message or in the hint."""


@pytest.mark.parametrize("name", CASES)
def test_a_mistake_is_told_once(name: str, tmp_path: Path) -> None:
    found = [
        f for f in prove(write_book(tmp_path, CASES[name])).findings if f.rule not in ("draft", "unsigned")
    ]
    if name in READ:
        assert [f for f in found if f.severity == "error"] == []
        return
    if name in NOT_TOLD:
        return
    assert found and all(f.hint and f.place.line >= 1 for f in found)
    assert name in PARTS or len([f for f in found if f.severity == "error"]) <= 1
    assert SAYS.get(name, "") in " ".join(f"{f.message} {f.hint}" for f in found)
