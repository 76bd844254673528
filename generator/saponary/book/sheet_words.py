"""What the words of a maker's own sheet mean: its columns, its rows, and the oils and additions by name."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from importlib.resources import files

import yaml

from saponary.pantry.model import Pantry

_LONGEST = 200
_BRACKETS = re.compile(r"\([^()]*\)|\[[^\[\]]*\]")
_AMOUNT = re.compile(r"\d+(?:[.,]\d+)?\s*(?:%|g|gr|kg|oz|lb|lbs|ml)?(?![a-z0-9])")
_IN_UNIT = re.compile(r",? (?:in )?(?:g|gr|grams?|gramm|kg|oz|ounces|lbs?|ml|%)$")


def folded(text: str) -> str:
    """A cell's words as they are compared: small letters without accents, one space between words."""
    apart = unicodedata.normalize("NFKD", text.casefold().replace("’", "'"))
    bare = "".join(c for c in apart if not unicodedata.combining(c))
    return re.sub(r"\s+", " ", bare).strip(" \t.:;*-–—_")


def candidates(text: str) -> list[str]:
    """A cell's words whole, without brackets, and without numbers and units either; then what stands in brackets.
    None of a cell that is too long to be a name."""
    if len(text) > _LONGEST:
        return []
    whole = folded(text)
    bare = folded(_BRACKETS.sub(" ", whole))
    inside = [folded(part[1:-1]) for part in _BRACKETS.findall(whole)]
    joined = [folded(f"{bare} {part}") for part in inside]
    plain = folded(_AMOUNT.sub(" ", bare))
    unitless = folded(_IN_UNIT.sub("", bare))
    first = folded(re.split(r"[,/;@:]| - ", bare)[0])
    words = (whole, *joined, bare, plain, unitless, first, *inside)
    return list(dict.fromkeys(word for word in words if word))


@cache
def _words() -> Mapping[str, Mapping[str, str]]:
    """By section: what a folded word means."""
    table = yaml.safe_load(files("saponary.tables").joinpath("sheet_words.yaml").read_text(encoding="utf-8"))
    return {
        section: {folded(str(word)): meaning for meaning, listed in meanings.items() for word in listed}
        for section, meanings in table.items()
    }


def column(text: str) -> str | None:
    """What a column of this heading holds: `name`, `id`, `weight`, `share`, `price`; None if that is not known."""
    known = _words()["columns"]
    return "share" if text.strip() == "%" else next((known[w] for w in candidates(text) if w in known), None)


def row(text: str) -> str | None:
    """What a row of this name is where it is no ingredient: `total`, `water`, an alkali, `superfat`, a heading."""
    known = _words()["rows"]
    return next((known[word] for word in candidates(text) if word in known), None)


_PER_CENT = re.compile(r"\d+(?:[.,]\d+)?(?=\s*%)")
_LETTERS = 120
"""Letters of a cell or title that may tell of a superfat, or of another kind of oil."""


@cache
def _any_of(section: str, meaning: str) -> re.Pattern[str]:
    words = [re.escape(word) for word, meant in _words()[section].items() if meant == meaning]
    return re.compile(rf"(?<!\w)(?:{'|'.join(sorted(words, key=len, reverse=True))})(?!\w)")


def superfat_said(text: str) -> Fraction | None:
    """The superfat that a title, or the name of an alkali, tells beside it: `5% SF`, `NaOH (superfat 7 %)`."""
    said = folded(text[:_LETTERS])
    found = _PER_CENT.findall(said) if _any_of("rows", "superfat").search(said) else []
    return Fraction(found[0].replace(",", ".")) / 100 if len(found) == 1 and len(found[0]) <= 6 else None


def _of_its_own(text: str, words: list[str]) -> list[str]:
    """Of the names that a cell may mean, those that leave out nothing which makes another oil of it."""
    another = _any_of("another", "another")
    apart = set(another.findall(folded(text)))
    return [word for word in words if apart <= set(another.findall(word))]


class Names:
    """The oils, liquids and additions that a pantry holds, by the names a sheet may give them."""

    def __init__(self, shelf: Pantry) -> None:
        words = _words()
        self._kinds = (
            ("oil", _named(shelf.oils, words["oils"])),
            ("liquid", _named(shelf.liquids, {})),
            ("addition", _named(shelf.additions, words["additions"])),
        )

    def every(self) -> list[str]:
        """All ids."""
        return [id for _, known in self._kinds for id in dict.fromkeys(known.values())]

    def by_id(self, id: str) -> tuple[str, str] | None:
        """The kind of what has this id."""
        return next(((kind, id) for kind, known in self._kinds if id in known.values()), None)

    def of(self, text: str) -> tuple[str, str] | None:
        """The kind and the id of what a cell names; None where it names nothing known, or two things."""
        for word in _of_its_own(text, candidates(text)):
            found = [(kind, known[word]) for kind, known in self._kinds if word in known]
            if found:
                return found[0] if len(found) == 1 else None
        return None


def _named(table: Mapping[str, object], words: Mapping[str, str]) -> dict[str, str]:
    found = {word: id for word, id in words.items() if id in table}
    for id, entry in table.items():
        names = (
            id,
            id.replace("-", " "),
            getattr(entry, "name", ""),
            getattr(entry, "inci", ""),
            getattr(entry, "latin", ""),
        )
        for name in names:
            if name:
                found.setdefault(folded(str(name)), id)
    return found
