"""What may be wrong with an oil of the maker's own: a saponification value that its acids, its kind or the
published range of that oil contradict.

Limits are judgement, no source: acids as stated leave some out, and published ranges are
those of ordinary samples.
"""

from __future__ import annotations

from collections.abc import Mapping

from saponary.lye.constants import KOH, NAOH
from saponary.lye.fatty_acids import FATTY_ACIDS, iodine_value, saponification_value
from saponary.lye.formula import Ester
from saponary.quantity.rounding import as_decimal, show
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema.oil_entry import OilEntry

FAR_OFF = 0.03
"""A certificate this far outside the published range is of another oil, or a typing mistake."""

ACIDS_OFF = 0.06
"""A value this far from the one that follows from the fatty acids cannot be theirs."""

IODINE_OFF = 0.25
"""An iodine value this far from the one that follows from the fatty acids is another oil's."""

_FEW = 5.0
"""Grams of iodine per 100 g by which the value of a hard fat may be off."""

WINDOWS: Mapping[str, tuple[float, float]] = {
    "oil": (165.0, 270.0),
    "butter": (160.0, 250.0),
    "fat": (185.0, 245.0),
    "wax": (5.0, 150.0),
    "acid": (180.0, 400.0),
}
"""mg KOH/g by kind of fat, from meadowfoam to babassu and palm kernel, shea to murumuru, lard to butterfat,
carnauba to lanolin, stearic to caprylic acid (from memory; the tables' own range where that is wider)."""

_LEAST_TOLD = 0.9
"""Acids that sum to less than this leave too much out to reckon with."""

_BASIS = KOH / NAOH
_NEAR = 0.03


def with_known_acids(name: str, own: OilEntry, report: Reporter) -> OilEntry:
    """The entry without fatty acids that nobody knows."""
    if own.fatty_acids is None:
        return own
    for key in own.fatty_acids:
        if key not in FATTY_ACIDS:
            report.add(
                ("oils", name, "fatty-acids", key),
                f"the fatty acid {key!r} is not known",
                suggest(key, FATTY_ACIDS, "fatty acids"),
            )
    known = {key: share for key, share in own.fatty_acids.items() if key in FATTY_ACIDS}
    whole = sum(share.fraction for share in known.values())
    if known and not 0.9 <= whole <= 1.02:
        report.add(
            ("oils", name, "fatty-acids"),
            f"the fatty acids sum to {show(100 * whole, 1)} %",
            "between 90 % and 102 %",
            "warning",
        )
    return own.model_copy(update={"fatty_acids": known})


def oil(
    name: str, own: OilEntry, whole: OilEntry, below: OilEntry | None, report: Reporter, *, missing: bool
) -> None:
    """The saponification value of an entry: against its own range, the published one `below`, its acids, its kind.

    `whole` is the entry with all that lies below it.
    """
    path: Path = ("oils", name)
    _iodine(own, whole, path, report)
    given = own.saponification_value
    if given is None:
        if missing and own.like is None:
            report.add(
                path, f"the oil {name!r} has no saponification value", "add saponification-value: 190 mg/g"
            )
        elif own.fatty_acids is not None and whole.saponification_value is not None:
            value = whole.saponification_value.value.number
            _by_acids(value, _computed(whole), (*path, "fatty-acids"), report)
        return
    value = given.value.number
    where = (*path, "saponification-value")
    _own_range(own, below, where, report)
    computed = _computed(whole)
    published = below.saponification_value if below is not None else None
    if published is not None and published.range is not None:
        low, high = published.range[0].number, published.range[1].number
        if _outside(value, low, high, where, report):
            return
    if computed is not None:
        _by_acids(value, computed, where, report)
    elif published is None:
        _by_kind(value, whole.kind or "oil", where, report)


