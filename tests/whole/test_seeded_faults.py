"""Faults as makers make them, planted by seed into a sound book: how many are told, and which are not.

A fault is told where the proof says anything of the book; of the sound one it says nothing.
"""

from __future__ import annotations

import random
from collections import Counter

import pytest

from faults.kinds import FAMILIES
from faults.sound import proofed, sound

_SMALL = "a weight less than a quarter more than its formula's, or a fifth less, is not told"
NOT_TOLD: dict[tuple[str, str], str] = {
    ("records", "olive slipped"): _SMALL,
    ("records", "coconut slipped"): _SMALL,
    ("records", "dal butter slipped"): _SMALL,
    ("records", "water slipped"): _SMALL,
    ("sizes", "a class that weighs nothing"): "by chance its weights round to a superfat that is near",
    ("moulds", "a cut with a point misplaced"): "a loaf may be meant to be one bar",
    ("figures", "bare olive"): "by chance it is the weight at another size that the recipe offers",
    ("figures", "bare coconut"): "by chance it is the weight at another size that the recipe offers",
}
"""Kinds of faults that may pass, and why none of them can be told."""


def fault(seed: int) -> tuple[tuple[str, str], bool]:
    """The kind of the fault that a seed plants, and whether the proof says anything of it."""
    kinds = [(family, name) for family, faults in FAMILIES.items() for name in faults]
    family, name = kinds[seed % len(kinds)]
    return (family, name), bool(proofed(FAMILIES[family][name](random.Random(seed))).findings)


def test_the_sound_book_is_sound() -> None:
    assert proofed(sound()).findings == ()


def told(seeds: range, least: float) -> None:
    missed: Counter[tuple[str, str]] = Counter()
    for seed in seeds:
        kind, found = fault(seed)
        missed[kind] += not found
    share = 1 - missed.total() / len(seeds)
    left = {kind: count for kind, count in missed.items() if count}
    print(f"{share:.3f} of {len(seeds)} faults are told; not told: {left}")
    assert left.keys() <= NOT_TOLD.keys(), left
    assert share >= least


def test_forty_faults_are_told() -> None:
    told(range(0, 480, 12), 0.9)


@pytest.mark.slow
def test_five_hundred_faults_are_told() -> None:
    told(range(500), 0.95)
