"""Both books of the repository give exactly these findings, and so does a small one with batches of many kinds."""

from __future__ import annotations

from pathlib import Path

from saponary.build.proof import Proof, prove
from support import PLAIN, proof_of, prove_one, write_book

DEMO = [
    ("fading", "recipes/bell-in-a-drainpipe.md:28:22",
     "alkanet will not keep its colour: the portion 'dusk' goes from #53537f to #8f8793"),
    ("fading", "recipes/bell-in-a-drainpipe.md:32:16",
     "turmeric will not keep its colour: the portion 'bell' goes from #c0692f to #d8c07a (your own chips)"),
    ("free-alkali", "recipes/bell-in-a-drainpipe.md:56:18", "lot BD-002 held a trace of free alkali on 2025-12-22"),
    ("fading", "recipes/ebb-below-flood-above.md:48:16",
     "madder will not keep its colour: the portion 'flood' goes from #8c3f5a to #b9786d"),
    ("draft", "recipes/nine-sketches-of-kelp.md:2:1", "nothing is signed: this is a draft, and only the maker's edition shows it"),
    ("fading", "recipes/quarry-strata.md:30:16",
     "turmeric will not keep its colour: the portion 'ochre' goes from #c0692f to #d8c07a (your own chips)"),
    ("batches", "recipes/quarry-strata.md:74:14", "lot QS-011 was poured to an earlier formula, 41c0d2e97a58"),
    ("fading", "recipes/twice-painted-ladder.md:27:16",
     "garden-madder will not keep its colour: the portion 'rust' goes from #a4503c to #b98f86"),
    ("batches", "recipes/twice-painted-ladder.md:62:14", "lot TP-003 was poured to an earlier formula, 7f3a9c51e08b"),
    ("fading", "recipes/uncleaned-garden-wall.md:29:16",
     "spirulina will not keep its colour: the portion 'sage' goes from #546f4c to #a09d76"),
    ("fading", "recipes/uncleaned-garden-wall.md:33:16",
     "turmeric will not keep its colour: the portion 'mustard' goes from #c0692f to #d8c07a (your own chips)"),
    ("fading", "recipes/uncleaned-garden-wall.md:38:16",
     "paprika will not keep its colour: the portion 'orange' goes from #cc7747 to #e0b896"),
    ("batches", "recipes/uncleaned-garden-wall.md:62:14", "lot UW-001 was poured to an earlier formula, 9be3f0417d26"),
]  # fmt: skip

LOTS = """\
batches:
  - {lot: A1, poured: 2026-03-02, formula: MARK, weighed: {0: 120 g, 28: 100 g},
     free-alkali: {test: zap, result: none, on: 2026-04-10}}
  - {lot: A2, poured: 2026-03-02, formula: MARK, weighed: {0: 120 g, 28: 123 g},
     free-alkali: {test: zap, result: trace, on: 2026-04-10}}
  - {lot: A3, poured: 2026-03-02, formula: MARK, as-weighed: {sodium-hydroxide: 150 g}}
  - {lot: A4, poured: 2026-03-02, formula: "123456", as-weighed: {sodium-hydroxide: 150 g}}
  - {lot: A1, poured: 2026-03-02, unmoulded: 2026-03-01}
"""


def told(proof: Proof) -> list[tuple[str, str, str]]:
    return [(f.rule, str(f.place), f.message) for f in proof.findings]


def test_the_demo_book() -> None:
    assert told(proof_of("demo")) == DEMO
    assert {f.severity for f in proof_of("demo").findings} == {"warning"}


def test_the_starters() -> None:
    assert told(proof_of("starters")) == []


def test_a_book_of_many_lots(tmp_path: Path) -> None:
    mark = prove_one(PLAIN).recipes[0].computed.fingerprint
    recipe = PLAIN.replace("signed:\n", "label: {net-weight: 100.5 g}\nsigned:\n").replace(
        "superfat: 5.0 %\n", f"superfat: 5.0 %\n  formula: {mark}\n"
    )
    root = write_book(tmp_path, {"recipes/a.md": recipe, "batches/a.yaml": LOTS.replace("MARK", mark)})
    assert told(prove(root)) == [
        (
            "weighings",
            "batches/a.yaml:4:82",
            "lot A2: on day 28 the bar weighs 123.0 g, 3 % more than on day 0",
        ),
        ("free-alkali", "batches/a.yaml:5:19", "lot A2 held a trace of free alkali on 2026-04-10"),
        ("as-poured", "batches/a.yaml:6:58", "as weighed, lot A3 has a superfat of -1.9 %: free lye"),
        ("batches", "batches/a.yaml:7:44", "lot A4 was poured to an earlier formula, 123456"),
        (
            "as-poured",
            "batches/a.yaml:7:54",
            "the superfat of lot A4 cannot be known: the formula 123456 is not to be found, and no weight is "
            "recorded for its oils",
        ),
        ("lots", "batches/a.yaml:8:11", "the lot 'A1' is recorded twice"),
        ("batch-days", "batches/a.yaml:8:46", "lot A1 was unmoulded before it was poured"),
        ("net-weight", "recipes/a.md:11:21", "the label states 100.5 g; a bar of lot A1 comes to 100.0 g"),
    ]
