"""The rule `oil-dates`: the oil lots that a batch names are known, are of its oils, and were in date."""

from __future__ import annotations

from checks.books import batch, found

PANTRY = "oils:\n  olive: {lots: {A4471: 2027-05-01, B12: 2026-01-31}}\n"


def _lots(said: str) -> dict[str, str]:
    return {**batch(f", oil-lots: {said}"), "pantry.yaml": PANTRY}


BREAKER = _lots("{olive: A4417}")
TOLD = [
    (
        "recipes/tried.md:11:82",
        "error",
        "the lot 'A4417' of olive is not in the pantry",
        "did you mean 'A4471'?",
    ),
]
NEIGHBOUR = _lots("{olive: A4471}")


def test_each_slip_is_told() -> None:
    for said, told, severity in (
        (
            "{olive: B12}",
            "lot B12 of olive was best before 2026-01-31, and was poured on 2026-03-02",
            "warning",
        ),
        ("{palm: A4471}", "'palm' is not an oil of this recipe", "error"),
        ("{coconut: C1}", "the lot 'C1' of coconut is not in the pantry", "error"),
    ):
        (one,) = found(_lots(said), "oil-dates")
        assert (one.message, one.severity) == (told, severity)
