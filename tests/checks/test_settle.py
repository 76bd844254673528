"""A waiver is about one thing in one file; one that is wrong, or idle, is a finding."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.books import GOOD, LESSON, more, proofed, recipe
from saponary.checks.settle import as_yaml
from saponary.reading.names import in_form
from saponary.reading.yaml_tree import read_yaml
from support import read_plain

BECAUSE = "because: the reason is written down here"
CLAY = "additions: [{what: kaolin, amount: 90 g/kg}]\n"


def told(files: dict[str, str]) -> list[tuple[str, str, str, str]]:
    return [(f.rule, f.severity, f.message, f.hint) for f in proofed(files).findings]


@pytest.mark.parametrize(
    ("waiver", "rule", "severity", "message", "hint"),
    [
        ("rule: usual-rate, about: salt", "", "warning", "the rule 'usual-rate' finds nothing about 'salt' here", ""),
        ("rule: usual-rate, about: kaolim", "", "warning", "finds nothing about 'kaolim'", "did you mean 'kaolin'?"),
        ("rule: usual-rate", "", "error", "is about one addition, and this names none", "about: kaolin"),
        ("rule: usual-ratee, about: kaolin", "", "error", "there is no rule 'usual-ratee'", "did you mean 'usual-rate'?"),
        ("rule: superfat", "", "error", "the rule 'superfat' cannot be waived here", "correct what it finds"),
        ("rule: draft, about: kaolin", "", "error", "is about the file as a whole", "leave about: out"),
        ("rule: draft", "", "warning", "the rule 'draft' finds nothing here", "take the waiver out"),
    ],
)  # fmt: skip
def test_a_waiver_that_sets_nothing_aside(
    waiver: str, rule: str, severity: str, message: str, hint: str
) -> None:
    found = told(recipe(more(f"{CLAY}waive: [{{{waiver}, {BECAUSE}}}]\n")))
    assert [f[0] for f in found] == ["usual-rate", "waiver"]
    assert found[1][1] == severity and message in found[1][2] and hint in found[1][3]


def test_a_waiver_that_names_nothing_where_nothing_is_found() -> None:
    ((rule, severity, _, hint),) = told(recipe(more(f"waive: [{{rule: usual-rate, {BECAUSE}}}]\n")))
    assert (rule, severity, hint) == ("waiver", "error", "it finds nothing here: take the waiver out")


def test_the_second_of_two_alike_is_idle() -> None:
    one = f"{{rule: usual-rate, about: kaolin, {BECAUSE}}}"
    assert told(recipe(more(f"{CLAY}waive: [{one}]\n"))) == []
    found = told(recipe(more(f"{CLAY}waive: [{one}, {one}]\n")))
    assert [(f[0], f[1]) for f in found] == [("waiver", "warning")]


def test_the_next_one_is_added_to_those_there_are() -> None:
    both = CLAY.replace("]", ", {what: salt, amount: 90 g/kg}]")
    text = more(f"{both}waive: [{{rule: usual-rate, about: kaolin, {BECAUSE}}}]\n")
    ((_, _, _, hint),) = told(recipe(text))
    assert hint.endswith("under waive: - {rule: usual-rate, about: salt, because: …}")


def test_a_waiver_counts_in_its_own_file_alone() -> None:
    files = recipe(more(CLAY), book=f"waive: [{{rule: usual-rate, about: kaolin, {BECAUSE}}}]\n")
    found = told(files)
    assert [(f[0], f[1]) for f in found] == [("waiver", "error"), ("usual-rate", "warning")]


def test_what_stands_in_a_file_of_batches_is_waived_in_its_recipe() -> None:
    lots = "batches: [{lot: A1, poured: 2026-03-02, formula: 123456}]\n"
    ((rule, _, _, hint),) = told(recipe(GOOD, batches=lots))
    assert rule == "batches" and "in recipes/tried.md: waive: [{rule: batches, about: A1," in hint
    waived = more(f"waive: [{{rule: batches, about: A1, {BECAUSE}}}]\n")
    assert told(recipe(waived, batches=lots)) == []


def test_of_a_recipe_that_cannot_be_computed_no_waiver_is_idle() -> None:
    broken = GOOD.replace("olive: 60 %", "olives: 60 %").replace("title: Plain", "title: Other")
    broken = more(f"waive: [{{rule: usual-rate, about: kaolin, {BECAUSE}}}]\n", broken)
    assert {f[0] for f in told(recipe(GOOD, **{"recipes/other.md": broken}))} == {"sense"}


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("book", "title: Bars\n%s"),
        ("pantry", "liquids: {tea: {name: Tea, water: 99 %%, inci: Tea}}\n%s"),
        ("lesson", LESSON.replace("recipes:", "%srecipes:")),
    ],
)
def test_an_idle_waiver_is_found_in_every_file(file: str, text: str) -> None:
    found = told(recipe(GOOD, **{file: text % f"waive: [{{rule: claims, about: heals, {BECAUSE}}}]\n"}))
    assert [(f[0], f[1]) for f in found] == [("waiver", "warning")]


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=30))
def test_any_name_is_written_so_that_it_is_read_again(about: str) -> None:
    """The reader takes both ways of writing an accented letter for one."""
    line = as_yaml("batches", about).replace("…", "the reason is written down here")
    assert read_plain(f"waive: [{line}]")["waive"][0]["about"] == about
    tree, found = read_yaml(f"waive: [{line}]\n", "a.yaml")
    assert found == [] and tree.data["waive"][0]["about"] == in_form(about)
