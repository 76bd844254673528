"""The steps of a build whose values are kept.

A kept value's key is its step, the version of the step's code and digests of its inputs' values. Where
a changed source leads to an equal value, what rests on that value is not made again.
"""

from __future__ import annotations

from saponary.assets.step import TO_THE_LABEL, Step
from saponary.checks.kept import CHECKED
from saponary.draw.photos.kept import PHOTO
from saponary.outputs.cards import CARD
from saponary.outputs.pdf_kept import BOUND, FRAGMENT, PDF
from saponary.views.drawings import DRAWING

SHOWN = Step(
    "shown",
    ("edition",),
    (*TO_THE_LABEL, "views", "outputs/rests_on.py", "outputs/values.py"),
    ("pydantic", "markdown-it-py", "pyyaml"),
)
"""What an edition shows of its recipes."""

PAGE = Step(
    "page",
    ("path", "inputs"),
    (*TO_THE_LABEL, "draw", "views", "outputs"),
    ("jinja2", "markupsafe", "markdown-it-py", "numpy", "shapely", *CARD.libraries),
)
"""A file of a site from the values that it says it rests on, by their names."""

STEPS: tuple[Step, ...] = (CHECKED, PHOTO, SHOWN, DRAWING, CARD, PAGE, PDF, FRAGMENT, BOUND)
"""In the order in which a build comes to them."""
