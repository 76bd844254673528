"""A book in the making: what is set again, and when it may be bound."""

from __future__ import annotations

from dataclasses import replace

from outputs.grafted.made_up import fragment
from saponary.outputs.grafted.making import Making, PartJob
from saponary.outputs.pdf_kind import Part, PdfBook, SetPdf

FRONT = Part("front", '<a href="#soap">Soap</a> <a href="#gone">Gone</a>', "right", numbers=True)
BOOK = PdfBook(
    "book.pdf",
    (
        FRONT,
        Part("soap", '<a href="#front">front</a>'),
        Part("back", '<a href="#soap">Soap</a>', "next", numbers=True),
    ),
)


def test_what_prints_numbers_is_set_with_them_once_all_is_there() -> None:
    making = Making(BOOK)
    first = making.wants()
    assert [first[at].numbers for at in range(3)] == [{}, None, {}]
    for at, pages in enumerate((3, 2, 2)):
        making.take(at, first[at], SetPdf(b"", ("a.svg",)), fragment(BOOK.parts[at].name, pages))
    then = making.wants()
    assert {at: job.numbers for at, job in then.items()} == {0: {"soap": 4}, 2: {"soap": 4}}
    assert then[2].left
    for at, job in then.items():
        making.take(at, job, SetPdf(b"again", ("b.svg",)), fragment(job.name, 3 if at == 0 else 2))
    assert not making.wants()
    assert [(first, data) for data, first, _ in making.bind().parts] == [
        (1, b"again"),
        (4, b""),
        (6, b"again"),
    ]
    assert set(making.shown()) == {"a.svg", "b.svg"}


def test_a_part_that_moves_everything_comes_to_rest() -> None:
    """The front fills four pages where the soap is on an even ten and three otherwise: it never fits its own
    number, and is given room for the most it ever filled.
    """
    making = Making(replace(BOOK, parts=BOOK.parts[:2]))
    rounds = 0
    while jobs := making.wants():
        rounds += 1
        assert rounds < 10
        for at, job in jobs.items():
            making.take(at, job, SetPdf(b"", ()), fragment(job.name, _pages(job)))
    bound = making.bind().parts
    assert [first for _, first, _ in bound] == [1, 6]


def _pages(job: PartJob) -> int:
    if job.numbers is None:
        return 2
    return 4 if job.numbers.get("soap") == 4 else 3


def test_a_shift_does_not_have_a_recipe_set_again() -> None:
    making = Making(BOOK)
    for at, job in making.wants().items():
        making.take(at, job, SetPdf(b"", ()), fragment(job.name, 9 if at == 0 else 2))
    assert set(making.wants()) == {0, 2}
