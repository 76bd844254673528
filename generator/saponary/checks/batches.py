"""batches: a batch poured to an earlier formula, and days that cannot be."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.findings import Finding
from saponary.checks.rule import Case, Rule
from saponary.lye.fingerprint import matches


def check(case: Case) -> Iterator[Finding]:
    lots: set[str] = set()
    for index, batch in enumerate(case.model.batches):
        path = ("batches", index)
        if batch.lot in lots:
            yield case.finding(
                RULE.name,
                (*path, "lot"),
                f"the lot {batch.lot!r} is recorded twice",
                "give each batch its own lot",
            )
        lots.add(batch.lot)
        if batch.formula is not None and not matches(batch.formula, case.fingerprint):
            yield case.finding(
                RULE.name, (*path, "formula"), f"lot {batch.lot} was poured to an earlier formula, {batch.formula}",
                f"the recipe's formula is now {case.fingerprint}; pour and record a batch to it", "warning",
            )  # fmt: skip
        for name in ("unmoulded", "cut"):
            day = getattr(batch, name)
            if day is not None and day < batch.poured:
                yield case.finding(
                    RULE.name,
                    (*path, name),
                    f"lot {batch.lot} was {name} before it was poured",
                    "check the two dates",
                )
        if batch.free_alkali is not None and batch.free_alkali.on < batch.poured:
            yield case.finding(
                RULE.name,
                (*path, "free-alkali", "on"),
                f"lot {batch.lot} was tested before it was poured",
                "check the two dates",
            )


RULE = Rule(
    "batches",
    "sense",
    "A batch record names the formula it was poured to, by fingerprint. When the recipe changes, what was "
    "learnt from the batch is no longer about this recipe, and the page says so.",
    check,
)
