"""The words of every recipe's oils, additions and notes, for the search of the index: scripts, so that they open
from a disk too, of which one is asked for when a word is typed that would stand in it."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from functools import cache, partial
from html import unescape

from saponary.assets.digest import digest
from saponary.book.published import Published
from saponary.outputs import rests_on
from saponary.outputs.page_kind import RECIPES, PageContext, PageKind, SiteFile
from saponary.outputs.rows import Pick
from saponary.views import names
from saponary.views.prose import Prose

_TAG = re.compile(r"<[^>]*>")
_WORD = re.compile(r"[^\W_]{2,}")


PART = 100
"""Recipes whose words are about as much as one file is to hold."""


Places = dict[str, list[int]]
"""By a word, the recipes that have it, by their places on the index."""


def parts(context: PageContext) -> int:
    """Over how many files the words are spread."""
    return max(1, -(-len(context.recipes) // PART))


def address(part: int) -> str:
    """Where a part of the words lies, from the top of the site."""
    return f"assets/words-{part}.js"


def folded(text: str) -> str:
    """Small letters without their accents, as the script folds what is typed."""
    apart = unicodedata.normalize("NFD", text.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def words_of(recipe: Published) -> str:
    """Each word once, in order."""
    shelf, formula = recipe.pantry, recipe.resolved.formula
    used = [oil.id for oil in formula.oils] + [q.id for q in formula.liquids]
    used += [addition.id for addition in formula.additions]
    said = [names.anything(shelf, name) for name in used]
    said += [names.botanical(shelf, oil.infused_with) for oil in formula.oils if oil.infused_with]
    said += [
        recipe.model.collection or "",
        _TAG.sub(" ", unescape(Prose(recipe.catalogue).block(recipe.notes))),
    ]
    return " ".join(sorted(set(_WORD.findall(folded(" ".join(said))))))


def part_of(word: str, count: int) -> int:
    """The file that a word of two signs and more stands in, by its first two: the script asks for no other."""
    return (31 * ord(word[0]) + ord(word[1])) % count


def gaps(found: Sequence[int]) -> str:
    """Rising numbers in short: how far on from the one before, from -1, and after a plus how many more follow at once.

    `0 1 2 5` is `1+2 3`.
    """
    runs: list[tuple[int, int]] = []
    for one in found:
        first, more = runs[-1] if runs else (one, -1)
        if runs and one == first + more + 1:
            runs[-1] = (first, more + 1)
        else:
            runs.append((one, 0))
    ends = [-1, *(first + more for first, more in runs)]
    told = ((first - before, more) for before, (first, more) in zip(ends, runs, strict=False))
    return " ".join(f"{on}+{more}" if more else str(on) for on, more in told)


def sorted_out(words: Sequence[str], count: int) -> list[Places]:
    """By file, each of its words with the recipes that have it, by their places on the index."""
    found: list[Places] = [{} for _ in range(count)]
    files: dict[str, Places] = {}
    for place, row in enumerate(words):
        for word in row.split():
            file = files.get(word[:2])
            if file is None:
                file = files[word[:2]] = found[part_of(word, count)]
            file.setdefault(word, []).append(place)
    return found


def told(words: Places, part: int) -> str:
    """One file."""
    said = {word: gaps(places) for word, places in sorted(words.items())}
    return f"saponaryWords({part}, {json.dumps(said, ensure_ascii=False, indent=0)});\n"


def _of_recipe(slug: str) -> tuple[str, ...]:
    return rests_on.recipe(slug), rests_on.notes(slug)


def _render(context: PageContext) -> Iterator[SiteFile]:
    row, count = context.site.in_order, parts(context)

    rows = context.rows.of("words", row, rests_on.Rests((), _of_recipe), words_of)

    @cache
    def words() -> list[Places]:
        return sorted_out(rows.found(), count)

    @cache
    def digests() -> Sequence[str]:
        return rows.picked(f"files {count}", lambda: [digest(repr(file)) for file in words()])

    for part in range(count):
        name = rests_on.part(part, rows.name)
        context.rows.picks[name] = Pick(rows, partial(_one, digests, part))
        yield SiteFile(address(part), partial(_written, words, part), (name,))


def _one(digests: Callable[[], Sequence[str]], part: int) -> str:
    return digests()[part]


def _written(words: Callable[[], list[Places]], part: int) -> bytes:
    return told(words()[part], part).encode("utf-8")


KIND = PageKind("searching", _render, readers=RECIPES)
