"""The steps of a build whose values are kept, and the pages of a site made by them.

A kept value's key is its step, the version of the step's code and digests of its inputs' values. Where
a changed source leads to an equal value, what rests on that value is not made again: a page is recalled
where nothing that it says it rests on has changed, and its template is not read.
"""

from __future__ import annotations

from saponary.assets.digest import digest
from saponary.assets.step import Step
from saponary.assets.store import Key, Store
from saponary.draw.photos.kept import PHOTO
from saponary.outputs.compose import Composition
from saponary.outputs.page_kind import SiteFile
from saponary.outputs.pdf_kept import PDF
from saponary.views.drawings import DRAWING

PAGE = Step(
    "page",
    ("path", "inputs"),
    (
        "quantity",
        "lye",
        "assets",
        "tables",
        "messages",
        "reading",
        "schema",
        "pantry",
        "book",
        "words",
        "label",
        "draw",
        "views",
        "outputs",
    ),
    ("jinja2", "markupsafe", "markdown-it-py", "numpy", "shapely"),
)
"""A file of a site from the values that it says it rests on, by their names."""

STEPS: tuple[Step, ...] = (PHOTO, DRAWING, PAGE, PDF)
"""In the order in which a build comes to them."""


class Pages:
    """Makes the files of one edition's site, or recalls them. A value is digested once for all of them."""

    def __init__(self, composed: Composition, store: Store) -> None:
        self.composed, self.store = composed, store
        self._digests: dict[str, str] = {}

    def made(self) -> dict[str, bytes]:
        """Every file by its path in the site."""
        return {file.path: self._of(file) for file in self.composed.files}

    def key(self, file: SiteFile) -> Key:
        """The key of a file: where it stands, and each value that it rests on, by name."""
        return PAGE.key(file.path, {name: self._digest(name) for name in file.uses})

    def _of(self, file: SiteFile) -> bytes:
        return self.store.get(self.key(file), file.write)

    def _digest(self, name: str) -> str:
        if name not in self._digests:
            self._digests[name] = digest(self.composed.value(name))
        return self._digests[name]
