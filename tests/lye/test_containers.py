"""Jars and bottles; sums by hand."""

from __future__ import annotations

import pytest

from saponary.lye.containers import containers


@pytest.mark.parametrize(
    ("soap", "each", "count", "full"),
    [(950.0, 500.0, 2, 0.95), (951.0, 500.0, 3, 0.634), (100.0, 500.0, 1, 0.2), (475.0, 500.0, 1, 0.95)],
)
def test_as_few_as_hold_it_with_head_room(soap: float, each: float, count: int, full: float) -> None:
    """Filled to 95 % at the most: common practice, no source."""
    found = containers(soap, 1.1 * soap, each)
    assert found.count == count and found.full == pytest.approx(full, abs=1e-3)
    assert found.grams * count == pytest.approx(1.1 * soap)
