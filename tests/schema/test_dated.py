"""Weighings and photos by date are those of so many days after the pour."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from saponary.schema.batch import Batch


def batch(**more: object) -> Batch:
    return Batch.model_validate({"lot": "A", "poured": "2026-02-27", **more})


def test_dates_are_counted_from_the_pour() -> None:
    one = batch(
        weighed={"0": "120 g", "2026-03-01": "118 g", "2026-03-27": "110 g"},
        bars={"b": {"2026-02-27": "121 g"}},
        photos=[{"file": "a.jpg", "day": "2026-03-06"}, {"file": "b.jpg", "day": "3"}],
    )
    assert one.weighings() == {"": {0: 120.0, 2: 118.0, 28: 110.0}, "b": {0: 121.0}}
    assert [photo.day for photo in one.photos] == [7, 3]


@pytest.mark.parametrize(
    ("weighed", "says"),
    [
        ({"2026-02-26": "1 g"}, "2026-02-26 is before the batch was poured, on 2026-02-27"),
        ({"2": "1 g", "2026-03-01": "1 g"}, "two weighings are of day 2"),
        ({"2026-02-30": "1 g"}, "a day of the cure is needed here"),
        ({"9 March": "1 g"}, "a day of the cure is needed here"),
    ],
)
def test_what_is_no_day_of_the_cure(weighed: dict[str, str], says: str) -> None:
    with pytest.raises(ValidationError, match=says):
        batch(weighed=weighed)
