"""The rule `potassium`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("method: cream\n"))
TOLD = [
    (
        "recipes/tried.md:11:9",
        "error",
        "method: cream needs potassium hydroxide, half of the equivalents or more",
        "add lye: {potassium: {share: 100 %, purity: 90 %}}, or make a bar",
    ),
]
NEIGHBOUR = recipe(more("method: cream\nlye: {potassium: {share: 100 %, purity: 90 %}}\n"))
SPLIT = "method: cream\nlye: {sodium: {share: %s}, potassium: {share: %s, purity: 90 %%}}\n"
ALSO = [
    (recipe(more(SPLIT % ("50 %", "50 %"))), []),
    (
        recipe(more(SPLIT % ("50.1 %", "49.9 %"))),
        [
            (
                "recipes/tried.md:11:9",
                "error",
                "method: cream needs potassium hydroxide, half of the equivalents or more",
                "add lye: {potassium: {share: 100 %, purity: 90 %}}, or make a bar; or waive it with your reason: waive: [{rule: potassium, because: …}]",
            )
        ],
    ),
]
