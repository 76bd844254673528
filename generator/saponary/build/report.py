"""How findings, and figures with them, leave the tool: as JSON, as SARIF 2.1.0."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any
from urllib.parse import quote

from saponary import __version__
from saponary.book.engine import ENGINE
from saponary.build.proof import Proof
from saponary.checks.rules import RULES
from saponary.outputs.figures_json import as_text, recipe_object
from saponary.reading.findings import Finding


def as_json(proof: Proof) -> str:
    """The whole book as one object; keys are stable, figures to nine places, the unit at the end."""
    return as_text(
        {
            "book": proof.book.settings.title,
            "engine": ENGINE,
            "tables": proof.book.pantry.version,
            "recipes": [recipe_object(one.computed, one.status) for one in proof.recipes],
            "findings": [finding_object(f) for f in proof.findings],
        }
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
