"""Small books with lots in them, and their sites read back."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from xml.etree import ElementTree

import html5lib

from composed import composed
from saponary.build.proof import Proof
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from support import PLAIN, prove_one

X = "{http://www.w3.org/1999/xhtml}"
ON = date(2026, 3, 20)

CLEAN = "free-alkali: {test: phenolphthalein, result: none, on: 2026-02-20}"
"""A test without which no lot is called ready."""

FITTED = "weighed: {0: 128.2 g, 7: 122.4 g, 14: 118.9 g, 28: 115.1 g, 42: 113.6 g}"
"""Weighings whose bar is ready on day 39."""


def recipe(*batches: str, title: str = "Plain Bar") -> str:
    """The plain recipe with batches, each the lines of one entry without its dash."""
    listed = "".join(f"  - {batch.strip().replace(chr(10), chr(10) + '    ')}\n" for batch in batches)
    return PLAIN.replace("title: Plain Bar", f"title: {title}").replace(
        "signed:", f"batches:\n{listed}signed:"
    )


def mark() -> str:
    """The fingerprint of the plain recipe as it stands."""
    return prove_one(PLAIN).recipes[0].computed.fingerprint


def site_of(proof: Proof, on: date = ON, edition: str = PUBLIC, **more: object) -> Mapping[str, bytes]:
    whole = Unpublished(proof.book, proof.recipes, "1", "t", on=on, **more)  # type: ignore[arg-type]
    return composed(for_edition(whole, STANDARD[edition]))


def built(text: str, on: date = ON, **more: object) -> Mapping[str, bytes]:
    """The site of one recipe given as text; `edition` names one, the public one unless told."""
    return site_of(prove_one(text), on, **more)  # type: ignore[arg-type]


def parsed(made: Mapping[str, bytes], path: str) -> ElementTree.Element:
    return _tree(made[path])


@lru_cache(maxsize=32)
def _tree(page: bytes) -> ElementTree.Element:
    return html5lib.HTMLParser(strict=True).parse(page.decode("utf-8"))


def words(element: ElementTree.Element) -> str:
    """What is read, with a space wherever one element ends and another starts."""
    return re.sub(r" (?=[.,;:])", "", " ".join(" ".join(element.itertext()).split()))


def having(page: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    """Elements of a class, in order."""
    return [e for e in page.iter() if name in (e.get("class") or "").split()]
