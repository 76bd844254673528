"""Rules held where a fault is met, while files are read or written: their names, for all to see.

A finding of theirs is made in the room that meets the fault, since nothing can be computed, or
set, from what is broken. None but those of the labels can be waived: what cannot be read cannot be checked.
"""

from __future__ import annotations

from saponary.checks.listed import BOTH, IN_THE_PANTRY, WARNING
from saponary.checks.rule import Rule

READING = Rule(
    "reading",
    "reading",
    "A file is plain text in UTF-8, of a sound size, under a name that can be an address. Its YAML has no key "
    "twice, no tag, and no more nesting than a person would write.",
    kinds=BOTH,
)
SCHEMA = Rule(
    "schema",
    "reading",
    "Every key is one that is known, and its value of the kind that the key asks for. An amount names its unit.",
    kinds=BOTH,
)
SENSE = Rule(
    "sense",
    "reading",
    "What a recipe names is in the pantry, its shares add up, and its total, its mould and its weights agree; "
    "else there is nothing to compute.",
    kinds=BOTH,
)
PANTRY = Rule(
    "pantry",
    "reading",
    "An entry of the maker's own has every figure that is needed to compute with it, and none that cannot be.",
    kinds=BOTH,
)
UNNAMED = Rule(
    "unnamed-ingredient",
    "label",
    "A list of ingredients can name what a bar holds, and names no supplier: of the maker's own entries it needs "
    "the listed name, or what they are like.",
    kinds=WARNING,
    waivable=IN_THE_PANTRY,
    each="ingredient",
)
CLAIM_LIST = Rule(
    "claim-list",
    "reading",
    "The book's own list of claim words can be read: its entries have names of their own, and its forms are words.",
)
PRESS = Rule(
    "press",
    "reading",
    "A sheet that was to be set as a PDF could be set.",
)
WRITING = Rule(
    "writing",
    "reading",
    "What is to be written can be: the disk has room and lets the program write, no other command is at work in the "
    "book, and nothing stands in the way that no build wrote.",
)
TEMPLATE = Rule(
    "template",
    "reading",
    "A template of the book's own can be filled: it is written as templates are, uses what there is, and takes no "
    "more time, memory or room than a page needs.",
)
WAIVER = Rule(
    "waiver",
    "reading",
    "A waiver names a rule that may be waived in that file, the one thing it is about where there may be several, "
    "and a reason. One that no longer sets anything aside is taken out.",
    kinds=BOTH,
)
