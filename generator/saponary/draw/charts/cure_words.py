"""The cure curve in words: what its key and notes say, and its description for those who do not see it."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, inf

from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.cure.readings import Ready
from saponary.messages.message import Message, Number, Value, grams, message, short
from saponary.messages.speaker import Speaker

Point = tuple[float, float]
"""A weighing: the day after pouring, and grams."""


def ready_label(ready: Ready) -> Message:
    kind, values = _ready(ready)
    return message(f"chart.cure.{kind}", **values)


def band(fit: CureFit) -> Message:
    """What the hatched band stands for."""
    sure = Number(100.0 * fit.confidence, 10, "%", short=True, tight=True)
    return message("chart.cure.band", confidence=sure)


def note(fit: CureFit | NoFit) -> Message:
    """Where the weight settles, and how surely; or why there is no curve."""
    if isinstance(fit, NoFit):
        why = message(f"cure.no-fit.{fit.reason.name.lower().replace('_', '-')}")
        return message("chart.cure.no-curve", why=why)
    plateau = _grams(fit.plateau_g)
    if fit.plateau_interval is None:
        return message("chart.cure.settles-unsure", plateau=plateau)
    low, high = fit.plateau_interval
    if low == -inf:
        return message("chart.cure.settles-at-most", plateau=plateau, most=_grams(high))
    return message(
        "chart.cure.settles-between", plateau=plateau, low=grams(low, bare=True), high=grams(high, bare=True)
    )


def in_words(points: Sequence[Point], fit: CureFit | NoFit, ready: Ready | None, say: Speaker) -> str:
    """The whole picture, sentence by sentence."""
    weighed = "; ".join(
        say("chart.cure.told-weighing", day=short(day), weight=_grams(grams)) for day, grams in points
    )
    told = [say("chart.cure.told-weighed", weighings=weighed) if points else say("chart.cure.told-none")]
    for suspect in fit.suspects:
        values: dict[str, Value] = {"day": short(suspect.day), "weight": _grams(suspect.grams)}
        if suspect.expected is None:
            told.append(say("chart.cure.told-left-out", **values))
        else:
            expected = _grams(suspect.expected)
            told.append(say("chart.cure.told-left-out-beside", expected=expected, **values))
    told.append(say(note(fit)))
    if ready is not None:
        kind, when = _ready(ready)
        told.append(say(f"chart.cure.told-{kind}{'-beyond' if ready.forecast else ''}", **when))
    return " ".join(told)


def _ready(ready: Ready) -> tuple[str, dict[str, Value]]:
    if ready.by_first:
        return "ready-by", {"day": ceil(ready.day)}
    day = ceil(ready.day - 1e-9)
    if ready.interval is None:
        return "ready-about", {"day": day}
    return "ready-between", {"day": day, "low": floor(ready.interval[0]), "high": ceil(ready.interval[1])}


def _grams(value: float) -> Number:
    return Number(value, 1, "g", tight=True)


KEYS_BY_ID = {
    "chart.cure.": ("ready-by", "ready-about", "ready-between"),
    "chart.cure.told-": tuple(
        f"{kind}{beyond}"
        for kind in ("ready-by", "ready-about", "ready-between")
        for beyond in ("", "-beyond")
    ),
}
