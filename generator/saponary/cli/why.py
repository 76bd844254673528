"""`saponary build --why PATH`: what a page rests on, and why it would be made again."""

from __future__ import annotations

import argparse
import sys
from datetime import date
from pathlib import Path

from saponary.build.put_editions import PRIVATE, SITE
from saponary.build.site import explain
from saponary.cli.asked_book import proofed
from saponary.cli.command import CLEAN, FOUND, Misuse
from saponary.cli.tell import tell
from saponary.cli.told_again import Telling
from saponary.schema.edition import Edition, editions


def say_why(given: argparse.Namespace, on: date) -> int:
    """Print it. A book with errors is told of them instead, for it has no pages."""
    proof = proofed(given.book)
    if proof.failed:
        status = tell(proof, given.format, Telling(), strict=given.strict)
        print("a book with errors has no pages", file=sys.stderr)
        return max(status, FOUND)
    edition, path = _page(given.book, given.why, editions(proof.book.settings.editions))
    lines = explain(proof, on, edition, path)
    if lines is None:
        raise Misuse(
            f"the edition {edition.name!r} has no page {path!r}; name one as site/recipes/NAME/index.html"
        )
    print("\n".join([f"{edition.name}: {path}", *lines]))
    return CLEAN


def _page(book: Path, asked: str, known: dict[str, Edition]) -> tuple[Edition, str]:
    """The edition and the path in it that a path means: one in the book's folders, or one below them."""
    path, root = Path(asked), book.resolve()
    inside = path.resolve().relative_to(root) if path.resolve().is_relative_to(root) else path
    parts = inside.parts[1:] if inside.parts[:1] in ((SITE,), (PRIVATE,)) else inside.parts
    for edition in known.values():
        if parts[:1] == (edition.name,) and not edition.is_public:
            return edition, "/".join(parts[1:])
    public = next(edition for edition in known.values() if edition.is_public)
    return public, "/".join(parts)
