"""Figures for programs: stable keys that name their unit, numbers to nine figures."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from saponary.book.computed import Computed
from saponary.book.published import Published
from saponary.book.status import Status
from saponary.lye.figures import Figures
from saponary.lye.portions import PortionFigures
from saponary.outputs import rests_on
from saponary.outputs.rows import Rows, TextRows
from saponary.quantity.rounding import told
from saponary.reading.plain import is_map, is_row
from saponary.views import links
from saponary.views.at_class import left_blank
from saponary.views.site import SiteInput


def figures_rows(site: SiteInput, rows: Rows) -> TextRows:
    """Of each recipe what it is called, and where its figures lie."""
    return rows.of("figures", site.recipes, rests_on.Rests((), rests_on.ROW.own), _row)


def figures_index(site: SiteInput, rows: Iterable[str]) -> str:
    """What an edition publishes of its book as JSON: its recipes, and where the figures of each lie."""
    return as_text({**_book(site), "recipes": [json.loads(row) for row in rows]})


def _row(recipe: Published) -> str:
    return json.dumps(_named(recipe) | {"address": links.figures(recipe.slug)}, ensure_ascii=False)


def as_text(found: dict[str, Any]) -> str:
    """JSON as a book publishes it."""
    return json.dumps(found, ensure_ascii=False, indent=1, allow_nan=False)


def site_object(site: SiteInput) -> dict[str, Any]:
    """An edition's own recipes, without findings, and their figures only where it gives the formula in full."""
    return {**_book(site), "recipes": [published_object(one, site) for one in site.recipes]}


def _book(site: SiteInput) -> dict[str, str]:
    return {"book": site.book.settings.title, "engine": site.engine, "tables": site.tables}


def _named(recipe: Published) -> dict[str, str]:
    return {"slug": recipe.slug, "title": recipe.model.title, "status": recipe.status.name}


def published_object(recipe: Published, site: SiteInput) -> dict[str, Any]:
    """One recipe of an edition; without its figures where students are to work some of them out."""
    if site.edition.formula == "full" and not left_blank(recipe, site):
        return recipe_object(recipe, recipe.status)
    return dict[str, Any](_named(recipe))


def recipe_object(computed: Computed | Published, status: Status) -> dict[str, Any]:
    return {
        "slug": computed.slug,
        "title": computed.model.title,
        "status": status.name,
        "fingerprint": computed.fingerprint,
        "figures": _told(figures_object(computed.figures)),
    }


def _told(value: object) -> object:
    """Plain data with its numbers rounded by the one rule."""
    if isinstance(value, float):
        return told(value)
    if is_map(value):
        return {key: _told(part) for key, part in value.items()}
    return [_told(part) for part in value] if is_row(value) else value


def figures_object(f: Figures) -> dict[str, Any]:
    """All figures: grams, millilitres, per cent, as the key's ending says.

    No superfat where `superfat_not_known_for` names what binds or brings an unknown amount of alkali. Nothing of
    lye or oils where `lye_weighed` is false: soap of earlier lots is melted.
    """
    if f.oils <= 0:
        return {"lye_weighed": False, **_made(f), "portions": [_made_portion(p) for p in f.portions]}
    return {
        "lye_weighed": True,
        "oils_g": f.oils,
        "sodium_hydroxide_g": f.weights.sodium_hydroxide,
        "potassium_hydroxide_g": f.weights.potassium_hydroxide,
        "water_g": f.water.total,
        "plain_water_g": f.water.plain,
        "liquids_water_g": f.water.liquids,
        "additions_water_g": f.water.additions,
        "liquids_fat_g": f.liquids_fat,
        "lye_strength_percent": 100 * f.lye_strength,
        "lye_strength_dissolved_percent": 100 * f.lye_strength_dissolved,
        "water_to_lye": f.water_to_lye,
        "water_of_oils_percent": 100 * f.water_of_oils,
        "superfat_known": f.superfat_known,
        **(_superfat(f) if f.superfat_known else {"superfat_not_known_for": list(f.unknown)}),
        "saponification_value_mg_per_g": f.chemistry.saponification_value,
        "iodine_value_g_per_100g": f.chemistry.iodine_value,
        "fatty_acids_percent": {key: 100 * part for key, part in f.chemistry.fatty_acids.items()},
        "fatty_acid_groups_percent": {key: 100 * part for key, part in f.chemistry.groups.items()},
        **_made(f),
        "glycerol_g": f.balance.glycerol,
        "soap_g": f.balance.soap,
        "unsaponified_oil_g": f.balance.oil_left,
        "water_formed_g": f.balance.water_formed,
        "portions": [_portion(p) for p in f.portions],
    }


def _made(f: Figures) -> dict[str, Any]:
    return {"batter_g": f.batter, "batter_ml": f.batter_ml, "placed_g": f.placed}


def _superfat(f: Figures) -> dict[str, Any]:
    likely, worst = f.bands.likely, f.bands.worst
    return {
        "superfat_percent": 100 * f.superfat,
        "superfat_as_weighed_percent": 100 * f.superfat_as_weighed,
        "superfat_with_liquids_fat_percent": 100 * f.superfat_with_liquids_fat,
        "superfat_likely_percent": [100 * likely.low, 100 * likely.high],
        "superfat_worst_percent": [100 * worst.low, 100 * worst.high],
    }


def _portion(p: PortionFigures) -> dict[str, Any]:
    return {
        **_made_portion(p),
        "oils_g": p.oils_grams,
        "sodium_hydroxide_g": p.weights.sodium_hydroxide,
        "potassium_hydroxide_g": p.weights.potassium_hydroxide,
        "water_g": p.water,
        "plain_water_g": p.plain_water,
        "lye_solution_g": p.lye_solution,
    }


def _made_portion(p: PortionFigures) -> dict[str, Any]:
    """A portion as far as no lye is in it."""
    return {
        "name": p.name,
        "share_percent": 100 * p.share,
        "additions": [{"what": a.id, "grams": a.grams} for a in p.additions],
        "liquids": [{"what": q.id, "grams": q.grams} for q in p.liquids],
        "batter_g": p.batter,
        "batter_ml": p.batter_ml,
    }
