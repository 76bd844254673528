"""Build: compose the pages of a proofed book and put its site in place.

A finding that is an error, a photo that cannot be used among them, stops it before
anything is written.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from saponary import resources
from saponary.book.findings import Finding
from saponary.history import changes_since
from saponary.output import write_site
from saponary.pages import compose
from saponary.pages.site import RecipeInput, SiteInput
from saponary.photography import make_ready
from saponary.press.sheet import sheets
from saponary.proof import Proof
from saponary.report import ENGINE, site_json


class Stopped(Exception):
    """The build stopped and wrote nothing; `findings` say why."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__(f"{len(findings)} findings")
        self.findings = findings


@dataclass(frozen=True)
class Built:
    """What a build wrote: where, how many files, how many recipes, and the drafts left out."""

    site: Path
    files: int
    recipes: int
    drafts: tuple[str, ...]


def build(proof: Proof, on: date, *, press: bool = False) -> Built:
    """Write `site/` of a book whose proof found no error, as of a day, with PDF sheets where asked.

    Raises Stopped where photos cannot be used, PressMissing where PDFs cannot be made.
    """
    if proof.failed:
        raise Stopped([f for f in proof.findings if f.severity == "error"])
    book = proof.book
    recipes = tuple(
        RecipeInput(one.case, one.status, one.findings) for one in proof.recipes if one.status.name != "draft"
    )
    photos, files, faults = make_ready(book.root, recipes)
    if faults:
        raise Stopped(faults)
    site = SiteInput(
        book,
        recipes,
        ENGINE,
        book.pantry.version,
        site_json(proof),
        photos=photos,
        earlier={one.slug: changes_since(book, one.case) for one in recipes},
        on=on,
    )
    own = book.root / "templates"
    templates = [folder for folder in (own, resources.templates()) if folder.is_dir()]
    files |= {output.path: output.data for output in compose(site, templates)}
    if press:
        files |= dict(sheets(files, [one.slug for one in recipes]))
    folder = book.root / "site"
    count = write_site(folder, files.items())
    drafts = tuple(one.case.file.slug for one in proof.recipes if one.status.name == "draft")
    return Built(folder, count, len(recipes), drafts)
