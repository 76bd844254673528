"""What the files of a site rest on: the names by which they say so. The values under them are in `values.py`.

A file states every value that its bytes depend on. Where all of them are as they were, and the
code too, so are its bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from saponary.book.published import Published
from saponary.views.site import SiteInput

SETTINGS = "settings"
EDITION = "edition"
TEMPLATES = "templates"
NAVIGATION = "navigation"
VERSIONS = "versions"
"""Of the engine, and of the standard tables."""
PANTRY = "pantry"
DAY = "day"
"""The day that the site speaks of."""
TITLES = "titles"
"""Which recipes are published, in their order, and what each is called."""
LOTS = "lots"
"""Which lots are shown, the day of each, and whether any of a recipe is not held back."""
WAIVERS = "waivers"
CLASSES = "classes"
LOGO = "logo"
PAGES = "pages"
"""The pages of the book's own, with their photos."""
PDFS = "pdfs"
"""Which PDFs lie beside the pages."""

FRAME = (SETTINGS, EDITION, TEMPLATES, NAVIGATION, VERSIONS, LOGO)
"""What stands round every page."""

_RECIPE, _NOTES, _HISTORY = "recipe ", "notes ", "history "
_BESIDE, _LEADS, _NOTES_LEAD, _PDFS_OF = "beside ", "leads ", "leads-of-notes ", "pdfs "
_DAY_OF = "day-of-lots "
_ROWS = "rows "
PART = "part "
"""What stands before the name of rows, and a number, where a file says what is in a part of each."""
PICKED = "picked "
"""What stands before the name of rows where a page shows more of a few recipes than their rows say."""
_ABOUT_ONE = (_RECIPE, _NOTES, _HISTORY, _BESIDE, _LEADS, _NOTES_LEAD, _PDFS_OF, _DAY_OF)


def recipe(slug: str) -> str:
    """One recipe as it is published, with its photos and its ingredient list, but for settings and notes."""
    return f"{_RECIPE}{slug}"


def notes(slug: str) -> str:
    """The text below a recipe's front matter, the figures that are quoted in it, and the photos that it shows."""
    return f"{_NOTES}{slug}"


def history(slug: str) -> str:
    """What is known of a recipe's earlier formulas and versions, and when it last changed."""
    return f"{_HISTORY}{slug}"


def beside(slug: str) -> str:
    """The recipes before and after one, and what each is called."""
    return f"{_BESIDE}{slug}"


def leads(slug: str) -> str:
    """Which of the recipes that its texts lead to, but for its notes, are published."""
    return f"{_LEADS}{slug}"


def notes_lead(slug: str) -> str:
    """Which of the recipes that its notes lead to are published."""
    return f"{_NOTES_LEAD}{slug}"


def others(slug: str) -> tuple[str, ...]:
    """What the page of one recipe says of other recipes."""
    return beside(slug), leads(slug), notes_lead(slug)


def day_of(slug: str) -> str:
    """The day as far as the lots of a recipe tell it: from that on which the last of them has cured, no other."""
    return f"{_DAY_OF}{slug}"


def pdfs(slug: str) -> str:
    """Which PDFs about one recipe lie beside the pages."""
    return f"{_PDFS_OF}{slug}"


OF_OTHERS = (TITLES, PDFS, SETTINGS, EDITION)
"""What all of these follow from, besides the recipe itself."""


def of_others(slug: str) -> tuple[str, ...]:
    """All that is said of a recipe and is of no recipe's own: it follows from `OF_OTHERS`, and from the recipe."""
    return (*others(slug), pdfs(slug))


def rows(kind: str) -> str:
    """What a page of the whole book says of each recipe (`outputs/rows.py`)."""
    return f"{_ROWS}{kind}"


def picked(rows: str) -> str:
    """The few recipes of which a page of the whole book shows more than its rows say."""
    return f"{PICKED}{rows}"


def part(number: int, rows: str) -> str:
    """A part of each row, where the rows of a page are spread over several files."""
    return f"{PART}{number} of {rows}"


def slug_of(name: str) -> str | None:
    """The recipe that a name is about; None where it is about the whole book."""
    kind, space, slug = name.partition(" ")
    return slug if kind + space in _ABOUT_ONE else None


def is_of_recipe(name: str) -> bool:
    """Whether a recipe has to be published for the value under a name."""
    return name.startswith((_RECIPE, _NOTES))


def recipes(published: Iterable[Published]) -> tuple[str, ...]:
    """Each of these recipes, and their order."""
    return (TITLES, *(recipe(one.slug) for one in published))


class Rests(NamedTuple):
    """What the rows of a page rest on: names that all have in common, and by its slug those of each."""

    common: tuple[str, ...]
    own: Callable[[str], Iterable[str]]


def _alone(slug: str) -> tuple[str, ...]:
    return (f"{_RECIPE}{slug}",)


ROW = Rests((SETTINGS, EDITION, VERSIONS), _alone)
"""What is said of one recipe on a page of the whole book."""


def _with_history(slug: str) -> tuple[str, ...]:
    return recipe(slug), history(slug)


def _dated(slug: str) -> tuple[str, ...]:
    return recipe(slug), day_of(slug)


def _dated_with_history(slug: str) -> tuple[str, ...]:
    return recipe(slug), history(slug), day_of(slug)


ROW_OF_CHANGES = Rests(ROW.common, _with_history)
"""What is said of one recipe and of its history."""
DATED_ROW_OF_CHANGES = Rests(ROW.common, _dated_with_history)
"""The same of a recipe whose lots turn with the day."""
DATED_ROW = Rests(ROW.common, _dated)
"""What is said of the lots of one recipe on a day."""


def taught(site: SiteInput) -> tuple[str, ...]:
    """What a recipe's page rests on where it is at the size of a class: its lesson, and its moulds."""
    return (CLASSES, PANTRY, TITLES, PDFS) if site.edition.reader == "student" else ()


def scraps(shown: Published) -> tuple[str, ...]:
    """The recipes whose scrap is shown in the drawing of this one."""
    return tuple(recipe(slug) for slug in shown.glance.scraps)
