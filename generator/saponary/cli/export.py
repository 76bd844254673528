"""`saponary export FOLDER [RECIPE...]`."""

from __future__ import annotations

import argparse
import os
from collections.abc import Mapping
from pathlib import Path

from saponary.assets.disk import alone_in, clear_parts, put_new
from saponary.cli.command import CLEAN, FOUND, Misuse, book_option
from saponary.reading.findings import errors

_FIGURES = "figures.csv"


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path, help="where the tables go; none is written over")
    parser.add_argument("names", nargs="*", metavar="RECIPE", help="recipes by name or file (default: all)")
    book_option(parser)


def run(given: argparse.Namespace) -> int:
    # What reads and computes is imported for this command alone.
    from saponary.cli.asked_book import chosen, proofed, scope, unsound
    from saponary.outputs.weigh_csv import figures_table, weigh_sheet
    from saponary.reading.findings_text import as_text

    root, meant = scope(given.names, given.book)
    proof = proofed(root)
    if unsound(proof, "exported"):
        return FOUND
    asked = chosen(proof, meant)
    wrong = errors(f for one in asked for f in one.findings)
    if wrong:
        print(as_text(wrong))
        return FOUND
    computed = [one.computed for one in asked]
    files = {f"{one.slug}.csv": weigh_sheet(one) for one in computed} | {_FIGURES: figures_table(computed)}
    write(given.folder, {name: text.encode() for name, text in files.items()})
    print(f"{given.folder}: {len(computed)} weigh sheets and {_FIGURES}")
    return CLEAN


def write(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write all, or nothing where another is there already. What an export that was killed has written is not in the way."""
    if os.path.lexists(folder) and not folder.is_dir():
        raise Misuse(f"{folder} is there already; nothing was written")
    folder.mkdir(parents=True, exist_ok=True)
    with alone_in(folder):
        clear_parts(folder)
        lacking = {name: data for name, data in files.items() if not _is_there(folder / name, data)}
        if not lacking:
            raise Misuse(f"{folder / next(iter(files))} is there already; nothing was written")
        for name, data in lacking.items():
            try:
                put_new(folder / name, data)
            except FileExistsError as there:
                raise Misuse(
                    f"{folder / name} came to be there meanwhile, and was not written over"
                ) from there


def _is_there(path: Path, data: bytes) -> bool:
    """Whether a file is there as it is to be; Misuse where something else is."""
    if not os.path.lexists(path):
        return False
    if path.is_symlink() or not path.is_file() or path.read_bytes() != data:
        raise Misuse(f"{path} is there already; nothing was written")
    return True
