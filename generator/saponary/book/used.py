"""The pantry's entries that one recipe rests on, so that whoever has them knows what a change touches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from saponary.book.soaps import soap_id
from saponary.pantry.model import Pantry
from saponary.schema.blend import OilPart
from saponary.schema.recipe import Recipe

T = TypeVar("T")


def used(model: Recipe, shelf: Pantry, *, parts_of_scents: bool = True) -> Pantry:
    """The entries that a recipe names, each once and in its order; names that the pantry lacks are left out.

    An infused oil brings its carrier and its botanical; a scent that was blended of others brings
    those, unless `parts_of_scents` is not wanted.
    """
    oils, soaked = list(_oils(model)), list(_soaked(model))
    named_oils = (*(name for name, _ in oils), *model.oils.after_cook)
    infusions = _of(shelf.infusions, (*named_oils, *soaked))
    steeped = (*(p.infused_with for _, p in oils), *soaked, *(s.botanical for s in infusions.values()))
    plants = (shelf.botanical(name) for name in steeped if name)
    liquids = [part.what for part in (*model.liquids, *(p for each in model.portions for p in each.liquids))]
    added = [
        part.what for part in (*model.additions, *(p for each in model.portions for p in each.additions))
    ]
    added += [soap_id(part.of) for part in model.soap]
    thins = [model.dilute.acid] if model.dilute is not None and model.dilute.acid is not None else []
    wanted = (*added, *liquids, *dressing(model), *(p.id for p in plants if p), *thins)
    additions = _of(shelf.additions, wanted)
    scents = _of(shelf.fragrances, _blended(shelf, additions) if parts_of_scents else additions)
    fill = model.oils.fill
    moulds = (fill.mould if fill else None, model.mould, *(size.mould for size in model.sizes))
    return replace(
        shelf,
        oils=_of(shelf.oils, (*named_oils, *(s.carrier for s in infusions.values()))),
        liquids=_of(shelf.liquids, liquids),
        additions={**additions, **_of(shelf.additions, scents)},
        moulds=_of(shelf.moulds, (name for name in moulds if name)),
        infusions=infusions,
        fragrances=scents,
        terms=(),
        papers=_of(shelf.papers, scents),
    )


def named(names: Iterable[str], shelf: Pantry) -> Pantry:
    """The entries of the pantry that these names may mean, as a record of weights has them."""
    wanted = tuple(dict.fromkeys(names))
    infusions = _of(shelf.infusions, wanted)
    return replace(
        shelf,
        oils=_of(shelf.oils, (*wanted, *(stock.carrier for stock in infusions.values()))),
        liquids=_of(shelf.liquids, wanted),
        additions=_of(shelf.additions, wanted),
        moulds={},
        infusions=infusions,
        fragrances={},
        terms=(),
        papers={},
    )


def together(shelves: Iterable[Pantry]) -> Pantry:
    """The entries of several pantries of one book; there must be one at least."""
    first, *others = shelves
    for other in others:
        first = replace(
            first,
            oils={**first.oils, **other.oils},
            liquids={**first.liquids, **other.liquids},
            additions={**first.additions, **other.additions},
            moulds={**first.moulds, **other.moulds},
            infusions={**first.infusions, **other.infusions},
            fragrances={**first.fragrances, **other.fragrances},
            papers={**first.papers, **other.papers},
        )
    return first


def _of(table: Mapping[str, T], names: Iterable[str]) -> dict[str, T]:
    return {name: table[name] for name in names if name in table}


def _oils(model: Recipe) -> Iterator[tuple[str, OilPart]]:
    yield from model.oils.parts.items()
    for portion in model.portions:
        yield from portion.oils.parts.items() if portion.oils else ()


def _soaked(model: Recipe) -> Iterator[str]:
    for portion in model.portions:
        yield from portion.infused.values()


def dressing(model: Recipe) -> Iterator[str]:
    """What the pour dusts, sets in or sprinkles."""
    for step in model.pour:
        named = (step.line and step.line.of, step.embeds and step.embeds.of, step.top and step.top.sprinkle)
        yield from (name for name in named if name)


def _blended(shelf: Pantry, names: Iterable[str]) -> dict[str, None]:
    """These names and those of every scent they were blended of, however deep."""
    found, waiting = dict.fromkeys(names), list(names)
    while waiting:
        papers = shelf.fragrances.get(waiting.pop())
        fresh = [name for name in (papers.blend if papers else ()) if name not in found]
        found |= dict.fromkeys(fresh)
        waiting += fresh
    return found
