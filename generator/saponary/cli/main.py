"""The command line: begin, proof, build, restate, pour, schema, rules.

Exit 0 when clean, 1 when there are findings that stop, 2 when asked for something that
cannot be done.
"""

from __future__ import annotations

import argparse
import difflib
import json
import os
import sys
import time
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime
from pathlib import Path

from pydantic import BaseModel

from saponary import __version__
from saponary.book.classes import ClassFile, ClassPlan
from saponary.book.library import is_book, read_book
from saponary.build import restate
from saponary.build.batch_record import CannotRecord, pour
from saponary.build.begin import Occupied, begin
from saponary.build.proof import Proof, prove
from saponary.build.report import as_json, as_sarif, as_text
from saponary.checks import RULES
from saponary.cli.pantry_lines import GROUPS
from saponary.outputs.pdfs import KINDS
from saponary.pantry.standard import standard
from saponary.reading.findings import Finding, suggest
from saponary.schema.edition import OPEN, Edition, editions
from saponary.schema.pantry import PantryFile
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings

CLEAN, FOUND, MISUSE = 0, 1, 2


class Misuse(Exception):
    """Something was asked for that cannot be done; the message says what to do instead."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    parser = _parser()
    try:
        asked = parser.parse_args(argv)
    except SystemExit as stop:
        return int(stop.code or 0)
    run: Callable[[argparse.Namespace], int] = asked.run
    try:
        return run(asked)
    except Misuse as misuse:
        print(f"saponary: {misuse}", file=sys.stderr)
        return MISUSE
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return CLEAN
    except OSError as error:
        print(f"saponary: {error.filename or 'disk'}: {error.strerror or error}", file=sys.stderr)
        return MISUSE
    except KeyboardInterrupt:
        print("saponary: stopped; nothing was changed", file=sys.stderr)
        return 130


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="saponary",
        description="A soap maker's recipe book whose numbers are recomputed at every build.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"saponary {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(name: str, run: Callable[[argparse.Namespace], int], about: str) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=about, description=about, allow_abbrev=False)
        made.set_defaults(run=run)
        return made

    new = command("begin", _begin, "start a new book from the starter recipes")
    new.add_argument("folder", type=Path)
    for name, run, about in (
        ("proof", _proof, "recompute and check every recipe; write nothing"),
        ("build", _build, "proof the book and write its site"),
    ):
        made = command(name, run, about)
        made.add_argument(
            "book", type=Path, nargs="?", default=Path(), help="the book's folder (default: this one)"
        )
        made.add_argument("--strict", action="store_true", help="let warnings stop too")
        made.add_argument("--format", choices=("text", "json", "sarif"), default="text")
        if name == "build":
            made.add_argument(
                "--on",
                type=_day,
                default=None,
                metavar="DATE",
                help="the day the site speaks of (default: SOURCE_DATE_EPOCH, else today)",
            )
            made.add_argument(
                "--edition", action="append", default=[], metavar="NAME",
                help="an edition by name, or `all` (default: the open one, and those book.yaml lists under build)",
            )  # fmt: skip
            made.add_argument(
                "--press",
                action="store_true",
                help="also make PDFs: the kinds book.yaml lists under press, else all",
            )
    again = command(
        "restate", _restate, "write today's figures where recipes and classes state or quote them"
    )
    again.add_argument(
        "names", nargs="*", metavar="NAME", help="recipes or classes, by name or file (default: all)"
    )
    again.add_argument("--book", type=Path, default=None, help="the book's folder (default: this one)")
    again.add_argument(
        "--sign", action="store_true", help="also state the figures of drafts, or what a statement lacks"
    )
    again.add_argument("--dry-run", action="store_true", help="show the difference and write nothing")
    made = command("pour", _pour, "record a batch with today's fingerprint, its weights to be filled in")
    made.add_argument("recipe", help="the recipe's name or file")
    made.add_argument("--book", type=Path, default=None, help="the book's folder (default: this one)")
    made.add_argument("--lot", help="the lot's name (default: the next of the recipe's own run)")
    made.add_argument(
        "--on", type=_day, default=None, metavar="DATE", help="the day of the pour (default: today)"
    )
    made.add_argument("--by", help="who pours")
    plan = command("schema", _schema, "print the JSON Schema of a recipe's front matter")
    plan.add_argument("part", nargs="?", choices=("recipe", "book", "pantry", "class"), default="recipe")
    shelf = command("pantry", _pantry, "list what a recipe may name, with the names to write")
    shelf.add_argument("group", nargs="?", choices=tuple(GROUPS), help="one part of it (default: all)")
    shelf.add_argument("--book", type=Path, default=None, help="the book whose own pantry counts too")
    listed = command("rules", _rules, "say what the rules are for")
    listed.add_argument("rule", nargs="?", help="one rule's name")
    return parser


def _prove(folder: Path) -> Proof:
    if not folder.is_dir():
        raise Misuse(f"there is no folder {str(folder)!r}")
    if not is_book(folder):
        raise Misuse(
            f"{str(folder)!r} is no book: it has neither recipes/ nor book.yaml (saponary begin FOLDER starts one)"
        )
    return prove(folder)


def _begin(asked: argparse.Namespace) -> int:
    try:
        written = begin(asked.folder)
    except Occupied as occupied:
        raise Misuse(f"{occupied} is there already; nothing was written") from occupied
    print(f"{asked.folder}: a new book of {sum(p.suffix == '.md' for p in written)} recipes")
    print(f"next: saponary build {asked.folder}")
    return CLEAN


def _tell(proof: Proof, asked: argparse.Namespace) -> int:
    if asked.format == "json":
        print(as_json(proof))
    elif asked.format == "sarif":
        print(as_sarif(proof.findings))
    else:
        _tell_text(proof.findings, proof)
    stops = proof.failed or (asked.strict and bool(proof.findings))
    return FOUND if stops else CLEAN


def _tell_text(findings: Sequence[Finding], proof: Proof) -> None:
    text = as_text(findings)
    if text:
        print(text)
    errors = sum(f.severity == "error" for f in findings)
    count = len(proof.recipes)
    print(
        f"{count} recipe{'s' * (count != 1)} recomputed, {errors} error{'s' * (errors != 1)}, "
        f"{len(findings) - errors} warning{'s' * (len(findings) - errors != 1)}"
    )


def _proof(asked: argparse.Namespace) -> int:
    return _tell(_prove(asked.book), asked)


def _build(asked: argparse.Namespace) -> int:
    proof = _prove(asked.book)
    status = _tell(proof, asked)
    if status != CLEAN:
        print("nothing was written", file=sys.stderr)
        return status
    from saponary.build.site import Stopped, build
    from saponary.outputs.pdf_engine import PressMissing

    try:
        wanted = _editions(asked, proof)
        done = build(proof, asked.on or _today(), wanted, _press(asked, proof), _progress)
    except PressMissing as missing:
        raise Misuse(str(missing)) from missing
    except Stopped as stopped:
        print(as_text(stopped.findings))
        print("nothing was written", file=sys.stderr)
        return FOUND
    out = sys.stdout if asked.format == "text" else sys.stderr
    print(f"{done.site}: {done.recipes} recipes, {done.files} files", file=out)
    for edition in wanted:
        page = done.site / ("" if edition.is_open else edition.name) / "index.html"
        alone = ", for the maker alone: keep it off the web" if "private" in edition.shows else ""
        print(f"{edition.name}: {page.resolve().as_uri()}{alone}", file=out)
    return CLEAN


def _progress(done: int, whole: int) -> None:
    """How far the PDFs are, on a terminal alone."""
    if sys.stderr.isatty():
        print(f"\r{done} of {whole} PDFs", end="\n" if done == whole else "", file=sys.stderr, flush=True)


def _editions(asked: argparse.Namespace, proof: Proof) -> list[Edition]:
    """The editions asked for, each once."""
    settings = proof.book.settings
    known = editions(settings.editions)
    names = asked.edition or [OPEN, *settings.build]
    names = list(known) if "all" in names else list(dict.fromkeys(names))
    for name in names:
        if name not in known:
            raise Misuse(f"there is no edition {name!r}; {suggest(name, known, 'editions')}")
    return [known[name] for name in names]


def _press(asked: argparse.Namespace, proof: Proof) -> list[str] | None:
    """The kinds of PDF to make; None for none. A book that lists kinds has them made always."""
    wanted = list(proof.book.settings.press)
    known = {kind.name for kind in KINDS}
    for name in wanted:
        if name not in known:
            raise Misuse(
                f"book.yaml: there is no kind of PDF {name!r}; {suggest(name, known, 'kinds of PDF')}"
            )
    return wanted if wanted or asked.press else None


def _restate(asked: argparse.Namespace) -> int:
    folder, meant = _scope(asked.names, asked.book)
    proof = _prove(folder)
    known = {text.file: text.slug for text in (*proof.book.recipes, *proof.book.classes)}
    for word, may in meant.items():
        if not may & known.keys():
            hint = suggest(Path(word).stem, known.values(), "recipes and classes")
            raise Misuse(f"there is no recipe or class {word!r} in {str(folder)!r}; {hint}")
    files = {file for may in meant.values() for file in may}
    changed = {"recipe": 0, "class": 0}
    stuck = False
    for file, new in restate.restated(proof, files, sign=asked.sign):
        if new is None:
            stuck = True
            why = "its figures cannot be put in place; write them plainly, without escapes or broken lines"
            print(f"{file.file}: {why}; left as it was", file=sys.stderr)
            continue
        changed["class" if isinstance(file, ClassFile) else "recipe"] += 1
        old = file.text.splitlines(keepends=True)
        sys.stdout.writelines(
            difflib.unified_diff(old, new.splitlines(keepends=True), file.file, file.file, n=0)
        )
        if not asked.dry_run:
            restate.write(folder / file.file, new)
    word = "would be restated" if asked.dry_run else "restated"
    recipes, lessons = changed["recipe"], changed["class"]
    also = f" and {lessons} class{'es' * (lessons != 1)}" if lessons else ""
    print(f"{recipes} recipe{'s' * (recipes != 1)}{also} {word}")
    if asked.dry_run:
        return FOUND if stuck else CLEAN
    wrong = [
        f for f in prove(folder).findings if f.severity == "error" and (not files or f.place.file in files)
    ]
    if wrong:
        print(as_text(wrong), file=sys.stderr)
    return FOUND if wrong or stuck else CLEAN


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date; write it as 2026-03-02") from None


def _today() -> date:
    """Today, or the day of SOURCE_DATE_EPOCH where that is set, in UTC."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    return datetime.fromtimestamp(int(epoch) if epoch.isdigit() else time.time(), tz=UTC).date()


