"""Compare: what changed in the figures of a book from one side to the other. Pure; writes nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from saponary.book.figure import Figure
from saponary.book.moved import Moved, moved
from saponary.build.came_to import CameTo, Drifted
from saponary.build.compared_side import Side
from saponary.quantity.rounding import show

Kind = Literal["new", "gone", "changed", "unreadable"]


@dataclass(frozen=True)
class Changed:
    """What changed of one recipe. `was` is its file before, where it had another name; `order` the stretch of
    the ingredient list that differs."""

    file: str
    was: str | None
    title: str
    kind: Kind
    moved: tuple[Moved, ...]
    status: tuple[str, str] | None = None
    order: tuple[tuple[str, ...], tuple[str, ...]] | None = None
    faults: tuple[str, ...] = ()


class Comparison(NamedTuple):
    """`same` counts the recipes whose figures did not change."""

    changed: tuple[Changed, ...]
    drifted: tuple[Drifted, ...]
    same: int


def compared(before: Side, after: Side, renamed: Mapping[str, str], only: frozenset[str]) -> Comparison:
    """Compare two sides. `renamed` gives a recipe's name before by its name after; `only` the recipes
    asked for, by their name after or before, all where it is empty."""
    pairs = list(_pairs(before, after, renamed, only))
    differ = [pair for pair in pairs if _differ(before, after, *pair)]
    old = before.came_to({was for was, _ in differ if was is not None})
    new = after.came_to({now for _, now in differ if now is not None})
    changed = [
        one
        for was, now in differ
        if (one := _changed(was, now, old.get(was or ""), new.get(now or ""))) is not None
    ]
    asked = {was for was, _ in pairs}
    drifted = [row for row in before.drifted() if row.recipe in asked]
    return Comparison(tuple(changed), tuple(drifted), len(pairs) - len(changed))


def _pairs(
    before: Side, after: Side, renamed: Mapping[str, str], only: frozenset[str]
) -> Iterator[tuple[str | None, str | None]]:
    followed = {now: was for now, was in renamed.items() if was in before.recipes and now in after.recipes}
    for now in after.recipes:
        was = followed.get(now, now if now in before.recipes else None)
        if not only or {was, now} & only:
            yield was, now
    left = before.recipes.keys() - after.recipes.keys() - set(followed.values())
    yield from ((was, None) for was in sorted(left) if not only or was in only)


def _differ(before: Side, after: Side, was: str | None, now: str | None) -> bool:
    if was is None or now is None or was != now:
        return True
    same = before.recipes[was] == after.recipes[now] and before.common == after.common
    return not (same and before.lent == after.lent)


def _changed(was: str | None, now: str | None, old: CameTo | None, new: CameTo | None) -> Changed | None:
    """What changed from one to the other; None where nothing did that a figure tells."""
    one = new or old
    if one is None:
        return None
    file = f"recipes/{now or was}"
    before = f"recipes/{was}" if was is not None and now is not None and was != now else None
    faults = (*(old.faults if old else ()), *(new.faults if new else ()))
    if new is None:
        return Changed(file, before, one.title, "gone", ())
    if faults:
        return Changed(file, before, one.title, "unreadable", (), faults=faults)
    if old is None:
        return Changed(file, before, one.title, "new", tuple(moved({}, _main(new.figures))))
    rows = (*moved(old.figures, new.figures), *_cost(old.cost, new.cost))
    status = (old.status, new.status) if old.status != new.status else None
    order = _between(old.order, new.order) if old.order != new.order else None
    if not (rows or status or order or before):
        return None
    return Changed(file, before, one.title, "changed", rows, status, order)


def changed_in(name: str, before: CameTo, after: CameTo) -> Changed | None:
    """What changed of one recipe that kept its name; None where nothing did that a figure tells."""
    return _changed(name, name, before, after)


def _main(figures: Mapping[str, Figure]) -> dict[str, Figure]:
    return {name: figures[name] for name in ("oils", "lye", "water", "superfat") if name in figures}


def _between(old: tuple[str, ...], new: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What is left of two lists without what they begin and end with alike."""
    start = next(
        (i for i, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), min(len(old), len(new))
    )
    ends = zip(reversed(old[start:]), reversed(new[start:]), strict=False)
    end = next((i for i, (a, b) in enumerate(ends) if a != b), min(len(old), len(new)) - start)
    return old[start : len(old) - end], new[start : len(new) - end]


def _cost(old: float | None, new: float | None) -> Iterator[Moved]:
    before = show(old, 2) if old is not None else None
    after = show(new, 2) if new is not None else None
    if before != after:
        by = ("+" if new > old else "") + show(new - old, 2) if old is not None and new is not None else None
        yield Moved("cost of a batch", before, after, by)
