"""How a proof is told: as text, as JSON, as SARIF."""

from __future__ import annotations

from saponary.build.proof import Proof
from saponary.build.report import as_json, as_sarif
from saponary.checks import batch_days
from saponary.cli.command import CLEAN, FOUND
from saponary.cli.told_again import Telling
from saponary.reading.findings_text import as_text, summary


def tell(proof: Proof, form: str, telling: Telling, *, strict: bool) -> int:
    """Say what a proof found, as text, json or sarif; the exit status."""
    if form == "json":
        telling.out(as_json(proof))
    elif form == "sarif":
        telling.out(as_sarif(proof.findings))
    else:
        _tell_text(proof, telling)
    stops = proof.failed or (strict and bool(proof.findings))
    return FOUND if stops else CLEAN


def stands(proof: Proof) -> bool:
    """Whether the same would be told on another day: a day that is yet to come will be past then."""
    return not any(found.rule == batch_days.RULE.name for found in proof.findings)


def _tell_text(proof: Proof, telling: Telling) -> None:
    text = as_text(proof.findings)
    if text:
        telling.out(text)
    telling.out(summary(len(proof.recipes), proof.findings))
