"""The root finder behind every area: where does a growing measure reach its target?"""

from __future__ import annotations

from collections.abc import Callable


def reach(measure: Callable[[float], float], low: float, high: float, target: float, within: float) -> float:
    """The place between `low` and `high` where the growing `measure` comes `within` of `target`.

    False position (Illinois) with a bisection whenever a step shrinks the bracket too little.
    """
    below, above = measure(low) - target, measure(high) - target
    if below >= 0:
        return low
    if above <= 0:
        return high
    weight_low, weight_high = below, above
    for turn in range(80):
        split = weight_high / (weight_high - weight_low)
        place = high - (high - low) * split
        if turn % 4 == 3:
            place = 0.5 * (low + high)
        error = measure(place) - target
        if abs(error) <= within or high - low < 1e-9:
            return place
        if error < 0:
            low, weight_low, weight_high = place, error, weight_high / 2
        else:
            high, weight_high, weight_low = place, error, weight_low / 2
    return 0.5 * (low + high)
