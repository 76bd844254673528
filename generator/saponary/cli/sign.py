"""`saponary sign NAME...`."""

from __future__ import annotations

import argparse
import difflib
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from saponary.assets.store import FOLDER, DiskStore
from saponary.book.classes import ClassFile
from saponary.build import sign
from saponary.build.proof import Proof, prove
from saponary.build.save import save
from saponary.build.signed_at import since_signed
from saponary.build.signing import Signing, message, signing, told
from saponary.cli.asked_book import proofed, scope, unsound
from saponary.cli.command import CLEAN, FOUND, Misuse, book_option
from saponary.cli.writing import again_if_saved, writing
from saponary.reading.findings import errors, suggest
from saponary.reading.findings_text import as_text
from saponary.reading.git import ask
from saponary.reading.textfile import TextFile


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "names", nargs="*", metavar="NAME", help="recipes or classes, by name or file (default: all)"
    )
    book_option(parser)
    parser.add_argument("--drafts", action="store_true", help="sign drafts too, where no recipe is named")
    parser.add_argument("--ask", action="store_true", help="ask of each file whether it is to be signed")
    parser.add_argument("--dry-run", action="store_true", help="show the difference and write nothing")


@dataclass
class _Done:
    """What is signed so far, by file, also by an earlier try: what kind of file it is, and of recipes what moved."""

    kinds: dict[str, str] = field(default_factory=dict[str, str])
    signed: dict[str, Signing] = field(default_factory=dict[str, Signing])


def run(given: argparse.Namespace) -> int:
    folder, meant = scope(given.names, given.book)
    done = _Done()
    if given.dry_run:
        return _sign(given, folder, meant, done)
    with writing(folder, "sign"):
        return again_if_saved(lambda: _sign(given, folder, meant, done))


def _sign(given: argparse.Namespace, folder: Path, meant: Mapping[str, set[str]], done: _Done) -> int:
    """Show what changes, file by file, and write it."""
    proof = proofed(folder)
    _all_known(meant, proof, folder)
    if unsound(proof, "signed"):
        return FOUND
    files = {file for may in meant.values() for file in may}
    stuck = False
    changes = list(sign.signed(proof, files, drafts=given.drafts))
    shown = {one.file: one for one in _signings(proof, changes, adds=bool(files) or given.drafts)}
    for file, new in changes:
        if new is None:
            stuck = True
            why = "its figures cannot be put in place; write them plainly, without escapes or broken lines"
            print(f"{file.file}: {why}; left as it was", file=sys.stderr)
            continue
        _show(file, new, shown.get(file.file))
        if given.ask and not _agreed(file.file):
            continue
        if not given.dry_run:
            save(folder / file.file, file.text, new)
        done.kinds[file.file] = "class" if isinstance(file, ClassFile) else "recipe"
        if file.file in shown:
            done.signed[file.file] = shown[file.file]
    _count(list(done.kinds.values()), "would be signed" if given.dry_run else "signed")
    _propose(folder, list(done.signed.values()))
    wrong = not given.dry_run and not given.ask and _still_wrong(folder, files)
    return FOUND if wrong or stuck else CLEAN


def _signings(
    proof: Proof, changes: Sequence[tuple[TextFile, str | None]], *, adds: bool
) -> Iterator[Signing]:
    """Of each recipe that changes, what moved its signed figures."""
    changing = {file.file for file, _ in changes}
    recipes = [one.computed for one in proof.recipes if one.computed.file.file in changing]
    root = proof.book.root
    since = since_signed(root, {one.file.file for one in recipes}, DiskStore(root / FOLDER))
    return (signing(one, since.get(one.file.file), adds=adds) for one in recipes)


def _all_known(meant: Mapping[str, set[str]], proof: Proof, folder: Path) -> None:
    known = {text.file: text.slug for text in (*proof.book.recipes, *proof.book.classes)}
    for word, may in meant.items():
        if not may & known.keys():
            hint = suggest(Path(word).stem, known.values(), "recipes and classes")
            raise Misuse(f"there is no recipe or class {word!r} in {str(folder)!r}; {hint}")


def _show(file: TextFile, new: str, one: Signing | None) -> None:
    """What moves, and the difference as lines."""
    if one is not None and one.moved:
        print("\n".join(told(one)))
    old = file.text.splitlines(keepends=True)
    sys.stdout.writelines(difflib.unified_diff(old, new.splitlines(keepends=True), file.file, file.file, n=0))
    sys.stdout.flush()


def _agreed(file: str) -> bool:
    """Whether the maker says yes; no answer is none."""
    print(f"sign {file}? [y/n] ", end="", flush=True)
    return sys.stdin.readline().strip().lower() in ("y", "yes")


def _count(changed: Sequence[str], word: str) -> None:
    recipes, lessons = changed.count("recipe"), changed.count("class")
    also = f" and {lessons} class{'es' * (lessons != 1)}" if lessons else ""
    print(f"{recipes} recipe{'s' * (recipes != 1)}{also} {word}")


def _propose(folder: Path, signed: Sequence[Signing]) -> None:
    """A message for the commit, where the book is kept in git and a signed figure moved."""
    if any(one.moved for one in signed) and ask(folder, "rev-parse", "--show-prefix") is not None:
        print("a message for the commit:")
        print("\n".join(f"    {line}".rstrip() for line in message(signed).splitlines()))


def _still_wrong(folder: Path, files: set[str]) -> bool:
    """Tell what errors are left in what was signed."""
    wrong = [f for f in errors(prove(folder).findings) if not files or f.place.file in files]
    if wrong:
        print(as_text(wrong), file=sys.stderr)
    return bool(wrong)
