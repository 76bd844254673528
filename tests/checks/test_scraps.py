"""The rule `scraps`."""

from __future__ import annotations

from checks.books import GOOD, recipe

BREAKER = recipe(GOOD, pantry="scraps: {odds: {of: tride}}\n")
NEIGHBOUR = recipe(GOOD, pantry="scraps: {odds: {of: tried}}\n")
