"""The scents of the maker's `pantry.yaml`: what a recipe adds, and the papers that came with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from saponary.pantry import model as pantry
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema.pantry import FragranceEntry

DEEPEST = 8
"""Blends of blends of blends, at most so many deep."""

BLEND_TOLERANCE = 5e-4
"""The parts of a blend may miss the whole by a twentieth of a per cent."""


def apply(
    additions: dict[str, pantry.Addition],
    standard: Mapping[str, pantry.Fragrance],
    own: Mapping[str, FragranceEntry],
    report: Reporter,
) -> dict[str, pantry.Fragrance]:
    """The scents' papers; each scent is put among the additions, over one of the same id."""
    papers = dict(standard)
    for name, entry in own.items():
        base = additions.get(name)
        if base is not None and base.kind != "fragrance":
            report.add(
                ("fragrances", name),
                f"{name!r} is an addition already, and no scent",
                "give the scent an id of its own",
                key=True,
            )
            continue
        additions[name] = _scent(name, entry, base)
        papers[name] = _papers(name, entry, report)
    return _sound_blends(papers, additions, report)


def _scent(name: str, own: FragranceEntry, base: pantry.Addition | None) -> pantry.Addition:
    """The addition by which a recipe names a scent."""
    hazards = ("sensitiser", "pregnancy-pets") if own.kind == "essential-oil" else ("sensitiser",)
    inci = None if own.kind == "essential-oil" else "Parfum"
    start = base or pantry.Addition(
        name, name.replace("-", " ").capitalize(), "fragrance", inci=inci, hazards=hazards
    )
    density = own.density.number if own.density else start.density
    return replace(
        start,
        name=own.name or start.name,
        latin=own.latin or start.latin,
        inci=own.inci or start.inci,
        density=density,
        displaces=density,
        price_per_kg=start.price_per_kg if own.price is None else own.price,
        note=own.note or start.note,
        source={**start.source, "maker": pantry.Source("maker")},
    )


def _papers(name: str, own: FragranceEntry, report: Reporter) -> pantry.Fragrance:
    """A scent's allergen sheet, certificate and blend."""
    path: Path = ("fragrances", name)
    sheet = (
        None if own.composition is None else {key: share.fraction for key, share in own.composition.items()}
    )
    if sheet and sum(sheet.values()) > 1.0 + 1e-9:
        report.add(
            (*path, "composition"),
            f"the sheet sums to {100 * sum(sheet.values()):.4g} %",
            "its materials are shares of the scent's weight",
        )
    parts = {key: share.fraction for key, share in (own.blend or {}).items()}
    if parts and sheet is not None:
        report.add(
            (*path, "blend"),
            "a sheet and a blend are given for one scent",
            "keep the sheet of the whole, or the blend and the sheets of its parts",
            key=True,
        )
        parts = {}
    if parts and abs(sum(parts.values()) - 1.0) > BLEND_TOLERANCE:
        report.add(
            (*path, "blend"),
            f"the blend sums to {100 * sum(parts.values()):.4g} %",
            "its parts make 100 %",
            key=True,
        )
    paper = own.certificate
    limit = pantry.Certificate(paper.maximum.fraction, paper.category, paper.from_) if paper else None
    kind = own.kind or ("essential-oil" if name.startswith("essential-oil-") else "fragrance-oil")
    return pantry.Fragrance(name, kind, sheet, limit, parts)


def _sound_blends(
    scents: dict[str, pantry.Fragrance], additions: dict[str, pantry.Addition], report: Reporter
) -> dict[str, pantry.Fragrance]:
    """The scents, with no blend of what is not known and none that comes back to itself."""
    known = {entry.id for entry in additions.values() if entry.kind == "fragrance"}
    sound: dict[str, pantry.Fragrance] = {}
    for name, scent in scents.items():
        for part in scent.blend:
            if part not in known:
                report.add(
                    ("fragrances", name, "blend", part),
                    f"the scent {part!r} is not in the pantry",
                    suggest(part, known, "scents"),
                    key=True,
                )
        parts = {part: share for part, share in scent.blend.items() if part in known}
        sound[name] = replace(scent, blend=parts)
    for name in _endless(sound):
        report.add(
            ("fragrances", name, "blend"),
            f"the blend {name!r} comes back to itself, or is made of blends more than {DEEPEST} deep",
            "make it of scents that are no blends",
            key=True,
        )
        sound[name] = replace(sound[name], blend={})
    return sound


def _endless(scents: Mapping[str, pantry.Fragrance]) -> list[str]:
    """Blends that do not come down to unblended scents in a few steps."""
    waiting = {name for name, scent in scents.items() if scent.blend}
    for _ in range(DEEPEST):
        waiting = {name for name in waiting if any(part in waiting for part in scents[name].blend)}
    return sorted(waiting)
