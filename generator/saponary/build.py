"""Build: proof the book, compose its pages, put the site in place. A finding that is an
error stops it before anything is written."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from saponary import resources
from saponary.output import write_site
from saponary.pages import compose
from saponary.pages.site import RecipeInput, SiteInput
from saponary.press.sheet import sheets
from saponary.proof import Proof
from saponary.report import ENGINE, site_json


@dataclass(frozen=True)
class Built:
    """What a build wrote: where, how many files, how many recipes, and the drafts left out."""

    site: Path
    files: int
    recipes: int
    drafts: tuple[str, ...]


def build(proof: Proof, on: date, *, press: bool = False) -> Built:
    """Write `site/` of a book whose proof found no error, as of a day, with PDF sheets where asked."""
    if proof.failed:
        raise ValueError("a book with errors is not built")
    book = proof.book
    recipes = tuple(
        RecipeInput(one.case, one.status, one.findings) for one in proof.recipes if one.status.name != "draft"
    )
    site = SiteInput(book, recipes, ENGINE, book.pantry.version, site_json(proof), on=on)
    own = book.root / "templates"
    templates = [folder for folder in (own, resources.templates()) if folder.is_dir()]
    folder = book.root / "site"
    pages = {output.path: output.data for output in compose(site, templates)}
    if press:
        pages |= dict(sheets(pages, [one.case.file.slug for one in recipes]))
    files = write_site(folder, pages.items())
    drafts = tuple(one.case.file.slug for one in proof.recipes if one.status.name == "draft")
    return Built(folder, files, len(recipes), drafts)
