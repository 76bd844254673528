"""`saponary compare [REV[..REV]] [RECIPE...]`."""

from __future__ import annotations

import argparse
from pathlib import Path

from saponary.cli.command import CLEAN, Misuse, book_option


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "words",
        nargs="*",
        metavar="REV[..REV] | RECIPE",
        help="a revision to compare this folder with, or two to compare with each other (default: HEAD); "
        "then recipes by name (default: all)",
    )
    book_option(parser)
    parser.add_argument("--format", choices=("text", "markdown", "json"), default="text")


def run(given: argparse.Namespace) -> int:
    # What reads and computes is imported for this command alone.
    from saponary.assets.store import FOLDER, DiskStore
    from saponary.build.compare import compared
    from saponary.build.compare_text import FORMATS
    from saponary.build.compared_side import Side
    from saponary.build.revisions import Unknown, pair, renamed
    from saponary.cli.is_asked import is_asked
    from saponary.reading.files import Folder
    from saponary.reading.findings import suggest
    from saponary.reading.git import Revision, objects

    root: Path = given.book or Path()
    is_asked(root)
    try:
        asked, names = pair(root, given.words)
    except Unknown as unknown:
        raise Misuse(str(unknown)) from unknown
    store = DiskStore(root / FOLDER)
    with objects(root) as held:
        assert held is not None
        before = Side(Revision(root, held, asked.old.id), store)
        after = Side(Revision(root, held, asked.new.id) if asked.new else Folder(root), store)
        known = {file.removesuffix(".md") for file in (*before.recipes, *after.recipes)}
        wanted = [Path(name).name.removesuffix(".md") for name in names]
        for name in wanted:
            if name not in known:
                hint = suggest(name, known, "recipes")
                raise Misuse(f"there is no revision and no recipe {name!r}; {hint}")
        found = compared(before, after, renamed(root, asked), frozenset(f"{name}.md" for name in wanted))
    print(FORMATS[given.format](found, asked))
    return CLEAN
