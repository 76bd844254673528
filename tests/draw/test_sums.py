"""The area under a line, against areas of geometry; and no name of numpy that one of its versions lacks."""

from __future__ import annotations

import re

import numpy as np
import pytest

from saponary.draw.pour.sums import area_under
from support import REPOSITORY, some


def test_areas_of_triangle_and_trapezium() -> None:
    assert area_under(np.array([0.0, 3.0, 0.0]), np.array([0.0, 1.0, 4.0])) == pytest.approx(6.0)
    assert area_under(np.array([2.0, 5.0]), np.array([1.0, 3.0])) == pytest.approx(7.0)


def test_no_name_of_numpy_that_came_or_went_with_its_second_version() -> None:
    """By numpy's release notes: `trapezoid` came with 2.0, `trapz` went with 2.4; other new names are from memory."""
    new = re.compile(
        r"\bnp\.(trapezoid|trapz|concat|pow|acos|asin|atan|atan2|permute_dims|matrix_transpose|vecdot)\b"
    )
    for path in some(sorted((REPOSITORY / "generator").rglob("*.py"))):
        assert not new.search(path.read_text("utf-8")), path
