"""The moulds of the maker's `pantry.yaml`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from saponary.lye import mould as geometry
from saponary.reading.reporter import Reporter
from saponary.schema.pantry import Box, Cylinder, MouldEntry


def moulds(own: Mapping[str, MouldEntry], report: Reporter) -> dict[str, geometry.Mould]:
    """Moulds by name; one of no shape or no room is a finding."""
    made = {name: _mould(name, entry, report) for name, entry in own.items()}
    return {name: mould for name, mould in made.items() if mould is not None}


def _mould(name: str, own: MouldEntry, report: Reporter) -> geometry.Mould | None:
    given = [kind for kind in ("loaf", "slab", "cylinder", "cavities") if getattr(own, kind) is not None]
    if len(given) != 1:
        report.add(("moulds", name), "a mould has exactly one shape", "one of loaf, slab, cylinder, cavities")
        return None
    shape = _shape(own)
    if shape.kind != "cavities" and shape.liner >= _room(shape):
        report.add(("moulds", name), "the liner leaves no room in this mould", "check the measures")
        return None
    return shape


def _shape(own: MouldEntry) -> geometry.Mould:
    if own.cavities is not None:
        return geometry.Mould("cavities", cavity_ml=own.cavities.volume.millilitres, count=own.cavities.count)
    if own.cylinder is not None:
        return _cylinder(own.cylinder)
    return _box(own.loaf, "loaf") if own.loaf is not None else _box(own.slab, "slab")


def _cylinder(c: Cylinder) -> geometry.Mould:
    return geometry.Mould(
        "cylinder", length=c.length.millimetres, diameter=c.diameter.millimetres,
        liner=c.liner.millimetres if c.liner else 0.0, count=c.count,
    )  # fmt: skip


def _box(box: Box | None, kind: Literal["loaf", "slab"]) -> geometry.Mould:
    assert box is not None
    return geometry.Mould(
        kind, box.length.millimetres, box.width.millimetres, box.height.millimetres,
        box.top_length.millimetres if box.top_length else None,
        box.top_width.millimetres if box.top_width else None,
        liner=box.liner.millimetres if box.liner else 0.0, count=box.count,
    )  # fmt: skip


def _room(shape: geometry.Mould) -> float:
    """mm that a liner must stay below."""
    sides = (shape.length, shape.width or shape.diameter, shape.top_length, shape.top_width)
    across = min((side for side in sides if side), default=0.0)
    deep = shape.length if shape.kind == "cylinder" else shape.height
    return min(across / 2, deep)
