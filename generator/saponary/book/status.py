"""What a recipe's status is, derived and never declared: draft, signed or tested."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Literal, NamedTuple

from saponary.book.alkali_found import clean_test
from saponary.book.cure_days import cure_days
from saponary.lye.fingerprint import matches
from saponary.messages.message import Listed, Message, message
from saponary.schema.batch import Batch
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings

Name = Literal["draft", "signed", "tested"]


class Status(NamedTuple):
    """The status, and the step that is missing to the next one (None when none is)."""

    name: Name
    missing: Message | None = None


def status(
    recipe: Recipe, batches: Sequence[Batch], fingerprint: str, settings: Settings, held: Collection[str] = ()
) -> Status:
    """Draft: nothing signed. Tested: a batch of this very formula, cured, with a clean
    free-alkali test at or after the end of its cure. Else signed, and so where a lot of
    this formula is among those `held` back. No clock is asked: the date of the test says how
    long the batch had cured.
    """
    if not recipe.signed:
        return Status("draft", message("badge.needs.figures"))
    same = [b for b in batches if b.formula is not None and matches(b.formula, fingerprint)]
    if not same:
        return Status("signed", message("badge.needs.batch"))
    back = [b.lot for b in same if b.lot in held]
    if back:
        return Status("signed", message("badge.needs.held", lots=Listed(tuple(back))))
    clean = [(b, test) for b in same if (test := clean_test(b, settings)) is not None]
    if not clean:
        return Status("signed", message("badge.needs.test"))
    waits = cure_days(recipe, settings)
    if not any((test.on - batch.poured).days >= waits.least for batch, test in clean):
        key = "badge.needs.late-test" if waits.waits == "cure" else "badge.needs.late-test-waited"
        return Status("signed", message(key, days=waits.least))
    return Status("tested")
