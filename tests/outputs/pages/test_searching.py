"""The words that the index is searched by: all of them, each where the script looks for it, and no file large."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Mapping

from hypothesis import given
from hypothesis import strategies as st

from composed import composed
from saponary.outputs.pages import searching
from saponary.outputs.pages.searching import gaps, part_of, words_of
from saponary.schema.edition import STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.order import in_order
from support import proof_of, some


def spread(told: str) -> list[int]:
    """Numbers from their gaps, as the script reads them."""
    at, found = -1, list[int]()
    for gap in told.split():
        on, _, more = gap.partition("+")
        found += range(at + int(on), at + int(on) + int(more or 0) + 1)
        at = found[-1]
    return found


@given(st.sets(st.integers(0, 300)))
def test_gaps_are_the_numbers_again(numbers: set[int]) -> None:
    assert spread(gaps(sorted(numbers))) == sorted(numbers)


def test_gaps_by_hand() -> None:
    assert gaps([0, 1, 2, 5]) == "1+2 3" and gaps([4]) == "5" and gaps([]) == ""


def read(data: bytes) -> tuple[int, Mapping[str, str]]:
    """The number and the words of one file."""
    found = re.fullmatch(r"saponaryWords\((\d+), (\{.*\})\);\n", data.decode(), re.DOTALL)
    assert found is not None
    return int(found[1]), json.loads(found[2])


def test_every_word_leads_to_the_recipes_that_have_it() -> None:
    proof = proof_of("demo")
    site = for_edition(Unpublished(proof.book, proof.recipes, "e", "t"), STANDARD["public"])
    part, words = read(composed(site)[searching.address(0)])
    row = in_order(site.recipes)
    wanted = [words_of(recipe).split() for recipe in row]
    assert part == 0 and len(words) > 200
    for place, said in enumerate(some(wanted)):
        assert said == sorted(word for word, told in words.items() if place in spread(told))
    places = re.findall(
        r'data-place="(\d+)".*?href="recipes/([^/]+)/', composed(site)["index.html"].decode(), re.DOTALL
    )
    assert [(int(place), slug) for place, slug in places] == [(n, one.slug) for n, one in enumerate(row)]


def test_a_thousand_recipes_with_much_to_say_are_looked_through_in_small_parts() -> None:
    """150 words of each recipe, as many as the demo's have, out of a vocabulary of 8,000, some far commoner than others
    (Zipf's law)."""
    chance, letters = random.Random(1), "etaoinshrdlucmfwypvbgkjqxz"
    weigh = [1 / (n + 2) for n in range(len(letters))]
    known = ["".join(chance.choices(letters, weigh, k=chance.randint(3, 10))) for _ in range(8000)]
    often = [1 / (n + 1) for n in range(len(known))]
    rows = [" ".join(set(chance.choices(known, often, k=300))) for _ in range(1000)]
    count = -(-len(rows) // searching.PART)
    files = [
        searching.told(words, part).encode() for part, words in enumerate(searching.sorted_out(rows, count))
    ]
    assert sum(len(row.split()) for row in rows) > 120_000
    assert max(map(len, files)) <= 150_000
    for number, data in enumerate(files):
        part, words = read(data)
        assert part == number and words and {part_of(word, count) for word in words} == {part}
