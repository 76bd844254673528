"""A book's own `claims.yaml`."""

from __future__ import annotations

from saponary.words.reader import read_own
from saponary.words.standard import standard
from support import find_claims

OWN = """\
claims:
  - id: seaweed
    group: drug
    forms: [sea magic/n, "tide/n ~ @disease"]
    why: our lawyer said so
    neutral: with kelp
silence:
  - {id: organic, because: our certificate is number 12}
"""


def test_entries_are_added_and_set_aside() -> None:
    own, findings = read_own(OWN, "claims.yaml")
    assert findings == []
    words = own.over(standard())
    (hit,) = find_claims("An organic soap with sea magic.", "en", words)
    assert (hit.entry.id, hit.entry.neutral, dict(hit.entry.why)) == (
        "seaweed",
        "with kelp",
        {"maker": "our lawyer said so"},
    )
    assert [h.entry.id for h in find_claims("An organic soap.", "en", standard())] == ["organic"]


def test_an_empty_file_changes_nothing() -> None:
    own, findings = read_own("claims: []\n", "claims.yaml")
    assert findings == [] and own.over(standard()) is standard()


def test_faults_stand_on_their_line() -> None:
    text = (
        "claims:\n  - {id: a1, group: drug, forms: ['@skim']}\n  - {id: heals, group: drug, forms: [x]}\n"
        "silence:\n  - {id: organik, because: there is no such entry}\n"
    )
    own, findings = read_own(text, "claims.yaml")
    assert own.added == {} and own.silenced == frozenset()
    assert [(f.place.line, f.place.column) for f in findings] == [(2, 35), (3, 10), (5, 10)]
    assert "@skin" in findings[0].hint and "organic" in findings[2].hint
    _, findings = read_own("claims:\n  - {id: a1, groop: drug, forms: [x]}\n", "claims.yaml")
    assert {f.place.line for f in findings} == {2} and any("group" in f.hint for f in findings)
    _, findings = read_own("silence: [{id: organic}]\n", "claims.yaml")
    assert findings
