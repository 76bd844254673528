"""`saponary record RECIPE`: records a batch."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path

from saponary.build.batch_record import CannotRecord, record
from saponary.cli.asked_book import proofed, scope, unsound
from saponary.cli.command import CLEAN, FOUND, Misuse, book_option, day, today
from saponary.cli.writing import again_if_saved, writing
from saponary.reading.findings import errors, suggest
from saponary.reading.findings_text import as_text


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("recipe", help="the recipe's name or file")
    book_option(parser)
    parser.add_argument("--lot", help="the lot's name (default: the next of the recipe's own run)")
    parser.add_argument(
        "--on", type=day, default=None, metavar="DATE", help="the day of the pour (default: today)"
    )
    parser.add_argument("--by", help="who makes it")


def run(given: argparse.Namespace) -> int:
    folder, meant = scope([given.recipe], given.book)
    with writing(folder, "record"):
        return again_if_saved(lambda: _record(given, folder, meant))


def _record(given: argparse.Namespace, folder: Path, meant: Mapping[str, set[str]]) -> int:
    proof = proofed(folder)
    if unsound(proof, "recorded"):
        return FOUND
    may = meant.get(given.recipe, set())
    one = next((r for r in proof.recipes if r.computed.file.file in may), None)
    if one is None:
        hint = suggest(Path(given.recipe).stem, [r.computed.file.slug for r in proof.recipes], "recipes")
        raise Misuse(f"there is no recipe {given.recipe!r} that can be computed; {hint}")
    wrong = errors(one.findings)
    if wrong:
        print(as_text(wrong))
        print("a recipe with errors cannot be recorded; nothing was written", file=sys.stderr)
        return FOUND
    try:
        path, block = record(folder, proof.book.batches, one, given.lot, given.on or today(), given.by)
    except CannotRecord as cannot:
        raise Misuse(str(cannot)) from cannot
    print(f"{path}:\n{block}")
    return CLEAN
