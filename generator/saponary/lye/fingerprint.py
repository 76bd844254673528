"""The fingerprint of a formula: the same for the same chemistry at any size of batch.

It covers what changes the soap: oils by share with the values used, alkali, superfat,
water, liquids, additions and portions, all per gram of oils. Prose, prices and photos are
not in it, nor is the size of the batch or the step of the scale.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable

from saponary.lye.formula import Addition, Formula, Liquid, Oil, shares
from saponary.quantity.rounding import show

LENGTH = 12
"""Hexadecimal figures shown; a record may quote as few as the first six."""

_DIGITS = 6


def fingerprint(formula: Formula) -> str:
    """Twelve hexadecimal figures of SHA-256 over the canonical form."""
    form = json.dumps(_canonical(formula), sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(form.encode("ascii")).hexdigest()[:LENGTH]


def matches(recorded: str, current: str) -> bool:
    """True where a recorded fingerprint, or its first six or more figures, is this one."""
    return len(recorded) >= 6 and current.startswith(recorded)


def _canonical(formula: Formula) -> dict[str, object]:
    def oils(of: Iterable[Oil]) -> list[list[str]]:
        rows = (
            [oil.id, oil.infused_with or "", _n(share), _n(oil.saponification_value), oil.ester]
            for oil, share in shares(of, formula.oils)
        )
        return sorted(rows, key=repr)

    a = formula.alkali
    return {
        "oils": oils(formula.oils),
        "alkali": [
            [_n(share), _n(purity if share > 0 else 1.0)]
            for share, purity in ((a.sodium, a.sodium_purity), (a.potassium, a.potassium_purity))
        ],
        "superfat": _n(formula.superfat),
        "water": [formula.water.convention, _n(formula.water.value)],
        "liquids": sorted(
            (
                [*_extra(p, rate), *map(_n, (p.water, p.fat, p.fat_value))]
                for p, rate in shares(formula.liquids, formula.base)
            ),
            key=repr,
        ),
        "additions": sorted(
            (
                [*_extra(p, rate), _n(p.base * 1000), *_wet(p)]
                for p, rate in shares(formula.additions, formula.base)
            ),
            key=repr,
        ),
        "portions": [[p.name, _n(p.share), oils(p.oils or ())] for p in formula.portions],
        "pots": "separate" if formula.separate_pots else "one",
        **(_late(formula)),
    }


def _extra(part: Addition | Liquid, rate: float) -> list[str]:
    return [part.id, part.portion or "", part.stage, _n(rate), _n(part.acid * 1000)]


def _late(formula: Formula) -> dict[str, object]:
    """What is stirred in after the cook, where anything is."""
    rows = (
        [oil.id, oil.infused_with or "", _n(rate)] for oil, rate in shares(formula.after_cook, formula.base)
    )
    return {"after-cook": sorted(rows, key=repr)} if formula.after_cook else {}


def _wet(part: Addition) -> list[str]:
    """The water of a solution, for which less plain water is weighed; what cured soap holds is assumed."""
    return [_n(part.water)] if part.water > 0 and not part.remelted else []


def _n(value: float) -> str:
    """A number to six decimals by the one rounding rule, so that float noise does not change the hash."""
    return show(value, _DIGITS)
