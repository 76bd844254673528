"""Harness of merges: two makers change one recipe at once, and git merges what they wrote.

Whatever git makes of it, a file that passes has no figure but those that follow from it, by a sum made here;
and marks of a conflict are told where they stand, with what to do.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from harnesses.harness import Harness, Score
from in_git import git, tried
from saponary.build import sign
from saponary.build.proof import prove
from saponary.pantry.standard import standard
from saponary.reading.findings import Finding, errors
from saponary.reading.text_edits import apply
from support import prove_one, write_book

RECIPE = "recipes/a.md"
BASE = """\
---
title: Plain Bar
oils:
  parts:
    olive: 600 g
    coconut: 250 g
    sunflower-high-oleic: 150 g
superfat: 5 %
water: {lye-strength: 33 %}
portions:
  - {name: pale, share: 1/2}
  - {name: dark, share: 1/2}
signed:
  lye: 0.0 g
  water: 0.0 g
  superfat: 0.0 %
  formula: "000000000000"
---
Dissolve {lye = 0.0 g} in {water = 0 g} of water.

Half of it is {portion pale batter = 0 g}.

It was poured in spring.
"""
WAYS = {
    "default": ([], ""),
    "ours": (["-X", "ours"], ""),
    "theirs": (["-X", "theirs"], ""),
    "union": ([], "*.md merge=union\n"),
}
"""How git merges: the words it is given, and the attributes that the book has."""

_SODIUM, _POTASSIUM = 39.997, 56.1056
"""g/mol of the two hydroxides. Source: IUPAC's standard atomic weights (from memory)."""


def _oil(name: str) -> Callable[[str, random.Random], str]:
    return lambda text, chance: re.sub(rf"({name}: )\d+", rf"\g<1>{chance.randrange(100, 700, 10)}", text)


def _signed(text: str, chance: random.Random) -> str:
    """Signed, as `sign` does it."""
    proof = prove_one(text)
    return apply(text, sign.edits(proof.recipes[0].computed)) if proof.recipes else text


EDITS: tuple[Callable[[str, random.Random], str], ...] = (
    _oil("olive"),
    _oil("coconut"),
    _oil("sunflower-high-oleic"),
    lambda text, chance: re.sub(r"superfat: \d+ %", f"superfat: {chance.randrange(2, 10)} %", text),
    lambda text, chance: re.sub(r"strength: \d+", f"strength: {chance.randrange(28, 38)}", text),
    lambda text, chance: text.replace("pale, share: 1/2", "pale, share: 1/3").replace(
        "dark, share: 1/2", "dark, share: 2/3"
    ),
    lambda text, chance: re.sub(r"(  lye: \d+)\.\d+", r"\1.00", text),
    lambda text, chance: text.replace("in spring", "in spring, with {superfat = 5 %}"),
    lambda text, chance: text.replace("  superfat: 5.0 %\n", "", 1),
    lambda text, chance: text.replace("in spring", f"on day {chance.randrange(9)}"),
)


came: Counter[tuple[str, str]] = Counter()
"""How often each way of merging came to what, for whoever asks."""


def edited(text: str, chance: random.Random) -> str:
    """One to three changes by one maker, who signs them three times in four."""
    for edit in chance.sample(EDITS, chance.randrange(1, 4)):
        text = edit(text, chance)
    return _signed(text, chance) if chance.random() < 0.75 else text


def merges(folder: Path, chance: random.Random, tries: int) -> Score:
    """Each pair of edits, merged in each way; what came of them is counted in `came`."""
    score = Score()
    base = _signed(BASE, chance)
    assert not prove_one(base).findings, "the recipe before both edits is sound"
    repository = folder / "repository"
    repository.mkdir()
    git(repository, "init", "-q")
    for _ in range(tries):
        sides = [edited(base, chance), edited(base, chance)]
        for name, (words, attributes) in WAYS.items():
            clean, merged = merge(repository, base, sides, words, attributes)
            found = errors(prove(write_book(folder / "merged", {RECIPE: merged})).findings)
            score.count(fault(clean, merged, name, found))
            came[name, "marks" if "<<<<<<<" in merged else "a finding" if found else "passed"] += 1
    return score


def merge(root: Path, base: str, sides: list[str], words: list[str], attributes: str) -> tuple[bool, str]:
    """Whether git merged two versions by itself, and the file it left."""
    commits: list[str] = []
    for text in (base, *sides):
        if commits:
            git(root, "checkout", "-qf", commits[0])
        write_book(root, {RECIPE: text, ".gitattributes": attributes})
        git(root, "add", "-A")
        git(root, "commit", "--allow-empty", "-qm", "a change")
        commits.append(git(root, "rev-parse", "HEAD"))
    clean = tried(root, "merge", "-q", "--no-edit", *words, commits[1])
    merged = (root / RECIPE).read_text(encoding="utf-8")
    git(root, "reset", "-q", "--hard", commits[0])
    return clean, merged


def fault(clean: bool, merged: str, way: str, found: list[Finding]) -> str | None:
    """What is wrong with how a merged file is told; None where it is told rightly."""
    mark = next((n for n, line in enumerate(merged.splitlines(), 1) if line.startswith("<<<<<<<")), None)
    if not clean and mark is None:
        return f"{way}: git left no mark:\n{merged}"
    if mark is not None:
        told = [str(one.place) for one in found if "as git left them" in one.message and one.hint]
        return None if told == [f"{RECIPE}:{mark}:1"] else f"{way}: told at {told}, not at line {mark}"
    wrong = [] if found else wrong_figures(merged)
    return f"{way}: passed with {wrong}:\n{merged}" if wrong else None


def wrong_figures(text: str) -> list[str]:
    """Figures of lye, water and superfat that do not follow from the recipe, by hand."""
    oils = {
        name: float(re.findall(rf"^    {name}: (\d+) g", text, re.MULTILINE)[0])
        for name in ("olive", "coconut", "sunflower-high-oleic")
    }
    superfat = float(re.findall(r"^superfat: (\d+) %", text, re.MULTILINE)[0]) / 100
    strength = float(re.findall(r"lye-strength: (\d+) %", text)[0]) / 100
    values = {name: standard().oils[name].saponification_value.value for name in oils}
    bound = sum(grams * values[name] / 1000 for name, grams in oils.items())
    lye = bound * _SODIUM / _POTASSIUM * (1 - superfat)
    by_hand = {"lye": lye, "water": lye * (1 / strength - 1), "superfat": 100 * superfat}
    said = re.findall(r"^  (lye|water|superfat): ([\d.]+) ", text, re.MULTILINE)
    said += re.findall(r"\{(lye|water|superfat) = ([\d.]+) ", text)
    return [f"{name} {number}" for name, number in said if not _about(by_hand[name], number)]


def _about(value: float, number: str) -> bool:
    """Whether a number, at the decimals it has, is this value as far as molar masses to five figures tell."""
    half = 0.5 * 10.0 ** -len(number.partition(".")[2])
    return abs(float(number) - value) <= half + 1e-4 * value


HARNESSES = (Harness("two edits merged by git, in four ways", merges, 200, 3),)