def _iodine(own: OilEntry, whole: OilEntry, path: Path, report: Reporter) -> None:
    """An iodine value of the maker's own that the fatty acids beside it contradict."""
    acids = {key: share.fraction for key, share in (whole.fatty_acids or {}).items()}
    if own.iodine_value is None or whole.kind == "wax" or sum(acids.values()) < _LEAST_TOLD:
        return
    told = own.iodine_value.value.number
    follows = iodine_value(acids, ester="acid" if whole.kind == "acid" else "triglyceride")
    if abs(told - follows) > max(IODINE_OFF * follows, _FEW):
        report.add(
            (*path, "iodine-value"),
            f"{as_decimal(told, 6)} g/100 g is stated, and {show(follows, 0)} g/100 g follows from the fatty acids",
            "check both against the certificate",
            "warning",
        )


def _own_range(own: OilEntry, below: OilEntry | None, where: Path, report: Reporter) -> None:
    given = own.saponification_value
    assert given is not None
    value = given.value.number
    if given.range is not None:
        low, high = given.range[0].number, given.range[1].number
        if not low <= value <= high:
            report.add(
                (*where, "range"),
                f"the range {as_decimal(low, 6)} to {as_decimal(high, 6)} does not hold the value {as_decimal(value, 6)}",
                "give the lower end, then the upper",
            )
    elif below is None:
        report.add(
            where,
            "no range is given, so the superfat band takes this value as certain",
            "add range: [lower, upper] from the certificate",
            "warning",
        )


def _outside(value: float, low: float, high: float, where: Path, report: Reporter) -> bool:
    """Whether a value of the maker's own lies outside the published range of that oil."""
    if low <= value <= high:
        return False
    far = not (1 - FAR_OFF) * low <= value <= (1 + FAR_OFF) * high
    hint = _other_basis(value, low, high) or (
        "check the certificate; another oil needs an id of its own" if far else "check the certificate"
    )
    report.add(
        where,
        f"{as_decimal(value, 6)} mg/g lies {'far ' if far else ''}outside the published {as_decimal(low, 6)} to {as_decimal(high, 6)}",
        hint,
        "error" if far else "warning",
    )
    return True


def _computed(entry: OilEntry) -> float | None:
    """mg KOH/g by the fatty acids; None where they are not known, or say nothing (a wax)."""
    acids = {key: share.fraction for key, share in (entry.fatty_acids or {}).items()}
    if entry.kind == "wax" or sum(acids.values()) < _LEAST_TOLD:
        return None
    ester: Ester = "acid" if entry.kind == "acid" else "triglyceride"
    spared = entry.unsaponifiable.value.fraction if entry.unsaponifiable else 0.0
    return saponification_value(acids, ester=ester, unsaponifiable=spared)


def _by_acids(value: float, computed: float | None, where: Path, report: Reporter) -> None:
    if computed is None or abs(value / computed - 1) <= ACIDS_OFF:
        return
    near = (1 - _NEAR) * computed, (1 + _NEAR) * computed
    report.add(
        where,
        f"{as_decimal(value, 6)} mg/g is stated, and {show(computed, 0)} mg/g follows from the fatty acids",
        _other_basis(value, *near) or "check both against the certificate",
    )


def _by_kind(value: float, kind: str, where: Path, report: Reporter) -> None:
    low, high = WINDOWS[kind]
    if low <= value <= high:
        report.add(
            where,
            f"nothing stands beside {as_decimal(value, 6)} mg/g that it could be checked by",
            "add fatty-acids from the certificate, or like: a known oil",
            "warning",
        )
        return
    report.add(
        where,
        f"{as_decimal(value, 6)} mg/g is the value of no {_SPOKEN[kind]}: they lie between {as_decimal(low, 6)} and {as_decimal(high, 6)}",
        _other_basis(value, low, high) or "check the certificate, or add fatty-acids that bear it out",
    )


_SPOKEN = {"oil": "oil", "butter": "butter", "fat": "animal fat", "wax": "wax", "acid": "fatty acid"}


def _other_basis(value: float, low: float, high: float) -> str:
    """What to write where the value would fit as another unit or for the other alkali."""
    for factor, what in (
        (_BASIS, "mg of sodium hydroxide"),
        (1 / _BASIS, "mg of potassium hydroxide calculated from sodium hydroxide once too often"),
        (10.0, "per cent"),
    ):
        if low <= value * factor <= high:
            return f"it fits as {what}: in mg of potassium hydroxide per gram it is {show(value * factor, 1)} mg/g"
    return ""
