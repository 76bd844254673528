"""Tables, footnotes and the words of photos are read as all other text is: for claims, figures and bare numbers."""

from __future__ import annotations

import pytest

from checks.books import GOOD, found, recipe

KINDS = {
    "a cell of a table": "| oil | note |\n|---|---|\n| olive | {} |",
    "a footnote": "So.[^1]\n\n[^1]: {}",
    "a footnote of one word's place": "So.[^1]\n\n[^1]:{}",
    "a footnote's second paragraph": "So.[^1]\n\n[^1]: First.\n\n    {}",
    "the words of a photo": "![{}](../photos/bar.jpg)",
    "what stands below a photo": '![a bar](../photos/bar.jpg "{}")',
    "what a link says when pointed at": '[a bar][b]\n\n[b]: https://example.org "{}"',
    "what only looks like a definition": "[b]: {}",
}
BESIDE = {"photos/bar.jpg": ""}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(
    ("rule", "said", "at"),
    [
        ("claims", "Heals eczema.", "Heals"),
        ("bare-figure", "Weigh 999 g of lye.", "999"),
        ("stale", "Lye: {lye = 999 g}.", "{lye"),
    ],
)
def test_each_kind_of_text_is_read(kind: str, rule: str, said: str, at: str) -> None:
    text = f"{GOOD}\n{KINDS[kind].replace('{}', said)}\n"
    findings = found(recipe(text, **BESIDE), rule)
    assert findings, f"{rule} does not read {kind}"
    line = text.replace("SUPERFAT", "").splitlines()
    assert any(at in line[one.place.line - 1] for one in findings)


def test_a_reference_in_a_sentence_does_not_part_it() -> None:
    text = GOOD + "\nWeigh 999 g[^1] of lye. It he[^1]als.\n\n[^1]: So.\n"
    assert [one.place.column for one in found(recipe(text), "bare-figure")] == [7]
