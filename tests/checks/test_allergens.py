"""The rule `allergens`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(
    more("additions: [{what: harbour-scent, amount: 20 g}]\n"),
    pantry="fragrances: {harbour-scent: {composition: {linalol: 4 %}, certificate: {maximum: 3 %}}}\n",
)
TOLD = [
    (
        "recipes/tried.md:11:20",
        "error",
        "the sheet of 'harbour-scent' in pantry.yaml names 'linalol', which is not a fragrance allergen known here",
        "did you mean 'linalool'?",
    ),
]
NEIGHBOUR = recipe(
    more("additions: [{what: harbour-scent, amount: 20 g}]\n"),
    pantry="fragrances: {harbour-scent: {composition: {linalool: 4 %}, certificate: {maximum: 3 %}}}\n",
)
ALSO = [
    (
        recipe(
            more("additions: [{what: one, amount: 5 g}, {what: two, amount: 5 g}]\n"),
            pantry="fragrances: {one: {certificate: {maximum: 3 %}}, two: {composition: {linalool: 4 %, butylphenyl methylpropional: 1 %, moonshine: 2 %, limonen: 1 %}}, both: {blend: {one: 50 %, two: 50 %}}}\n",
        ),
        [
            (
                "recipes/tried.md:2:8",
                "warning",
                "a scent of this bar holds Butylphenyl Methylpropional, no longer allowed in cosmetics of the European Union (from memory)",
                "ask the supplier for a newer scent; or waive it with your reason: waive: [{rule: allergens, about: Butylphenyl Methylpropional, because: …}]",
            ),
            (
                "recipes/tried.md:11:20",
                "warning",
                "no supplier sheet says which allergens 'one' holds",
                "add composition: {…} to it under fragrances: in pantry.yaml, or composition: {} where the sheet names none; or waive it with your reason: waive: [{rule: allergens, about: one, because: …}]",
            ),
            (
                "recipes/tried.md:11:46",
                "error",
                "the sheet of 'two' in pantry.yaml names 'limonen', which is not a fragrance allergen known here",
                "did you mean 'limonene'?; or waive it with your reason: waive: [{rule: allergens, about: two, because: …}]",
            ),
            (
                "recipes/tried.md:11:46",
                "warning",
                "the sheet of 'two' in pantry.yaml names 'moonshine', which is not a fragrance allergen known here",
                "known allergens: 3 propylidenephthalide, 6 methyl coumarin, acetyl cedrene, alpha amylcinnamaldehyde, alpha damascone, alpha hexylcinnamaldehyde, alpha isomethyl ionone, alpha isomethylionone, … If it is not one, take it out; or waive it with your reason: waive: [{rule: allergens, about: two, because: …}]",
            ),
        ],
    ),
    (
        recipe(
            more("additions: [{what: both, amount: 5 g}]\n"),
            pantry="fragrances: {one: {certificate: {maximum: 3 %}}, two: {composition: {linalool: 4 %, butylphenyl methylpropional: 1 %, moonshine: 2 %, limonen: 1 %}}, both: {blend: {one: 50 %, two: 50 %}}}\n",
        ),
        [
            (
                "recipes/tried.md:2:8",
                "warning",
                "a scent of this bar holds Butylphenyl Methylpropional, no longer allowed in cosmetics of the European Union (from memory)",
                "ask the supplier for a newer scent; or waive it with your reason: waive: [{rule: allergens, about: Butylphenyl Methylpropional, because: …}]",
            ),
            (
                "recipes/tried.md:11:20",
                "warning",
                "no supplier sheet says which allergens 'one' holds",
                "add composition: {…} to it under fragrances: in pantry.yaml, or composition: {} where the sheet names none; or waive it with your reason: waive: [{rule: allergens, about: one, because: …}]",
            ),
            (
                "recipes/tried.md:11:20",
                "error",
                "the sheet of 'two' in pantry.yaml names 'limonen', which is not a fragrance allergen known here",
                "did you mean 'limonene'?; or waive it with your reason: waive: [{rule: allergens, about: two, because: …}]",
            ),
            (
                "recipes/tried.md:11:20",
                "warning",
                "the sheet of 'two' in pantry.yaml names 'moonshine', which is not a fragrance allergen known here",
                "known allergens: 3 propylidenephthalide, 6 methyl coumarin, acetyl cedrene, alpha amylcinnamaldehyde, alpha damascone, alpha hexylcinnamaldehyde, alpha isomethyl ionone, alpha isomethylionone, … If it is not one, take it out; or waive it with your reason: waive: [{rule: allergens, about: two, because: …}]",
            ),
        ],
    ),
]
