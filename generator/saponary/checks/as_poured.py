"""as-poured: a batch whose recorded weights leave free lye, or do not say enough to tell."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.lye_written import alkali
from saponary.book.poured import OILS, Behind, Recount, behind, names, recount
from saponary.book.records import BatchRecord
from saponary.checks.listed import BOTH
from saponary.checks.rule import ProofContext, Rule
from saponary.lye.poured import STOCKS
from saponary.pantry.model import Pantry
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding, suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Tree


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        yield from _of(record, computed.pantry, behind(record.batch, computed))


def check_book(context: ProofContext) -> Iterator[Finding]:
    """Lots of recipes that cannot be computed are lots all the same."""
    book = context.book
    usual = alkali(None, book.settings, Reporter(Tree(), "", RULE.name))
    assert usual is not None
    for slug in book.batches:
        if slug not in context.recipes:
            for record in book.batches[slug]:
                yield from _of(record, book.pantry, Behind(None, None, usual))


def _of(record: BatchRecord, shelf: Pantry, known: Behind) -> Iterator[Finding]:
    found = recount(record.batch, shelf, known)
    if found is None:
        return
    yield from _strange(record, found, shelf, known)
    if found.caustic:
        yield _caustic(record, found)
    elif found.lacking:
        yield _unknown(record, found)
    elif found.astray:
        yield _astray(record, found)


def _strange(record: BatchRecord, found: Recount, shelf: Pantry, known: Behind) -> Iterator[Finding]:
    may = names(record.batch, shelf, known)
    where = "this recipe" if known.then is known.now else "the formula that this lot was poured to"
    for name in found.strange:
        if name in STOCKS.values():
            yield record.finding(
                RULE.name,
                ("as-weighed", name),
                f"how strong the {name.replace('-', ' ')} was is not recorded",
                "add its strength to this batch: lye-stock: 50 %",
                key=True,
            )
            continue
        yield record.finding(
            RULE.name,
            ("as-weighed", name),
            f"{name!r} is not in {where if known.then is not None else 'the pantry'}",
            suggest(name, may, "names"),
            key=True,
        )


def _caustic(record: BatchRecord, found: Recount) -> Finding:
    assert found.superfat is not None
    return record.finding(
        RULE.name,
        ("as-weighed",),
        f"as weighed, lot {record.batch.lot} has a superfat of {show(100 * found.superfat, 1)} %: free lye",
        "do not use, sell or give away this lot; check the record against the scale",
        key=True,
    )


def _unknown(record: BatchRecord, found: Recount) -> Finding:
    formula = record.batch.formula
    told = f"the formula {formula} is not to be found" if formula else "it records no formula"
    wanted = ", ".join("its oils" if name == OILS else name for name in found.lacking)
    return record.finding(
        RULE.name,
        ("as-weighed",),
        f"the superfat of lot {record.batch.lot} cannot be known: {told}, and no weight is recorded for {wanted}",
        "add what the scale showed; until then the lot is not called ready",
        "warning",
        key=True,
        about=record.batch.lot,
    )


def _astray(record: BatchRecord, found: Recount) -> Finding:
    assert found.superfat is not None and found.meant is not None
    low, high = (show(100 * bound, 1) for bound in (found.meant.low, found.meant.high))
    return record.finding(
        RULE.name,
        ("as-weighed",),
        f"as weighed, lot {record.batch.lot} has a superfat of {show(100 * found.superfat, 1)} %, where its formula "
        f"comes to {low} % to {high} %: it is another soap",
        "check the record against the scale; until then the lot does not count as a test of its formula, and is not called ready",
        "warning",
        key=True,
        about=record.batch.lot,
    )


RULE = Rule(
    "as-poured",
    "danger",
    "Each batch record is recomputed from its own weights, even after its recipe has changed. A lot "
    "whose weights leave free lye must not be used. A lot with missing weights, or with the weights of "
    "another soap, is not called ready.",
    recipe=check,
    book=check_book,
    kinds=BOTH,
)
