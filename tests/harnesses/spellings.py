"""Harness of hidden figures: a wrong weight of lye in braces, spelt in every way that a page would show as a figure."""

from __future__ import annotations

import random
from itertools import product
from pathlib import Path

from harnesses.harness import Harness, Score
from saponary.reading.findings import errors
from support import PLAIN, prove_one

OPENS = (
    ("{", "}"), ("&#123;", "&#125;"), ("&#x7b;", "&#x7d;"), ("&lbrace;", "&rbrace;"), ("&lcub;", "&rcub;"),
    ("\uff5b", "\uff5d"), ("\ufe5b", "\ufe5c"), ("\u2774", "\u2775"), ("\u2983", "\u2984"), ("{<!-- -->", "}"), ("{\u200b", "}"),
)  # fmt: skip
NAMES = ("lye", "**lye**", "l<!-- -->ye", "lye ", "sodium-hydroxide")
SIGNS = (" = ", "=", ": ", "\uff1d", "\uff1a", " ", " == ", "\u00a0=\u00a0")
VALUES = ("987 g", "987,0 g", "0.987 kg", "34 oz")
STUCK = (
    "1{lye}", "1**{lye}**", "&#49;{lye}", "1\u200b{lye}", "1<!-- -->{lye}", "{lye}1", "{lye}.5", "\u2212{lye}", "1.{lye}", "1&nbsp;{lye}",
)  # fmt: skip
ROUGH = (
    "{lye = 0.1 kg}",
    "{water = 1 lb}",
    "{lye = 0 kg}",
    "{oils = 2 kg}",
    "{batter-volume = 2 l}",
    "{water = 0 l}",
)


def spelt(chance: random.Random, count: int) -> list[str]:
    """So many spellings, those that stick to a figure or are too rough first."""
    every = [
        f"{a}{name}{sign}{value}{b}" for (a, b), name, sign, value in product(OPENS, NAMES, SIGNS, VALUES)
    ]
    chance.shuffle(every)
    return [*STUCK, *ROUGH, *every][:count]


def spellings(folder: Path, chance: random.Random, tries: int) -> Score:
    """Each alone in the notes of a recipe that is sound without it."""
    score = Score()
    for text in spelt(chance, tries):
        found = errors(prove_one(f"{PLAIN}The weight is {text} today.\n").findings)
        score.count(None if found else f"not found: {text!r}")
    return score


HARNESSES = (Harness("hidden figures", spellings, 1_500, 24),)
