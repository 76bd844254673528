"""Messages become words: places, plurals, lists, numbers. English plural rules are those of CLDR."""

from __future__ import annotations

import calendar
from datetime import date
from pathlib import Path

import pytest

from saponary.messages.message import Day, Listed, Number, Within, grams, message, percent
from saponary.messages.speaker import Speaker, speaker

TRIED = Speaker(
    "en",
    {"list.and": "and", "bars": {"one": "{count} bar", "other": "{count} bars"}, "of": "{what} of {names}"},
)


def test_places_are_filled_by_messages_numbers_and_lists() -> None:
    said = TRIED.say(message("of", what=percent(0.3333), names=Listed(("a", "b", message("bars", count=2)))))
    assert said == "33.3 % of a, b and 2 bars"


@pytest.mark.parametrize(("count", "said"), [(1, "1 bar"), (0, "0 bars"), (2, "2 bars")])
def test_the_count_chooses_the_plural(count: int, said: str) -> None:
    assert TRIED("bars", count=count) == said


def test_numbers_are_rounded_by_the_one_rule() -> None:
    assert TRIED.number(Number(2.5)) == "3" and TRIED.number(Number(-2.5)) == "−3"
    assert (
        TRIED.number(Number(90.0, 1, "mm", short=True)) == "90 mm" and TRIED.say(grams(138.75)) == "138.8 g"
    )


def test_words_of_the_maker_are_said_as_they_are() -> None:
    assert TRIED.say("{not a place}") == "{not a place}"
    assert TRIED.say(message("of", what="{names}", names="b")) == "{names} of b"


def test_a_key_that_is_not_there_is_no_text() -> None:
    with pytest.raises(KeyError):
        TRIED("nothing")


def test_a_language_without_a_catalogue_is_said_in_english() -> None:
    assert speaker("xx").language == "en"


def test_a_narrow_tag_is_said_by_the_wider_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """RFC 4647, 3.4 (lookup): subtags are left out from the end until something is found."""
    folder = tmp_path / "messages"
    folder.mkdir()
    (folder / "qq.yaml").write_text("one: eno\n", encoding="utf-8")
    monkeypatch.setattr("saponary.messages.speaker.files", lambda _: tmp_path)
    assert speaker("qq-Latn-ZZ")("one") == speaker("qq")("one") == "eno"


@pytest.mark.parametrize(
    ("name", "within"),
    [
        ("Castor oil", "castor oil"),
        ("French green clay", "French green clay"),
        ("Calendula petals, dried", "calendula petals"),
        ("EDTA (tetrasodium)", "EDTA"),
        ("Goat's milk", "Goat's milk"),
    ],
)
def test_a_name_within_a_sentence_has_a_small_initial_unless_it_is_proper(name: str, within: str) -> None:
    assert speaker().say(Within(name)) == within


def test_a_language_that_lists_no_proper_names_keeps_every_initial() -> None:
    assert TRIED.say(Within("Rizinusöl (kalt gepresst)")) == "Rizinusöl"


def test_a_tight_number_stays_on_one_line() -> None:
    assert TRIED.say(percent(0.5, 0, tight=True)) == "50\u00a0%"


def test_dates_are_written_as_people_write_them() -> None:
    """Common practice in British English, no source; parts that belong together stay on one line."""
    say, on = speaker().say, date(2026, 12, 5)
    assert say(Day(on)) == "5\u00a0December 2026"
    assert say(Day(on, "short")) == "5\u00a0Dec\u00a02026"
    assert say(Day(on, "weekday")) == "Saturday 5\u00a0December 2026"
    assert say(Day(on, "no-year")) == "5\u00a0December"
    assert say(message("days", count=1)) == "1 day"


@pytest.mark.parametrize("year", [1, 2024, 9999])
def test_a_weekday_is_that_of_the_calendar(year: int) -> None:
    """Against the standard library's own names in the C locale."""
    for on in (date(year, 2, 28), date(year, 3, 1), date(year, 12, 31)):
        assert speaker().say(Day(on, "weekday")).startswith(f"{calendar.day_name[on.weekday()]} ")
