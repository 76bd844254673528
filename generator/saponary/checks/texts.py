"""What is wrong with the links, the photos and the footnotes of a text in Markdown, wherever it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from posixpath import basename
from typing import NamedTuple

from saponary.book.library import Book
from saponary.reading.findings import suggest
from saponary.reading.markdown import PAGES, PHOTOS, RECIPES, addresses, in_book, named

_CODE = re.compile(r"^(`{3,}|~{3,})[^\n]*\n.*?(?:^\1|\Z)|`[^`\n]+`", re.MULTILINE | re.DOTALL)
_TAG = re.compile(r"</?[a-z][a-z0-9]*(?:\s[^<>\n]*)?/?>", re.IGNORECASE)
_REFERENCE = re.compile(r"\[\^(?P<label>[^\]\s]+)\](?!:)")
_FOOTNOTE = re.compile(r"^ {0,3}\[\^(?P<label>[^\]\s]+)\]:", re.MULTILINE)


class Wrong(NamedTuple):
    """What is wrong at a place in a text, what to write, and what a waiver of it is about."""

    at: int
    message: str
    hint: str
    about: str


def wrong_in(text: str, folder: str, book: Book) -> Iterator[Wrong]:
    """All of a text that stands in a file of `folder`, but for photos that are not there and recipes that some
    readers cannot open."""
    yield from wrong_forms(text)
    for address in addresses(text):
        fault = dead(address.to, address.kind == "picture", in_book(address.to, folder), book)
        if fault is not None:
            yield Wrong(address.start, *fault, address.to)


def wrong_forms(text: str) -> Iterator[Wrong]:
    """What would not show as it was meant, wherever the text stands: HTML, and footnotes without their other half."""
    bare = _CODE.sub(lambda code: " " * len(code[0]), text)
    yield from _marks(bare)
    yield from _footnotes(bare)


def dead(to: str, is_picture: bool, path: str | None, book: Book) -> tuple[str, str] | None:
    """What is wrong with an address that leads to nothing of the book, and what to write; None where it leads there.

    `path` is what it leads to in the book, None where it leads elsewhere. That a photo is there at all is held by the
    rule `photos`.
    """
    if is_picture:
        if path is not None and path.startswith(PHOTOS):
            return None
        known = [f"../{PHOTOS}{name}" for name in book.photos]
        hint = suggest(f"../{PHOTOS}{basename(path or to)}", known, "photos")
        return f"the picture {to!r} is not one of the book's photos, which are in {PHOTOS}", hint
    if path is None or named(path, RECIPES) in book.slugs:
        return None
    pages = dict.fromkeys(page.slug for page in book.pages)
    for name, room, there in (("recipe", RECIPES, book.slugs), ("page", PAGES, pages)):
        slug = named(path, room)
        if slug is not None:
            if slug in there:
                return None
            return f"there is no {name} {slug!r} for this link", suggest(slug, [*there], f"{name}s")
    hint = suggest(basename(path).partition(".")[0], [*book.slugs], "recipes")
    return f"{to!r} is not a file of the book that has a page", hint


def _marks(text: str) -> Iterator[Wrong]:
    opened: list[str] = []
    for tag in _TAG.finditer(text):
        name = tag[0].strip("</> ").partition(" ")[0]
        if tag[0].startswith("</") and name in opened:
            opened.remove(name)
            continue
        opened.append(name)
        said = f"{tag[0]} would show as these very signs: notes hold no HTML"
        yield Wrong(tag.start(), said, "write Markdown, such as **bold** or *slanted*", tag[0].rstrip(">"))


def _footnotes(text: str) -> Iterator[Wrong]:
    told, asked = list(_FOOTNOTE.finditer(text)), list(_REFERENCE.finditer(text))
    labels, known = [one["label"] for one in told], {one["label"] for one in asked}
    for one in asked:
        if one["label"] not in labels:
            hint = suggest(one["label"], labels, "footnotes") if labels else _how(one["label"])
            yield Wrong(one.start(), f"there is no footnote {one['label']!r}", hint, one[0])
    for one in told:
        if one["label"] not in known:
            said = f"nothing leads to the footnote {one['label']!r}, so that it is not shown"
            yield Wrong(one.start(), said, f"put [^{one['label']}] where it belongs", one[0])


def _how(label: str) -> str:
    return f"write it on a line of its own below: [^{label}]: what it says"
