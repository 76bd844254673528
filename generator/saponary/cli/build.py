"""`saponary build BOOK`."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from saponary.build.proof import Proof
from saponary.build.report import as_text
from saponary.cli.asked_book import proofed
from saponary.cli.command import CLEAN, FOUND, Misuse, book_argument, day, telling_options, today
from saponary.cli.proof import tell
from saponary.reading.findings import suggest
from saponary.schema.edition import OPEN, Edition, editions


def arguments(parser: argparse.ArgumentParser) -> None:
    book_argument(parser)
    telling_options(parser)
    parser.add_argument(
        "--on",
        type=day,
        default=None,
        metavar="DATE",
        help="the day the site speaks of (default: SOURCE_DATE_EPOCH, else today)",
    )
    parser.add_argument(
        "--edition",
        action="append",
        default=[],
        metavar="NAME",
        help="an edition by name, or `all` (default: the open one, and those book.yaml lists under build)",
    )
    parser.add_argument(
        "--press",
        action="store_true",
        help="also make PDFs: the kinds book.yaml lists under press, else all",
    )


def run(given: argparse.Namespace) -> int:
    proof = proofed(given.book)
    status = tell(proof, given.format, strict=given.strict)
    if status != CLEAN:
        print("nothing was written", file=sys.stderr)
        return status
    # The drawing libraries are behind these; a book with errors is told of them without waiting.
    from saponary.build.site import Stopped, build
    from saponary.outputs.pdf_engine import PressMissing

    wanted = _editions(given.edition, proof)
    try:
        done = build(proof, given.on or today(), wanted, _press(given.press, proof), _progress)
    except PressMissing as missing:
        raise Misuse(str(missing)) from missing
    except Stopped as stopped:
        print(as_text(stopped.findings))
        print("nothing was written", file=sys.stderr)
        return FOUND
    out = sys.stdout if given.format == "text" else sys.stderr
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


def _editions(asked: Sequence[str], proof: Proof) -> list[Edition]:
    """The editions asked for, each once."""
    settings = proof.book.settings
    known = editions(settings.editions)
    names = list(asked) or [OPEN, *settings.build]
    names = list(known) if "all" in names else list(dict.fromkeys(names))
    for name in names:
        if name not in known:
            raise Misuse(f"there is no edition {name!r}; {suggest(name, known, 'editions')}")
    return [known[name] for name in names]


def _press(asked: bool, proof: Proof) -> list[str] | None:
    """The kinds of PDF to make; None for none. A book that lists kinds has them made always."""
    from saponary.outputs.pdfs import KINDS

    wanted = list(proof.book.settings.press)
    known = {kind.name for kind in KINDS}
    for name in wanted:
        if name not in known:
            raise Misuse(
                f"book.yaml: there is no kind of PDF {name!r}; {suggest(name, known, 'kinds of PDF')}"
            )
    return wanted if wanted or asked else None
