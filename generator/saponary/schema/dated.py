"""Days of a batch given as dates: what was weighed or seen on 2026-03-09 was weighed so many days after the pour."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from saponary.reading.plain import is_list, is_map
from saponary.schema.fields import problem

_DATE = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


def days_for_dates(batch: object) -> object:
    """A batch as written, with days for dates in `weighed:`, `bars:` and the photos; others are left as they are."""
    poured = _date(batch.get("poured")) if is_map(batch) else None
    if poured is None or not is_map(batch):
        return batch
    made = dict(batch)
    weighed, bars, photos = made.get("weighed"), made.get("bars"), made.get("photos")
    if is_map(weighed):
        made["weighed"] = _days(weighed, poured)
    if is_map(bars):
        made["bars"] = {name: _days(bar, poured) if is_map(bar) else bar for name, bar in bars.items()}
    if is_list(photos):
        made["photos"] = [_photo(photo, poured) if is_map(photo) else photo for photo in photos]
    return made


def _days(weighed: Mapping[str, object], poured: date) -> dict[str, object]:
    made = dict[str, object]()
    for key, grams in weighed.items():
        day = _day(key, poured)
        if day in made:
            raise problem(f"two weighings are of day {day}", "keep one of them")
        made[day] = grams
    return made


def _photo(photo: Mapping[str, object], poured: date) -> dict[str, object]:
    day = photo.get("day")
    return {**photo, "day": _day(day, poured)} if isinstance(day, str) else dict(photo)


def _day(written: str, poured: date) -> str:
    """Days from the pour to a date; what is no date as it stands."""
    on = _date(written)
    if on is None:
        return written
    if on < poured:
        raise problem(
            f"{written} is before the batch was poured, on {poured.isoformat()}", "check the two dates"
        )
    return str((on - poured).days)


def _date(written: object) -> date | None:
    if not isinstance(written, str) or _DATE.fullmatch(written) is None:
        return None
    try:
        return date.fromisoformat(written)
    except ValueError:
        return None
