"""What may be wrong with an ingredient of the maker's own: values that cannot be, or that miss the table."""

from __future__ import annotations

from saponary.lye.fatty_acids import FATTY_ACIDS
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema.ingredient import AdditionEntry, LiquidEntry, OilEntry

_FAR_OFF = 0.1
"""A certificate this far outside the published range is of another oil, or a slip of the pen."""


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
            f"the fatty acids sum to {100 * whole:.1f} %",
            "between 90 % and 102 %",
            "warning",
        )
    return own.model_copy(update={"fatty_acids": known})


def oil(name: str, own: OilEntry, below: OilEntry | None, report: Reporter, *, missing: bool) -> None:
    """The saponification value of an entry, against its own range and the published one `below`."""
    path: Path = ("oils", name)
    given = own.saponification_value
    if given is None:
        if missing and own.like is None:
            report.add(
                path, f"the oil {name!r} has no saponification value", "add saponification-value: 190 mg/g"
            )
        return
    value = given.value.number
    where = (*path, "saponification-value")
    if given.range is not None:
        low, high = given.range[0].number, given.range[1].number
        if not low <= value <= high:
            report.add(
                (*where, "range"),
                f"the range {low:g} to {high:g} does not hold the value {value:g}",
                "give the lower end, then the upper",
            )
    elif below is None:
        report.add(
            where,
            "no range is given, so the superfat band takes this value as certain",
            "add range: [lower, upper] from the certificate",
            "warning",
        )
    if below is not None and below.saponification_value is not None and below.saponification_value.range:
        published = below.saponification_value.range
        _plausible(value, published[0].number, published[1].number, where, report)


def _plausible(value: float, low: float, high: float, where: Path, report: Reporter) -> None:
    """A value of the maker's own against the published range of that oil."""
    if low <= value <= high:
        return
    far = not (1 - _FAR_OFF) * low <= value <= (1 + _FAR_OFF) * high
    report.add(
        where,
        f"{value:g} mg/g lies {'far ' if far else ''}outside the published {low:g} to {high:g}",
        "check the certificate; another oil needs an id of its own" if far else "check the certificate",
        "error" if far else "warning",
    )


def liquid(name: str, entry: LiquidEntry, report: Reporter) -> bool:
    """Whether an entry, laid over what is below it, is enough of a liquid to be used."""
    if entry.water is None:
        if entry.like is None:
            report.add(
                ("liquids", name),
                f"the liquid {name!r} does not say how much of it is water",
                "add water: 90 %",
            )
        return False
    shares = (entry.water, entry.fat, entry.sugar)
    if sum(share.fraction for share in shares if share is not None) > 1.0 + 1e-9:
        report.add(
            ("liquids", name),
            "water, fat and sugar sum to more than the whole",
            "they are shares of the liquid's weight",
        )
    return True


def addition(group: str, name: str, entry: AdditionEntry, report: Reporter) -> None:
    """An entry, laid over what is below it."""
    if entry.usual is not None and entry.usual[0].number > entry.usual[1].number:
        report.add(
            (group, name, "usual"), "the usual rate runs backwards", "give the lower rate, then the upper"
        )
    if group == "colourants" and entry.fresh is None and entry.cured is None:
        report.add(
            (group, name),
            f"the colourant {name!r} has no colour",
            'add fresh: "#a4503c" and cured: "#b98f86"',
        )
