"""The maker's own pantry, as far as one recipe rests on it: `pantry.yaml` for an empty book.

Only entries that the recipe names are in it, and of them only values that differ from the
standard table. No price, supplier, note or paper's reference goes along.
"""

from __future__ import annotations

from typing import Any

from saponary.book.computed import Computed
from saponary.book.pour_uses import pour_uses
from saponary.lye.constants import NAOH
from saponary.lye.mould import Mould
from saponary.outputs.attached.written import amount, to_yaml
from saponary.pantry.colour import near
from saponary.pantry.model import Addition, Colour, Liquid, Oil, Pantry
from saponary.pantry.standard import standard
from saponary.schema.recipe import OilPart

_HEAD = "# What this recipe takes from its maker's own shelf; all else is in the standard tables.\n"


def shelf_source(computed: Computed) -> str:
    """The text of a `pantry.yaml`; of a recipe that takes all from the standard tables, a remark."""
    entries = shelf_entries(computed)
    return _HEAD + (to_yaml(entries) if entries else "{}\n")


def shelf_entries(computed: Computed) -> dict[str, Any]:
    """The maker's entries by table and id."""
    shelf, base = computed.pantry, standard()
    named = _Named(computed)
    found: dict[str, dict[str, Any]] = {
        "oils": {n: _oil(shelf.oils[n], base.oils.get(n)) for n in named.oils if n in shelf.oils},
        "liquids": {
            n: _liquid(shelf.liquids[n], base.liquids.get(n)) for n in named.liquids if n in shelf.liquids
        },
        "additions": {},
        "colourants": {},
        "moulds": {n: _mould(shelf.moulds[n]) for n in named.moulds if n in shelf.moulds},
        "infusions": {
            n: {"botanical": shelf.infusions[n].botanical, "carrier": shelf.infusions[n].carrier}
            for n in named.infusions
        },
        "fragrances": {},
    }
    for name in named.additions:
        entry = shelf.additions.get(name)
        if entry is None:
            continue
        if name in shelf.fragrances:
            found["fragrances"][name] = _fragrance(shelf, entry, base.additions.get(name))
        else:
            table = "colourants" if entry.colour is not None else "additions"
            found[table][name] = _addition(entry, base.additions.get(name))
    return {
        table: kept
        for table, entries in found.items()
        if (kept := {name: entry for name, entry in entries.items() if entry})
    }


class _Named:
    """The ids that a recipe names, by table, each once and in its order."""

    def __init__(self, computed: Computed) -> None:
        model, shelf = computed.model, computed.pantry
        parts: list[tuple[str, OilPart]] = list(model.oils.parts.items())
        infused = [name for portion in model.portions for name in portion.infused.values()]
        for portion in model.portions:
            parts += portion.oils.parts.items() if portion.oils else ()
        self.infusions = _once(n for n in (*(name for name, _ in parts), *infused) if n in shelf.infusions)
        stocks = [shelf.infusions[name] for name in self.infusions]
        self.oils = _once([*(name for name, _ in parts), *(stock.carrier for stock in stocks)])
        soaked = [part.infused_with for _, part in parts if part.infused_with]
        botanicals = [shelf.botanical(n) for n in (*soaked, *infused, *(s.botanical for s in stocks))]
        self.liquids = _once(what for _, what, _ in computed.liquids())
        dressed = [use.what for use in pour_uses(computed)]
        added = [what for _, what, _ in computed.additions()]
        self.additions = _once([*added, *self.liquids, *dressed, *(b.id for b in botanicals if b)])
        fill = model.oils.fill
        moulds = [fill.mould if fill else None, model.mould, *(size.mould for size in model.sizes)]
        self.moulds = _once(name for name in moulds if name)


def _once(names: Any) -> list[str]:
    return list(dict.fromkeys(names))


def _share(value: float) -> str:
    return amount(100 * value, "%")


def _texts(entry: Any, base: Any, *fields: str) -> dict[str, Any]:
    """Those of the entry's words that are not the table's."""
    return {
        field.replace("_", "-"): getattr(entry, field)
        for field in fields
        if getattr(entry, field) and (base is None or getattr(entry, field) != getattr(base, field))
    }


