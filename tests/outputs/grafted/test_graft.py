"""A file bound of parts, read back with pypdf."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from outputs.grafted.made_up import HOST, fragment
from outputs.pdfs.desk import read
from outputs.pdfs.tagged import faults
from saponary.outputs.grafted.folio import Folio
from saponary.outputs.grafted.graft import Bound, joined
from saponary.outputs.grafted.outline import Line, nested

PARTS = [
    Bound(fragment("front", 2), 1),
    Bound(fragment("soap"), 4, "bars"),
    Bound(fragment("next"), 6, "bars"),
    Bound(fragment("back"), 7),
]
PDF = joined(HOST, PARTS)


def test_pages_stand_where_they_were_planned_and_blank_ones_between() -> None:
    texts = [page.get_contents().get_data() for page in read(PDF).pages]  # type: ignore[union-attr]
    assert [b"Tj" in text for text in texts] == [True, True, False, True, False, True, True]
    assert b"(soap 0)" in texts[3]


def test_tags_hang_together_over_all_parts_and_a_chapter_is_one_section() -> None:
    found = set(faults(PDF)) - {"its title is not shown", "not said to be marked"}
    assert not found
    root: Any = read(PDF).trailer["/Root"]
    top = root["/StructTreeRoot"]["/K"][0].get_object()
    assert [kid.get_object()["/S"] for kid in top["/K"]] == ["/P", "/P", "/Sect", "/P"]
    assert len(top["/K"][2].get_object()["/K"]) == 2


def test_keys_of_the_parent_tree_are_those_that_pages_and_links_name() -> None:
    reader = read(PDF)
    root: Any = reader.trailer["/Root"]
    nums = root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    keys = list(nums[::2])
    assert keys == list(range(len(keys)))
    for page in reader.pages:
        for link in page.get("/Annots", []):
            owner = nums[2 * link.get_object()["/StructParent"] + 1]
            assert owner["/Pg"].get_object() == page


def test_names_and_outline_lead_to_the_pages() -> None:
    reader = read(PDF)
    places: Any = reader.named_destinations
    assert {name: reader.get_destination_page_number(place) for name, place in places.items()} == {
        "front": 0,
        "front-end": 1,
        "soap": 3,
        "soap-end": 3,
        "next": 5,
        "next-end": 5,
        "back": 6,
        "back-end": 6,
    }
    outline: Any = reader.outline
    assert [one.title for one in outline if not isinstance(one, list)] == [
        f"All of {name}" for name in ("front", "soap", "next", "back")
    ]


def test_the_same_parts_are_the_same_bytes() -> None:
    assert joined(HOST, PARTS) == PDF


def test_a_number_is_an_artifact_outside_on_each_page_that_has_room_for_it() -> None:
    left = Folio("top-left", "ABCDEF", 10, 20, 30, False, tuple(range(48, 58)), (500,) * 10)
    right = replace(left, box="top-right", end=True, edge=250)
    host = replace(HOST, folios={True: left, False: right})
    bare = fragment("front")
    bare = replace(bare, pages=(replace(bare.pages[0], margin=()),))
    reader = read(joined(host, [Bound(bare, 1), Bound(fragment("soap", 2), 10)]))
    texts = [page.get_contents().get_data() for page in reader.pages]  # type: ignore[union-attr]
    assert [b"/Pagination" in text for text in texts] == [False] * 9 + [True] * 2
    assert b"/Artifact\n<</Type /Pagination>>\nBDC" in texts[9]
    assert b"1 0 0 -1 20 30 Tm" in texts[9] and b"[<00310030>] TJ" in texts[9]
    assert b"1 0 0 -1 240 30 Tm" in texts[10] and b"[<00310031>] TJ" in texts[10]


def test_a_line_of_the_outline_lies_below_the_last_of_a_lower_level() -> None:
    top = nested(Line(level, str(at), b"") for at, level in enumerate((2, 1, 3, 2, 1, 2)))

    def told(lines: list[Line]) -> list[Any]:
        return [(line.title, told(line.below)) for line in lines]

    assert told(top) == [("0", []), ("1", [("2", []), ("3", [])]), ("4", [("5", [])])]
