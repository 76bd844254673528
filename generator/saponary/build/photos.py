"""The photos of a book, made ready for its site: which are shown, and what cannot be used."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from saponary.assets.store import Store
from saponary.book.proofed import Proofed
from saponary.book.shots import named_photos
from saponary.build.content import Content, content
from saponary.draw.photos import PhotoFault, Variant, make_all
from saponary.reading.findings import Finding
from saponary.views.site import PhotoSet

FOLDER = "photos"
"""Where published photos lie, from the top of the site."""


def make_ready(
    root: Path, recipes: Sequence[Proofed], store: Store
) -> tuple[dict[str, PhotoSet], dict[str, Content], list[Finding]]:
    """Photos by the name recipes use, their files by address, and a finding for each that fails."""
    named = [one for recipe in recipes for one in named_photos(recipe.computed)]
    wanted = {name: root / "photos" / name for name, _ in named}
    made = make_all(wanted, store)
    findings: list[Finding] = []
    sets: dict[str, PhotoSet] = {}
    files: dict[str, Content] = {}
    for name, place in named:
        variants = made[name]
        if isinstance(variants, PhotoFault):
            message = f"photos/{name}: {variants.message}"
            findings.append(Finding("photos", "error", place, message, variants.hint))
        elif name not in sets:
            sets[name] = _photo_set(variants)
            files |= {f"{FOLDER}/{v.name}": content(v.data) for v in variants}
    return sets, files, findings


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
