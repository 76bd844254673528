"""The rule `batch-days`."""

from __future__ import annotations

from checks.books import batch

BREAKER = batch(", cut: 2026-03-01")
NEIGHBOUR = batch(", cut: 2026-03-02")
