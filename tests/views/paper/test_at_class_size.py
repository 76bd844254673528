"""No number of the maker's batch stands in the copy of a student who makes another size.

Every figure there is, placed, quoted and bare, in notes and in a step at every stage.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from outputs.pdfs.desk import desk_at, sheets_of
from saponary.book.figure import Figure
from saponary.book.proofed import Proofed
from support import PLAIN, prove_one, some, write_book

CLASS = "---\ntitle: A day\nstudents: 5\nper-bench: 2\noils: 437 g\nrecipes: [plain]\n---\nThe class.\n"
STAGES = ("lye", "oils", "trace", "pour")
RECIPE = PLAIN.replace(
    "superfat: 5 %\n",
    "superfat: 5 %\nmould: brick\ncut: {along: 25 mm}\n"
    "additions: [{what: kaolin, amount: 20 g per kg of oils}]\n"
    "liquids: [{what: goat-milk, amount: 90 g per kg of oils, at: trace}]\n"
    "portions:\n  - {name: light, share: 1/3}\n  - {name: dark, share: 2/3}\n",
)
PANTRY = "moulds:\n  brick:\n    loaf: {length: 250 mm, width: 80 mm, height: 75 mm}\n"


def recipe(notes: str, step: str) -> str:
    steps = "".join(f"  - at: {at}\n    say: '{step}'\n" for at in STAGES)
    return RECIPE.replace("signed:\n", f"steps:\n{steps}signed:\n").replace("A plain bar.", notes)


@cache
def computed() -> Proofed:
    (one,) = prove_one(RECIPE.replace("mould: brick\ncut: {along: 25 mm}\n", "")).recipes
    return one


def own_size() -> dict[str, Figure]:
    text = RECIPE.replace("mould: brick\ncut: {along: 25 mm}\n", "").replace("total: 1000 g", "total: 437 g")
    return dict(prove_one(text).recipes[0].computed.catalogue)


def student(notes: str, step: str = "Stir.") -> str:
    files = {"recipes/plain.md": recipe(notes, step), "pantry.yaml": PANTRY, "classes/day.md": CLASS}
    with TemporaryDirectory() as folder:
        sheets = sheets_of(desk_at(write_book(Path(folder), files), "class"), "class-handout")
    return sheets["classes/day-student-a4.pdf"].html


def stands(text: str, html: str) -> bool:
    plain = re.sub(r"<[^>]*>", "", html).replace("\u00a0", " ").replace("\u202f", " ")
    return re.search(rf"(?<![\d.]){re.escape(text)}(?!\w)", plain) is not None


WAYS = {
    "placed": "The {%s} of it is here.",
    "quoted": "Here {%s = TEXT} of it is weighed.",
    "bare": "Weigh out TEXT of it at once.",
}


@pytest.mark.parametrize("way", WAYS)
def test_no_figure_of_the_makers_size_reaches_a_student(way: str) -> None:
    figures, own = computed().computed.catalogue, own_size()
    told = {f.text() for f in own.values()}
    masses = [
        f for f in figures.values() if f.kind in ("mass", "volume") and f.value > 0 and f.text() not in told
    ]
    lines = [WAYS[way].replace("%s", f.name).replace("TEXT", f.text()) for f in masses]
    html = student("\n\n".join(lines), " ".join(lines))
    for figure in some(masses):
        assert not stands(figure.text(), html), figure
    if way == "bare":
        assert "is left out here" in html
        return
    for figure in masses:
        assert stands(own[figure.name].text(), html), figure


def test_a_figure_that_the_class_does_not_have_goes_with_its_sentence() -> None:
    html = student("It makes {bars} of {bar} each. The rest stays. Each is {bar} fresh.")
    assert "The rest stays." in html and "It makes" not in html and "Each is" not in html
    assert "{bar" not in html


@pytest.mark.parametrize("gap", ["lye", "sodium-hydroxide", "water", "oil olive"])
def test_what_is_left_blank_is_given_away_by_no_other_mass(gap: str) -> None:
    own = own_size()
    names = [
        "lye",
        "sodium-hydroxide",
        "lye-solution",
        "portion dark lye",
        "portion dark oil olive",
        "plain-water",
    ]
    html = student(f"Work out {{blank {gap}}}.\n\n" + "\n\n".join(f"So {{{name}}}." for name in names))
    notes = html[html.index("Work out") :]
    kin = {
        "lye": names[:4],
        "sodium-hydroxide": names[:4],
        "water": ["lye-solution", "plain-water"],
        "oil olive": ["portion dark oil olive"],
    }[gap]
    for name in names:
        assert stands(own[name].text(), notes) == (name not in kin), name


def test_a_bare_share_does_not_give_a_blank_superfat_away() -> None:
    html = student("Work out {blank superfat}. We leave 5 % of the oils. The rest stays.")
    notes = html[html.index("Work out") :]
    assert "We leave" not in notes and "The rest stays." in notes
