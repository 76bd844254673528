"""Rebatch: soap of earlier lots is grated, melted with a little liquid, and spooned into a mould.

No lye is weighed, so that no figure of lye or superfat is given. Common practice, no source.
"""

from __future__ import annotations

from saponary.schema.methods.method import BY_THE_SPOON, Days, Method
from saponary.schema.methods.refusals import NO_LYE

METHOD = Method(
    name="rebatch",
    makes="bar",
    stages=("before", "grate", "melt", "after-cook", "split", "pour", "dry"),
    vessel="mould",
    top="rough",
    lays=BY_THE_SPOON,
    # A week of drying at the least: common practice, no source.
    days=Days("drying", least=7, usual=None, reads_weighings=True),
    cautions=("rebatch-alkali", "hot-soap"),
    refuses=NO_LYE,
    weighs_lye=False,
    moves={"lye": "after-cook", "oils": "after-cook", "trace": "after-cook"},
    liquids_at="melt",
)
