"""Reads the standard tables that travel with the package."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

from saponary.pantry.model import Addition, Colour, Liquid, Oil, Pantry, Range, Source, Sources, Term

_TABLES = ("oils", "liquids", "additions", "colourants", "glossary", "publications")

DISPLACES: Mapping[str, float] = {
    "clay": 2.6,
    "mineral": 3.5,
    "salt": 2.16,
    "sugar": 1.59,
    "acid": 1.6,
    "chelator": 1.6,
    "carbon": 1.9,
}
"""g/ml of the solid itself in the batter, by kind, from handbooks (from memory); 1 otherwise.
The table's own density is that of a loose spoonful and would count the air in it."""


@cache
def standard() -> Pantry:
    """The standard pantry. Its version is a hash of the tables' bytes."""
    folder = files("saponary.tables")
    digest = hashlib.sha256()
    raw: dict[str, Any] = {}
    for name in _TABLES:
        data = folder.joinpath(f"{name}.yaml").read_bytes()
        digest.update(name.encode() + b"\0" + data.replace(b"\r\n", b"\n"))
        raw[name] = yaml.load(data, Loader=yaml.CSafeLoader)
    additions = [_addition(row) for row in raw["additions"]["additions"]]
    additions += [_addition(row) for row in raw["colourants"]["colourants"]]
    return Pantry(
        oils={row["id"]: _oil(row) for row in raw["oils"]["oils"]},
        liquids={row["id"]: _liquid(row) for row in raw["liquids"]["liquids"]},
        additions={entry.id: entry for entry in additions},
        terms=tuple(Term(t["term"], t["meaning"]) for t in raw["glossary"]["terms"]),
        publications={key: row["title"] for key, row in raw["publications"]["publications"].items()},
        version=digest.hexdigest()[:10],
    )


def _sources(row: Mapping[str, Any]) -> Sources:
    return {
        group: Source(s["how"], s.get("publication"), s.get("where"))
        for group, s in (row.get("source") or {}).items()
    }


def _range(row: Mapping[str, float]) -> Range:
    return Range(float(row["typical"]), float(row["min"]), float(row["max"]))


def _oil(row: Mapping[str, Any]) -> Oil:
    unsaponifiable = row.get("unsaponifiable_pct") or {}
    density = row.get("density") or {}
    allergen = row.get("allergen")
    return Oil(
        id=row["id"],
        name=row["name"],
        kind=row["kind"],
        saponification_value=_range(row["saponification_value"]),
        iodine_value=_range(row["iodine_value"]) if row.get("iodine_value") else None,
        fatty_acids={key: part / 100.0 for key, part in (row.get("fatty_acids") or {}).items()},
        unsaponifiable=unsaponifiable.get("typical", 0.0) / 100.0,
        density=density.get("g_per_ml"),
        latin=row.get("latin"),
        inci=row.get("inci"),
        inci_sodium_soap=row.get("inci_sodium_soap"),
        inci_potassium_soap=row.get("inci_potassium_soap"),
        allergen=None if allergen == "none" else allergen,
        note=row.get("note"),
        source=_sources(row),
    )


def _liquid(row: Mapping[str, Any]) -> Liquid:
    return Liquid(
        id=row["id"],
        name=row["name"],
        water=row["water"],
        fat=row["fat"],
        sugar=row["sugar"],
        fat_value=row.get("fat_saponification_value", 190.0),
        density=row.get("density_g_per_ml"),
        latin=row.get("latin"),
        inci=row.get("inci"),
        hazards=tuple(row.get("hazards") or ()),
        note=row.get("note"),
        source=_sources(row),
    )


def _addition(row: Mapping[str, Any]) -> Addition:
    alkali = row.get("alkali")
    acid = alkali["acidic_groups"] * alkali["share"] / alkali["molar_mass_g_per_mol"] if alkali else 0.0
    usual = row.get("usual_g_per_kg_oils")
    kind = row["kind"]
    solid = not row.get("liquid", False)
    return Addition(
        id=row["id"],
        name=row["name"],
        kind=kind,
        acid=acid,
        water=float(row.get("water") or 0.0),
        density=row.get("density_g_per_ml"),
        displaces=DISPLACES.get(kind, 1.0) if solid else row.get("density_g_per_ml"),
        usual=(float(usual[0]), float(usual[1])) if usual else None,
        cap=row.get("cap_g_per_kg_oils"),
        stage=row["stage"],
        colour=_colour(row),
        latin=row.get("latin"),
        inci=row.get("inci"),
        ci=row.get("ci"),
        hazards=tuple(row.get("hazards") or ()),
        note=row.get("note"),
        source=_sources(row),
    )


def _colour(row: Mapping[str, Any]) -> Colour | None:
    if not row.get("fresh") or not row.get("cured"):
        return None
    return Colour(
        fresh=row["fresh"],
        cured=row["cured"],
        full_depth=row.get("full_depth_g_per_kg_oils"),
        lightfast=row.get("lightfast"),
        stays=bool(row.get("stays", True)),
        in_alkali=row.get("in_alkali"),
    )
