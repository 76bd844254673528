"""Cream soap: mostly potassium soap, cooked, thinned to a cream and left to rest; it goes into jars.

Common practice, no source.
"""

from __future__ import annotations

from saponary.schema.methods.method import Days, Method
from saponary.schema.methods.refusals import NO_MOULD

METHOD = Method(
    name="cream",
    makes="soft",
    stages=("before", "lye", "oils", "trace", "cook", "dilute", "after-cook", "rest", "fill"),
    vessel="jar",
    top="flat",
    lays=frozenset(),
    # Two weeks of rest: common practice, no source.
    days=Days("rest", least=14, usual=14, reads_weighings=False),
    cautions=("hot-pot", "keeping"),
    refuses=NO_MOULD,
    moves={"trace": "after-cook"},
    potassium=True,
)
