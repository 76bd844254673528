"""No number gets onto a page in braces unless it was held to the recipe, however it is spelt."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import more, recipe
from saponary.build.proof import prove
from saponary.reading.findings import errors
from support import PLAIN, prove_one, write_book

BREAKER = recipe(more("vessel: 'a pot, {lye = 999 g}'\n"))
TOLD = [
    (
        "recipes/tried.md:11:9",
        "error",
        "no figure can stand in 'vessel'",
        "write it in the notes, where it is checked",
    ),
]
NEIGHBOUR = recipe(more("vessel: 'a pot'\n"))
ALSO = [
    (
        recipe(
            more(
                "steps: [{at: lye, say: 'a {lye = {9 g}}'}]\nprivate: {notes: '{lye = 9 g'}\ncollection: '{lye = 9 g}'\n"
            )
            + "It is {lye = {9 g}}.\n",
            batches="batches: [{lot: A1, poured: 2026-03-02, notes: '{superfat} {superfat = 5.0 %} {lie} {oils = 9 g}', trace: '{x = 1 g}'}]\n",
        ),
        [
            (
                "batches/tried.yaml:1:48",
                "error",
                "'lie' is placed; there is no such figure",
                "correct the record of lot A1",
            ),
            (
                "batches/tried.yaml:1:48",
                "error",
                "oils is quoted as 9 g; it is now 1000 g",
                "correct the record of lot A1",
            ),
            (
                "batches/tried.yaml:1:107",
                "error",
                "no figure can stand in 'trace'",
                "write it in the notes, where it is checked",
            ),
            (
                "recipes/tried.md:11:24",
                "error",
                "a value stands in braces here that is not a figure",
                "name a figure, such as {lye = 138.7 g}; a brace that is not a figure is written \\\\{",
            ),
            (
                "recipes/tried.md:13:13",
                "error",
                "no figure can stand in 'collection'",
                "write it in the notes, where it is checked",
            ),
            (
                "recipes/tried.md:19:1",
                "error",
                "a value stands in braces here that is not a figure",
                "name a figure, such as {lye = 138.7 g}; a brace that is not a figure is written \\\\{",
            ),
        ],
    ),
]
BODIES = [
    "The lye is {<!-- -->lye = 999 g} here.",
    "The lye is {<!-- } -->lye = 999 g} here.",
    "The lye is <!-- x ` -->{lye = 999 g}` here.",
    "a <!-- ` -->The lye is {lye = 999 g} here.<!-- ` --> z",
    "<!--\n```\n-->\nThe lye is {lye = 999 g} here.",
    "{\u00a0lye = 999 g}",
    "{\u200blye = 999 g}",
    "{**lye** = 999 g}",
    "{lye = {999 g}}",
    "{lye \uff1d 999 g}",
    "{lye = 999 g" + " " * 300 + "}",
    "{lye = 999 g",
    "# H `\n{lye = 999 g}`",
    "- a `\n- {lye = 999 g} `",
    "para `\n> {lye = 999 g} `",
    "| `x | {lye = 999 g} ` |\n|---|---|\n| `y | {lye = 999 g} ` |",
    "{lye = 0 kg}",
    "&#123;lye = 999 g&#125;",
    "&#x7b;lye = 999 g&#x7d;",
    "&lbrace;lye = 999 g&rbrace;",
    "&lcub;lye: 999 g&rcub;",
    "\uff5blye = 999 g\uff5d",
    "\ufe5blye = 999 g\ufe5c",
    "\u2774lye 999 g\u2775",
    "\u2983lye = 999 g\u2984",
    "{lye: 987 g}",
    "{lye 987 g}",
    "{987 g of lye}",
    "{lye\uff1a987 g}",
    "{lye \u2248 999 g}",
    "The lye is 1{lye}.",
    "The lye is 1**{lye}**.",
    "The lye is {lye}5.",
    "The lye is &#49;{lye}.",
    "The lye is 1<!-- -->{lye}.",
    "{lye = 0.1 kg}",
    "{water = 1 lb}",
    "{batter-volume = 2 l}",
]


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"], ids=["lf", "crlf", "cr"])
def test_notes_publish_no_figure_unchecked(body: str, ends: str) -> None:
    text = (PLAIN + body + "\n").replace("\n", ends)
    found = [f for f in errors(prove_one(text).findings) if f.rule in ("stale", "uncheckable-figure")]
    assert found, body
    first = PLAIN.count("\n") + 1
    assert all(first <= f.place.line <= first + body.count("\n") for f in found)


@pytest.mark.parametrize(
    "block",
    [
        'steps: [{at: lye, say: "a {\\x6cye = 999 g} z"}]',
        'steps: [{at: lye, say: "a {\\nlye = 999 g} z"}]',
        'steps: [{at: lye, say: "a {\\ lye = 999 g} z"}]',
        "steps: [{at: lye, say: 'a {''lye = 999 g} z'}]",
        "collection: 'Bars of {lye = 999 g}'",
        "vessel: 'a pot, {lye = 999 g}'",
        "summary: '{lye = 999 g'",
        "summary: '&#123;lye = 999 g&#125;'",
        "summary: 'about 1{lye}'",
        "summary: '{lye: 987 g}'",
        "batches: [{lot: A, poured: 2026-03-02, trace: 'at {lye = 999 g}'}]",
        "additions: [{what: kaolin, amount: 5 g, from: 'a bag, {lye = 999 g}'}]",
    ],
)
def test_front_matter_publishes_no_figure_unchecked(block: str) -> None:
    found = errors(prove_one(PLAIN.replace("signed:", f"{block}\nsigned:")).findings)
    assert {f.rule for f in found} & {"stale", "uncheckable-figure"}, block


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("book.yaml", "title: 'Lye {lye = 999 g}'\n"),
        ("book.yaml", "emergency: 'Lye {lye = 999 g}'\n"),
        (
            "classes/a.md",
            "---\ntitle: T\nplace: '{lye = 9 g}'\nstudents: 2\noils: 500 g\nrecipes: [a]\n---\nx\n",
        ),
        ("classes/a.md", "---\ntitle: T\nstudents: 2\noils: 500 g\nrecipes: [a]\n---\n{<!-- -->lye = 9 g}\n"),
        ("classes/a.md", "---\ntitle: T\nstudents: 2\noils: 500 g\nrecipes: [a]\n---\n{lye = {9 g}}\n"),
        ("batches/a.yaml", "batches: [{lot: A, poured: 2026-03-02, notes: 'It took {lye = 999 g}.'}]\n"),
        ("batches/a.yaml", "batches: [{lot: A, poured: 2026-03-02, trace: '{lye = 999 g}'}]\n"),
    ],
)
def test_other_files_publish_no_figure_unchecked(file: str, text: str, tmp_path: Path) -> None:
    found = errors(prove(write_book(tmp_path, {"recipes/a.md": PLAIN, file: text})).findings)
    assert [f.place.file for f in found] == [file]


@pytest.mark.parametrize(
    "body",
    [
        "{lye = 137,5 g}", "{oils = 1 000 g}", "{oils = 1\u202f000 g}", "{oils = 2 lb 3.3 oz}", "{oils = 1.00 kg}",
        "{water-to-lye = 2.03:1}", "{water-to-lye = 2,03 : 1}", "{superfat = 5,0 %}", "{lye = 0.138 kg}", "{lye = 138 g}",
    ],
)  # fmt: skip
def test_a_true_figure_is_taken_as_people_write_it(body: str) -> None:
    now = prove_one(PLAIN).recipes[0].computed.catalogue["lye"]
    body = body.replace("137,5 g", now.text().replace(".", ",")).replace("138 g", now.text(decimals=0))
    body = body.replace("0.138 kg", now.text("kg", 3))
    assert [f.message for f in errors(prove_one(f"{PLAIN}Here: {body}.\n").findings)] == []


def test_what_is_no_figure_stays_as_it_is() -> None:
    text = PLAIN.replace("signed:", "summary: 'A \\{plain = brace}, {lye} and more.'\nsigned:")
    body = "A \\{brace = 1}, `{lye = 2 g}`.\n\n```\n{lye = 4 g}\n```\n"
    assert errors(prove_one(text + body + "<!-- {lye = 5 g} -->\n").findings) == []


LOT = "batches:\n  - {lot: A1, poured: 2026-03-02, %s}\n"


@pytest.mark.parametrize(
    ("fields", "message", "hint"),
    [
        ("notes: 'It took {lye = 999 g}.'", "lye is quoted as 999 g; it is now ", "correct the record of lot A1"),
        ("notes: 'It took {lie}.'", "'lie' is placed; there is no such figure", "correct the record of lot A1"),
        ("notes: 'It took {lye = 5}.'", "lye is quoted as 5; '5' has no unit", "correct the record of lot A1"),
        ("notes: 'It took {lye = 999 g.'", "a value stands in braces here", "name a figure, such as {lye = 138.7 g}"),
        ("notes: 'It took 1{lye}.'", "a digit or a sign is stuck to a figure", "set words or a blank between them"),
        ("trace: '{lye = 999 g}'", "no figure can stand in 'trace'", "write it in the notes, where it is checked"),
    ],
)  # fmt: skip
def test_a_batch_in_a_file_of_its_own(fields: str, message: str, hint: str, tmp_path: Path) -> None:
    files = {"recipes/a.md": PLAIN, "batches/a.yaml": LOT % fields}
    (found,) = errors(prove(write_book(tmp_path, files)).findings)
    assert found.rule == "uncheckable-figure" and found.place.file == "batches/a.yaml"
    assert found.message.startswith(message) and found.hint.startswith(hint) and found.place.line == 2


def test_a_batch_may_place_and_quote_what_holds(tmp_path: Path) -> None:
    files = {
        "recipes/a.md": PLAIN,
        "batches/a.yaml": LOT % "notes: 'It had {superfat} and {superfat = 5.0 %}.'",
    }
    assert errors(prove(write_book(tmp_path, files)).findings) == []
