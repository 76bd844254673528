"""The manual as a site passes what the pages of a book pass."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from outputs.pages import test_site as of_a_book
from saponary.build.listed import InTheWay
from saponary.manual.keys import PLACES
from saponary.manual.pages import FINDINGS, INDEX, SAMPLE, keys_page, topic_page
from saponary.manual.site import manual_files, write_manual
from saponary.manual.topics import topics
from support import proof_of

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def made() -> Mapping[str, bytes]:
    return dict(manual_files())


def test_the_pages_are_there(made: Mapping[str, bytes]) -> None:
    wanted = {
        INDEX,
        FINDINGS,
        *(topic_page(one.slug) for one in topics()),
        *(keys_page(file) for file in PLACES),
    }
    assert wanted <= made.keys()
    assert b"lye-cautions" in made[INDEX]


def test_they_are_sound_and_lead_somewhere_and_ask_no_other_host(made: Mapping[str, bytes]) -> None:
    book = (proof_of("demo"), made)
    of_a_book.test_every_page_is_sound(book)
    of_a_book.test_every_address_is_relative_and_leads_somewhere(book)
    sampled = {path.removeprefix(SAMPLE): data for path, data in made.items() if path.startswith(SAMPLE)}
    of_a_book.test_no_page_asks_another_host_for_anything((book[0], sampled))
    own = {path: data for path, data in made.items() if path != INDEX and not path.startswith(SAMPLE)}
    of_a_book.test_no_page_asks_another_host_for_anything((book[0], own))
    assert not of_a_book.scripts(of_a_book.parse(made[INDEX]))


def test_each_finding_is_told_as_the_rules_tell_it(made: Mapping[str, bytes]) -> None:
    page = of_a_book.text(of_a_book.parse(made[FINDINGS]))
    assert "superfat is signed as" in page or "lye is signed as" in page
    assert "137.9 g" in of_a_book.text(of_a_book.parse(made[topic_page("portions-and-pour")]))


def test_a_folder_of_other_things_is_left_alone(made: Mapping[str, bytes], tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("mine")
    with pytest.raises(InTheWay):
        write_manual(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]
