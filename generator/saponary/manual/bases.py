"""The small book that every example of a key is read in: what the example leaves out, it brings."""

from __future__ import annotations

import re
from collections.abc import Mapping

RECIPE = """\
title: Plain Bar
oils: {total: 1000 g, parts: {olive: 60 %, coconut: 25 %, sunflower-high-oleic: 15 %}}
superfat: 5 %
water: {lye-strength: 33 %}
mould: loaf-10
cut: 25 mm
portions: [{name: light, share: 1/2}, {name: dark, share: 1/2}]
"""
EARLIER = """\
title: Earlier Bar
oils: {total: 1000 g, parts: {olive: 60 %, coconut: 25 %, sunflower-high-oleic: 15 %}}
superfat: 5 %
water: {lye-strength: 33 %}
batches: [{lot: E1, poured: 2026-01-12, free-alkali: {test: phenolphthalein, result: none, on: 2026-02-23}}]
waive: [{rule: draft, because: it stands here for its lot alone}]
"""
BOOK = """\
title: A drawer of soap recipes
scale-step: 1 g
superfat: 5 %
water: {lye-strength: 33 %}
purity: {potassium: 90 %}
free-alkali-limit: 0.05 %
"""
PANTRY = """\
moulds: {loaf-10: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}, shells: {cavities: {count: 8, volume: 95 ml}}}
scraps: {white-scrap: {of: earlier-bar}}
oils: {olive: {lots: {L-4471: 2027-06-30}}}
"""
CLASS = """\
title: First afternoon
students: 6
oils: 500 g
recipes: [plain-bar]
"""
PAGE = "title: About us\n"
BATCHES = ""
CLAIMS = ""

BASES: Mapping[str, str] = {
    "recipe": RECIPE,
    "book": BOOK,
    "pantry": PANTRY,
    "class": CLASS,
    "page": PAGE,
    "batches": BATCHES,
    "claims": CLAIMS,
}
"""By the kind of file: one line a key."""

FILES: Mapping[str, str] = {
    "recipe": "recipes/plain-bar.md",
    "book": "book.yaml",
    "pantry": "pantry.yaml",
    "class": "classes/first-afternoon.md",
    "page": "pages/about.md",
    "batches": "batches/plain-bar.yaml",
    "claims": "claims.yaml",
}
"""Where the example's file lies."""

MARK = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle cx="4" cy="4" r="4"/></svg>'
PHOTOS = frozenset({"a1-day42.jpg", "mark.svg"})

_POURED = ("portions", "mould", "cut")
_INSTEAD: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "class": {"mould": ("oils",)},
    "recipe": {
        "soap": ("oils", "superfat", "water", *_POURED),
        "dilute": _POURED,
        "container": _POURED,
        "rest": _POURED,
    },
}
"""Keys of a kind of file that cannot stand beside another."""

_TO_SILENCE = "subtitle: A hypoallergenic bar"

_KEY = re.compile(r"^([a-z-]+):", re.MULTILINE)


def top_keys(text: str) -> tuple[str, ...]:
    """The keys at the left edge of a text."""
    return tuple(_KEY.findall(text))


def merged(file: str, example: str) -> str:
    """The base of a kind of file with the example's keys in place of its own."""
    own = top_keys(example)
    gone = {*own, *(other for key in own for other in _INSTEAD.get(file, {}).get(key, ()))}
    kept = [line for line in BASES[file].splitlines() if line.partition(":")[0] not in gone]
    return "\n".join((*kept, example, ""))


def whole(file: str, text: str, notes: str = "") -> str:
    """A file's text: front matter stands between its lines, and notes below it."""
    return f"---\n{text}---\n{notes}\n" if file in ("recipe", "class", "page") else text


def book_of(file: str, example: str, beside: Mapping[str, str] | None = None) -> dict[str, str]:
    """A book in which one file holds the example, and others what is `beside` it.

    The kind `notes` is the text below a recipe's keys, and `other` a second recipe.
    """
    told = {
        "recipe": "",
        "book": "",
        "pantry": "",
        **_to_silence(file, example),
        **(beside or {}),
        file: example,
    }
    notes, other = told.pop("notes", ""), told.pop("other", None)
    made = {FILES[kind]: whole(kind, merged(kind, text), notes) for kind, text in told.items()}
    made["photos/mark.svg"] = MARK
    made["recipes/earlier-bar.md"] = whole("recipe", EARLIER)
    if other is not None:
        made["recipes/other.md"] = whole("recipe", merged("recipe", other))
    return made


def _to_silence(file: str, example: str) -> dict[str, str]:
    """What there is to be found of the claim words that an example silences."""
    return {"book": _TO_SILENCE} if file == "claims" and "silence" in top_keys(example) else {}
