"""Before the work: what to put on, the scale, the vessels, and what is at hand without a weight."""

from __future__ import annotations

from saponary.book.pour_uses import pour_uses
from saponary.book.published import Published
from saponary.lye.cook import pot_millilitres
from saponary.messages.message import Listed, Message, Value, Within, message, short
from saponary.views import names
from saponary.views.pouring import mould_words
from saponary.views.stages.stage import Stage
from saponary.views.uptake import unknown_uptake
from saponary.views.weigh_sheet import WeighSheet, scale_step


def before(bench: WeighSheet) -> Stage:
    dry = unweighed(bench.computed)
    jug = "vessel" if bench.computed.model.by.weighs_lye else "vessel-alone"
    lead = (
        message("work.before.wear"),
        message(
            "work.before.scale",
            step=scale_step(bench.scale),
            mould=_filled(bench),
        ),
        message(
            f"work.before.{jug}",
            vessel=_vessel(bench),
            at_hand=message("work.before.at-hand", dry=Listed(dry)) if dry else "",
        ),
        *(
            message("figure.superfat-not-known", reason=why)
            for why in (unknown_uptake(bench.computed),)
            if why
        ),
    )
    return Stage("before", message("work.before.title"), lead, steps=bench.steps("before"))


def _filled(bench: WeighSheet) -> Message:
    """What the soap goes into."""
    vessel, built = bench.computed.model.by.vessel, bench.computed.resolved
    if vessel == "mould":
        return mould_words(built.mould_name, built.mould, "mould-first")
    return message(f"work.before.into.{vessel}")


def _vessel(bench: WeighSheet) -> Value:
    """What it is made in: for a cook a pot with room to climb, by volume."""
    model = bench.computed.model
    if model.vessel:
        return model.vessel
    if model.by.cooks:
        room = short(pot_millilitres(bench.computed.figures) / 1000.0, unit="l")
        return message("work.before.tall-pot", room=room)
    return message("work.before.pots" if model.pots == "separate" else "work.before.pot")


KEYS_BY_ID = {"work.before.": ("vessel", "vessel-alone", "into.jar", "into.bottle")}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def unweighed(computed: Published) -> tuple[Within, ...]:
    """What the pour dusts, sets in or sprinkles without a weight, each once."""
    unseen = dict.fromkeys(use.what for use in pour_uses(computed) if not use.weighed)
    return tuple(Within(names.addition(computed.pantry, name)) for name in unseen)
