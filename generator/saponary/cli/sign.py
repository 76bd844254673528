"""`saponary sign NAME...`."""

from __future__ import annotations

import argparse
import difflib
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from saponary.book.classes import ClassFile
from saponary.build import sign
from saponary.build.proof import Proof, prove
from saponary.build.save import save
from saponary.cli.asked_book import proofed, scope
from saponary.cli.command import CLEAN, FOUND, Misuse, book_option
from saponary.cli.writing import again_if_saved, writing
from saponary.reading.findings import suggest
from saponary.reading.findings_text import as_text
from saponary.reading.textfile import TextFile


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "names", nargs="*", metavar="NAME", help="recipes or classes, by name or file (default: all)"
    )
    book_option(parser)
    parser.add_argument("--drafts", action="store_true", help="sign drafts too, where no recipe is named")
    parser.add_argument("--dry-run", action="store_true", help="show the difference and write nothing")


def run(given: argparse.Namespace) -> int:
    folder, meant = scope(given.names, given.book)
    if given.dry_run:
        return _sign(given, folder, meant, {})
    told: dict[str, str] = {}
    with writing(folder, "sign"):
        return again_if_saved(lambda: _sign(given, folder, meant, told))


def _sign(
    given: argparse.Namespace, folder: Path, meant: Mapping[str, set[str]], told: dict[str, str]
) -> int:
    """Write what has changed; `told` holds by file what kind it is, also of what an earlier try has written."""
    proof = proofed(folder)
    _all_known(meant, proof, folder)
    files = {file for may in meant.values() for file in may}
    stuck = False
    for file, new in sign.signed(proof, files, drafts=given.drafts):
        if new is None:
            stuck = True
            why = "its figures cannot be put in place; write them plainly, without escapes or broken lines"
            print(f"{file.file}: {why}; left as it was", file=sys.stderr)
            continue
        if not given.dry_run:
            save(folder / file.file, file.text, new)
        told[file.file] = "class" if isinstance(file, ClassFile) else "recipe"
        _show(file, new)
    _count(list(told.values()), "would be signed" if given.dry_run else "signed")
    wrong = not given.dry_run and _still_wrong(folder, files)
    return FOUND if wrong or stuck else CLEAN


def _all_known(meant: Mapping[str, set[str]], proof: Proof, folder: Path) -> None:
    known = {text.file: text.slug for text in (*proof.book.recipes, *proof.book.classes)}
    for word, may in meant.items():
        if not may & known.keys():
            hint = suggest(Path(word).stem, known.values(), "recipes and classes")
            raise Misuse(f"there is no recipe or class {word!r} in {str(folder)!r}; {hint}")


def _show(file: TextFile, new: str) -> None:
    """The difference, as lines."""
    old = file.text.splitlines(keepends=True)
    sys.stdout.writelines(difflib.unified_diff(old, new.splitlines(keepends=True), file.file, file.file, n=0))


def _count(changed: Sequence[str], word: str) -> None:
    recipes, lessons = changed.count("recipe"), changed.count("class")
    also = f" and {lessons} class{'es' * (lessons != 1)}" if lessons else ""
    print(f"{recipes} recipe{'s' * (recipes != 1)}{also} {word}")


def _still_wrong(folder: Path, files: set[str]) -> bool:
    """Tell what errors are left in what was signed."""
    wrong = [
        f for f in prove(folder).findings if f.severity == "error" and (not files or f.place.file in files)
    ]
    if wrong:
        print(as_text(wrong), file=sys.stderr)
    return bool(wrong)