def _oil(entry: Oil, base: Oil | None) -> dict[str, Any]:
    said = _texts(
        entry, base, "name", "kind", "latin", "inci", "inci_sodium_soap", "inci_potassium_soap", "allergen"
    )
    value = entry.saponification_value
    if base is None or value != base.saponification_value:
        written: dict[str, Any] = {"value": amount(value.value, "mg/g")}
        if value.low != value.high:
            written["range"] = [amount(value.low, "mg/g"), amount(value.high, "mg/g")]
        said["saponification-value"] = written
    if entry.fatty_acids and (base is None or entry.fatty_acids != base.fatty_acids):
        said["fatty-acids"] = {key: _share(part) for key, part in entry.fatty_acids.items()}
    if entry.iodine_value and (base is None or entry.iodine_value != base.iodine_value):
        said["iodine-value"] = amount(entry.iodine_value.value, "g/100 g")
    if entry.unsaponifiable != (base.unsaponifiable if base else 0.0):
        said["unsaponifiable"] = _share(entry.unsaponifiable)
    if entry.density and (base is None or entry.density != base.density):
        said["density"] = amount(entry.density, "g/ml")
    return said


def _liquid(entry: Liquid, base: Liquid | None) -> dict[str, Any]:
    said = _texts(entry, base, "name", "latin", "inci")
    for field in ("water", "fat", "sugar"):
        part = getattr(entry, field)
        if part != (getattr(base, field) if base else 0.0) or (base is None and field == "water"):
            said[field] = _share(part)
    if entry.density and (base is None or entry.density != base.density):
        said["density"] = amount(entry.density, "g/ml")
    return said


def _addition(entry: Addition, base: Addition | None) -> dict[str, Any]:
    said = _texts(entry, base, "name", "kind", "latin", "inci")
    if entry.stage != (base.stage if base else "trace"):
        said["stage"] = entry.stage
    if entry.density and (base is None or entry.density != base.density):
        said["density"] = amount(entry.density, "g/ml")
    if entry.water != (base.water if base else 0.0):
        said["water"] = _share(entry.water)
    if entry.usual and (base is None or entry.usual != base.usual):
        said["usual"] = [amount(rate, "g/kg") for rate in entry.usual]
    if entry.base != (base.base if base else 0.0):
        said["free-alkali"] = _share(entry.base * NAOH)
    if entry.colour is not None:
        said |= _colour(entry.colour, base.colour if base else None)
    return said


def _colour(colour: Colour, base: Colour | None) -> dict[str, Any]:
    """Fresh and cured; chips are results of batches and stay in the maker's book."""
    said: dict[str, Any] = {}
    if base is None or (colour.fresh, colour.cured) != (base.fresh, base.cured):
        said |= {"fresh": colour.fresh, "cured": colour.cured}
    taken = near(colour.fresh, colour.cured) if said else base.stays if base else True
    if colour.stays != taken:
        said["stays"] = colour.stays
    if colour.full_depth and (base is None or colour.full_depth != base.full_depth):
        said["full-depth"] = amount(colour.full_depth, "g/kg")
    return said


def _fragrance(shelf: Pantry, entry: Addition, base: Addition | None) -> dict[str, Any]:
    """A scent with what its papers say: its limit and its materials, not whose papers they are, and
    never what the maker blended it of.
    """
    said = _texts(entry, base, "name", "latin", "inci")
    if entry.density and (base is None or entry.density != base.density):
        said["density"] = amount(entry.density, "g/ml")
    papers = shelf.fragrances[entry.id]
    said["kind"] = papers.kind
    if papers.composition is not None:
        said["composition"] = {name: _share(part) for name, part in papers.composition.items()}
    if papers.certificate is not None:
        limit: dict[str, Any] = {"maximum": _share(papers.certificate.maximum)}
        if papers.certificate.category:
            limit["category"] = papers.certificate.category
        said["certificate"] = limit
    return said


def _mould(mould: Mould) -> dict[str, Any]:
    if mould.kind == "cavities":
        return {"cavities": {"count": mould.count, "volume": amount(mould.cavity_ml, "ml")}}
    fields = ("diameter", "length") if mould.kind == "cylinder" else ("length", "width", "height")
    more = ("liner",) if mould.kind == "cylinder" else ("top_length", "top_width", "liner")
    said: dict[str, Any] = {field: amount(getattr(mould, field), "mm") for field in fields}
    said |= {f.replace("_", "-"): amount(getattr(mould, f), "mm") for f in more if getattr(mould, f)}
    if mould.count != 1:
        said["count"] = mould.count
    return {mould.kind: said}
