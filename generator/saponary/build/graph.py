"""The steps of a build whose values are kept, and the pages of a site made by them.

A kept value's key is its step, the version of the step's code and digests of its inputs' values. Where
a changed source leads to an equal value, what rests on that value is not made again: a page is recalled
where nothing that it says it rests on has changed, and its template is not read.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from saponary.assets.digest import digest
from saponary.assets.step import Step
from saponary.assets.store import Key, Store
from saponary.book.identity import Identities
from saponary.book.proofed import Proofed
from saponary.checks.kept import CHECKED
from saponary.draw.photos.kept import PHOTO
from saponary.outputs import rests_on
from saponary.outputs.compose import Composition
from saponary.outputs.page_kind import SiteFile
from saponary.outputs.pdf_kept import PDF
from saponary.views.drawings import DRAWING
from saponary.views.site import SiteInput

SHOWN = Step(
    "shown",
    ("name", "edition", "recipe", "findings", "photos"),
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
        "views",
        "outputs/rests_on.py",
    ),
    ("pydantic", "markdown-it-py", "pyyaml"),
)
"""The digest of a recipe as an edition shows it."""

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

STEPS: tuple[Step, ...] = (CHECKED, PHOTO, SHOWN, DRAWING, PAGE, PDF)
"""In the order in which a build comes to them."""

KeyOf = Callable[[str], Key | None]
"""By the name of a value that files rest on, the key under which its digest is kept; None where it is not."""


class Pages:
    """Makes the files of one edition's site, or recalls them. A value is digested once for all of them."""

    def __init__(self, composed: Composition, store: Store, key_of: KeyOf = lambda _: None) -> None:
        self.composed, self.store, self._key_of = composed, store, key_of
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
            kept = self._key_of(name)
            self._digests[name] = self._made(name) if kept is None else self._kept(name, kept)
        return self._digests[name]

    def _made(self, name: str) -> str:
        return digest(self.composed.value(name))

    def _kept(self, name: str, key: Key) -> str:
        return self.store.get(key, lambda: self._made(name).encode()).decode()


def shown_recipes(recipes: Sequence[Proofed], identities: Identities, site: SiteInput) -> KeyOf:
    """Where the digests of an edition's recipes are kept, so that a recipe that is as it was is not gone through."""
    known = {rests_on.recipe(one.slug): one for one in recipes}

    def key_of(name: str) -> Key | None:
        one = known.get(name)
        if one is None:
            return None
        photos = {photo: site.photos.get(photo) for photo in sorted(one.computed.photos)}
        return SHOWN.key(name, site.edition, identities.of(one.computed), one.findings, photos)

    return key_of
