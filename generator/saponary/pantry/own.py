"""The maker's `pantry.yaml`: refines standard entries value by value, or adds new ones."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from typing import Any

from saponary.lye import fatty_acids as acids
from saponary.lye import mould as geometry
from saponary.lye.constants import NAOH
from saponary.pantry import model as pantry
from saponary.pantry import own_scents as pantry_scents
from saponary.pantry.colour import near
from saponary.pantry.model import Chip, Pantry, Range, Source
from saponary.reading.findings import Finding, suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path, Tree
from saponary.schema.pantry import AdditionEntry, LiquidEntry, MouldEntry, OilEntry, PantryFile


def apply(standard: Pantry, own: PantryFile, tree: Tree, file: str) -> tuple[Pantry, list[Finding]]:
    """The standard pantry with the maker's entries over it, and what is wrong with them."""
    report = Reporter(tree, file, "pantry")
    oils = dict(standard.oils)
    for name, oil in own.oils.items():
        made = _oil(name, oil, oils.get(name), report)
        if made is not None:
            oils[name] = made
    liquids = dict(standard.liquids)
    for name, liquid in own.liquids.items():
        fresh = _liquid(name, liquid, liquids.get(name), report)
        if fresh is not None:
            liquids[name] = fresh
    additions = dict(standard.additions)
    for group, entries in (("additions", own.additions), ("colourants", own.colourants)):
        for name, entry in entries.items():
            additions[name] = _addition(name, entry, additions.get(name), group, report)
    _own_names("scraps", own.scraps, {*oils, *additions}, report)
    _own_names("infusions", own.infusions, {*oils, *additions, *liquids}, report)
    for name, scrap in own.scraps.items():
        base = standard.additions.get("soap-scrap", pantry.Addition("soap-scrap", "Soap scrap", "soap"))
        additions[name] = replace(base, id=name, name=_title(name), scrap_of=scrap.of)
    fragrances = pantry_scents.apply(additions, standard.fragrances, own.fragrances, report)
    moulds = {**standard.moulds}
    for name, entry_mould in own.moulds.items():
        shape = _mould(name, entry_mould, report)
        if shape is not None:
            moulds[name] = shape
    infusions = {
        n: pantry.Infusion(n, e.botanical, e.carrier, e.ratio, e.made, e.days)
        for n, e in own.infusions.items()
    }
    for name, infusion in infusions.items():
        if infusion.carrier not in oils:
            report.add(
                ("infusions", name, "carrier"),
                f"the oil {infusion.carrier!r} is not known",
                suggest(infusion.carrier, oils, "oils"),
            )
    infusions = {name: infusion for name, infusion in infusions.items() if infusion.carrier in oils}
    return (
        standard.with_changes(
            oils=oils,
            liquids=liquids,
            additions=additions,
            moulds=moulds,
            infusions=infusions,
            fragrances=fragrances,
        ),
        report.findings,
    )


def _own_names(group: str, named: Iterable[str], taken: Collection[str], report: Reporter) -> None:
    """A scrap or an infusion must not stand in for an ingredient that has its name."""
    for name in named:
        if name in taken:
            report.add(
                (group, name), f"{name!r} is an ingredient already", "give it an id of its own", key=True
            )


def _title(name: str) -> str:
    return name.replace("-", " ").capitalize()


def _maker(sources: pantry.Sources, group: str, given: object, where: str | None) -> dict[str, Source]:
    return {**sources, **({group: Source("maker", None, where)} if given is not None else {})}


