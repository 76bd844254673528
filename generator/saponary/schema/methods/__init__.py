"""The methods of making soap, one file each, listed below in the order in which they are told.

A further method is one new file beside these and its line in `METHODS`.
"""

from __future__ import annotations

from collections.abc import Mapping

from saponary.schema.methods import cold, cream, hot, liquid, rebatch
from saponary.schema.methods.method import Method

METHODS: tuple[Method, ...] = (
    cold.METHOD,
    hot.METHOD,
    cream.METHOD,
    liquid.METHOD,
    rebatch.METHOD,
)

BY_NAME: Mapping[str, Method] = {method.name: method for method in METHODS}

USUAL = cold.METHOD
"""The method of a recipe that names none."""
