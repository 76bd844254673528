"""The whole pour laid out: zones solved from the bottom up, stirred, dusted and dressed.

Areas count what shows around embeds. A pencil line is powder without a volume worth counting:
it lies along its seam and takes no area. Nor do sprinkled petals, which lie on top.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.carried import Leg, Line, carried
from saponary.draw.pour.chart import chart
from saponary.draw.pour.comb import comb
from saponary.draw.pour.drops import Dropped, drop
from saponary.draw.pour.embeds import Embed, place
from saponary.draw.pour.flow import Basin
from saponary.draw.pour.laying import Filling, Patch, patch
from saponary.draw.pour.layings import PATTERNS
from saponary.draw.pour.mould import EMPTY, Mould, make_mould, union
from saponary.draw.pour.plan import Zone, plan
from saponary.draw.pour.scene import Scene
from saponary.draw.pour.seed import Array, wave
from saponary.draw.pour.skewer import skewer
from saponary.draw.pour.sprinkle import Petal, petals
from saponary.draw.pour.swirl import Reach, stir
from saponary.schema.pour import Swirl

GIVE = 4.0


@dataclass(frozen=True)
class Dust:
    """A pencil line along the top of a zone."""

    step: int
    id: str
    line: Line
    legs: tuple[Leg, ...] = ()


@dataclass(frozen=True)
class Sprinkled:
    id: str
    petals: tuple[Petal, ...]


@dataclass(frozen=True)
class Layout:
    """Everything that is painted, in drawing lengths; patches from the first to the last."""

    mould: Mould
    patches: tuple[Patch, ...]
    dust: tuple[Dust, ...]
    embeds: tuple[Embed, ...]
    sprinkled: tuple[Sprinkled, ...]


@dataclass(frozen=True)
class _Laid:
    """A zone with its surfaces and what is painted in it."""

    zone: Zone
    lower: Array
    upper: Array
    patches: tuple[Patch, ...]
    dropped: Dropped


def lay_out(scene: Scene) -> Layout:
    texture = [step.top.shape for step in scene.steps if step.kind == "top" and step.top]
    mould = make_mould(scene.face, texture[-1] if texture else scene.top, scene.title)
    zones = plan(scene.steps, scene.portions)
    known = {extra.id for extra in scene.extras}
    embeds = _embeds(scene, mould, zones, known)
    solid = union([embed.shape for embed in embeds])
    laid = _fill(scene, mould, zones, solid)
    dust = _dust(scene, mould, laid, known)
    patches, dust = _stirred(scene, mould, laid, dust, solid)
    sprinkled = tuple(
        Sprinkled(step.top.sprinkle, petals(mould, step.top.sprinkle, scene.title))
        for step in scene.steps
        if step.kind == "top" and step.top and step.top.sprinkle in known
    )
    return Layout(mould, tuple(patches), tuple(dust), tuple(embeds), sprinkled)


def _embeds(scene: Scene, mould: Mould, zones: tuple[Zone, ...], known: set[str]) -> list[Embed]:
    """Embeds rest on what is laid when they are set; set last of all, they sink into the last zone."""
    whole = mould.area(mould.floor, mould.top)
    placed: list[Embed] = []
    for index, step in enumerate(scene.steps):
        if step.kind != "embeds" or step.embeds is None or step.embeds.of not in known:
            continue
        below = sum(zone.share for zone in zones if zone.step < index)
        if below > 1 - 1e-6:
            below = 1 - zones[-1].share / 2
        level = mould.surface(mould.floor, np.zeros_like(mould.xs), below * whole, EMPTY)
        height = float(np.max(level)) if below > 1e-6 else 0.0
        placed.extend(place(mould, index, step.embeds, height, placed, scene.title))
    return placed


def _fill(scene: Scene, mould: Mould, zones: tuple[Zone, ...], solid: BaseGeometry) -> list[_Laid]:
    free_area = mould.area(mould.floor, mould.top) - float(solid.area)
    lower, filled = mould.floor, 0.0
    laid: list[_Laid] = []
    for number, zone in enumerate(zones):
        words = (scene.title, str(number), *zone.names)
        filled += zone.share * free_area
        if number == len(zones) - 1:
            upper = mould.top
        else:
            upper = mould.surface(
                lower, _line(mould, zone, zones[number + 1], free_area, words), filled, solid
            )
        above, blocked, dropped = mould.above(lower), solid, Dropped((), ())
        if zone.inserts:
            dropped = drop(mould.between(lower, upper), zone.inserts, free_area, solid, words)
            blocked = solid.union(union([outline for _, outline in dropped.outlines]))
        if zone.loads:
            across = zone.across_mm * mould.scale if zone.across_mm else None
            filling = Filling(
                mould,
                zone.step,
                Basin(mould.xs, lower, upper),
                above,
                blocked,
                zone.loads,
                free_area,
                zone.slope,
                across,
                words,
            )
            patches = tuple(PATTERNS[zone.pattern](filling))
        else:
            patches = (patch(zone.step, zone.inserts[0].rings[0].name, above),)
        laid.append(_Laid(zone, lower, upper, patches, dropped))
        lower = upper
    return laid


def _line(mould: Mould, zone: Zone, following: Zone, free_area: float, words: tuple[str, ...]) -> Array:
    """The shape of a zone's surface: its slope and the waver of the hand, less in thin beds."""
    slope = math.tan(math.radians(zone.slope)) if zone.pattern == "beds" else 0.0
    thin = min(zone.share, following.share) * free_area / mould.width
    amplitude = min(0.012 * mould.width, 0.16 * thin)
    away = mould.xs - mould.width / 2
    return slope * away + wave(mould.xs, mould.width, amplitude, *words)


