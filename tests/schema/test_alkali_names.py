"""NaOH and KOH are the alkalis by the names that stand on their packets."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from saponary.schema.batch import Batch
from saponary.schema.lye_written import Lye
from saponary.schema.settings import Purity
from support import PLAIN, prove_one


@pytest.mark.parametrize(
    ("written", "sodium", "potassium"),
    [
        ("NaOH", 1.0, None),
        ("KOH", None, 1.0),
        ("sodium hydroxide", 1.0, None),
        ({"NaOH": "60 %", "koh": "40 %"}, 0.6, 0.4),
        ({"sodium-hydroxide": {"share": "100 %", "purity": "98 %"}}, 1.0, None),
        ({"sodium": "1/2", "KOH": "1/2"}, 0.5, 0.5),
    ],
)
def test_the_alkali_of_a_recipe(written: object, sodium: float | None, potassium: float | None) -> None:
    lye = Lye.model_validate(written)
    assert (lye.sodium and lye.sodium.share.fraction) == sodium
    assert (lye.potassium and lye.potassium.share.fraction) == potassium


def test_purities_and_weights() -> None:
    purity = Purity.model_validate({"NaOH": "98 %"})
    assert purity.sodium is not None and purity.sodium.fraction == 0.98
    batch = Batch.model_validate(
        {"lot": "A", "poured": "2026-03-02", "as-weighed": {"NaOH": "137 g", "olive": "600 g"}}
    )
    assert list(batch.as_weighed) == ["sodium-hydroxide", "olive"]


def test_one_alkali_by_two_names() -> None:
    with pytest.raises(ValidationError, match="sodium is given twice, once as 'NaOH'"):
        Lye.model_validate({"sodium": "50 %", "NaOH": "50 %"})


def test_it_weighs_the_same_by_either_name() -> None:
    def lye(written: str) -> float:
        text = PLAIN.replace("superfat: 5 %\n", f"superfat: 5 %\nlye: {written}\n", 1)
        return prove_one(text).recipes[0].computed.figures.weights.total

    assert lye("KOH") == lye("{potassium: 100 %}") > lye("NaOH") == lye("{sodium: 100 %}")
