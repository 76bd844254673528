"""Hot process: the batter is cooked until the alkali is spent, then spooned into the mould.

What goes in after the cook meets no lye. The bar is soap on the day it is made; it dries, and a
scale says when it has. Common practice, no source.
"""

from __future__ import annotations

from saponary.schema.methods.method import BY_THE_SPOON, Days, Method
from saponary.schema.methods.refusals import NO_DILUTION, NO_SOAP

METHOD = Method(
    name="hot",
    makes="bar",
    stages=("before", "lye", "oils", "trace", "cook", "after-cook", "split", "pour", "dry"),
    vessel="mould",
    top="rough",
    lays=BY_THE_SPOON,
    # A week of drying at the least: common practice, no source.
    days=Days("drying", least=7, usual=None, reads_weighings=True),
    cautions=("hot-pot",),
    refuses={
        "soap": NO_SOAP,
        "dilute": NO_DILUTION,
        "container": "a bar is spooned into a mould",
        "rest": "a bar dries, and its weighings say when it is ready",
        "batches.gel": "a cooked soap has gone through its gel in the pot",
    },
    moves={"trace": "after-cook"},
)
