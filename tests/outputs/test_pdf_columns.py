"""Columns that end alike: where they are parted, against every other way to part them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise
from xml.etree.ElementTree import Element, fromstring

import pytest

from saponary.outputs.pdf_columns import Block, balanced, set_columns

_HEIGHTS = (
    [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5],
    [9, 1, 1, 1],
    [1, 1, 1, 9],
    [2, 2, 2],
    [5.5, 4.5, 3, 3, 1],
    [1],
)


def _highest(heights: Sequence[float], begins: Sequence[int]) -> float:
    edges = [0, *begins, len(heights)]
    return max(sum(heights[start:end]) for start, end in pairwise(edges))


@pytest.mark.parametrize("heights", _HEIGHTS)
@pytest.mark.parametrize("count", [2, 3])
def test_no_other_way_makes_the_highest_column_lower(heights: list[float], count: int) -> None:
    found = balanced([Block(height) for height in heights], count)
    every = (
        _highest(heights, begins)
        for parts in range(count)
        for begins in combinations(range(1, len(heights)), parts)
    )
    assert _highest(heights, found) == pytest.approx(min(every))
    assert len(found) < count


def test_of_equal_ways_the_first_columns_are_the_fullest() -> None:
    assert balanced([Block(1), Block(4), Block(1)], 2) == (2,)


def test_no_column_begins_with_what_stays_with_the_block_before() -> None:
    blocks = [Block(4), Block(1), Block(4, may_begin=False), Block(1)]
    assert balanced(blocks, 2) == (1,)


def _set(inner: str) -> Element:
    root = fromstring(f"<body>{inner}</body>")
    set_columns(root)
    return root


def _begin(root: Element) -> list[str]:
    return [
        "".join(each.itertext()).strip()
        for each in root.iter()
        if "next-column" in (each.get("class") or "").split()
    ]


def test_a_list_is_parted_between_its_items() -> None:
    root = _set(
        '<ul data-columns="3" data-letters="10"><li>one</li><li class="x">two</li><li>three</li></ul>'
    )
    assert _begin(root) == ["two", "three"]
    assert [li.get("class") for li in root.iter("li")] == [None, "x next-column", "next-column"]


def test_what_is_not_in_columns_is_left_alone() -> None:
    root = _set("<ul><li>one</li><li>two</li></ul>")
    assert _begin(root) == []


def test_a_heading_goes_with_its_text_and_what_lies_round_it_is_parted_there() -> None:
    """Numbers of an ordered list go on in the second half."""
    stage = "<section><h3>Stir</h3><p>Long enough to be two lines.</p></section>"
    order = '<section><h3>Pour</h3><ol id="o">' + "<li>Pour.</li>" * 12 + "</ol></section>"
    root = _set(f'<div data-columns="2" data-letters="20">{stage}{order}</div>')
    sections = root.findall(".//section")
    assert len(sections) == 3 and sections[2].get("class") == "next-column"
    first, second = root.findall(".//ol")
    assert (first.get("id"), second.get("id")) == ("o", None)
    assert second.get("style") == f"counter-reset: list-item {len(first)}"
    assert len(first) + len(second) == 12 and sections[1].find("h3") is not None


def test_a_table_and_a_whole_block_are_not_torn() -> None:
    rows = "<tr><th>Oil</th></tr>" * 20
    root = _set(
        f'<div data-columns="2" data-letters="20"><p>Before.</p><table>{rows}</table>'
        '<div class="whole"><p>a</p><p>b</p></div></div>'
    )
    assert len(root.findall(".//table")) == 1
    assert len(root.findall(".//div[@class]")) == 1


@pytest.mark.parametrize(
    ("room", "size"),
    [(100, "font-size: 1.5em"), (30, "font-size: 1.2em"), (14, None)],
)
def test_type_is_as_large_as_there_is_room_for(room: int, size: str | None) -> None:
    """Ten lines in a column; set larger each of them is two, and each line higher: 27.6 lines, and 34.5."""
    text = "".join("<p>Twenty letters long.</p>" for _ in range(20))
    root = _set(
        f'<div data-columns="2" data-letters="20" data-scales="1.5 1.2" data-lines="{room}">{text}</div>'
    )
    assert root[0].get("style") == size
    assert len(_begin(root)) == 1


def _in_a_part(step: str | None) -> Element:
    """Ten blocks in two columns of a part that has three steps; four of them may be left out, at the first."""
    blocks = "".join(f'<p class="{"last" if n > 5 else "x"}">{n}</p>' for n in range(10))
    at = f' data-step="{step}"' if step else ""
    return _set(
        f'<div data-pages="1" data-steps="3"{at}><section>'
        '<div class="two" data-columns="2" data-letters="20" data-without="last" data-without-at="1 3">'
        f"{blocks}</div></section></div>"
    )


@pytest.mark.parametrize(
    ("step", "columns"), [(None, ["01234", "56789"]), ("1", ["012", "345"]), ("2", ["01234", "56789"])]
)
def test_in_a_part_that_is_to_fit_its_pages_each_column_is_an_element(
    step: str | None, columns: list[str]
) -> None:
    (two,) = _in_a_part(step).findall(".//div[@class='two']")
    assert (two.get("data-parted"), two.get("data-columns")) == ("2", None)
    assert [(one.tag, one.get("class"), "".join(one.itertext())) for one in two] == [
        ("div", "column", text) for text in columns
    ]


def test_at_the_last_step_columns_go_on_over_pages() -> None:
    root = _in_a_part("3")
    assert root.find(".//div[@data-columns='2']") is not None and root.find(".//div[@class='column']") is None
    assert _begin(root) == ["3"]


def test_type_is_not_enlarged_in_what_is_set_tighter() -> None:
    text = "".join("<p>Twenty letters long.</p>" for _ in range(20))
    inner = f'<div data-columns="2" data-letters="20" data-scales="1.5" data-lines="100">{text}</div>'
    for step, size in (("", "font-size: 1.5em"), (' data-step="1"', None)):
        root = _set(f'<div data-pages="1" data-steps="3"{step}>{inner}</div>')
        assert root[0][0].get("style") == size
