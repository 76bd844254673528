"""How much alkali water can hold at a temperature.

Grams of hydroxide in 100 g of water: NaOH 42, 109, 129, 174 at 0, 20, 40, 60 °C; KOH 97, 112,
140, 178 at 0, 20, 50, 100 °C (a handbook table, second-hand). Straight between the points.
"""

from __future__ import annotations

from saponary.lye.alkali import Weights
from saponary.lye.density import between

_NAOH = ((0.0, 42.0), (20.0, 109.0), (40.0, 129.0), (60.0, 174.0))
_KOH = ((0.0, 97.0), (20.0, 112.0), (50.0, 140.0), (100.0, 178.0))


def strongest(weights: Weights, celsius: float) -> float:
    """The mass fraction of alkali in the strongest lye at a temperature from 0 to 60 °C.

    Two alkalis are taken to share the water by their weights; pure sodium lye where there is none.
    """
    at = min(max(celsius, 0.0), 60.0)
    sodium = weights.sodium_hydroxide / weights.total if weights.total > 0 else 1.0
    in_hundred = 1.0 / (sodium / between(_NAOH, at) + (1.0 - sodium) / between(_KOH, at))
    return in_hundred / (in_hundred + 100.0)
