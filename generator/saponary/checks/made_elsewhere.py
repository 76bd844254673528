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
    "A file is plain text in UTF-8, not too large, and its name can be an address. Its YAML has no key "
    "twice, no tag, and no nesting deeper than a person would write.",
    kinds=BOTH,
)
SCHEMA = Rule(
    "schema",
    "reading",
    "Every key is known, and its value is of the right kind. An amount names its unit.",
    kinds=BOTH,
)
SENSE = Rule(
    "sense",
    "reading",
    "What a recipe names is in the pantry, its shares add up, and its total, its mould and its weights "
    "agree. Otherwise nothing can be computed.",
    kinds=BOTH,
)
PANTRY = Rule(
    "pantry",
    "reading",
    "Your own entry has every figure that is needed to compute with it, and no figure that is impossible.",
    kinds=BOTH,
)
UNNAMED = Rule(
    "unnamed-ingredient",
    "label",
    "An ingredient list names what a bar holds, and no supplier. So your own entries need their listed "
    "name (inci), or say what they are like.",
    kinds=WARNING,
    waivable=IN_THE_PANTRY,
    each="ingredient",
)
CLAIM_LIST = Rule(
    "claim-list",
    "reading",
    "The book's own list of claim words can be read: no two entries have the same name, and its forms "
    "are words.",
)
PRESS = Rule(
    "press",
    "reading",
    "A sheet could be made into a PDF.",
)
WRITING = Rule(
    "writing",
    "reading",
    "Files can be written: the disk has room, the program may write, no other command works in the "
    "book, and no file of yours stands in the way.",
)
TEMPLATE = Rule(
    "template",
    "reading",
    "Your own template works: it has no mistake in its syntax, uses only names that exist, and takes no"
    " more time, memory or room than a page needs.",
)
WAIVER = Rule(
    "waiver",
    "reading",
    "A waiver names a rule that may be waived in that file, a reason, and the one thing it is about "
    "where there may be several. A waiver that is no longer needed must be taken out.",
    kinds=BOTH,
)
