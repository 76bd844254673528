"""What a number in a sentence is of: the nearest word for something of the recipe."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saponary.words.figure_tokens import Token
from saponary.words.figure_words import LYE, OILS, RIVAL, WATER, FigureWords, Phrase
from saponary.words.phrase_at import any_stand, stands_at

STOPS = frozenset((",", "(", "–", "—"))
"""Marks that part what stands on their two sides."""
_AFTER, _BEFORE = 4, 5
"""How many words may stand between a number and its subject, after it and before it."""

_LINKS = frozenset(
    [
        "of",
        "de",
        "du",
        "des",
        "d",
        "von",
        "an",
        "vom",
        "del",
        "der",
        "the",
        "la",
        "le",
        "les",
        "los",
        "el",
        "en",
        "l",
        "in",
    ]
)
"""Words that bind a number to what follows."""


def possible_subjects(
    here: Sequence[Token], index: int, subjects: Mapping[Phrase, str], words: FigureWords
) -> Mapping[Phrase, str]:
    """What a number can be of. `% of the oils` says of what the share is, and not what is shared.

    A volume is held to the water alone, a millilitre of which weighs a gram.
    """
    number = here[index].number
    assert number is not None
    if number.kind == "share":
        subjects = {phrase: RIVAL if name == OILS else name for phrase, name in subjects.items()}
    if number.kind == "volume":
        return {phrase: name if name == WATER else RIVAL for phrase, name in subjects.items()}
    if number.kind == "ratio":
        return {phrase: name for phrase, name in subjects.items() if name in (LYE, WATER, RIVAL)}
    after = [token.text for token in here[index + 1 : index + 5]]
    first = next((word for word in after if word not in _LINKS), "")
    if number.kind == "share" and after and after[0] in _LINKS and words.subjects.get((first,)) == OILS:
        return {phrase: name for phrase, name in subjects.items() if words.subjects.get(phrase) != OILS}
    return subjects


def subject_of(
    here: Sequence[Token], index: int, subjects: Mapping[Phrase, str], words: FigureWords
) -> str | None:
    """What a number is of: the nearest word for something of the recipe, after it or before it."""
    if index > 1 and here[index - 1].text == "(" and here[index - 2].number is not None:
        index -= 2
    best: tuple[float, int, str, int] | None = None
    for at in range(max(0, index - 12), min(len(here), index + 8)):
        for phrase, subject in subjects.items():
            far = _distance(here, index, at, len(phrase), words) if stands_at(here, at, phrase) else None
            if far is not None:
                dear = _RIVAL_BEHIND if subject == RIVAL and at > index + 1 else 0.0
                rank = (far + dear, -len(phrase), subject, at)
                best = rank if best is None else min(best, rank)
    if best is None or (best[3] < index and _by_volume(here, best[3], words)):
        return None
    number = here[index].number
    high = best[2] == LYE and number is not None and number.kind == "share" and number.value > _STRONGEST
    near = here[max(0, index - _STRENGTH) : index + _STRENGTH]
    return None if high and not any_stand(near, words.strength) else best[2]


_STRONGEST = 60.0
"""Percent of alkali that no lye holds in the cold (common practice, no source): above, a purity is told."""


_STRENGTH = 5
"""Words before and after such a share that may say it is the lye's strength all the same."""


_RIVAL_BEHIND = 2.0
"""What stands behind a weight is more often where it goes than what it is of: `150 g into the pot`."""


def _by_volume(here: Sequence[Token], at: int, words: FigureWords) -> bool:
    """Whether what stands at a place is so much by volume: `a tablespoon of castor oil comes to 14 g`."""
    near = here[max(0, at - 4) : at]
    return not any(token.number or token.text in STOPS for token in near) and any_stand(near, words.measures)


_ANDS = frozenset(("and", "und", "et", "y", "e"))
_FOR = frozenset(("for", "fur", "pour", "para"))
"""`30 g for the kaolin` is not kaolin."""
_HEADS = frozenset(("oil", "butter", "clay", "powder", "drink"))
"""Words that end an ingredient's name and put nothing between it and its number."""


def _distance(here: Sequence[Token], index: int, at: int, length: int, words: FigureWords) -> float | None:
    """Words between a number and a phrase, with stops on the way counted dear; None where it is too far."""
    after = at > index
    if not after and at + length > index:
        return None
    between = here[index + 1 : at] if after else here[at + length : index]
    if any(t.is_number for t in between) or any_stand(between, words.breaks):
        return None
    if after and any(t.text in _FOR for t in between):
        return None
    told = [t.text for t in between if t.text not in _LINKS | STOPS | {":"}]
    if not after and told and told[0] in _HEADS:
        told = told[1:]
    if len(told) > (_AFTER if after else _BEFORE):
        return None
    stops = sum(t.text in STOPS or (after and t.text in _ANDS) for t in between)
    return len(told) + 1.5 * stops + (0.0 if after else 0.4)
