"""A first look at recipes of which nothing is kept, over as many processes as there are.

Each is read, computed and checked by itself, and what comes of it is what a build would keep of it: its outline,
and what the rules found. So the book is then proofed as one that was proofed before, and no process holds more
than one recipe. What cannot be told of a recipe alone, or what has faults, is left to the proof itself.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from sys import intern
from typing import NamedTuple

from saponary.assets.digest import digest
from saponary.assets.spread import hand_over, is_for_several
from saponary.book.batch_files import batches_of
from saponary.book.computed import Computed, compute
from saponary.book.computed_all import identity
from saponary.book.facts import Facts
from saponary.book.library import Unlooked, read_recipe
from saponary.book.outline import Rests, outline_of
from saponary.build.glimpse import Asked, Glimpse
from saponary.build.history import untold
from saponary.checks.kept import Kept
from saponary.checks.run import Words, looked_at


class Looked(NamedTuple):
    """What may be kept of a recipe, and what was seen of it for the editions that are asked for."""

    kept: Kept
    glimpse: Glimpse


def first_look(
    book: Unlooked, names: Sequence[str], words: Words, workers: int | None, asked: Asked | None = None
) -> dict[str, Looked]:
    """What comes of these recipes, named by their files; nothing where one process does all the work."""
    if not is_for_several(len(names), workers):
        return {}
    rests = Rests(book.pantry, digest(book.settings), book.photos)
    said = words.digest
    glimpse = asked.looker(book.settings) if asked is not None else _nothing
    found: dict[str, Looked] = {}

    def take(number: int, one: Looked | None) -> None:
        if one is not None:
            found[names[number][:-3]] = _shared(one)

    hand_over(len(names), lambda n: _looked_at(book, names[n], rests, words, said, glimpse), take, workers)
    return found


def _nothing(computed: Computed, facts: Facts) -> Glimpse:
    return {}


def _shared(one: Looked) -> Looked:
    """With each of its words, which stand in many recipes, once in memory."""
    outline = replace(one.kept.outline, words=tuple(map(intern, one.kept.outline.words)))
    return one._replace(kept=replace(one.kept, outline=outline))


def _looked_at(
    book: Unlooked,
    name: str,
    rests: Rests,
    words: Words,
    said: str,
    glimpse: Callable[[Computed, Facts], Glimpse],
) -> Looked | None:
    recipe = read_recipe(book.files, name)
    batches, faults = batches_of(book.files, recipe)
    computed, findings = compute(recipe, batches, book.settings, book.pantry, book.photos)
    if computed is None or faults or findings or computed.instead:
        return None
    if computed.scraps_of() or computed.model.soap or untold(computed):
        return None
    outline = outline_of(computed, book.own[recipe.slug], rests)
    checked = looked_at(computed, words.listed, words.silenced)
    kept = Kept(outline, f"{identity([(recipe.slug, outline.alone, '')])} {said}", checked)
    return Looked(kept, glimpse(computed, checked.facts))