def _pour(asked: argparse.Namespace) -> int:
    folder, meant = _scope([asked.recipe], asked.book)
    proof = _prove(folder)
    may = meant.get(asked.recipe, set())
    one = next((r for r in proof.recipes if r.computed.file.file in may), None)
    if one is None:
        hint = suggest(Path(asked.recipe).stem, [r.computed.file.slug for r in proof.recipes], "recipes")
        raise Misuse(f"there is no recipe {asked.recipe!r} that can be computed; {hint}")
    wrong = [f for f in one.findings if f.severity == "error"]
    if wrong:
        print(as_text(wrong))
        print("a recipe with errors is not poured; nothing was written", file=sys.stderr)
        return FOUND
    try:
        path, block = pour(folder, proof.book.batches, one, asked.lot, asked.on or _today(), asked.by)
    except CannotRecord as cannot:
        raise Misuse(str(cannot)) from cannot
    print(f"{path}:\n{block}")
    return CLEAN


def _scope(words: Sequence[str], book: Path | None) -> tuple[Path, dict[str, set[str]]]:
    """The book, and by each word the files that it may mean; a path to a file names its book too."""
    folder = book
    meant: dict[str, set[str]] = {}
    for word in words:
        path = Path(word)
        if path.suffix == ".md" and path.is_file():
            home = path.resolve().parent
            if folder is not None and folder.resolve() != home.parent:
                raise Misuse(f"{word} does not belong to the book {str(folder)!r}")
            folder = home.parent
            meant[word] = {f"{home.name}/{path.name}"}
        elif path.is_dir() and is_book(path) and len(words) == 1 and folder is None:
            folder = path
        else:
            stem = word.removesuffix(".md")
            meant[word] = {f"{home}/{stem}.md" for home in ("recipes", "classes")}
    return folder or Path(), meant


