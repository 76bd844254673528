"""`saponary proof BOOK`."""

from __future__ import annotations

import argparse

from saponary.build.proof import Proof
from saponary.build.report import as_json, as_sarif, as_text
from saponary.cli.asked_book import proofed
from saponary.cli.command import CLEAN, FOUND, book_argument, telling_options


def arguments(parser: argparse.ArgumentParser) -> None:
    book_argument(parser)
    telling_options(parser)


def run(given: argparse.Namespace) -> int:
    return tell(proofed(given.book), given.format, strict=given.strict)


def tell(proof: Proof, form: str, *, strict: bool) -> int:
    """Print what a proof found, as text, json or sarif; the exit status."""
    if form == "json":
        print(as_json(proof))
    elif form == "sarif":
        print(as_sarif(proof.findings))
    else:
        _tell_text(proof)
    stops = proof.failed or (strict and bool(proof.findings))
    return FOUND if stops else CLEAN


def _tell_text(proof: Proof) -> None:
    text = as_text(proof.findings)
    if text:
        print(text)
    errors = sum(f.severity == "error" for f in proof.findings)
    warnings = len(proof.findings) - errors
    print(
        f"{_counted(len(proof.recipes), 'recipe')} recomputed, "
        f"{_counted(errors, 'error')}, {_counted(warnings, 'warning')}"
    )


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'s' * (count != 1)}"
