"""Harness of links: every link of every page of every edition leads to a file and a place in it, below any address
and opened from a folder.
"""

from __future__ import annotations

import posixpath
import random
import re
from collections.abc import Iterator, Mapping
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

from harnesses.children import begin, warm
from harnesses.harness import Harness, Score
from support import copy_book, write_book
from whole.edits import BOOK

_ADDRESSES = frozenset(
    ["href", "src", "poster", "action", "formaction", "data", "cite", "background", "xlink:href"]
)
_CSS = re.compile(r"url\(\s*['\"]?([^'\")]+)['\"]?\s*\)|@import\s+['\"]([^'\"]+)")


class _Page(HTMLParser):
    """What a page links to, and the places in it."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.links: list[str] = []
        self.places: set[str] = set()
        self.feed(text)
        self.links += _in_css(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in ("id", "name") and value:
                self.places.add(value)
            elif name in ("srcset", "imagesrcset") and value:
                self.links += [one.split()[0] for one in value.split(",") if one.split()]
            elif name in _ADDRESSES and value is not None:
                self.links.append(value)


def _in_css(text: str) -> list[str]:
    return [first or second for first, second in _CSS.findall(text)]


@cache
def _read(path: Path) -> _Page:
    return _Page(path.read_text(encoding="utf-8"))


def found(top: Path) -> Iterator[tuple[Path, str]]:
    """Every link of a folder's pages and style sheets."""
    for path in sorted(top.rglob("*")):
        if path.suffix in (".html", ".svg"):
            yield from ((path, link) for link in _read(path).links)
        elif path.suffix == ".css":
            yield from ((path, link) for link in _in_css(path.read_text(encoding="utf-8")))


def fault_of(top: Path, page: Path, link: str) -> str | None:
    """What is wrong with a link; None where it leads somewhere, or away."""
    parts = urlsplit(link)
    if parts.scheme in ("https", "http", "mailto", "tel") and parts.path != link:
        return None
    if parts.scheme == "data":
        return None
    if page.name == "404.html" and link.startswith("/"):
        return None if (top / unquote(parts.path).removeprefix(_below(top))).is_file() else "is dead"
    if parts.scheme or parts.netloc or link.startswith("/"):
        return "leads to the top of a server, or elsewhere"
    home = page.parent.relative_to(top).as_posix()
    path = (
        posixpath.normpath(posixpath.join(home, unquote(parts.path)))
        if parts.path
        else page.relative_to(top).as_posix()
    )
    target = top / path
    if path.startswith(".."):
        return "leads out of what is uploaded"
    if not target.is_file():
        return "is dead" if not target.is_dir() else "leads to a folder, which a browser opens as a list"
    place = unquote(parts.fragment)
    if place and target.suffix == ".html" and place not in _read(target).places:
        return f"there is no place {place!r}"
    return None


def _below(top: Path) -> str:
    """Where a page that answers for any address looks for its site: below the book's own address, else at the top of
    the server."""
    settings = (top.parent / "book.yaml").read_text() if (top.parent / "book.yaml").is_file() else ""
    found = re.search(r"^base-url: *[a-z]+://[^/\s]+(\S*)", settings, re.MULTILINE)
    return f"{found[1].rstrip('/')}/" if found else "/"


def crawled(top: Path, score: Score) -> None:
    """Count every link below a folder that may be uploaded, or opened, by itself."""
    for page, link in found(top):
        fault = fault_of(top, page, link)
        score.count(f"{page.relative_to(top)} {link!r} {fault}" if fault else None)


_ADDRESS = "base-url: https://soap.example/some/where/\n"


def books(chance: random.Random, tries: int) -> Mapping[str, Mapping[str, str | bytes] | str]:
    """What is built: a small book with something of every kind, with and without an address; for more than one
    try the two books of the repository too."""
    settings = BOOK["book.yaml"].decode()
    without = re.sub(r"^base-url:.*\n", "", settings, flags=re.MULTILINE)
    small: dict[str, Mapping[str, str | bytes] | str] = {"without": {**BOOK, "book.yaml": without}}
    if tries > 1:
        small |= {"with": {**BOOK, "book.yaml": _ADDRESS + without}, "demo": "demo", "starters": "starters"}
    return small


def links(folder: Path, chance: random.Random, tries: int) -> Score:
    """Build each book in every edition, and follow its links: a try is a link."""
    warm()
    score = Score()
    for name, files in books(chance, tries).items():
        root = copy_book(files, folder / name) if isinstance(files, str) else write_book(folder / name, files)
        child = begin(["build", str(root), "--edition", "all", "--on", "2026-03-02"])
        if child.ended() not in (0, 1) or not (root / "site/index.html").is_file():
            score.count(f"{name}: {child.status} {child.said[-300:]}")
            continue
        crawled(root / "site", score)
        for edition in sorted((root / "private").iterdir()) if (root / "private").is_dir() else ():
            if edition.is_dir():
                crawled(edition, score)
    _read.cache_clear()
    return score


HARNESSES = (Harness("links of every edition", links, 4, 1),)
