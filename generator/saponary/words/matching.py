"""Finds claims in a text: which words, of which entry, in which sentence.

Work grows with the length of the text alone: a word is looked up once, a phrase is
followed over a bounded number of words, and what stands round about is found by bisection.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache, partial
from typing import NamedTuple

from saponary.assets.for_user import made
from saponary.words.entries import Entry, Language, WordList
from saponary.words.phrases import Phrase, phrases
from saponary.words.sentences import Sentence, Word, sentences
from saponary.words.set_aside import in_a_persons_name, in_a_place_name
from saponary.words.shown import Shown
from saponary.words.standard import standard

_FILLERS = 2
_NEAR = 25
_DENIAL = 4
_CHAIN = 3
_LONGEST_PHRASE = 80
_REMEMBERED = 2_000

Spans = list[tuple[int, int]]


class Hit(NamedTuple):
    """Words that make a claim: their place in the source, what they are, and their sentence.

    `denied` where the sentence denies it, which does not help where a disease is named.
    """

    start: int
    end: int
    entry: Entry
    sentence: str
    words: str
    denied: bool = False


class _Step(NamedTuple):
    entry: int
    role: str
    words: tuple[int, ...]
    gaps: tuple[int, ...]
    needed: frozenset[int]


class Matcher:
    """One language's list, compiled."""

    def __init__(self, language: Language) -> None:
        self.language = language
        self.exact: dict[str, list[int]] = {}
        self.beginning: dict[str, list[int]] = {}
        self.ending: dict[str, list[int]] = {}
        self.steps: dict[int, list[_Step]] = {}
        self._numbers: dict[frozenset[str], int] = {}
        self._lives: dict[frozenset[int], Mapping[int, list[_Step]]] = {}
        self._places: dict[str, frozenset[int]] = {}
        self.fillers = frozenset(language.fillers)
        self._add(-1, "denial", language.negations)
        self._add(-1, "no denial", language.not_negations)
        self._add(-1, "safety", language.safety)
        self._add(-1, "never", language.never)
        for index, entry in enumerate(language.entries):
            self._add(index, "form", entry.forms)
            self._add(index, "needs", entry.needs)
            self._add(index, "unless", entry.unless)
            self._add(index, "near", entry.near)
        self.lengths = sorted({len(each) for each in self.beginning})
        self.end_lengths = sorted({len(each) for each in self.ending})

    def _add(self, entry: int, role: str, forms: Sequence[str]) -> None:
        every = {p for form in forms for p in phrases(form, self.language.code, self.language.sets)}
        for phrase in sorted(every, key=_order):
            numbers = tuple(self._number(word) for word in phrase.words)
            self.steps.setdefault(numbers[0], []).append(
                _Step(entry, role, numbers, phrase.gaps, frozenset(numbers))
            )

    def _number(self, word: frozenset[str]) -> int:
        if word not in self._numbers:
            self._numbers[word] = number = len(self._numbers)
            for spelling in sorted(word):
                if spelling.endswith("*"):
                    self.beginning.setdefault(spelling[:-1], []).append(number)
                elif spelling.startswith("*"):
                    self.ending.setdefault(spelling[1:], []).append(number)
                else:
                    self.exact.setdefault(spelling, []).append(number)
        return self._numbers[word]

    def numbers(self, word: str) -> frozenset[int]:
        """Which places of phrases a word can stand in."""
        found = set(self.exact.get(word, ()))
        for length in self.lengths:
            if length > len(word):
                break
            found.update(self.beginning.get(word[:length], ()))
        for length in self.end_lengths:
            if length > len(word):
                break
            found.update(self.ending.get(word[-length:], ()))
        return frozenset(found)

    def find(self, shown: Shown) -> Iterator[Hit]:
        """The claims of a text, sentence by sentence, in order."""
        known = self._places
        if len(known) >= _REMEMBERED:
            known.clear()
        for sentence in sentences(shown.text, self.language.abbreviations):
            here: list[frozenset[int]] = []
            for word in sentence.words:
                places = known.get(word.text)
                if places is None:
                    places = known[word.text] = self.numbers(word.text)
                here.append(places)
            found = self._spans(sentence.words, here)
            if any(role == "form" for _, role in found):
                yield from self._hits(sentence, found, shown)

    def _spans(
        self, words: Sequence[Word], here: Sequence[frozenset[int]]
    ) -> Mapping[tuple[int, str], Spans]:
        found: dict[tuple[int, str], Spans] = {}
        live = self._live(frozenset[int]().union(*set(here)))
        for start, numbers in enumerate(here) if live else ():
            for number in numbers:
                for step in live.get(number, ()):
                    end = self._follow(step, start, words, here)
                    if end is not None:
                        found.setdefault((step.entry, step.role), []).append((start, end))
        for spans in found.values():
            spans.sort(key=lambda span: (span[0], -span[1]))
        return found

    def _live(self, present: frozenset[int]) -> Mapping[int, list[_Step]]:
        """Phrases all of whose words occur in a sentence: few, so that long ones are read quickly. None, where none
        of them is a claim."""
        if present not in self._lives:
            if len(self._lives) >= _REMEMBERED:
                self._lives.clear()
            live = {
                number: kept
                for number in sorted(present)
                if (kept := [s for s in self.steps.get(number, ()) if s.needed <= present])
            }
            claims = any(step.role == "form" for steps in live.values() for step in steps)
            self._lives[present] = live if claims else {}
        return self._lives[present]

    def _follow(
        self, step: _Step, start: int, words: Sequence[Word], here: Sequence[frozenset[int]]
    ) -> int | None:
        """Index of the phrase's last word when it begins at `start`."""
        ends = {start}
        for number, gap in zip(step.words[1:], step.gaps[1:], strict=True):
            following: set[int] = set()
            for end in ends:
                others = fillers = 0
                for at in range(end + 1, len(words)):
                    if number in here[at]:
                        following.add(at)
                    if words[at].text in self.fillers and fillers < _FILLERS + gap:
                        fillers += 1
                    elif others < gap:
                        others += 1
                    else:
                        break
            if not following:
                return None
            ends = following
        return min(ends)

    def _hits(
        self, sentence: Sentence, found: Mapping[tuple[int, str], Spans], shown: Shown
    ) -> Iterator[Hit]:
        denials = [
            span
            for span in found.get((-1, "denial"), [])
            if not _touching(found.get((-1, "no denial"), []), *span)
        ]
        if any(not _denied(denials, start, sentence.words) for start, _ in found.get((-1, "safety"), [])):
            return
        claims: list[tuple[int, int, Entry]] = []
        for index, entry in enumerate(self.language.entries):
            span = _first(entry, index, found)
            if span is not None and not self._set_aside(*span, sentence.words, found, shown.text):
                claims.append((*span, entry))
        claims = [claim for claim in claims if not claim[2].alone] or claims
        kept: list[tuple[int, int, Entry]] = []
        for claim in sorted(claims, key=lambda c: (c[2].group != "drug", c[0] - c[1], c[0])):
            if not any(claim[0] <= end and start <= claim[1] for start, end, _ in kept):
                kept.append(claim)
        said = sentence.text(shown.text)
        last_denied = -100
        for start, end, entry in sorted(kept, key=lambda c: c[:2]):
            denied = _denied(denials, start, sentence.words) or start - last_denied <= _CHAIN
            last_denied = end if denied else last_denied
            if denied and not entry.mention:
                continue
            first, last = sentence.words[start].start, sentence.words[end].end
            words = " ".join(shown.text[first:last].split())
            yield Hit(shown.at[first], shown.at[last - 1] + 1, entry, said, words, denied)

    def _set_aside(
        self, start: int, end: int, words: Sequence[Word], found: Mapping[tuple[int, str], Spans], shown: str
    ) -> bool:
        if _touching(found.get((-1, "never"), []), start, end):
            return True
        if in_a_persons_name(words, start, end, shown, self.language.titles):
            return True
        return in_a_place_name(words, start, end, shown, self.language.places)


