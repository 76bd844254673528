"""The rule `claims`: which texts it reads, where it points, and what it says."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.reading.findings import Finding, errors
from support import BOOKS, PLAIN, proof_of, prove_one, write_book


def claims(text: str) -> list[Finding]:
    return [f for f in prove_one(text).findings if f.rule == "claims"]


def before(block: str) -> str:
    return PLAIN.replace("oils:\n", block + "oils:\n", 1)


@pytest.mark.parametrize(
    "block",
    [
        "summary: It cures eczema.\n",
        "summary: 'It cures eczema.'\n",
        'summary: "It cures ecz\\u0065ma."\n',
        "summary: >-\n  A plain bar. It\n  cures eczema.\n",
        "steps: [{at: lye, say: It cures eczema.}]\n",
        "portions: [{name: a, share: 1, note: It cures eczema.}]\n",
        "photo: {file: a.jpg, day: 0, alt: It cures eczema.}\n",
        "vessel: a pot that cures eczema\n",
        "batches:\n  - {lot: A, poured: 2026-03-02, trace: It cures eczema.}\n",
        "batches:\n  - {lot: A, poured: 2026-03-02, free-alkali: {test: It cures eczema, result: none, on: 2026-04-02}}\n",
        "additions: [{what: kaolin, amount: 5 g, from: a pit that cures eczema}]\n",
        "batches:\n  - {lot: A, poured: 2026-03-02, notes: It cures eczema.}\n",
        "batches:\n  - {lot: A, poured: 2026-03-02, photos: [{file: a.jpg, day: 1, note: It cures eczema.}]}\n",
    ],
)
def test_front_matter_is_read_and_the_place_is_exact(block: str) -> None:
    text = before(block)
    (finding,) = claims(text)
    line = text.split("\n")[finding.place.line - 1]
    assert line[finding.place.column - 1 :].startswith("cures ecz")
    assert finding.severity == "error" and "eczema" in finding.message
    assert "US: " in finding.message and "EU: " in finding.message and finding.hint


def test_title_body_and_code_are_read_and_private_words_and_comments_are_not() -> None:
    assert claims(PLAIN.replace("Plain Bar", "Acne Bar"))[0].place.line == 2
    body = (
        PLAIN
        + "\nIt moisturises.\n\n```\nIt cures scabies.\n```\n\nAs `it heals` says. <!-- cures acne -->\n"
    )
    told = [(f.severity, f.about, f.place.line) for f in claims(body)]
    line = body[: body.index("moisturises")].count("\n") + 1
    assert told == [
        ("warning", "moisturises", line),
        ("error", "cures scabies", line + 3),
        ("error", "heals", line + 6),
    ]
    assert claims(before("private: {notes: It cures eczema.}\n")) == []


def test_a_denial_is_told_apart() -> None:
    (finding,) = claims(PLAIN + "It does not treat eczema.\n")
    assert "denying it still names it" in finding.message
    assert "denying" not in claims(PLAIN + "It treats eczema.\n")[0].message


def test_a_waiver_with_a_reason_settles_it() -> None:
    text = before(
        "summary: It cures eczema.\nwaive: [{rule: claims, about: cures eczema, because: a quotation from 1850}]\n"
    )
    assert claims(text) == []


WAIVE = "waive: [{rule: claims, about: WORDS, because: a plant is called so}]\n"
LESSON = "---\ntitle: One\nstudents: 2\noils: 500 g\nrecipes: [a]\n%s---\nTell us if you have eczema.\n"


@pytest.mark.parametrize(
    ("file", "words", "text"),
    [
        ("book.yaml", "cure eczema", "about: Bars that cure eczema.\n%s"),
        ("pantry.yaml", "heals", "%sliquids:\n  tea: {name: Heals all, inci: Tea, water: 99 %%}\n"),
        ("classes/one.md", "eczema", LESSON),
    ],
)
def test_other_files_waive_for_themselves_and_claims_alone(
    file: str, words: str, text: str, tmp_path: Path
) -> None:
    waiver = WAIVE.replace("WORDS", words)

    def found(name: str, waive: str, **more: str) -> list[tuple[str, str, str]]:
        root = write_book(tmp_path / name, {"recipes/a.md": PLAIN, file: text % waive, **more})
        return [(f.rule, f.severity, f.place.file) for f in prove(root).findings if f.rule != "unsigned"]

    assert found("bare", "") == [("claims", "error", file)]
    assert found("waived", waiver) == []
    other = found("other", waiver.replace("claims", "usual-rate"))
    assert sorted(other) == [("claims", "error", file), ("waiver", "error", file)]
    assert ("claims", "error", "recipes/a.md") in found(
        "elsewhere", waiver, **{"recipes/a.md": PLAIN + "It cures eczema.\n"}
    )


def test_a_waiver_of_nothing_is_remarked(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "book.yaml": "title: Bars\n" + WAIVE})
    (finding,) = [f for f in prove(root).findings if f.rule == "waiver"]
    assert (finding.severity, finding.place.file, finding.place.line) == ("warning", "book.yaml", 2)


def test_the_language_of_the_book_counts(tmp_path: Path) -> None:
    root = write_book(
        tmp_path, {"book.yaml": "language: de\n", "recipes/a.md": PLAIN + "Heilt Akne. It treats scabies.\n"}
    )
    assert [f.message[:12] for f in prove(root).findings if f.rule == "claims"] == ["“Heilt Akne”"]


def test_batches_in_a_file_of_their_own(tmp_path: Path) -> None:
    notes = "batches:\n  - {lot: A, poured: 2026-03-02, notes: 'Plain. It cures eczema.'}\n"
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "batches/a.yaml": notes})
    (finding,) = [f for f in prove(root).findings if f.rule == "claims"]
    assert finding.place.file == "batches/a.yaml"
    assert notes.split("\n")[finding.place.line - 1][finding.place.column - 1 :].startswith("cures eczema")


SAID = "It cures eczema"


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("book.yaml", f"subtitle: {SAID}\n"),
        ("book.yaml", f"title: Bars\nplace: >-\n  {SAID}\n"),
        ("pantry.yaml", f"liquids:\n  tea:\n    name: {SAID}\n    water: 99 %\n"),
        ("pantry.yaml", f"oils:\n  olive:\n    name: {SAID}\n"),
        ("classes/one.md", f"---\ntitle: {SAID}\nstudents: 2\noils: 500 g\nrecipes: [a]\n---\nWeigh.\n"),
        (
            "classes/one.md",
            f"---\ntitle: One\nstudents: 2\noils: 500 g\nrecipes: [a]\ntimetable:\n"
            f"  - {{at: '10:00', what: {SAID}}}\n---\nWeigh.\n",
        ),
        ("classes/one.md", f"---\ntitle: One\nstudents: 2\noils: 500 g\nrecipes: [a]\n---\n{SAID}.\n"),
    ],
)
def test_what_the_book_says_is_read(file: str, text: str, tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, file: text})
    (finding,) = [f for f in prove(root).findings if f.rule == "claims"]
    assert (finding.place.file, finding.severity) == (file, "error")
    line = text.split("\n")[finding.place.line - 1]
    assert SAID in line or line.endswith(">-")


def test_a_claim_in_a_lesson_stands_on_its_line(tmp_path: Path) -> None:
    lesson = "---\ntitle: One\nstudents: 2\noils: 500 g\nrecipes: [a]\n---\nWeigh.\n\nIt cures eczema.\n\n- Heals acne\n"
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "classes/one.md": lesson})
    found = [f for f in prove(root).findings if f.rule == "claims"]
    assert [(f.place.line, f.place.column) for f in found] == [(9, 4), (11, 3)]


def test_names_of_files_lots_moulds_and_photos_are_read(tmp_path: Path) -> None:
    files = {
        "recipes/eczema-bar.md": before(
            "photo: {file: acne-relief.jpg, day: 0, alt: a bar}\n"
            "batches:\n  - {lot: HEALS-1, poured: 2026-03-02}\n"
        ),
        "photos/acne-relief.jpg": b"x",
        "pantry.yaml": "moulds:\n  psoriasis-tray: {cavities: {count: 6, volume: 90 ml}}\n",
        "classes/cures-scabies.md": "---\ntitle: One\nstudents: 2\noils: 500 g\nrecipes: [eczema-bar]\n---\nWeigh.\n",
    }
    found = [f for f in prove(write_book(tmp_path, files)).findings if f.rule == "claims"]
    assert [(f.place.file, f.place.line, f.about) for f in found] == [
        ("classes/cures-scabies.md", 1, "cures scabies"),
        ("pantry.yaml", 2, "psoriasis"),
        ("photos/acne-relief.jpg", 1, "acne"),
        ("recipes/eczema-bar.md", 1, "eczema"),
        ("recipes/eczema-bar.md", 5, "heals"),
    ]
    told = prove_one(PLAIN.replace("Plain Bar", "Eczema Bar"), slug="eczema-bar").findings
    assert len([f for f in told if f.rule == "claims"]) == 1, "a name that repeats the title is told once"


def test_a_makers_own_templates_are_read(tmp_path: Path) -> None:
    page = '{# cures acne #}<p class="acne">A bar.</p>\n<p>It <b>cures</b> {{ "scabies" }} and\n{{ acne }}</p>\n<img alt="It heals">'
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "templates/part/lye.html": page})
    found = [f for f in prove(root).findings if f.rule == "claims"]
    assert [(str(f.place), f.about) for f in found] == [
        ("templates/part/lye.html:2:10", "cures scabies"),
        ("templates/part/lye.html:4:14", "heals"),
    ]
    waive = "".join(
        f"  - {{rule: claims, about: {f.about}, because: a word for word quotation}}\n" for f in found
    )
    root = write_book(tmp_path, {"book.yaml": f"title: Bars\nwaive:\n{waive}"})
    assert [f for f in prove(root).findings if f.rule in ("claims", "waiver")] == []


@pytest.mark.parametrize(
    ("said", "hint"),
    [
        ("Soft hands stay soft.", "made with olive, coconut, sunflower high oleic"),
        ("It is for dry skin.", "5.0 % superfat"),
        ("It relieves stress.", ""),
        ("It hydrates skin.", "contains the glycerin formed in the making"),
    ],
)
def test_the_hint_speaks_of_the_recipes_own_oils(said: str, hint: str) -> None:
    (finding,) = claims(PLAIN + said + "\n")
    wanted = f"say what is in it or how it was made, such as: {hint}"
    general = "say what is in it or how it was made, or leave it out"
    assert finding.hint.split("; or waive")[0] == (wanted if hint else general)


def test_a_note_in_the_pantry_stays_there(tmp_path: Path) -> None:
    pantry = "oils:\n  olive:\n    note: It cures eczema.\n"
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, "pantry.yaml": pantry})
    assert [f for f in prove(root).findings if f.rule == "claims"] == []


def test_findings_have_an_end() -> None:
    assert len(claims(PLAIN + "It heals you.\n\n" * 300)) == 101


@pytest.mark.parametrize("book", BOOKS)
def test_the_books_of_the_repository_claim_nothing(book: str) -> None:
    found = [f for f in proof_of(book).findings if f.rule == "claims"]
    assert errors(tuple(found)) == []
