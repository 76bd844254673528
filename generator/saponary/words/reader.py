"""A book's own entries, `claims.yaml`: words to look for besides, and standard entries set aside.

Every fault is a finding on its line; sound entries are kept beside faulty ones.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, NamedTuple

from pydantic import BeforeValidator, Field

from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.reporter import Reporter
from saponary.reading.yaml_tree import read_yaml
from saponary.schema import validate as schema
from saponary.schema.fields import Part
from saponary.schema.waivers import Waived
from saponary.words.entries import Entry, Group, Source, WordList
from saponary.words.phrases import FormError, phrases
from saponary.words.standard import standard

Form = Annotated[str, Field(min_length=1, max_length=200)]
Forms = Annotated[list[Form], Field(max_length=60)]
Sentence = Annotated[str, Field(min_length=1, max_length=300)]


class OwnWhy(Part):
    """Why the words are a claim, by jurisdiction."""

    us: Sentence | None = None
    """The reason in the United States.
    Example:
      claims:
      - id: sea-power
        group: cosmetic
        forms: [sea power]
        why: {us: It promises an effect.}
    """
    eu: Sentence | None = None
    """The reason in the European Union.
    Example:
      claims:
      - id: sea-power
        group: cosmetic
        forms: [sea power]
        why: {eu: It promises an effect.}
    """
    maker: Sentence | None = None
    """Your own reason.
    Example:
      claims:
      - id: sea-power
        group: cosmetic
        forms: [sea power]
        why: {maker: It promises an effect.}
    """


def _why(value: object) -> object:
    return {"maker": value} if isinstance(value, str) else value


class OwnEntry(Part):
    """One entry of the maker's own."""

    id: Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)]
    """The entry's own name."""
    group: Group
    """What the words would make of the soap: `cosmetic` or `drug`."""
    language: Literal["en", "de", "fr"] = "en"
    """The language of the words: `en`, `de` or `fr`.
    Example: claims: [{id: meerkraft, group: cosmetic, language: de, forms: [meerkraft]}]
    """
    forms: Annotated[list[Form], Field(min_length=1, max_length=60)]
    """The words. `heal/v` stands for every form of a verb, `skin/n` for a noun's, `anti*` for a beginning."""
    needs: Forms = []
    """Words of which one must stand near for it to count.
    Example: claims: [{id: sea-power, group: cosmetic, forms: [power], needs: [sea]}]
    """
    within: Annotated[int, Field(ge=1, le=20)] = 6
    """How near: at most so many words apart, from 1 to 20.
    Example: claims: [{id: sea-power, group: cosmetic, forms: [power], needs: [sea], within: 4}]
    """
    not_: Forms = []
    """Longer phrases that hold these words and are no claim.
    Example: claims: [{id: sea-power, group: cosmetic, forms: [power], not: [power tool]}]
    """
    not_near: Forms = []
    """Words that make it no claim when they stand in the same sentence.
    Example: claims: [{id: sea-power, group: cosmetic, forms: [power], not-near: [electric]}]
    """
    mention: bool = False
    """`true` where even a sentence that denies it counts.
    Example: claims: [{id: sea-power, group: cosmetic, forms: [sea power], mention: true}]
    """
    why: Annotated[OwnWhy, BeforeValidator(_why)] = OwnWhy()
    """Why the words are a claim, as one sentence or by place: `us`, `eu`, `maker`."""
    neutral: Annotated[str, Field(max_length=300)] = ""
    """What to write instead."""


class Silence(Part):
    """A standard entry that this book does not look for, with the reason written down."""

    id: Annotated[str, Field(max_length=60)]
    """The entry of the standard list. The finding tells its name."""
    because: Annotated[str, Field(min_length=12, max_length=1000)]
    """Your reason, in at least 12 characters."""


class OwnFile(Part):
    """`claims.yaml`."""

    claims: Annotated[list[OwnEntry], Field(max_length=200)] = []
    """Words of your own to look for, besides the standard list.
    Example:
      claims:
      - id: sea-power
        group: cosmetic
        forms: [sea power]
        why: Our lawyer wants it out.
        neutral: soap
    """
    silence: Annotated[list[Silence], Field(max_length=200)] = []
    """Entries of the standard list that this book does not look for.
    Example: silence: [{id: hypoallergenic, because: a laboratory has tested it}]
    """


class Own(NamedTuple):
    """What a book adds to the standard list, by language, and which entries it sets aside."""

    added: dict[str, tuple[Entry, ...]] = {}
    silenced: frozenset[str] = frozenset()
    silences: Mapping[str, Waived] = {}
    """By the id of the entry, where it is silenced and why."""

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
    return Own(added, silenced, silences), findings + report.findings


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
