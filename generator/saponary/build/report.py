"""How findings and figures leave the tool: as text, as JSON, as SARIF 2.1.0."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any
from urllib.parse import quote

from saponary import __version__
from saponary.build.proof import Proof, Proofed
from saponary.checks import RULES
from saponary.lye.figures import ENGINE_VERSION, Figures
from saponary.lye.portions import PortionFigures
from saponary.reading.findings import Finding

ENGINE = f"{__version__}+{ENGINE_VERSION}"


def as_text(findings: Iterable[Finding]) -> str:
    """One finding a line, `file:line:column: severity [rule] message`, its hint below."""
    lines: list[str] = []
    for f in findings:
        lines.append(_one_line(f"{f.place}: {f.severity} [{f.rule}] {f.message}"))
        if f.hint:
            lines.append(f"    {_one_line(f.hint)}")
    return "\n".join(lines)


def _one_line(text: str) -> str:
    """Text from a maker's file, safe for a terminal: control characters as escapes."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


def as_json(proof: Proof) -> str:
    """The whole book as one object; keys are stable, figures unrounded, the unit at the end."""
    return json.dumps(
        {
            "book": proof.book.settings.title,
            "engine": ENGINE,
            "tables": proof.book.pantry.version,
            "recipes": [recipe_object(one) for one in proof.recipes],
            "findings": [finding_object(f) for f in proof.findings],
        },
        ensure_ascii=False,
        indent=1,
        allow_nan=False,
    )


def site_json(proof: Proof, slugs: Sequence[str], *, full: bool) -> str:
    """What an edition publishes for programs: its own recipes, without findings, and their figures
    only where it gives the formula in full.
    """
    return json.dumps(
        {
            "book": proof.book.settings.title,
            "engine": ENGINE,
            "tables": proof.book.pantry.version,
            "recipes": [
                recipe_object(one) if full else _named(one)
                for one in proof.recipes
                if one.computed.file.slug in slugs
            ],
        },
        ensure_ascii=False,
        indent=1,
        allow_nan=False,
    )


def finding_object(f: Finding) -> dict[str, Any]:
    return {
        "rule": f.rule,
        "severity": f.severity,
        "file": f.place.file,
        "line": f.place.line,
        "column": f.place.column,
        "message": f.message,
        "hint": f.hint,
    }


def _named(one: Proofed) -> dict[str, Any]:
    return {"slug": one.computed.file.slug, "title": one.computed.model.title, "status": one.status.name}


def recipe_object(one: Proofed) -> dict[str, Any]:
    return {
        "slug": one.computed.file.slug,
        "title": one.computed.model.title,
        "status": one.status.name,
        "fingerprint": one.computed.fingerprint,
        "figures": figures_object(one.computed.figures),
    }


def figures_object(f: Figures) -> dict[str, Any]:
    """All figures: grams, millilitres, per cent, as the key's ending says."""
    likely, worst = f.bands.likely, f.bands.worst
    return {
        "oils_g": f.oils,
        "sodium_hydroxide_g": f.weights.sodium_hydroxide,
        "potassium_hydroxide_g": f.weights.potassium_hydroxide,
        "water_g": f.water.total,
        "plain_water_g": f.water.plain,
        "liquids_water_g": f.water.liquids,
        "liquids_fat_g": f.liquids_fat,
        "lye_strength_percent": 100 * f.lye_strength,
        "lye_strength_dissolved_percent": 100 * f.lye_strength_dissolved,
        "water_to_lye": f.water_to_lye,
        "water_of_oils_percent": 100 * f.water_of_oils,
        "superfat_percent": 100 * f.superfat,
        "superfat_as_weighed_percent": 100 * f.superfat_as_weighed,
        "superfat_with_liquids_fat_percent": 100 * f.superfat_with_liquids_fat,
        "superfat_likely_percent": [100 * likely.low, 100 * likely.high],
        "superfat_worst_percent": [100 * worst.low, 100 * worst.high],
        "saponification_value_mg_per_g": f.chemistry.saponification_value,
        "iodine_value_g_per_100g": f.chemistry.iodine_value,
        "fatty_acids_percent": {key: 100 * part for key, part in f.chemistry.fatty_acids.items()},
        "fatty_acid_groups_percent": {key: 100 * part for key, part in f.chemistry.groups.items()},
        "batter_g": f.batter,
        "batter_ml": f.batter_ml,
        "placed_g": f.placed,
        "glycerol_g": f.balance.glycerol,
        "soap_g": f.balance.soap,
        "unsaponified_oil_g": f.balance.oil_left,
        "water_formed_g": f.balance.water_formed,
        "portions": [_portion(p) for p in f.portions],
    }


def _portion(p: PortionFigures) -> dict[str, Any]:
    return {
        "name": p.name,
        "share_percent": 100 * p.share,
        "oils_g": p.oils_grams,
        "sodium_hydroxide_g": p.weights.sodium_hydroxide,
        "potassium_hydroxide_g": p.weights.potassium_hydroxide,
        "water_g": p.water,
        "plain_water_g": p.plain_water,
        "lye_solution_g": p.lye_solution,
        "additions": [{"what": a.id, "grams": a.grams} for a in p.additions],
        "liquids": [{"what": q.id, "grams": q.grams} for q in p.liquids],
        "batter_g": p.batter,
        "batter_ml": p.batter_ml,
    }


def as_sarif(findings: Iterable[Finding]) -> str:
    """The open Static Analysis Results Interchange Format, so that a code host shows the line."""
    return json.dumps(
        {
            "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json",
            "version": "2.1.0",
            "runs": [
                {
                    "tool": {
                        "driver": {
                            "name": "saponary",
                            "version": __version__,
                            "rules": [{"id": r.name, "shortDescription": {"text": r.about}} for r in RULES],
                        }
                    },
                    "columnKind": "unicodeCodePoints",
                    "results": [_sarif_result(f) for f in findings],
                }
            ],
        },
        ensure_ascii=False,
        indent=1,
    )


def _sarif_result(f: Finding) -> dict[str, Any]:
    return {
        "ruleId": f.rule,
        "level": f.severity,
        "message": {"text": f"{f.message}. {f.hint}" if f.hint else f.message},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": quote(f.place.file)},
                    "region": {"startLine": f.place.line, "startColumn": f.place.column},
                }
            }
        ],
    }
