"""Addresses inside the site: always relative, always to a file, so that it opens from a disk."""

from __future__ import annotations

import re
from collections.abc import Iterable


def root(path: str) -> str:
    """From the page at `path` to the top of the site."""
    return "../" * path.count("/")


def class_page(slug: str) -> str:
    return f"classes/{slug}/index.html"


def class_day(slug: str) -> str:
    """A class's day as a calendar file."""
    return f"classes/{slug}.ics"


def recipe_page(slug: str) -> str:
    return f"recipes/{slug}/index.html"


def at_the_bench(slug: str) -> str:
    """The same recipe's work order, one stage a screen."""
    return f"recipes/{slug}/at-the-bench.html"


def history(slug: str) -> str:
    """The versions of a recipe's formula."""
    return f"recipes/{slug}/history.html"


def figures(slug: str) -> str:
    """The figures of a recipe, for programs."""
    return f"recipes/{slug}/figures.json"


def drawing(slug: str, when: str) -> str:
    """One face of a recipe's pour drawing, as a file of its own."""
    return f"recipes/{slug}/{when}.svg"


def card(slug: str) -> str:
    """The picture of a recipe that is shown where a link to it is passed on."""
    return f"recipes/{slug}/card.jpg"


def lot(slug: str, name: str) -> str:
    """A lot of a recipe, by the name that it has within the recipe."""
    return f"lots/{slug}/{name}/index.html"


_LONGEST = 80
"""Letters of a name in an address: a folder's name may not be of any length."""


def free_names(called: Iterable[str]) -> list[str]:
    """A name for the address of each lot of a recipe: lots that differ by signs alone get one each too."""
    taken: list[str] = []
    for lot in called:
        name = free = anchor(lot)[:_LONGEST]
        number = 1
        while free in taken:
            number += 1
            free = f"{name}--{number}"
        taken.append(free)
    return taken


def lots_of_year(year: int) -> str:
    """The lots poured in a year."""
    return f"lots/poured-{year}.html"


def own_page(slug: str) -> str:
    """A page of the book's own."""
    return f"pages/{slug}/index.html"


def anchor(text: str) -> str:
    """A fragment for a word: small letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", text.casefold()).strip("-") or "x"


GALLERY = "index.html"
CLASSES = "classes/index.html"
RECIPES = "recipes/index.html"
"""The same list where the first page is a class."""
LYE = "lye/index.html"
INGREDIENTS = "ingredients/index.html"
GLOSSARY = "glossary/index.html"
WAIVERS = "waived-rules/index.html"
COSTS = "costs/index.html"
LOTS = "lots/index.html"
CURE_SHELF = "cure-shelf/index.html"
COLOURS = "colours/index.html"
READY = "ready.ics"
FIGURES = "figures.json"
"""Which recipes there are, and where the figures of each lie."""
CHANGES = "changes/index.html"
CHANGES_FEED = "changes/feed.xml"
ICON = "icon.svg"
LOGO = "logo.svg"
FEED = "feed.xml"
