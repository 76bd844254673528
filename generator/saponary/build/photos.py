"""The photos of a book, made ready for its site: which are shown, and what cannot be used."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from saponary.assets.store import Store
from saponary.book.library import Book
from saponary.book.pictures import in_notes
from saponary.book.proofed import Proofed
from saponary.book.shots import named_photos
from saponary.build.content import Content, content
from saponary.draw.photos.facts import PhotoFault, Variant
from saponary.draw.photos.many import make_all
from saponary.reading.findings import Finding, Place
from saponary.reading.names import kept_as
from saponary.views.site import PhotoSet

FOLDER = "photos"
"""Where published photos lie, from the top of the site."""


def make_ready(
    book: Book, recipes: Sequence[Proofed], store: Store
) -> tuple[dict[str, PhotoSet], dict[str, Content], list[Finding]]:
    """Photos by the name recipes use, their files by address, and a finding for each that fails."""
    names = [name for recipe in recipes for name in recipe.facts.photos]
    names += [photo.name for page in book.pages for photo in in_notes(page)]
    wanted = {name: book.root / "photos" / (kept_as(name, book.photos) or name) for name in names}
    made = make_all(wanted, store)
    findings: list[Finding] = []
    sets: dict[str, PhotoSet] = {}
    files: dict[str, Content] = {}
    for name, variants in made.items():
        if isinstance(variants, PhotoFault):
            message = f"photos/{name}: {variants.message}"
            findings += [
                Finding("photos", "error", at, message, variants.hint) for at in _named(name, recipes, book)
            ]
        else:
            sets[name] = _photo_set(variants)
            files |= {f"{FOLDER}/{v.name}": content(v.data) for v in variants}
    return sets, files, findings


def _named(photo: str, recipes: Sequence[Proofed], book: Book) -> list[Place]:
    """Where a photo is named."""
    found = (
        one for recipe in recipes if photo in recipe.facts.photos for one in named_photos(recipe.computed)
    )
    on_pages = [page.place_at(one.at) for page in book.pages for one in in_notes(page) if one.name == photo]
    return [*(place for name, place in found if name == photo), *on_pages]


def shown(sets: Iterable[PhotoSet]) -> list[str]:
    """Addresses of every file these photos are published in."""
    return sorted({one.split()[0] for s in sets for _, srcset in s.sources for one in srcset.split(", ")})


def _photo_set(variants: Sequence[Variant]) -> PhotoSet:
    """The newer format first, then JPEG for every browser; the middle width for `src`."""
    kinds = dict.fromkeys(v.type for v in variants)
    by_kind = {kind: [v for v in variants if v.type == kind] for kind in kinds}
    plain = by_kind["image/jpeg"]
    middle, widest = plain[len(plain) // 2], plain[-1]
    sources = tuple(
        (kind, ", ".join(f"{FOLDER}/{v.name} {v.width}w" for v in of_kind))
        for kind, of_kind in by_kind.items()
    )
    return PhotoSet(widest.width, widest.height, sources, f"{FOLDER}/{middle.name}", "")
