"""Findings less those that are waived, and what is wrong with the waivers.

A waiver sets aside the finding of one rule about one thing, in the file it stands in; what
stands in a file of batches is waived in its recipe.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from saponary.checks.made_elsewhere import WAIVER
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, Home, suggest
from saponary.reading.names import in_form
from saponary.schema.waivers import Waived

_PLAIN = re.compile(r"[^\W\d_][\w ./()%-]*(?<! )")
_WORDS_OF_YAML = frozenset({"null", "true", "false", "yes", "no", "on", "off", "y", "n"})


class WaivingFile(NamedTuple):
    """A file that may waive rules: of what kind it is, what it waives, and the files that it answers for.

    `checked` is False where the rules could not look at it, so that no waiver can be told idle.
    """

    name: str
    home: Home
    waived: tuple[Waived, ...]
    answers_for: frozenset[str] = frozenset()
    checked: bool = True
    used: frozenset[int] = frozenset()
    """Its waivers that have set aside something already, by where they stand."""


def settle_one(
    found: Iterable[Finding], file: WaivingFile, rules: Mapping[str, Rule]
) -> tuple[tuple[Finding, ...], frozenset[int]]:
    """What is left of what was found in one file and those that it answers for, each with the waiver that would settle
    it in its hint; and which of its waivers set something aside."""
    used: set[tuple[str, int]] = set()
    kept = tuple(_left(found, [file], rules, used))
    return kept, frozenset(index for _, index in used)


def _left(
    found: Iterable[Finding],
    files: Iterable[WaivingFile],
    rules: Mapping[str, Rule],
    used: set[tuple[str, int]],
) -> Iterator[Finding]:
    """What no waiver sets aside, its hint telling of the waiver that would; those that do are added to `used`."""
    at = {name: file for file in files for name in (file.name, *file.answers_for)}
    for finding in found:
        file, rule = at.get(finding.place.file), rules[finding.rule]
        chosen = _waiver_of(finding, rule, file) if file is not None else None
        if chosen is not None and file is not None:
            used.add((file.name, chosen))
        else:
            yield _told(finding, rule, file)


def settle(
    found: Iterable[Finding],
    files: Sequence[WaivingFile],
    rules: Mapping[str, Rule],
    settled: Iterable[Finding] = (),
) -> list[Finding]:
    """What is left to look at, each with the waiver that would settle it in its hint: after those that are `settled`,
    in the order given."""
    used = {(file.name, index) for file in files for index in file.used}
    kept = [*settled, *_left(found, files, rules, used)]
    for file in files:
        for index, waiver in enumerate(file.waived):
            if (file.name, index) not in used:
                kept += _fault(waiver, file, kept, rules)
    return kept


def _waivable(finding: Finding, rule: Rule, file: WaivingFile) -> bool:
    return file.home in rule.waivable and bool(finding.about) == bool(rule.each)


def _waiver_of(finding: Finding, rule: Rule, file: WaivingFile) -> int | None:
    """Which waiver of the file sets a finding aside."""
    if not _waivable(finding, rule, file):
        return None
    wanted = (finding.rule, in_form(finding.about.casefold()))
    same = (i for i, w in enumerate(file.waived) if (w.rule, in_form(w.about.casefold())) == wanted)
    return next(same, None)


def _told(finding: Finding, rule: Rule, file: WaivingFile | None) -> Finding:
    """The finding with what to write to waive it, where it may be waived."""
    if file is None or not _waivable(finding, rule, file):
        return finding
    where = "" if finding.place.file == file.name else f" in {file.name}"
    line = as_yaml(finding.rule, finding.about)
    write = f"under waive: - {line}" if file.waived else f"waive: [{line}]"
    return replace(finding, hint=f"{finding.hint}; or waive it with your reason{where}: {write}")


def as_yaml(rule: str, about: str) -> str:
    """One waiver as YAML, its reason left to be written."""
    thing = f", about: {_scalar(about)}" if about else ""
    return f"{{rule: {rule}{thing}, because: …}}"


def _scalar(text: str) -> str:
    plain = _PLAIN.fullmatch(text) is not None and text.casefold() not in _WORDS_OF_YAML
    return text if plain else json.dumps(text, ensure_ascii=False)


def _fault(
    waiver: Waived, file: WaivingFile, kept: Sequence[Finding], rules: Mapping[str, Rule]
) -> Iterator[Finding]:
    """What is wrong with a waiver that set nothing aside."""
    rule = rules.get(waiver.rule)
    here = {file.name, *file.answers_for}
    things = sorted({f.about for f in kept if f.rule == waiver.rule and f.about and f.place.file in here})
    if rule is None:
        message, hint = f"there is no rule {waiver.rule!r}", suggest(waiver.rule, rules, "rules")
    elif file.home not in rule.waivable:
        message = f"the rule {rule.name!r} cannot be waived here"
        hint = "correct what it finds instead"
    elif rule.each and not waiver.about:
        message = f"a waiver of {rule.name!r} is about one {rule.each}, and this names none"
        first = things[0] if things else "…"
        hint = (
            f"write {as_yaml(rule.name, first)}" if things else "it finds nothing here: take the waiver out"
        )
    elif waiver.about and not rule.each:
        message = f"a waiver of {rule.name!r} is about the file as a whole"
        hint = "leave about: out"
    else:
        if file.checked:
            about = f" about {waiver.about!r}" if waiver.about else ""
            message = f"the rule {waiver.rule!r} finds nothing{about} here"
            known = suggest(waiver.about, things, "things here") if things else "take the waiver out"
            yield Finding(WAIVER.name, "warning", waiver.place, message, known)
        return
    yield Finding(WAIVER.name, "error", waiver.place, message, hint)
