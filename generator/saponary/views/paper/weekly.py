"""The days on which a bar is weighed, on paper that leaves room to write the weighings in."""

from __future__ import annotations

from saponary.book.cure_days import cure_days
from saponary.book.published import Published

_WEEKS = (4, 6)
"""How many weeks at least, and at most, are drawn to write the weighings of a bar in."""


def weekly_days(recipe: Published) -> tuple[int, ...]:
    """Once a week while it cures; none where nothing dries."""
    if not recipe.model.by.dries:
        return ()
    least, most = _WEEKS
    weeks = min(most, max(least, -(-cure_days(recipe.model, recipe.settings).usual // 7)))
    return tuple(7 * week for week in range(weeks + 1))
