"""The maker's `pantry.yaml`: refines standard entries value by value, or adds new ones."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from typing import TypeVar

from saponary.pantry import make, own_checks, own_names, own_oils, own_scents
from saponary.pantry.model import Addition, Infusion, Liquid, Oil, Pantry
from saponary.pantry.over import Group, Laid, laid
from saponary.pantry.own_acids import Acids
from saponary.pantry.own_moulds import moulds
from saponary.pantry.rows import Over
from saponary.reading.findings import Finding, suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Tree
from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.liquid_entry import LiquidEntry
from saponary.schema.oil_entry import OilEntry
from saponary.schema.pantry import PantryFile

K = TypeVar("K", Oil, Liquid, Addition)


def apply(standard: Pantry, own: PantryFile, tree: Tree, file: str) -> tuple[Pantry, list[Finding]]:
    """The standard pantry with the maker's entries over it, and what is wrong with them."""
    report = Reporter(tree, file, "pantry")
    own_checks.sources(own, report)
    oils = Over(standard.oils, _oils(standard, own, report))
    mine = _additions(standard, own, report)
    liquids = Over(standard.liquids, _liquids(standard, own, Acids(Over(standard.additions, mine)), report))
    _own_names("scraps", own.scraps, (oils, Over(standard.additions, mine)), report)
    mine |= _scraps(standard, own)
    _own_names("infusions", own.infusions, (oils, Over(standard.additions, mine), liquids), report)
    scents = own_scents.apply(standard, mine, own.fragrances, report)
    pantry = standard.with_changes(
        oils=oils,
        liquids=liquids,
        additions=Over(standard.additions, mine),
        moulds={**standard.moulds, **moulds(own.moulds, report)},
        infusions=_infusions(own, oils, report),
        fragrances=scents,
        papers=own.fragrances,
    )
    return pantry, [*report.findings, *own_names.check(pantry, own, tree, file)]


def _oils(standard: Pantry, own: PantryFile, report: Reporter) -> dict[str, Oil]:
    sound = {name: own_oils.with_known_acids(name, entry, report) for name, entry in own.oils.items()}

    def table(name: str) -> OilEntry | None:
        found = standard.oils.get(name)
        return found.entry if found is not None and isinstance(found.entry, OilEntry) else None

    group = Group(sound, table, lambda: standard.oils)
    made: dict[str, Oil] = {}
    for name, entry in sound.items():
        whole = laid(name, group, ("oils", name), report)
        below = table(entry.like or name)
        oil = make.oil(name, whole.entry)
        own_oils.oil(name, entry, whole.entry, below, report, missing=oil is None)
        if oil is not None:
            made[name] = _named(oil, whole)
    return made


def _liquids(standard: Pantry, own: PantryFile, acids: Acids, report: Reporter) -> dict[str, Liquid]:
    def table(name: str) -> LiquidEntry | None:
        found = standard.liquids.get(name)
        return found.entry if found is not None and isinstance(found.entry, LiquidEntry) else None

    group = Group(own.liquids, table, lambda: standard.liquids)
    made: dict[str, Liquid] = {}
    for name in own.liquids:
        whole = laid(name, group, ("liquids", name), report)
        entry = acids.resolved(whole.entry, ("liquids", name), report)
        entry = own_checks.settled(name, own.liquids[name], entry, table(name))
        liquid = make.liquid(name, entry)
        if own_checks.liquid(name, entry, report):
            made[name] = _named(liquid, whole)
    return made


def _additions(standard: Pantry, own: PantryFile, report: Reporter) -> dict[str, Addition]:
    """Additions and colourants: one table to a recipe."""
    both = {**own.additions, **own.colourants}

    def table(name: str) -> AdditionEntry | None:
        found = standard.additions.get(name)
        return found.entry if found is not None and isinstance(found.entry, AdditionEntry) else None

    group = Group(both, table, lambda: standard.additions)
    acids = Acids(standard.additions)
    made: dict[str, Addition] = {}
    for shelf, entries in (("additions", own.additions), ("colourants", own.colourants)):
        for name in entries:
            path = (shelf, name)
            whole = laid(name, group, path, report)
            entry = acids.resolved(whole.entry, path, report)
            if entry.kind is None and shelf == "colourants":
                entry = entry.model_copy(update={"kind": "colourant"})
            entry = own_checks.settled(name, both[name], entry, table(name))
            own_checks.addition(shelf, name, entry, report)
            made[name] = _named(make.addition(name, entry), whole)
    return made


def _named(made: K, whole: Laid[OilEntry] | Laid[LiquidEntry] | Laid[AdditionEntry]) -> K:
    return replace(made, common=whole.common)


SCRAP = "soap-scrap"
"""The addition of the tables that the maker's own scrap is like."""


def _scraps(standard: Pantry, own: PantryFile) -> dict[str, Addition]:
    return {
        name: replace(standard.additions[SCRAP], id=name, name=make.title(name), scrap_of=scrap.of)
        for name, scrap in own.scraps.items()
    }


def _infusions(own: PantryFile, oils: Collection[str], report: Reporter) -> dict[str, Infusion]:
    """Stocks of oils that are known."""
    found: dict[str, Infusion] = {}
    for name, entry in own.infusions.items():
        if entry.carrier in oils:
            found[name] = Infusion(name, entry.botanical, entry.carrier, entry.ratio, entry.made, entry.days)
        else:
            report.add(
                ("infusions", name, "carrier"),
                f"the oil {entry.carrier!r} is not known",
                suggest(entry.carrier, oils, "oils"),
            )
    return found


def _own_names(
    group: str, named: Iterable[str], taken: tuple[Collection[str], ...], report: Reporter
) -> None:
    """A scrap or an infusion must not stand in for an ingredient that has its name."""
    for name in named:
        if any(name in shelf for shelf in taken):
            report.add(
                (group, name), f"{name!r} is an ingredient already", "give it an id of its own", key=True
            )
