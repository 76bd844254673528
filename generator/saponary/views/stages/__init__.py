"""The stages of work that a method may have, one function each, listed below.

A method names its stages in their order (`schema/methods/`); a stage that is new to all of them is one
function here and its line in `STAGES`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from saponary.schema.methods.method import StageId
from saponary.views.stages.before import before
from saponary.views.stages.cook import after_cook, cook
from saponary.views.stages.dilute import dilute
from saponary.views.stages.ending import cover, dry, fill, rest
from saponary.views.stages.lye import lye
from saponary.views.stages.mould import pour, split
from saponary.views.stages.oils import oils, trace
from saponary.views.stages.soap import grate, melt
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighSheet

STAGES: Mapping[StageId, Callable[[WeighSheet], Stage]] = {
    "before": before,
    "lye": lye,
    "oils": oils,
    "trace": trace,
    "grate": grate,
    "melt": melt,
    "cook": cook,
    "dilute": dilute,
    "after-cook": after_cook,
    "split": split,
    "pour": pour,
    "cover": cover,
    "dry": dry,
    "rest": rest,
    "fill": fill,
}
