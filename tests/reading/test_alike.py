"""Names suggested for a word that is none: the one that was meant, and what differs where it may not be."""

from __future__ import annotations

import random

import pytest

from saponary.pantry.standard import standard
from saponary.reading.alike import distance, likely, nearest, told_of
from saponary.reading.findings import suggest
from support import PLAIN, prove_one, some

LETTERS = "abcdefghijklmnopqrstuvwxyz"
TABLES = {"oils": standard().oils, "liquids": standard().liquids, "additions": standard().additions}


def slip(name: str, chance: random.Random) -> str:
    """A letter left out, put in, taken for another, or changed about with the next."""
    at, letter = chance.randrange(len(name) - 1), chance.choice(LETTERS)
    return chance.choice(
        (
            name[:at] + name[at + 1 :],
            name[:at] + letter + name[at:],
            name[:at] + letter + name[at + 1 :],
            name[:at] + name[at + 1] + name[at] + name[at + 2 :],
        )
    )


@pytest.mark.parametrize("table", TABLES)
@pytest.mark.parametrize("slips", [1, pytest.param(4, marks=pytest.mark.slow)])
def test_after_one_slip_the_right_name_is_suggested(table: str, slips: int) -> None:
    """At least 95 in 100, and never another of other alkali behaviour without saying what it does."""
    chance, known = random.Random(table), TABLES[table]
    tried, right = 0, 0
    for name in some(known):
        for written in {slip(name, chance) for _ in range(slips)} - set(known):
            tried += 1
            hint = suggest(written, known, table)
            right += repr(name) in hint
            for other in likely(written, known):
                if repr(other) in hint and told_of(other, known) != told_of(name, known):
                    assert repr(name) in hint or told_of(other, known), (written, hint)
                    assert not told_of(other, known) or f"{other!r} {told_of(other, known)}" in hint
    assert right / tried >= 0.95, f"{right} of {tried}"


def test_of_a_thing_that_takes_alkali_it_is_said() -> None:
    additions = standard().additions
    assert suggest("dead-sea-slat", additions, "additions") == (
        "did you mean 'dead-sea-salt'? ('dead-sea-salt' binds an unknown amount of alkali)"
    )
    assert "binds alkali" in suggest("citric-acdi", additions, "additions")
    assert "fatty acid" in suggest("stearic-acdi", standard().oils, "oils")


@pytest.mark.parametrize(
    ("word", "known"),
    [
        ("currency", ("cure", "title", "units")),
        ("oatmeal-powder", ("tomato-powder", "kaolin")),
        ("lemon", ("essential-oil-lemongrass",)),
        ("ash", ("ready-made-soap", "squash")),
    ],
)
def test_what_reads_alike_by_chance_is_not_suggested(word: str, known: tuple[str, ...]) -> None:
    assert nearest(word, known) is None


@pytest.mark.parametrize(
    ("word", "name"),
    [("sea-salt", "salt"), ("honey-powder", "honey"), ("Salt", "salt"), ("oatmeal-powder", "oatmeal-ground")],
)
def test_a_word_in_common_tells_what_was_meant(word: str, name: str) -> None:
    assert nearest(word, standard().additions) == name


def test_a_word_that_is_a_kind_is_answered_within_it() -> None:
    additions = standard().additions
    for word in ("bath-salt", "garden-clay", "fruit-acid", "almond-soap"):
        kind = word.partition("-")[2]
        assert {additions[name].kind for name in likely(word, additions)} <= {kind}, word


def test_what_is_a_liquid_is_sought_among_the_liquids() -> None:
    findings = prove_one(
        PLAIN.replace("signed:", "additions: [{what: lemon, amount: 10 g}]\nsigned:")
    ).findings
    (one,) = (finding for finding in findings if "'lemon'" in finding.message)
    assert one.hint.startswith("did you mean 'lemon-juice'?") and "list it under liquids" in one.hint
    assert "it binds alkali" in one.hint


@pytest.mark.parametrize(
    ("one", "other", "count"),
    [("salt", "salt", 0), ("slat", "salt", 1), ("sal", "salt", 1), ("kitten", "sitting", 3), ("", "abc", 3)],
)
def test_the_distance_of_two_words(one: str, other: str, count: int) -> None:
    """Kitten and sitting are the example that textbooks give; two letters changed about count once."""
    assert distance(one, other) == distance(other, one) == count


@pytest.mark.parametrize("word", ["magnesium-salt", "bath-salt", "epsom-salt"])
def test_a_word_that_tells_of_another_thing_is_not_dropped(word: str) -> None:
    """Such salts bind alkali, and plain salt does not: a shorter name would lead away from that."""
    assert likely(word, standard().additions) == ()
    assert likely(word.replace(word.split("-")[0], "table"), standard().additions) == ("salt",)


def test_two_words_that_are_written_as_one() -> None:
    """A drink of oats, and not the milk of a goat, though that has more of its letters."""
    assert nearest("oatmilk", ["goat-milk", "oat-drink", "coconut-milk"]) == "oat-drink"
