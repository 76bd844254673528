"""Label sheets without a build: as the maker's edition has them, or of lots by their names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from saponary.assets.store import Store
from saponary.book.engine import ENGINE
from saponary.book.late import LateMap
from saponary.book.proofed import Proofed
from saponary.book.standing import Labelled
from saponary.build.proof import Proof
from saponary.label.lists import bar
from saponary.outputs.pdf_kind import PdfContext, Wanted
from saponary.outputs.pdf_make import Progress, make, sheets
from saponary.outputs.pdf_press import Failed
from saponary.outputs.templating import environment_of, templates_of
from saponary.schema.edition import STANDARD
from saponary.views import links
from saponary.views.drawings import Drawings
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import SiteInput

_MAKER = STANDARD["maker"]
_KIND = "labels"


def label_sheets(
    proof: Proof,
    recipes: Sequence[Proofed],
    lots: Sequence[tuple[Proofed, str]],
    on: date,
    store: Store,
    progress: Progress | None = None,
) -> tuple[dict[str, bytes], list[Failed]]:
    """PDFs by the name of the file, and those that could not be set: of `recipes` as they are, and of `lots`,
    each with the recipe that it is of. Raises PressMissing, BrokenTemplate.
    """
    book = proof.book
    asked = {one.slug: one for one in (*recipes, *(one for one, _ in lots))}
    whole = Unpublished(
        book,
        tuple(asked.values()),
        ENGINE,
        book.pantry.version,
        labels=LateMap(asked, lambda one: bar(one.computed)),
        on=on,
    )
    site = for_edition(whole, _MAKER)
    drawn = Drawings(site, store)
    spoken = environment_of(templates_of(book.root), book.settings.language, book.settings.units)
    wanted = dict(_of(PdfContext(_with(site, [one.slug for one in recipes]), {}, spoken, drawn), ""))
    for one, lot in lots:
        of_lot = _with(site, [one.slug], Labelled(lot=lot))
        wanted |= _of(PdfContext(of_lot, {}, spoken, drawn), lot)
    files = dict(_shown(site, drawn))
    made, failed = make(files, list(wanted.values()), progress, store)
    return {name: made[sheet.path] for name, sheet in wanted.items() if sheet.path in made}, failed


def _with(site: SiteInput, slugs: Sequence[str], named: Labelled | None = None) -> SiteInput:
    """The site with these recipes alone, and labels of the lot that is named."""
    found = [site.by_slug[slug] for slug in slugs if slug in site.by_slug]
    return replace(
        site, recipes=tuple(one if named is None else replace(one, labelled=named) for one in found)
    )


def _of(context: PdfContext, lot: str) -> Iterator[tuple[str, Wanted]]:
    """The sheets by the names of their files, which end with the lot."""
    for sheet in sheets(context, [_KIND]):
        stem = sheet.path.removeprefix(f"{_KIND}/").removesuffix(".pdf")
        name = f"{stem}-{links.free_names([lot])[0]}" if lot else stem
        yield f"{name}.pdf", replace(sheet, path=f"{_KIND}/{name}.pdf")


def _shown(site: SiteInput, drawn: Drawings) -> Mapping[str, bytes]:
    """What a label shows: the drawings of the bars, and the book's logo."""
    found = {
        links.drawing(one.slug, "cured"): drawn.of(one).cured_svg.encode("utf-8") for one in site.recipes
    }
    logo = site.book.logo
    return found if logo is None else {**found, links.LOGO: f"{logo.svg}\n".encode()}
