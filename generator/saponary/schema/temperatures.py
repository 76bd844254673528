"""The temperatures that a recipe is worked at."""

from __future__ import annotations

from typing import Annotated

from saponary.schema.fields import CookTemperature, LyeTemperature, OilsAt, Part
from saponary.schema.seen import Seen


class Temperatures(Part):
    """How warm lye, oils and pot are to be. What they were is in the record of each batch."""

    lye: Annotated[LyeTemperature | None, Seen("work")] = None
    """The lye solution when it goes into the oils."""
    oils: Annotated[OilsAt | None, Seen("work")] = None
    """The oils when the lye solution goes in. Above 100 °C its water would boil."""
    cook: Annotated[CookTemperature | None, Seen("work")] = None
    """The pot while it cooks.
    Example:
      method: hot
      temperatures: {cook: 85 °C}
    """