def _oil(name: str, own: OilEntry, base: pantry.Oil | None, report: Reporter) -> pantry.Oil | None:
    path: Path = ("oils", name)
    composition = dict(base.fatty_acids) if base else {}
    if own.fatty_acids is not None:
        composition = {}
        for key, share in own.fatty_acids.items():
            if key not in acids.FATTY_ACIDS:
                report.add(
                    (*path, "fatty-acids", key),
                    f"the fatty acid {key!r} is not known",
                    suggest(key, acids.FATTY_ACIDS, "fatty acids"),
                )
            else:
                composition[key] = share.fraction
        if composition and not 0.9 <= sum(composition.values()) <= 1.02:
            report.add(
                (*path, "fatty-acids"),
                f"the fatty acids sum to {100 * sum(composition.values()):.1f} %",
                "between 90 % and 102 %",
                "warning",
            )
    value = _certified(own, base, path, report)
    if value is None:
        report.add(
            path, f"the oil {name!r} has no saponification value", "add saponification-value: 190 mg/g"
        )
        return None
    iodine = base.iodine_value if base else None
    if own.iodine_value is not None:
        iodine = Range(own.iodine_value.number, own.iodine_value.number, own.iodine_value.number)
    elif own.fatty_acids is not None and sum(composition.values()) > 0:
        kind = own.kind or (base.kind if base else "oil")
        computed = acids.iodine_value(composition, ester="acid" if kind == "acid" else "triglyceride")
        iodine = Range(computed, computed, computed)
    kept: dict[str, Any] = {
        field: given
        for field, given in (
            ("name", own.name),
            ("kind", own.kind),
            ("latin", own.latin),
            ("inci", own.inci),
            ("inci_sodium_soap", own.inci_sodium_soap),
            ("inci_potassium_soap", own.inci_potassium_soap),
            ("unsaponifiable", own.unsaponifiable.fraction if own.unsaponifiable else None),
            ("density", own.density.number if own.density else None),
            ("allergen", own.allergen),
            ("price_per_kg", own.price),
            ("note", own.note),
        )
        if given is not None
    }
    start = base or pantry.Oil(name, own.name or _title(name), own.kind or "oil", value)
    certificate = own.saponification_value.from_ if own.saponification_value else None
    return replace(
        start,
        saponification_value=value,
        iodine_value=iodine,
        fatty_acids=composition,
        source=_maker(start.source, "saponification_value", own.saponification_value, certificate),
        **kept,
    )


def _certified(own: OilEntry, base: pantry.Oil | None, path: Path, report: Reporter) -> Range | None:
    given = own.saponification_value
    if given is None:
        return base.saponification_value if base else None
    value = given.value.number
    where = (*path, "saponification-value")
    if given.range is not None:
        low, high = given.range[0].number, given.range[1].number
        if not low <= value <= high:
            report.add(
                (*where, "range"),
                f"the range {low:g} to {high:g} does not hold the value {value:g}",
                "give the lower end, then the upper",
            )
        _plausible(value, base, where, report)
        return Range(value, min(low, value), max(high, value))
    if base is None:
        report.add(
            where,
            "no range is given, so the superfat band takes this value as certain",
            "add range: [lower, upper] from the certificate",
            "warning",
        )
        return Range(value, value, value)
    old = base.saponification_value
    _plausible(value, base, where, report)
    return Range(value, min(old.low, value), max(old.high, value))


_FAR_OFF = 0.1
"""A certificate this far outside the published range is of another oil, or a slip of the pen."""


def _plausible(value: float, base: pantry.Oil | None, where: Path, report: Reporter) -> None:
    """A value of the maker's own against the published range of that oil."""
    if base is None:
        return
    old = base.saponification_value
    if old.low <= value <= old.high:
        return
    far = not (1 - _FAR_OFF) * old.low <= value <= (1 + _FAR_OFF) * old.high
    report.add(
        where,
        f"{value:g} mg/g lies {'far ' if far else ''}outside the published {old.low:g} to {old.high:g}",
        "check the certificate; another oil needs an id of its own" if far else "check the certificate",
        "error" if far else "warning",
    )


def _liquid(
    name: str, own: LiquidEntry, base: pantry.Liquid | None, report: Reporter
) -> pantry.Liquid | None:
    if own.water is None and base is None:
        report.add(
            ("liquids", name), f"the liquid {name!r} does not say how much of it is water", "add water: 90 %"
        )
        return None
    start = base or pantry.Liquid(name, own.name or _title(name), 0.0)
    kept: dict[str, Any] = {
        field: given
        for field, given in (
            ("name", own.name),
            ("water", own.water.fraction if own.water else None),
            ("fat", own.fat.fraction if own.fat else None),
            ("sugar", own.sugar.fraction if own.sugar else None),
            ("density", own.density.number if own.density else None),
            ("latin", own.latin),
            ("inci", own.inci),
            ("price_per_kg", own.price),
            ("note", own.note),
        )
        if given is not None
    }
    made = replace(start, source=_maker(start.source, "composition", own.water, None), **kept)
    if made.water + made.fat + made.sugar > 1.0 + 1e-9:
        report.add(
            ("liquids", name),
            "water, fat and sugar sum to more than the whole",
            "they are shares of the liquid's weight",
        )
    return made