def _order(phrase: Phrase) -> tuple[list[list[str]], tuple[int, ...]]:
    return [sorted(word) for word in phrase.words], phrase.gaps


def _touching(spans: Spans, start: int, end: int) -> bool:
    """Whether any span shares a word with `start`..`end`."""
    for at in range(bisect_left(spans, (start - _LONGEST_PHRASE, -1)), len(spans)):
        if spans[at][0] > end:
            return False
        if spans[at][1] >= start:
            return True
    return False


def _first(entry: Entry, index: int, found: Mapping[tuple[int, str], Spans]) -> tuple[int, int] | None:
    """The first place in a sentence where an entry holds."""
    needs, unless, near = (found.get((index, role), []) for role in ("needs", "unless", "near"))
    for start, end in found.get((index, "form"), []):
        if entry.needs and not _touching(needs, start - entry.within, end + entry.within):
            continue
        if _touching(unless, start, end) or _touching(near, start - _NEAR, end + _NEAR):
            continue
        return start, end
    return None


def _denied(denials: Spans, start: int, words: Sequence[Word]) -> bool:
    """Whether one of the few words before `start`, with no comma between, denies what follows."""
    at = bisect_left(denials, (start, -1)) - 1
    if at < 0:
        return False
    end = denials[at][1]
    return end < start <= end + _DENIAL and not any(w.comma for w in words[end + 1 : start + 1])


@lru_cache(maxsize=64)
def _matchers(language: str, entries: WordList) -> tuple[Matcher, ...]:
    known = standard().languages
    return tuple(
        made(("matcher", each.code), partial(Matcher, each))
        if each is known.get(each.code)
        else Matcher(each)
        for each in entries.chosen(language)
    )


def find_in(shown: Shown, language: str, entries: WordList) -> list[Hit]:
    """Claims of a text made ready by `shown.py`, in order; offsets are those it was given."""
    found = [hit for matcher in _matchers(language, entries) for hit in matcher.find(shown)]
    found.sort(key=lambda hit: (hit.start, -hit.end))
    kept: list[Hit] = []
    for hit in found:
        if not kept or hit.start >= kept[-1].end:
            kept.append(hit)
    return kept
