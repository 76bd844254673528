"""Numbers written as words, held to num2words, a general library that writes them."""

from __future__ import annotations

import re

import pytest
from num2words import num2words

from saponary.words.figure_words import figure_words
from saponary.words.inflect import fold
from saponary.words.spelt_numbers import joins, parts, value


@pytest.mark.parametrize("language", ["en", "de", "fr", "es"])
def test_every_number_below_two_thousand_is_read_as_it_is_written(language: str) -> None:
    numbers = figure_words().languages[language].numbers
    for number in range(1, 2000):
        words: list[str] = []
        for word in re.findall(r"\w+", fold(num2words(number, lang=language))):
            known = parts(word, numbers)
            assert known or joins(word), (number, word)
            words += known or (word,)
        assert value(words, numbers) == number


@pytest.mark.parametrize("word", ["hundred", "wunderbar", "und", "zehnund", "einfach", "x" * 500])
def test_other_words_are_no_german_number(word: str) -> None:
    assert parts(word, figure_words().languages["de"].numbers) is None
