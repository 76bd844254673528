"""The page of ingredients: each figure with its source, one tap away."""

from __future__ import annotations

from pathlib import Path

from lot_books import having, parsed, site_of, words
from saponary.build.proof import prove
from saponary.messages.speaker import speaker
from saponary.pantry.standard import standard
from saponary.views.sources import Known, known
from support import PLAIN, some, write_book

say = speaker().say
PAGE = "ingredients/index.html"
MILK = PLAIN.replace("signed:", "liquids: [{what: goat-milk, amount: 60 g, at: trace}]\nsigned:", 1)
OWN = """\
oils:
  coconut:
    saponification-value: {value: 256 mg/g, from: Certificate of a shop}
    source: {iodine-value-range: {how: verified, where: Leaflet of a shop}}
"""


def page(root: Path, pantry: str = "oils: {}\n") -> dict[str, str]:
    """The words of every fact's source on the page, by ingredient and figure."""
    proof = prove(write_book(root, {"recipes/tried.md": MILK, "pantry.yaml": pantry}))
    found = {}
    for item in having(parsed(site_of(proof), PAGE), "item"):
        for details in some(having(item, "source")):
            assert details.tag.endswith("details") and details[0].tag.endswith("summary")
            found[f"{item.get('id')}: {words(details[0])}"] = words(details[1])
    return found


def test_a_value_opens_to_how_it_is_known_its_title_and_its_place(tmp_path: Path) -> None:
    """As the table has it: Codex CXS 210 in transcription for coconut oil, USDA's food 01106 for goat's milk."""
    found, titles = page(tmp_path), standard().publications
    coconut = found["oil-coconut: 254 mg/g (248 to 265)"]
    assert "Its range: second-hand" in coconut and titles["cxs-210"] in coconut and "Table 2" in coconut
    assert "The value used: calculated" in coconut
    milk = found["liquid-goat-milk: 4.1 %"]
    assert milk.startswith("verified") and titles["usda-sr-legacy"] in milk and "food 01106" in milk
    assert titles["cosing-2020"] in found["oil-olive: Olea Europaea Fruit Oil"]


def test_what_a_maker_wrote_of_a_source_is_on_no_page(tmp_path: Path) -> None:
    found = page(tmp_path, OWN)
    assert "of a shop" not in " ".join(found.values())
    assert "the maker's own" in found["oil-coconut: 256 mg/g (248 to 265)"]
    assert "the maker's own" in found["oil-coconut: 8.4 g/100 g (6.3 to 10.6)"]


def test_every_source_of_every_row_can_be_told() -> None:
    shelf, told = standard(), list[Known]()
    for entry in some([*shelf.oils.values(), *shelf.liquids.values(), *shelf.additions.values()]):
        for group, source in entry.source.items():
            one = next(known(entry, shelf, group))
            assert say(one.how) and bool(one.title) == bool(source.publication), (entry.id, group)
            told.append(one)
    assert {one.how.key for one in told} == {
        f"known.{how}" for how in ("verified", "second-hand", "memory", "computed", "common-practice")
    }
