"""Where a rising measure reaches its target: the one search for a root."""

from __future__ import annotations

from collections.abc import Callable

_TURNS = 80
_BISECT_EVERY = 4


def rising_root(
    measure: Callable[[float], float],
    low: float,
    high: float,
    target: float = 0.0,
    *,
    near: float = 0.0,
    narrow: float = 1e-9,
    ends: tuple[float, float] | None = None,
) -> float:
    """The place between `low` and `high` where a rising measure comes within `near` of its target.

    False position with the weight of an end halved where it stays for a second step (the Illinois
    method), and a bisection every few steps, so that no bracket stays wide. It ends too once the
    bracket, or a step, is narrower than `narrow`. An end beyond which the target lies is the answer. `ends` are the
    measure's values at both ends, where they are known already.
    """
    below, above = (value - target for value in ends or (measure(low), measure(high)))
    if below >= 0:
        return low
    if above <= 0:
        return high
    before, side = low, 0
    for turn in range(_TURNS):
        place = high - (high - low) * (above / (above - below))
        if turn % _BISECT_EVERY == _BISECT_EVERY - 1:
            place = 0.5 * (low + high)
        error = measure(place) - target
        if abs(error) <= near or high - low < narrow or abs(place - before) < narrow:
            return place
        before = place
        if error < 0:
            low, below, above = place, error, above / 2 if side < 0 else above
            side = -1
        else:
            high, above, below = place, error, below / 2 if side > 0 else below
            side = 1
    return 0.5 * (low + high)
