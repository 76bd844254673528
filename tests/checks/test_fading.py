"""The rule `fading`."""

from __future__ import annotations

from checks.books import TWO, more, put, recipe

BREAKER = recipe(
    more("pour: [{beds: [{of: light}, {of: dark}]}]\nadditions: [{what: turmeric, amount: 4 g/kg}]\n", TWO)
)
TOLD = [
    (
        "recipes/tried.md:15:20",
        "warning",
        "turmeric will not keep its colour: the bar goes from #b5642c to #d8bf78",
        "look at the drawing as cured, and design the pattern for that colour",
    ),
]
NEIGHBOUR = recipe(more("additions: [{what: turmeric, amount: 4 g/kg}]\n", TWO))
ALSO = [
    (
        recipe(
            more(
                "portions:\n  - {name: light, share: 1/2, additions: [{what: turmeric, amount: 1 g}, {what: turmeric, amount: 1 g}]}\n  - {name: dark, share: 1/2, additions: [{what: kaolin, amount: 5 g}]}\nadditions: [{what: spirulina, amount: 3 g}]\npour: [{beds: [{of: light}, {of: dark}]}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:12:50",
                "warning",
                "turmeric will not keep its colour: the portion 'light' goes from #b5642c to #d8bf78",
                "look at the drawing as cured, and design the pattern for that colour; or waive it with your reason: waive: [{rule: fading, about: turmeric in light, because: …}]",
            ),
            (
                "recipes/tried.md:14:20",
                "warning",
                "spirulina will not keep its colour: the bar goes from #546f4c to #a09d76",
                "look at the drawing as cured, and design the pattern for that colour; or waive it with your reason: waive: [{rule: fading, about: spirulina, because: …}]",
            ),
        ],
    ),
    (
        recipe(
            put(
                "coconut: 25 %",
                "coconut: {share: 25 %, infused-with: alkanet}",
                more(
                    "portions:\n  - {name: light, share: 1/2}\n  - {name: dark, share: 1/2}\npour: [{beds: [{of: light}, {of: dark}]}]\n"
                ),
            )
        ),
        [
            (
                "recipes/tried.md:7:42",
                "warning",
                "alkanet will not keep its colour: the bar goes from #53537f to #8f8793",
                "look at the drawing as cured, and design the pattern for that colour; or waive it with your reason: waive: [{rule: fading, about: alkanet, because: …}]",
            )
        ],
    ),
]
