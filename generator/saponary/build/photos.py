"""The photos of a book, made ready for its site: which are shown, and what cannot be used."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from saponary.assets.stamps import clock, fresh, stamp
from saponary.assets.store import FOLDER as STORE
from saponary.assets.store import Key, Store
from saponary.book.library import Book
from saponary.book.pictures import in_notes
from saponary.book.proofed import Proofed
from saponary.book.shots import named_photos
from saponary.build.content import Content
from saponary.draw.photos.facts import PhotoFault, Variant
from saponary.draw.photos.kept import unpacked
from saponary.draw.photos.many import Made, make_all, make_each
from saponary.reading.findings import Finding, Place
from saponary.reading.names import kept_as
from saponary.views.site import PhotoSet

FOLDER = "photos"
"""Where published photos lie, from the top of the site."""


def make_ready(
    book: Book, recipes: Sequence[Proofed], store: Store, known: Photos | None = None
) -> tuple[dict[str, PhotoSet], dict[str, Content], list[Finding]]:
    """Photos by the name recipes use, their files by address, and a finding for each that fails.

    `known` are those of earlier times, for whoever asks again and again.
    """
    names = [name for recipe in recipes for name in recipe.facts.photos]
    names += [photo.name for page in book.pages for photo in in_notes(page)]
    wanted = {name: book.root / "photos" / (kept_as(name, book.photos) or name) for name in names}
    made = _again(wanted, store, {} if known is None else known, book.root / STORE)
    findings: list[Finding] = []
    sets: dict[str, PhotoSet] = {}
    files: dict[str, Content] = {}
    for name, found in made.items():
        if isinstance(found, PhotoFault):
            message = f"photos/{name}: {found.message}"
            findings += [
                Finding("photos", "error", at, message, found.hint) for at in _named(name, recipes, book)
            ]
        else:
            sets[name] = _photo_set(found.variants)
            files |= {
                f"{FOLDER}/{one.name}": Content(
                    digest, partial(_read, store, found.key, wanted[name], one.name)
                )
                for one, digest in zip(found.variants, found.digests, strict=True)
            }
    return sets, files, findings


def _again(
    wanted: Mapping[str, Path], store: Store, known: Photos, folder: Path
) -> dict[str, PhotoFault | _LetGo]:
    """Each photo; one whose stamp is as it was known is not read. What was read is known from now on, but for what was
    changed so shortly before that a later change may leave the same stamp."""
    stamps = {name: stamp(str(path)) for name, path in wanted.items()}
    lacking = {
        name: path for name, path in wanted.items() if name not in known or known[name][0] != stamps[name]
    }
    if not lacking:
        return {name: known[name][1] for name in wanted}
    now = clock(folder)
    made = make_each(lacking, store, _let_go)
    unsettled = fresh(stamps.values(), now) if now is not None else [str(path) for path in wanted.values()]
    found = {name: made[name] if name in made else known[name][1] for name in wanted}
    known.clear()
    known |= {name: (stamps[name], one) for name, one in found.items() if str(wanted[name]) not in unsettled}
    return found


class _LetGo(NamedTuple):
    """What is published of a photo without its bytes, and a digest of each: they lie in the store under a key."""

    key: Key | None
    variants: Sequence[Variant]
    digests: Sequence[str]


Photos = dict[str, tuple[str, PhotoFault | _LetGo]]
"""By its name, the stamp of a photo and what was made of it."""


def _let_go(key: Key | None, made: Made) -> PhotoFault | _LetGo:
    if isinstance(made, PhotoFault):
        return made
    digests = [sha256(one.data).hexdigest() for one in made]
    return _LetGo(key, [replace(one, data=b"") for one in made], digests)


def _read(store: Store, key: Key | None, path: Path, name: str) -> bytes:
    """The bytes of a published photo, made again where no store keeps them."""
    kept = store.recall(key) if key is not None else None
    found = unpacked(kept) if kept is not None else None
    made = make_all({name: path}, store)[name] if found is None else found
    data = [] if isinstance(made, PhotoFault) else [one.data for one in made if one.name == name]
    if not data:
        raise OSError(f"{path} has changed since this build began")
    return data[0]


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
