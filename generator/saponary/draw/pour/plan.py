"""From the maker's steps to zones: how much of which portion goes where, from the bottom up.

A portion's part in a laying is what `part` says; what no `part` claims is split evenly over
its other layings, and a portion named twice in one laying has an even share in each place.
Steps that name nothing known are left out; a portion never laid becomes a last flat bed.
Batter dropped into a portion that an earlier step laid goes into that zone, which grows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from saponary.draw.pour.scene import DrawnPortion
from saponary.schema.pour import Bed, Columns, Drops, Plops, PourStep


@dataclass(frozen=True)
class Load:
    """So much of a portion, as a share of the whole mould."""

    name: str
    share: float


@dataclass(frozen=True)
class Insert:
    """Rings of batter dropped into a zone at `count` places, the last poured innermost."""

    step: int
    rings: tuple[Load, ...]
    count: int

    @property
    def share(self) -> float:
        return sum(ring.share for ring in self.rings)


@dataclass(frozen=True)
class Zone:
    """What one bed or one laying step adds to the mould."""

    step: int
    place: int
    pattern: str
    loads: tuple[Load, ...]
    slope: float = 0.0
    across_mm: float | None = None
    inserts: tuple[Insert, ...] = ()

    @property
    def share(self) -> float:
        return sum(load.share for load in self.loads) + sum(insert.share for insert in self.inserts)

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(load.name for load in (*self.loads, *(r for i in self.inserts for r in i.rings)))


@dataclass
class _Ledger:
    """Which laying asks for which portion: `(laying, portion) -> part`, None where none is said."""

    asked: dict[tuple[str, str], float | None] = field(default_factory=dict[tuple[str, str], float | None])

    def shares(self, volumes: Mapping[str, float]) -> dict[tuple[str, str], float]:
        out: dict[tuple[str, str], float] = {}
        for name, volume in volumes.items():
            mine = {key: part for key, part in self.asked.items() if key[1] == name}
            said = sum(part for part in mine.values() if part is not None)
            unsaid = sum(1 for part in mine.values() if part is None)
            # Parts that do not add up are stretched to the whole, so that the areas stay true.
            stretch = 1.0 / said if said > 0 and (said > 1 or not unsaid) else 1.0
            left = max(0.0, 1.0 - said * stretch) / unsaid if unsaid else 0.0
            for key, part in mine.items():
                if said <= 0 and not unsaid:
                    out[key] = volume / len(mine)
                else:
                    out[key] = volume * (left if part is None else part * stretch)
        return out


def volumes(portions: Sequence[DrawnPortion]) -> dict[str, float]:
    """Each portion's share of the mould, with the sum brought to one."""
    found: dict[str, float] = {}
    for portion in portions:
        found[portion.name] = found.get(portion.name, 0.0) + max(0.0, portion.volume_share)
    total = sum(found.values())
    return {name: volume / total for name, volume in found.items()}


def plan(steps: Sequence[PourStep], portions: Sequence[DrawnPortion]) -> tuple[Zone, ...]:
    """The zones in the order they fill the mould."""
    known = volumes(portions)
    drafts, ledger = _entries(steps, known)
    shares = ledger.shares(known)
    zones: list[Zone] = []
    for draft in drafts:
        key = f"{draft.step}/{draft.place}"
        rings = [ring.name for insert in draft.inserts for ring in insert.rings]
        hosted = draft.pattern == "drops"
        named = rings if hosted else [item.name for item in draft.loads] + rings

        def load(name: str, key: str = key, named: list[str] = named) -> Load:
            return Load(name, shares[key, name] / named.count(name))

        inserts = tuple(
            replace(insert, rings=tuple(load(ring.name) for ring in insert.rings)) for insert in draft.inserts
        )
        if hosted:
            _drop(zones, draft.loads[0].name, inserts[0])
        else:
            loads = tuple(load(item.name) for item in draft.loads)
            zones.append(replace(draft, loads=loads, inserts=inserts))
    return tuple(kept for zone in zones if (kept := _without_nothing(zone)).share > 1e-9)


