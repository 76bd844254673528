"""One entry laid over another: what the upper one states goes before what the lower one does."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from saponary.pantry.model import OWN, Entry
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.ingredient import IngredientEntry, SourceEntry
from saponary.schema.liquid_entry import AcidEntry, LiquidEntry
from saponary.schema.oil_entry import CertifiedValue, OilEntry

E = TypeVar("E", OilEntry, LiquidEntry, AdditionEntry)

_OF_A_PURCHASE = ("price", "supplier", "lots")
"""What an entry does not take from the one it is like."""


@dataclass(frozen=True)
class Group(Generic[E]):
    """The maker's entries of one kind, and how to find those of the tables."""

    own: Mapping[str, E]
    standard: Callable[[str], E | None]
    names: Callable[[], Iterable[str]]


@dataclass(frozen=True)
class Laid(Generic[E]):
    """An entry with all that lies below it; `common` is the table's plain name of it, or '' where an
    entry states what it is called itself, or no row of a table lies below it."""

    entry: E
    common: str = ""


def laid(name: str, group: Group[E], path: Path, report: Reporter) -> Laid[E]:
    """The maker's entry of this name over the ones below it.

    Below it is the entry that `like` names, the maker's own or the table's, or else the table's
    of the same name. A `like` that names nothing, or comes back to itself, is a finding at `path`.
    """
    chain: list[E] = [group.own[name]]
    seen, at = {name}, name
    like = chain[-1].like
    while like is not None and like in group.own and like not in seen:
        seen.add(like)
        chain.append(group.own[like])
        at, like = like, chain[-1].like
    bottom = group.standard(like or at)
    if like is not None and bottom is None:
        if like == name:
            report.add((*path, "like"), f"{name!r} comes back to itself by like", "name another ingredient")
        elif like not in seen and at == name:
            known = [*group.names(), *(other for other in group.own if other != name)]
            report.add((*path, "like"), f"{like!r} is not in the pantry", suggest(like, known, "ingredients"))
    stack = list(chain)
    if bottom is not None:
        stack.append(bottom)
    common = (bottom.name or "") if bottom is not None and not any(entry.inci for entry in chain) else ""
    return Laid(_stacked(stack), common)


def _stacked(stack: list[E]) -> E:
    """The first of the stack over all that follow."""
    made = stack[-1]
    for upper in reversed(stack[:-1]):
        made = over(upper, _not_bought(made) if upper.like else made)
    return made if len(stack) > 1 else over(made, made)


def _not_bought(entry: E) -> E:
    known = type(entry).model_fields
    return entry.model_copy(update={key: None for key in _OF_A_PURCHASE if key in known})


def over(own: E, base: E) -> E:
    """`own` over `base`; what depends on a value that `own` states is not taken from `base`."""
    said = {key: getattr(own, key) for key in own.model_fields_set if getattr(own, key) is not None}
    said.pop("like", None)
    said["source"] = _sources(own, base)
    if isinstance(own, OilEntry) and isinstance(base, OilEntry):
        said |= _of_oil(own, base)
    if isinstance(own, AdditionEntry) and isinstance(base, AdditionEntry):
        said |= _of_addition(own, base)
    if not isinstance(own, OilEntry) and not isinstance(base, OilEntry):
        said["acid"] = _acid(own.acid, base.acid)
        if own.uptake is None and own.acid is not None:
            said["uptake"] = None
    return base.model_copy(update=said)


def _of_oil(own: OilEntry, base: OilEntry) -> dict[str, Any]:
    said: dict[str, Any] = {}
    if own.fatty_acids is not None and own.iodine_value is None:
        said["iodine_value"] = None
    given, old = own.saponification_value, base.saponification_value
    if given is not None:
        value = given.value
        low, high = given.range or (old and old.range) or (value, value)
        ends = [min(low, value, key=lambda q: q.number), max(high, value, key=lambda q: q.number)]
        said["saponification_value"] = CertifiedValue.model_validate(
            {"value": value, "range": ends, "from": given.from_}
        )
    return said


def _of_addition(own: AdditionEntry, base: AdditionEntry) -> dict[str, Any]:
    said: dict[str, Any] = {}
    if (own.fresh or own.cured) and own.stays is None:
        said["stays"] = None
    if own.free_alkali is not None and own.uptake is None:
        said["uptake"] = None
    if own is not base:
        said["chips"] = [*base.chips, *own.chips]
    return said


def _acid(own: AcidEntry | None, base: AcidEntry | None) -> AcidEntry | None:
    """Another strength alone is another strength of the same acid."""
    if own is None or base is None or own.takes or own.of or own.molar_mass:
        return own or base
    return base.model_copy(update={key: getattr(own, key) for key in own.model_fields_set})


def _sources(own: IngredientEntry, base: Entry) -> dict[str, SourceEntry]:
    found = {**(base.source or {}), **(own.source or {}), OWN: SourceEntry(how="maker")}
    if isinstance(own, OilEntry) and own.saponification_value is not None:
        found["saponification-value"] = SourceEntry(how="maker", where=own.saponification_value.from_)
    return found
