"""The scents of the maker's `pantry.yaml`: what a recipe adds, and the papers that came with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from saponary.pantry import make
from saponary.pantry import model as pantry
from saponary.pantry.over import Group, laid
from saponary.pantry.rows import Over
from saponary.quantity.rounding import as_decimal
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.fragrance_entry import FragranceEntry
from saponary.schema.ingredient import IngredientEntry

DEEPEST = 8
"""Blends of blends of blends, at most so many deep."""

BLEND_TOLERANCE = 5e-4
"""The parts of a blend may miss the whole by a twentieth of a per cent."""


def apply(
    standard: pantry.Pantry,
    mine: dict[str, pantry.Addition],
    own: Mapping[str, FragranceEntry],
    report: Reporter,
) -> dict[str, pantry.Fragrance]:
    """The scents' papers; each scent is put among the maker's own additions, over one of the same id.

    A scent takes name, density and the like from the one it is like, and no papers: those are of a bottle.
    """
    additions = Over(standard.additions, mine)
    entries = {name: _as_addition(name, entry) for name, entry in own.items()}

    def below(name: str) -> AdditionEntry | None:
        found = additions.get(name)
        if found is None or found.kind != FRAGRANCE or not isinstance(found.entry, AdditionEntry):
            return None
        return found.entry

    group = Group(entries, below, lambda: _scents(additions))
    papers = dict(standard.fragrances)
    made: dict[str, pantry.Addition] = {}
    for name, entry in own.items():
        if name in additions and below(name) is None:
            report.add(
                ("fragrances", name),
                f"{name!r} is an addition already, and no scent",
                "give the scent an id of its own",
                key=True,
            )
            continue
        whole = laid(name, group, ("fragrances", name), report)
        made[name] = replace(make.addition(name, _told(whole.entry, entry)), common=whole.common)
        papers[name] = _papers(name, entry, report)
    mine |= made
    return _sound_blends(papers, additions, report)


FRAGRANCE = "fragrance"
"""The kind of an addition that is a scent."""


def _scents(additions: Mapping[str, pantry.Addition]) -> list[str]:
    return [name for name, entry in additions.items() if entry.kind == FRAGRANCE]


def _as_addition(name: str, own: FragranceEntry) -> AdditionEntry:
    """What a scent states, as the addition by which a recipe names it."""
    said = {key: getattr(own, key) for key in own.model_fields_set & set(IngredientEntry.model_fields)}
    return AdditionEntry.model_construct(**said)


def _told(entry: AdditionEntry, own: FragranceEntry) -> AdditionEntry:
    """With what holds for any scent, where it is not said otherwise."""
    oil = own.kind == "essential-oil"
    said: dict[str, object] = {"kind": FRAGRANCE, "liquid": True}
    if entry.kind is None:
        said["inci"] = entry.inci or (None if oil else "Parfum")
        said["hazards"] = entry.hazards or ["sensitiser", *(["pregnancy-pets"] if oil else [])]
    return entry.model_copy(update=said)


def _papers(name: str, own: FragranceEntry, report: Reporter) -> pantry.Fragrance:
    """A scent's allergen sheet, certificate and blend."""
    path: Path = ("fragrances", name)
    sheet = (
        None if own.composition is None else {key: share.fraction for key, share in own.composition.items()}
    )
    if sheet and sum(sheet.values()) > 1.0 + 1e-9:
        report.add(
            (*path, "composition"),
            f"the sheet sums to {as_decimal(100 * sum(sheet.values()), 4)} %",
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
            f"the blend sums to {as_decimal(100 * sum(parts.values()), 4)} %",
            "its parts make 100 %",
            key=True,
        )
    paper = own.certificate
    limit = pantry.Certificate(paper.maximum.fraction, paper.category, paper.from_) if paper else None
    kind = own.kind or ("essential-oil" if name.startswith("essential-oil-") else "fragrance-oil")
    return pantry.Fragrance(name, kind, sheet, limit, parts)


def _sound_blends(
    scents: dict[str, pantry.Fragrance], additions: Mapping[str, pantry.Addition], report: Reporter
) -> dict[str, pantry.Fragrance]:
    """The scents, with no blend of what is not known and none that comes back to itself."""
    known = set(_scents(additions)) if any(scent.blend for scent in scents.values()) else set[str]()
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
            "make it of scents that are not blends",
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
