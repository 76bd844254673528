"""Hazard and precautionary statements stand beside their codes word for word.

Regulation (EC) No 1272/2008, annexes III and IV, English, as consolidated on 2025-09-01; those of P234 and P273
from memory. Parts that the annexes leave open (P264) are filled for this use.
"""

from __future__ import annotations

import pytest

from saponary.messages.speaker import speaker
from saponary.views.paper.handout_safety import KEYS_BY_ID, Statement

OFFICIAL = {
    "H290": "May be corrosive to metals.",
    "H302": "Harmful if swallowed.",
    "H314": "Causes severe skin burns and eye damage.",
    "H318": "Causes serious eye damage.",
    "P234": "Keep only in original packaging.",
    "P260": "Do not breathe dust/fume/gas/mist/vapours/spray.",
    "P264": "Wash hands thoroughly after handling.",
    "P273": "Avoid release to the environment.",
    "P280": "Wear protective gloves/protective clothing/eye protection/face protection.",
    "P301+P330+P331": "IF SWALLOWED: Rinse mouth. Do NOT induce vomiting.",
    "P303+P361+P353": "IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin with water or shower.",
    "P304+P340": "IF INHALED: Remove person to fresh air and keep comfortable for breathing.",
    "P305+P351+P338": "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and "
    "easy to do. Continue rinsing.",
}


@pytest.mark.parametrize("code", KEYS_BY_ID["statement."])
def test_the_words_are_the_standards_own(code: str) -> None:
    assert speaker().say(Statement(code).text) == OFFICIAL[code]


def test_the_source_is_named_on_the_page() -> None:
    assert "1272/2008" in speaker()("handout.source")
