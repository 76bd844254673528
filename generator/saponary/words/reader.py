"""A book's own entries, `claims.yaml`: words to look for besides, and standard entries set aside.

Every fault is a finding on its line; sound entries are kept beside faulty ones.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.reporter import Reporter
from saponary.reading.yaml_tree import read_yaml
from saponary.schema import validate as schema
from saponary.schema.fields import Part
from saponary.schema.waivers import Waived, Waivers, placed
from saponary.words.entries import Entry, Group, Source, WordList
from saponary.words.phrases import FormError, phrases
from saponary.words.standard import standard

Form = Annotated[str, Field(min_length=1, max_length=200)]
Forms = Annotated[list[Form], Field(max_length=60)]
Sentence = Annotated[str, Field(min_length=1, max_length=300)]


class OwnWhy(Part):
    """Why the words are a claim, by jurisdiction."""

    us: Sentence | None = None
    eu: Sentence | None = None
    maker: Sentence | None = None


def _why(value: object) -> object:
    return {"maker": value} if isinstance(value, str) else value


class OwnEntry(Part):
    """One entry of the maker's own."""

    id: Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)]
    group: Group
    language: Literal["en", "de", "fr"] = "en"
    forms: Annotated[list[Form], Field(min_length=1, max_length=60)]
    needs: Forms = []
    within: Annotated[int, Field(ge=1, le=20)] = 6
    not_: Forms = []
    not_near: Forms = []
    mention: bool = False
    why: Annotated[OwnWhy, BeforeValidator(_why)] = OwnWhy()
    neutral: Annotated[str, Field(max_length=300)] = ""


class Silence(Part):
    """A standard entry that this book does not look for, with the reason written down."""

    id: Annotated[str, Field(max_length=60)]
    because: Annotated[str, Field(min_length=12, max_length=1000)]


class OwnFile(Part):
    """`claims.yaml`."""

    claims: Annotated[list[OwnEntry], Field(max_length=200)] = []
    silence: Annotated[list[Silence], Field(max_length=200)] = []
    waive: Waivers = []


@dataclass(frozen=True)
class Own:
    """What a book adds to the standard list, by language, and which entries it sets aside."""

    added: dict[str, tuple[Entry, ...]] = field(default_factory=dict[str, tuple[Entry, ...]])
    silenced: frozenset[str] = frozenset()
    silences: Mapping[str, Waived] = field(default_factory=dict[str, Waived])
    """By the id of the entry, where it is silenced and why."""
    waived: tuple[Waived, ...] = ()

    def over(self, base: WordList) -> WordList:
        """The list with this book's changes; the very same where it has none."""
        return base.changed(self.added, self.silenced) if self.added or self.silenced else base


def read_own(text: str, file: str) -> tuple[Own, list[Finding]]:
    """A book's `claims.yaml` from its text; `file` is its path in the book."""
    shift = 1 if text.startswith("\ufeff") else 0
    tree, findings = read_yaml(text[shift:], file, offset=shift)
    if tree.data is None:
        return Own(), findings
    model, faults = schema.validate(OwnFile, tree, file)
    findings += faults
    if model is None:
        return Own(), findings
    report = Reporter(tree, file, "claim-list")
    added: dict[str, tuple[Entry, ...]] = {}
    known = standard().ids()
    seen: set[str] = set()
    for index, own in enumerate(model.claims):
        if own.id in known or own.id in seen:
            report.add(("claims", index, "id"), f"there is an entry {own.id!r} already", "give it another id")
        elif _sound(own, index, report):
            added[own.language] = (*added.get(own.language, ()), _entry(own))
        seen.add(own.id)
    for index, silence in enumerate(model.silence):
        if silence.id not in known:
            report.add(
                ("silence", index, "id"),
                f"there is no entry {silence.id!r} in the standard list",
                suggest(silence.id, known, "entries"),
            )
    silenced = frozenset(silence.id for silence in model.silence) & known
    silences = {
        silence.id: Waived(
            "claims", f"entry {silence.id}", silence.because, Place(file, span.line, span.column)
        )
        for index, silence in enumerate(model.silence)
        if silence.id in silenced and (span := tree.nearest(("silence", index))) is not None
    }
    waived = placed(model.waive, tree, file)
    return Own(added, silenced, silences, waived), findings + report.findings


def _sound(own: OwnEntry, index: int, report: Reporter) -> bool:
    language = standard().languages[own.language]
    lists = (("forms", own.forms), ("needs", own.needs), ("not", own.not_), ("not-near", own.not_near))
    before = len(report.findings)
    for key, forms in lists:
        for at, form in enumerate(forms):
            try:
                phrases(form, own.language, language.sets)
            except FormError as error:
                sets = ", ".join(f"@{name}" for name in sorted(language.sets))
                report.add(
                    ("claims", index, key, at), str(error), f"words such as heal/v, skin/n, anti*, or {sets}"
                )
    return len(report.findings) == before


def _entry(own: OwnEntry) -> Entry:
    why = {key: said for key, said in own.why if said is not None}
    return Entry(
        own.id,
        own.group,
        tuple(own.forms),
        tuple(own.needs),
        own.within,
        tuple(own.not_),
        tuple(own.not_near),
        own.mention,
        why=why,
        neutral=own.neutral,
        source=Source("maker"),
    )