def _schema(asked: argparse.Namespace) -> int:
    models: dict[str, type[BaseModel]] = {
        "recipe": Recipe,
        "book": Settings,
        "pantry": PantryFile,
        "class": ClassPlan,
    }
    model = models[asked.part]
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **model.model_json_schema(by_alias=True),
    }
    print(json.dumps(schema, indent=1, ensure_ascii=False))
    return CLEAN


def _pantry(asked: argparse.Namespace) -> int:
    folder = asked.book or Path()
    if asked.book is not None and not is_book(folder):
        raise Misuse(f"{str(folder)!r} is no book: it has neither recipes/ nor book.yaml")
    held = read_book(folder).pantry if is_book(folder) else standard()
    for group in (asked.group,) if asked.group else GROUPS:
        lines = GROUPS[group](held)
        if lines:
            print("\n".join(lines if asked.group else [f"{group}:", *(f"  {line}" for line in lines)]))
    return CLEAN


def _rules(asked: argparse.Namespace) -> int:
    known = {rule.name: rule for rule in RULES}
    if asked.rule is not None and asked.rule not in known:
        raise Misuse(f"there is no rule {asked.rule!r}; {suggest(asked.rule, known, 'rules')}")
    for rule in known.values() if asked.rule is None else (known[asked.rule],):
        waiver = "can be waived with a reason" if rule.waivable else "cannot be waived"
        print(f"{rule.name} ({rule.family}; {waiver})\n    {rule.about}")
    return CLEAN


if __name__ == "__main__":
    sys.exit(main())
