"""The rule `batch-days`."""

from __future__ import annotations

from checks.books import batch

BREAKER = batch(", cut: 2026-03-01")
TOLD = [
    ("recipes/tried.md:11:69", "error", "lot A1 was cut before it was poured", "check the two dates"),
]
NEIGHBOUR = batch(", cut: 2026-03-02")
