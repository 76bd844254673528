"""Student's t against an independent library, and a printed table."""

from __future__ import annotations

import pytest
from scipy import stats

from saponary.lye.cure.student import quantile, within


@pytest.mark.parametrize("confidence", [0.5, 0.8, 0.9, 0.95, 0.99, 0.999, 0.9999])
def test_quantiles_agree_with_scipy(confidence: float) -> None:
    # Source: scipy.stats.t.ppf.
    for degrees in [*range(1, 41), 100, 333]:
        expected = stats.t.ppf((1 + confidence) / 2, degrees)
        assert quantile(confidence, degrees) == pytest.approx(expected, rel=1e-9)


def test_chances_agree_with_scipy() -> None:
    # Source: scipy.stats.t.cdf.
    for degrees in range(1, 30):
        for t in (0.0, 0.3, 1.0, 2.5, 12.0):
            assert within(t, degrees) == pytest.approx(2 * stats.t.cdf(t, degrees) - 1, abs=1e-12)


def test_printed_table() -> None:
    # Source: any printed table of Student's t, two-sided 95 %.
    table = {1: 12.706, 2: 4.303, 3: 3.182, 4: 2.776, 10: 2.228, 30: 2.042}
    assert {n: round(quantile(0.95, n), 3) for n in table} == table


@pytest.mark.parametrize(("confidence", "degrees"), [(0.0, 3), (1.0, 3), (-0.1, 3), (0.95, 0)])
def test_refuses_what_has_no_quantile(confidence: float, degrees: int) -> None:
    # Source: the distribution's definition.
    with pytest.raises(ValueError):
        quantile(confidence, degrees)
