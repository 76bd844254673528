"""Liquid soap: potassium soap, cooked to a clear paste, diluted, left to clear, and filled into bottles.

Common practice, no source.
"""

from __future__ import annotations

from saponary.schema.methods.method import Days, Method
from saponary.schema.methods.refusals import NO_MOULD

METHOD = Method(
    name="liquid",
    makes="liquid",
    stages=("before", "lye", "oils", "trace", "cook", "dilute", "after-cook", "rest", "fill"),
    vessel="bottle",
    top="flat",
    lays=frozenset(),
    # A week of rest, in which it clears: common practice, no source.
    days=Days("rest", least=7, usual=7, reads_weighings=False),
    cautions=("hot-pot", "keeping"),
    refuses=NO_MOULD,
    moves={"trace": "after-cook"},
    potassium=True,
)
