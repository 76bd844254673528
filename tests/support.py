"""What several tests share: the two books of the repository, and small books made on the spot."""

from __future__ import annotations

import os
import random
import shutil
from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import pytest
import yaml
from _pytest.mark import ParameterSet

from saponary.book.library import Book
from saponary.book.recipe_text import parse_recipe
from saponary.book.records import records
from saponary.build.proof import Proof, prove, prove_book
from saponary.checks.rules import RULES
from saponary.pantry.standard import standard
from saponary.reading.findings import Finding
from saponary.schema.settings import Settings
from saponary.words.entries import WordList
from saponary.words.matching import Hit, find_in
from saponary.words.shown import raw, unmarked

T = TypeVar("T")
REPOSITORY = Path(__file__).resolve().parents[1]
BOOKS = {"starters": REPOSITORY, "demo": REPOSITORY / "demo_book"}

PLAIN = """\
---
title: Plain Bar
oils:
  total: 1000 g
  parts:
    olive: 60 %
    coconut: 25 %
    sunflower-high-oleic: 15 %
superfat: 5 %
water: {lye-strength: 33 %}
signed:
  superfat: 5.0 %
---
A plain bar.
"""


def some(items: Iterable[T]) -> list[T]:
    """The items of a loop that asserts; none at all is a failure, for then nothing would be checked."""
    found = list(items)
    assert found, "there is nothing to check"
    return found


def read_plain(text: str | bytes) -> Any:
    """YAML as a common loader reads it, and not ours; libyaml is ten times as fast as Python."""
    return yaml.load(text, Loader=yaml.CSafeLoader)


def in_part(
    cases: Iterable[T], kind: Callable[[T], Hashable], each: int = 1, seed: int = 1
) -> list[ParameterSet]:
    """Cases whose kinds repeat: of each kind some drawn by a seed, the others with the slow tests."""
    found = some(cases)
    left = Counter({kind(case): each for case in found})
    fast = set[int]()
    for at in random.Random(seed).sample(range(len(found)), len(found)):
        if left[kind(found[at])] > 0:
            left[kind(found[at])] -= 1
            fast.add(at)
    return [pytest.param(case, marks=() if at in fast else pytest.mark.slow) for at, case in enumerate(found)]


@cache
def proof_of(book: str) -> Proof:
    """One of the two books, proofed once for all tests of a process."""
    return prove(BOOKS[book])


def write_book(root: Path, files: Mapping[str, str | bytes]) -> Path:
    """A book on disk from paths and contents; strings are written as UTF-8, line ends untouched."""
    for name, content in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    return root


def copy_book(name: str, root: Path) -> Path:
    """A copy of one of the two books, without its site; photos are linked, not copied."""
    source = BOOKS[name]
    for part in ("book.yaml", "pantry.yaml", "recipes", "batches", "classes", "photos"):
        for path in [source / part] if (source / part).is_file() else sorted((source / part).rglob("*")):
            if path.is_file():
                target = root / path.relative_to(source)
                target.parent.mkdir(parents=True, exist_ok=True)
                if part == "photos":
                    os.link(path, target)
                else:
                    shutil.copy(path, target)
    return root


def prove_one(text: str, book: Book | None = None, slug: str = "tried") -> Proof:
    """Proof of one recipe given as text: alone in a bare book, or in place of `book`'s own recipes."""
    base = book or Book(Path("/nowhere"), Settings(), standard(), [], frozenset(), {}, [])
    recipe = parse_recipe(f"recipes/{slug}.md", text)
    own = records(recipe.model.batches, recipe.file, recipe.tree) if recipe.model else ()
    return prove_book(
        Book(base.root, base.settings, base.pantry, [recipe], base.photos, {recipe.slug: own}, [])
    )


def assert_listed(findings: Iterable[Finding]) -> None:
    """Each is found under a listed rule, and is as grave as that rule says."""
    kinds = {rule.name: rule.kinds for rule in RULES}
    for finding in findings:
        assert finding.severity in kinds[finding.rule], finding


def find_claims(text: str, language: str, entries: WordList) -> list[Hit]:
    """Claims of a Markdown text, with offsets in it."""
    return find_in(unmarked(raw(text), blocks=True), language, entries)
