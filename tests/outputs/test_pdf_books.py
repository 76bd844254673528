"""Books being made: what a store has is taken from it where it is a fragment, and set anew where it is not."""

from __future__ import annotations

from dataclasses import replace

from composed import Held
from outputs.grafted.made_up import cut, fragment
from saponary.outputs.grafted.making import PartJob
from saponary.outputs.grafted.stored import to_bytes
from saponary.outputs.pdf_books import Books
from saponary.outputs.pdf_kept import keep
from saponary.outputs.pdf_kind import Part, PdfBook, SetPdf
from saponary.outputs.pdf_press import Failed

BOOK = PdfBook("book.pdf", (Part("front", "", "right"), Part("soap", "")))
FRONT = PartJob("front", "", left=False, numbers=None)
SOAP = PartJob("soap", "", left=True, numbers=None)


def wanted(*kept: tuple[PartJob, bytes]) -> list[str]:
    """The parts that are asked for, of what is kept."""
    store = Held()
    for job, data in kept:
        keep(store, {}, job, SetPdf(data, ()))
    return [job.name for _, _, job in Books({}, [BOOK], store).jobs()]


def good(name: str) -> bytes:
    return to_bytes(fragment(name))


def test_only_what_is_not_kept_is_asked_for() -> None:
    assert wanted() == ["front", "soap"]
    assert wanted((FRONT, good("front"))) == ["soap"]
    assert wanted((FRONT, good("front")), (SOAP, good("soap"))) == []


def test_what_is_no_fragment_is_asked_for_again() -> None:
    bad = fragment("soap")
    runs = cut("<</A <</S /Launch/F (calc.exe)>>>>")
    hostile = to_bytes(replace(bad, objects=(*bad.objects, runs)))
    for data in (b"", b"not one", good("soap")[:-1], hostile):
        assert wanted((FRONT, good("front")), (SOAP, data)) == ["soap"]


def test_what_was_set_is_kept_at_once_and_the_book_can_be_bound() -> None:
    store = Held()
    books = Books({}, [BOOK], store)
    first, second = books.jobs()
    books.take(first, SetPdf(good("front"), ("a.svg",)))
    assert len(store.values) == 1
    books.take(second, SetPdf(good("soap"), ()))
    assert not books.jobs()
    ((making, job),) = books.bound()
    assert [first for _, first, _ in job.parts] == [1, 2]
    assert making.shown() == ("a.svg",)


def test_a_part_that_cannot_be_set_is_named_and_its_book_is_not_bound() -> None:
    books = Books({}, [BOOK], Held())
    front, _ = books.jobs()
    books.take(front, Failed("front", "ValueError: no"))
    assert not books.jobs() and not books.bound()
    assert list(books.failed.values()) == [Failed("book.pdf", "front: ValueError: no")]
