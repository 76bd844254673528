"""An edition of the book: recipes with everything taken out that its readers may not see.

The cut is made here, before any view or template is reached, and by an allow-list: what an
edition does not show is gone from what the pages are given.
"""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from saponary.book.classes import ClassFile
from saponary.book.computed import Computed
from saponary.book.published import belongs, published
from saponary.schema.edition import Edition
from saponary.schema.seen import only_seen
from saponary.views.site import RecipeInput, SiteInput

_TAUGHT = ["class", "bench"]
"""Where a class is shown that does not say: not on the open site."""


def edit(site: SiteInput, edition: Edition) -> SiteInput:
    """The site as an edition may show it."""
    taught = tuple(
        c for c in site.book.classes if c.plan is not None and belongs(c.plan.editions or _TAUGHT, edition)
    )
    book = replace(
        site.book,
        settings=only_seen(site.book.settings, edition.sight),
        pantry=only_seen(site.book.pantry, edition.sight),
        recipes=[],
        batches={},
        findings=[],
        own_claims=None,
        texts=(),
        classes=tuple(_lesson(one, edition) for one in taught),
        waived=site.book.waived if "waivers" in edition.shows else (),
    )
    recipes = tuple(
        RecipeInput(
            cast(Computed, published(r.computed, r.status, r.warnings, edition)),
            r.status,
            r.warnings if "remarks" in edition.shows else (),
        )
        for r in site.recipes
        if belongs(r.computed.model.editions, edition)
        and (r.status.name != "draft" or "drafts" in edition.shows)
    )
    shown = {shot.file for r in recipes for record in r.computed.batches for shot in record.batch.photos}
    shown |= {r.computed.model.photo.file for r in recipes if r.computed.model.photo is not None}
    slugs = {recipe.slug for recipe in recipes} if "badge" in edition.shows else set[str]()
    return replace(
        site,
        book=book,
        recipes=recipes,
        changed={
            slug: one if "private" in edition.shows else replace(one, again=False)
            for slug, one in site.changed.items()
            if slug in slugs
        },
        edition=edition,
        photos={name: photo for name, photo in site.photos.items() if name in shown},
        earlier={r.slug: site.earlier.get(r.slug, {}) for r in recipes} if "batches" in edition.shows else {},
    )


def _lesson(taught: ClassFile, edition: Edition) -> ClassFile:
    assert taught.plan is not None
    plan = only_seen(taught.plan, edition.sight)
    return ClassFile(taught.file, taught.slug, taught.body, plan=plan)
