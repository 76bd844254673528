"""The maker's own pantry, as far as one recipe rests on it: `pantry.yaml` for an empty book.

Only entries that the recipe names are in it, and of them only values that differ from the
standard table. A field goes along where the schema lists it as public.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from saponary.book.published import Published
from saponary.lye.mould import Mould
from saponary.outputs.attached.entry import written
from saponary.outputs.attached.written import amount, to_yaml
from saponary.pantry.model import Addition, Ingredient, Pantry
from saponary.pantry.own import SCRAP
from saponary.pantry.standard import standard
from saponary.schema.fields import kebab
from saponary.schema.fragrance_entry import FragranceEntry
from saponary.schema.ingredient import IngredientEntry

_HEAD = "# What this recipe takes from its maker's own pantry; all else is in the standard tables.\n"


def pantry_source(computed: Published) -> str:
    """The text of a `pantry.yaml`; of a recipe that takes all from the standard tables, a remark."""
    entries = pantry_entries(computed)
    return _HEAD + (to_yaml(entries) if entries else "{}\n")


def pantry_entries(computed: Published) -> dict[str, Any]:
    """The maker's entries by table and id."""
    pantry, base = computed.pantry, standard()
    found: dict[str, dict[str, Any]] = {
        "oils": {name: _entry(own, base.oils) for name, own in pantry.oils.items()},
        "liquids": {name: _entry(own, base.liquids) for name, own in pantry.liquids.items()},
        "additions": {},
        "colourants": {},
        "moulds": {name: _mould(mould) for name, mould in pantry.moulds.items()},
        "infusions": {
            name: {"botanical": stock.botanical, "carrier": stock.carrier}
            for name, stock in pantry.infusions.items()
        },
        "fragrances": {},
    }
    for name, own in pantry.additions.items():
        if name in pantry.fragrances:
            found["fragrances"][name] = _fragrance(pantry, own, base)
        else:
            table = "colourants" if own.colour is not None else "additions"
            found[table][name] = _addition(own, base)
    return {
        table: kept
        for table, entries in found.items()
        if (kept := {name: entry for name, entry in entries.items() if entry})
    }


def _entry(own: Ingredient, table: Mapping[str, Ingredient]) -> dict[str, Any]:
    """What an entry states beyond the table's of the same id, of the fields that may be shown."""
    base = table.get(own.id)
    return written(own.entry, base.entry if base is not None else None)


def _addition(own: Addition, base: Pantry) -> dict[str, Any]:
    if own.scrap_of is not None:
        return {"like": SCRAP, "name": own.name}
    return _entry(own, base.additions)


def _fragrance(pantry: Pantry, own: Addition, base: Pantry) -> dict[str, Any]:
    """A scent with what its papers say: its limit and its materials, not whose papers they are, and
    never what the maker blended it of.
    """
    shown = {kebab(name) for name in FragranceEntry.model_fields}
    said = {key: value for key, value in _entry(own, base.additions).items() if key in shown}
    papers = pantry.fragrances[own.id]
    said["kind"] = papers.kind
    stated = pantry.papers.get(own.id)
    if stated is not None:
        papers_alone = stated.model_copy(update=dict.fromkeys(IngredientEntry.model_fields))
        said |= {key: value for key, value in written(papers_alone, None).items() if key != "kind"}
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
