"""What the engine makes of a lot's records beside its cure: free alkali by titration, and until when it is good."""

from __future__ import annotations

from saponary.book.aims import acid_grams
from saponary.book.alkali_found import titrated
from saponary.book.published import Published
from saponary.messages.message import Number, Value, Within, clauses, message, percent
from saponary.messages.message import day as on_day
from saponary.schema.batch import Batch, FreeAlkali
from saponary.views import names


def test_name(test: FreeAlkali, recipe: Published) -> Value:
    """How it was tested; of a titration what it came to, the book's limit, and the acid that a thinned soap takes."""
    measured = titrated(test, recipe.settings)
    if measured is None:
        return test.test
    share = percent(measured.titration.free_caustic, 3)
    alkali = message(f"titration.as.{measured.titration.metal}", share=share)
    limit = message("titration.limit", limit=percent(measured.limit, 3)) if measured.limit is not None else ""
    acid = _acid(test, recipe) if measured.over else ""
    return clauses(test.test, alkali, limit, acid)


def _acid(test: FreeAlkali, recipe: Published) -> Value:
    measured, aims = titrated(test, recipe.settings), recipe.resolved.aims
    per_kilo = acid_grams(measured.titration.moles_in(1000.0), aims) if measured is not None else None
    if per_kilo is None or aims.acid is None:
        return ""
    return message(
        "titration.acid",
        rate=Number(per_kilo, 2, "g/kg"),
        acid=Within(names.addition(recipe.pantry, aims.acid.id)),
    )


def good_until(recipe: Published, batch: Batch) -> Value | None:
    """Until when a lot is good, and what sets the day; None where nothing is known."""
    found = recipe.best_before.get(batch.lot)
    if found is None:
        return None
    day, why = on_day(found.day), message("good.by-months")
    if found.by is not None:
        oil = Within(names.oil(recipe.pantry, found.by.oil))
        why = message("good.by-oil", oil=oil, lot=found.by.lot)
    elif not found.by_months:
        why = message("good.by-oils")
    if found.sure:
        return message("good.until", day=day, why=why)
    undated = names.together(recipe.pantry, found.undated)
    return message("good.until-unsure", day=day, why=why, undated=undated)


KEYS_BY_ID = {"titration.as.": ("sodium", "potassium")}
"""Keys that are put together here: what they start with, and the ids that may follow."""
