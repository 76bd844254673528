"""Word forms by simple rules: `heal/v` stands for heal, heals, healed, healing.

The rules make some forms that no one writes; that harms nothing, since a form is only
looked for. Words are compared folded: small letters, accents off, ß as ss.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Mapping

KINDS = ("v", "vv", "n", "a")
"""Verb, verb that doubles its last letter (strip, stripping), noun, adjective."""


def fold(word: str) -> str:
    """A word as it is compared."""
    if word.isascii():
        return word.lower()
    apart = unicodedata.normalize("NFKD", word.casefold())
    return "".join(c for c in apart if not unicodedata.combining(c))


def forms(word: str, kind: str, language: str) -> frozenset[str]:
    """All forms of a word of the language; other languages have no rules and keep the word."""
    rules = _RULES.get(language, {})
    return frozenset(rules[kind](fold(word))) if kind in rules else frozenset({fold(word)})


def _english_verb(word: str) -> set[str]:
    found = _english_verb_one(word)
    for british, american in (("ise", "ize"), ("yse", "yze"), ("our", "or")):
        if word.endswith(british):
            found |= _english_verb_one(word[: -len(british)] + american)
    return found


def _english_verb_one(word: str) -> set[str]:
    if word.endswith("e"):
        ing = {word[:-1] + "ing", word + "ing"} if word.endswith("ge") else {word[:-1] + "ing"}
        return {word, word + "s", word + "d"} | ing
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return {word, word[:-1] + "ies", word[:-1] + "ied", word + "ing"}
    s = "es" if word.endswith(("s", "x", "z", "ch", "sh")) else "s"
    return {word, word + s, word + "ed", word + "ing"}


def _english_doubled(word: str) -> set[str]:
    twice = word + word[-1]
    return {word, word + "s", twice + "ed", twice + "ing"}


def _english_noun(word: str) -> set[str]:
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return {word, word[:-1] + "ies"}
    found = {word, word + ("es" if word.endswith(("s", "x", "z", "ch", "sh")) else "s")}
    if word.endswith("our"):
        found |= {word[:-3] + "or", word[:-3] + "ors"}
    return found


def _english_adjective(word: str) -> set[str]:
    if word.endswith("e"):
        return {word, word + "r", word + "st"}
    stem = word[:-1] + "i" if word.endswith("y") else word
    return {word, stem + "er", stem + "est"}


def _german_verb(stem: str) -> set[str]:
    bare = stem[:-2] if stem.endswith("en") else stem
    ends = ("en", "e", "st", "t", "te", "ten", "end", "ende", "enden", "ender", "endes", "endem")
    return {bare + end for end in ends} | {f"ge{bare}t", f"{bare}et"}


def _german_noun(word: str) -> set[str]:
    return {word + end for end in ("", "e", "en", "n", "s", "es", "er", "ern")}


def _german_adjective(word: str) -> set[str]:
    return {word + end for end in ("", "e", "en", "er", "es", "em", "ere", "erer", "eren")}


def _french_verb(word: str) -> set[str]:
    if word.endswith("ir"):
        ends = ("ir", "i", "is", "it", "ie", "ies", "issent", "issant", "issante", "issez", "ira")
        return {word[:-2] + end for end in ends}
    stem = word.removesuffix("r").removesuffix("e")
    regular = (
        "er",
        "e",
        "es",
        "ent",
        "ez",
        "ons",
        "ee",
        "ees",
        "ant",
        "ante",
        "ants",
        "antes",
        "era",
        "eront",
    )
    return {stem + end for end in regular}


def _french_noun(word: str) -> set[str]:
    return {word, word + "s", word + "x"}


def _french_adjective(word: str) -> set[str]:
    return {word, word + "e", word + "s", word + "es"}


_RULES: Mapping[str, Mapping[str, Callable[[str], set[str]]]] = {
    "en": {"v": _english_verb, "vv": _english_doubled, "n": _english_noun, "a": _english_adjective},
    "de": {"v": _german_verb, "n": _german_noun, "a": _german_adjective},
    "fr": {"v": _french_verb, "n": _french_noun, "a": _french_adjective},
}