def _dust(scene: Scene, mould: Mould, laid: list[_Laid], known: set[str]) -> list[Dust]:
    """The pencil lines, each along the seam of the last zone that holds its portion by then."""
    out: list[Dust] = []
    for index, step in enumerate(scene.steps):
        if step.kind != "line" or step.line is None or step.line.of not in known:
            continue
        zones = [item for item in laid if item.zone.step < index and step.line.over in item.zone.names]
        if zones:
            seen = zones[-1].upper - mould.floor > 0.3
            points = np.column_stack([mould.xs, zones[-1].upper])[seen]
            if len(points) > 1:
                out.append(Dust(index, step.line.of, Line(points, closed=False)))
    return out


@dataclass(frozen=True)
class _Stir:
    """A swirl, and the region it goes through."""

    swirl: Swirl
    index: int
    basin: Basin
    room: Reach


def _swirls(scene: Scene, mould: Mould, laid: list[_Laid]) -> Iterator[_Stir]:
    for index, step in enumerate(scene.steps):
        zones = [item for item in laid if item.zone.step < index]
        if step.kind != "swirl" or step.swirl is None or not zones:
            continue
        bottom, surface = mould.floor, zones[-1].upper
        if step.swirl.depth is not None and not mould.face.top_view:
            level = float(np.max(surface)) - step.swirl.depth.fraction * mould.height
            # The batter below the tool gives a little.
            bottom = np.minimum(np.maximum(bottom, level - GIVE), surface)
        basin = Basin(mould.xs, bottom, surface)
        if mould.area(bottom, surface) < 1.0:
            continue
        left, low, right, high = basin.bounds
        upright = zones[-1].zone.pattern == "columns"
        room = Reach(left, low, right, high, upright, mould.face.top_view, (scene.title, str(index)))
        if mould.face.kind == "round":
            room = room.inset(0.08)
        elif bottom is not mould.floor:
            room = replace(room, bottom=min(room.bottom + GIVE, room.top))
        yield _Stir(step.swirl, index, basin, room)


def _stirred(
    scene: Scene, mould: Mould, laid: list[_Laid], dust: list[Dust], solid: BaseGeometry
) -> tuple[list[Patch], list[Dust]]:
    """Patches and lines in the order they came, each moved by every swirl after it."""
    patches = sorted(
        (item for one in laid for item in (*one.patches, *one.dropped.patches)), key=lambda p: p.step
    )
    for stroke in _swirls(scene, mould, laid):
        early = [item for item in patches if item.step < stroke.index]
        lines = [item for item in dust if item.step < stroke.index]
        later = [outline for item in laid for at, outline in item.dropped.outlines if at > stroke.index]
        obstacle = solid.union(union(later)) if later else solid
        leg = _leg(stroke) if obstacle.is_empty else None
        if leg is not None:
            so_far = dict.fromkeys([*(item.legs for item in early), *(item.legs for item in lines)])
            ways = {legs: _further(legs, leg) for legs in so_far}
            early = [replace(item, legs=ways[item.legs]) for item in early]
            lines = [replace(item, legs=ways[item.legs]) for item in lines]
        else:
            early, lines = _moved(early, lines)
            threads = [line for item in early for line in item.lines] + [item.line for item in lines]
            stirred = stir(stroke.swirl, stroke.room, stroke.basin, obstacle, threads)
            early, lines = _with(iter(stirred), early, lines)
        patches = early + patches[len(early) :]
        dust = lines + dust[len(lines) :]
    return _moved(patches, dust)


def _leg(stroke: _Stir) -> Leg | None:
    """The swirl as closed-form maps; None where it has none."""
    swirl, room = stroke.swirl, stroke.room
    flat = chart(stroke.basin.xs, stroke.basin.low, stroke.basin.high) if swirl.tool != "hanger" else None
    if flat is None:
        return None
    if swirl.tool == "comb":
        return Leg(flat, tuple(comb(swirl, flat, room.upright, room.top_view, room.words)))
    return Leg(flat, tuple(skewer(swirl, (flat.width, flat.height), room.upright, room.words)))


def _further(legs: tuple[Leg, ...], leg: Leg) -> tuple[Leg, ...]:
    return (*legs[:-1], *legs[-1].then(leg)) if legs else (leg,)


def _with(moved: Iterator[Line], patches: list[Patch], dust: list[Dust]) -> tuple[list[Patch], list[Dust]]:
    """Patches and lines with moved outlines, which wait for nothing more."""
    return (
        [Patch(item.step, item.name, tuple(next(moved) for _ in item.lines)) for item in patches],
        [Dust(item.step, item.id, next(moved)) for item in dust],
    )


def _moved(patches: list[Patch], dust: list[Dust]) -> tuple[list[Patch], list[Dust]]:
    """All that waits to be moved, together what goes the same way."""
    found = [line for item in patches for line in item.lines] + [item.line for item in dust]
    ways = [item.legs for item in patches for _ in item.lines] + [item.legs for item in dust]
    for legs in dict.fromkeys(ways):
        mine = [i for i, way in enumerate(ways) if way == legs]
        for i, line in zip(mine, carried([found[i] for i in mine], legs), strict=True):
            found[i] = line
    return _with(iter(found), patches, dust)