def _without_nothing(zone: Zone) -> Zone:
    inserts = (replace(insert, rings=_some(insert.rings)) for insert in zone.inserts)
    return replace(zone, loads=_some(zone.loads), inserts=tuple(insert for insert in inserts if insert.rings))


def _some(loads: tuple[Load, ...]) -> tuple[Load, ...]:
    return tuple(load for load in loads if load.share > 1e-9)


def _drop(zones: list[Zone], host: str, insert: Insert) -> None:
    """Put the rings into the last zone that holds the host; into the host's own ring, as the next ring."""
    at = max(i for i, zone in enumerate(zones) if host in zone.names)
    zone = zones[at]
    for i, other in enumerate(zone.inserts):
        if host in (ring.name for ring in other.rings):
            joined = replace(other, rings=(*other.rings, *insert.rings))
            zones[at] = replace(zone, inserts=(*zone.inserts[:i], joined, *zone.inserts[i + 1 :]))
            return
    zones[at] = replace(zone, inserts=(*zone.inserts, insert))


class _Drafts:
    """The zones without their amounts, in order, and who asks for what."""

    def __init__(self, known: Mapping[str, float]) -> None:
        self.known = known
        self.ledger = _Ledger()
        self.zones: list[Zone] = []

    def add(self, zone: Zone, hosted: bool = False, part: float | None = None) -> None:
        """`hosted`: the first name is of batter that an earlier zone holds, which it asks nothing of."""
        for name in zone.names[1:] if hosted else zone.names:
            self.ledger.asked[f"{zone.step}/{zone.place}", name] = part
        self.zones.append(zone)

    def loads(self, names: Sequence[str]) -> tuple[Load, ...]:
        return tuple(Load(name, 0.0) for name in names if name in self.known)

    def beds(self, index: int, beds: Sequence[Bed]) -> None:
        for place, bed in enumerate(beds):
            if bed.of in self.known:
                part = bed.part.fraction if bed.part is not None else None
                self.add(Zone(index, place, "beds", self.loads([bed.of]), slope=bed.slope), part=part)

    def columns(self, index: int, columns: Columns) -> None:
        if row := self.loads(columns.of):
            named = tuple(row[i % len(row)] for i in range(max(len(row), columns.count or 0)))
            self.add(Zone(index, 0, "columns", named, slope=columns.tilt))

    def plops(self, index: int, plops: Plops) -> None:
        if row := self.loads(plops.of):
            across = plops.across.millimetres if plops.across is not None else None
            self.add(Zone(index, 0, "plops", tuple(dict.fromkeys(row)), across_mm=across))

    def drops(self, index: int, drops: Drops) -> None:
        row, host = self.loads(drops.of), self.loads([drops.into])
        if row and host:
            hosted = any(drops.into in zone.names for zone in self.zones)
            insert = Insert(index, row, drops.count)
            self.add(Zone(index, 0, "drops" if hosted else "beds", host, inserts=(insert,)), hosted=hosted)


def _entries(steps: Sequence[PourStep], known: Mapping[str, float]) -> tuple[list[Zone], _Ledger]:
    """The zones without their amounts, and who asks for what. A `drops` zone goes into an earlier one."""
    drafts = _Drafts(known)
    for index, step in enumerate(steps):
        if step.kind == "beds" and step.beds:
            drafts.beds(index, step.beds)
        elif step.kind == "columns" and step.columns:
            drafts.columns(index, step.columns)
        elif step.kind == "plops" and step.plops:
            drafts.plops(index, step.plops)
        elif step.kind == "drops" and step.drops:
            drafts.drops(index, step.drops)
    laid = {name for zone in drafts.zones for name in zone.names}
    for place, name in enumerate(name for name in known if name not in laid):
        drafts.add(Zone(len(steps), place, "beds", drafts.loads([name])))
    return drafts.zones, drafts.ledger
