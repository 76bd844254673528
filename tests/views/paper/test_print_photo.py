"""Photos on paper are sharp: 200 dots an inch at least (common practice, no source)."""

from __future__ import annotations

import pytest

from saponary.draw.photos.facts import WIDTHS
from saponary.views.paper.print_photo import BOOK, PAIR, SHEET


@pytest.mark.parametrize("wide", [SHEET, PAIR, BOOK])
def test_a_published_width_is_sharp_at_the_size_it_is_printed(wide: float) -> None:
    assert max(WIDTHS) / (wide / 25.4) >= 200
