"""Words beside which a number in a text is a figure of the recipe, by language, as data."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

import yaml

from saponary.assets.for_user import made
from saponary.words.inflect import fold

LYE, SOLUTION, WATER, SUPERFAT, OILS = "lye", "solution", "water", "superfat", "oils"
RIVAL = "rival"
"""What else a number may be of; then it is no figure of the recipe."""
SUBJECTS = (LYE, SOLUTION, WATER, SUPERFAT, OILS)

Phrase = tuple[str, ...]
"""Folded words in order; one that ends in a star stands for any ending, one behind `!` for any other word, `#` for a number."""


class FigureWords(NamedTuple):
    """One language's words. `subjects` maps a phrase to what it names."""

    subjects: Mapping[Phrase, str]
    history: frozenset[Phrase]
    conditional: frozenset[Phrase]
    general: frozenset[Phrase]
    prior: frozenset[Phrase]
    rates: frozenset[Phrase]
    measures: frozenset[Phrase]
    breaks: frozenset[Phrase]
    behind: frozenset[Phrase]
    nearby: frozenset[Phrase]
    aside: frozenset[Phrase]
    wetting: frozenset[Phrase]
    strength: frozenset[Phrase]
    partly: frozenset[Phrase]
    rivals: frozenset[Phrase]
    times: frozenset[Phrase]
    to: frozenset[Phrase]
    parts: frozenset[Phrase]
    roughly: frozenset[Phrase]
    orders: frozenset[Phrase]
    numbers: Mapping[str, float]


class FigureLanguages(NamedTuple):
    """Every language's words, and words for ingredients by the first part of their id."""

    languages: Mapping[str, FigureWords]
    ingredients: Mapping[str, tuple[Phrase, ...]]

    def named(self, ids: Iterable[str]) -> dict[Phrase, str]:
        """Phrases that name one of these ingredients: each of the telling words of its id, and other languages' words."""
        found: dict[Phrase, str] = {}
        for name in ids:
            parts = name.split("-")
            found.setdefault(tuple(parts), name)
            for word in parts:
                if word not in _COMMON and not word.isdigit():
                    found.setdefault((word,), name)
            for key in (name, *parts):
                for phrase in self.ingredients.get(key, ()):
                    found.setdefault(phrase, name)
        return found


_COMMON = frozenset(
    [
        "oil",
        "butter",
        "high",
        "low",
        "oleic",
        "linoleic",
        "white",
        "black",
        "red",
        "blue",
        "green",
        "yellow",
        "pink",
        "purple",
        "brown",
        "fine",
        "own",
        "raw",
        "dry",
        "ready",
        "made",
        "soap",
        "refined",
        "unrefined",
        "hydrogenated",
        "fractionated",
        "sweet",
        "powder",
        "ground",
        "dried",
        "leaf",
        "root",
        "seed",
        "petals",
        "petal",
        "flower",
        "flowers",
        "blend",
        "iron",
        "oxide",
        "drink",
        "whole",
        "skimmed",
        "acid",
        "anhydrous",
        "monohydrate",
        "extract",
        "sodium",
        "gold",
        "dust",
        "sea",
        "water",
        "juice",
        "tea",
        "milk",
    ]
)
"""Words of ids that do not tell which ingredient is meant."""


def phrase(text: str) -> Phrase:
    return tuple(fold(word) for word in text.replace("'", " ").split())


@cache
def figure_words() -> FigureLanguages:
    """The words that travel with the package."""
    return made(("figure words",), _read)


def _read() -> FigureLanguages:
    data: dict[str, Any] = yaml.load(
        files("saponary.tables").joinpath("figure_words.yaml").read_bytes(), Loader=yaml.CBaseLoader
    )
    ingredients = {
        key: tuple(phrase(str(each)) for each in words) for key, words in data.pop("ingredients").items()
    }
    return FigureLanguages({code: _language(row) for code, row in data.items()}, ingredients)


def _language(row: Mapping[str, Any]) -> FigureWords:
    def group(name: str) -> frozenset[Phrase]:
        return frozenset(phrase(str(each)) for each in row[name])

    subjects = {phrase(str(each)): subject for subject in SUBJECTS for each in row["subjects"][subject]}
    return FigureWords(
        subjects=subjects,
        history=group("history"),
        conditional=group("conditional"),
        general=group("general"),
        prior=group("prior"),
        rates=group("rates"),
        measures=group("measures"),
        breaks=group("breaks"),
        behind=group("behind"),
        nearby=group("nearby"),
        aside=group("aside"),
        wetting=group("wetting"),
        strength=group("strength"),
        partly=group("partly"),
        rivals=group("rivals"),
        times=group("times"),
        to=group("to"),
        parts=group("parts"),
        roughly=group("roughly"),
        orders=group("orders"),
        numbers={fold(str(word)): float(value) for word, value in row["numbers"].items()},
    )