def _addition(
    name: str, own: AdditionEntry, base: pantry.Addition | None, group: str, report: Reporter
) -> pantry.Addition:
    start = base or pantry.Addition(
        name, own.name or _title(name), "colourant" if group == "colourants" else "other"
    )
    usual = (own.usual[0].number, own.usual[1].number) if own.usual else start.usual
    if usual is not None and usual[0] > usual[1]:
        report.add(
            (group, name, "usual"), "the usual rate runs backwards", "give the lower rate, then the upper"
        )
    colour = _colour(name, own, start.colour, group, report)
    kept: dict[str, Any] = {
        field: given
        for field, given in (
            ("name", own.name),
            ("kind", own.kind),
            ("density", own.density.number if own.density else None),
            ("water", own.water.fraction if own.water else None),
            ("stage", own.stage),
            ("latin", own.latin),
            ("inci", own.inci),
            ("base", own.free_alkali.fraction / NAOH if own.free_alkali else None),
            ("price_per_kg", own.price),
            ("note", own.note),
        )
        if given is not None
    }
    return replace(start, usual=usual, colour=colour, source=_maker(start.source, "maker", own, None), **kept)


def _colour(
    name: str, own: AdditionEntry, old: pantry.Colour | None, group: str, report: Reporter
) -> pantry.Colour | None:
    """The colour with the maker's own over it."""
    fresh = own.fresh or (old.fresh if old else own.cured)
    cured = own.cured or (old.cured if old else own.fresh)
    if fresh is None or cured is None:
        if group == "colourants":
            report.add(
                (group, name),
                f"the colourant {name!r} has no colour",
                'add fresh: "#a4503c" and cured: "#b98f86"',
            )
        return None
    chips = tuple(Chip(c.dose.number, c.day, c.colour, c.note or "") for c in own.chips)
    told = own.fresh is not None or own.cured is not None
    start = old or pantry.Colour(fresh, cured)
    return replace(
        start,
        fresh=fresh,
        cured=cured,
        full_depth=own.full_depth.number if own.full_depth else start.full_depth,
        stays=own.stays if own.stays is not None else (near(fresh, cured) if told else start.stays),
        chips=start.chips + chips,
    )


def _mould(name: str, own: MouldEntry, report: Reporter) -> geometry.Mould | None:
    given = [kind for kind in ("loaf", "slab", "cylinder", "cavities") if getattr(own, kind) is not None]
    if len(given) != 1:
        report.add(("moulds", name), "a mould has exactly one shape", "one of loaf, slab, cylinder, cavities")
        return None
    if own.cavities is not None:
        shape = geometry.Mould(
            "cavities", cavity_ml=own.cavities.volume.millilitres, count=own.cavities.count
        )
    elif own.cylinder is not None:
        c = own.cylinder
        shape = geometry.Mould(
            "cylinder", length=c.length.millimetres, diameter=c.diameter.millimetres,
            liner=c.liner.millimetres if c.liner else 0.0, count=c.count,
        )  # fmt: skip
    else:
        box = own.loaf or own.slab
        assert box is not None
        shape = geometry.Mould(
            "loaf" if own.loaf else "slab",
            box.length.millimetres, box.width.millimetres, box.height.millimetres,
            box.top_length.millimetres if box.top_length else None,
            box.top_width.millimetres if box.top_width else None,
            liner=box.liner.millimetres if box.liner else 0.0, count=box.count,
        )  # fmt: skip
    sides = (shape.length, shape.width or shape.diameter, shape.top_length, shape.top_width)
    across = min((side for side in sides if side), default=0.0)
    deep = shape.length if shape.kind == "cylinder" else shape.height
    if shape.kind != "cavities" and shape.liner >= min(across / 2, deep):
        report.add(("moulds", name), "the liner leaves no room in this mould", "check the measures")
        return None
    return shape
