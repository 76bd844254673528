"""The rule `signed-too-coarse`: a step of a fiftieth of the weight is still fine enough."""

from __future__ import annotations

from checks.books import put, recipe

BREAKER = recipe(put("signed:\n", "signed:\n  lye: 0.1 kg\n"))
TOLD = [
    (
        "recipes/tried.md:12:8",
        "warning",
        "0.1 kg is too rough a figure to hold lye to",
        "write it as 0.140 kg",
    ),
]
NEIGHBOUR = recipe(put("signed:\n", "signed:\n  lye: 136 g\n"))
ALSO = [
    (
        recipe(
            put(
                "signed:\n",
                "signed:\n  lye: 139.8 g\n  plain-water: 10 oz\n  oils: 1.0 kg\n  water: 0.3 kg\n  sodium-hydroxide: 0.31 lb\n  lie: 3 g\n  potassium-hydroxide: 0 g\n  lye-strength: 33 %\n  olive: 600 ml\n  coconut: 1/4 kg\n",
            )
        ),
        [
            (
                "recipes/tried.md:13:16",
                "warning",
                "10 oz is too rough a figure to hold plain-water to",
                "write it as 10.0 oz; or waive it with your reason: waive: [{rule: signed-too-coarse, about: plain-water, because: …}]",
            ),
            (
                "recipes/tried.md:14:9",
                "warning",
                "1.0 kg is too rough a figure to hold oils to",
                "write it as 1.00 kg; or waive it with your reason: waive: [{rule: signed-too-coarse, about: oils, because: …}]",
            ),
            (
                "recipes/tried.md:15:10",
                "warning",
                "0.3 kg is too rough a figure to hold water to",
                "write it as 0.284 kg; or waive it with your reason: waive: [{rule: signed-too-coarse, about: water, because: …}]",
            ),
            (
                "recipes/tried.md:16:21",
                "warning",
                "0.31 lb is too rough a figure to hold sodium-hydroxide to",
                "write it as 0.308 lb; or waive it with your reason: waive: [{rule: signed-too-coarse, about: sodium-hydroxide, because: …}]",
            ),
        ],
    ),
]
