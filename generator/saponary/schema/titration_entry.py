"""A titration of a bar for free alkali, as a maker writes it."""

from __future__ import annotations

from typing import Literal

from pydantic import model_validator

from saponary.lye.titration import Titration
from saponary.schema.fields import Normality, Part, PositiveMass, Titrant, problem
from saponary.schema.seen import Public


class TitrationEntry(Part):
    """A titration: the acid used, its strength, the soap dissolved, and the hydroxide it is given as."""

    acid: Public[Titrant]
    """The acid that was used up to the end point."""
    strength: Public[Normality]
    """Mol of acid groups in a litre of that acid."""
    sample: Public[PositiveMass]
    """The weight of soap that was dissolved."""
    as_: Public[Literal["sodium-hydroxide", "potassium-hydroxide"]] = "sodium-hydroxide"
    """As which hydroxide the result is given: `sodium-hydroxide` or `potassium-hydroxide`.
    Example:
      batches:
      - lot: A1
        poured: 2026-03-02
        free-alkali:
          test: titration
          titration: {acid: 0.1 ml, strength: 0.1 mol/l, sample: 5 g, as: potassium-hydroxide}
          on: 2026-04-13
    """

    @model_validator(mode="after")
    def no_more_than_the_sample(self) -> TitrationEntry:
        """Caustic soda alone is all alkali; soap is less."""
        found = Titration(self.acid.millilitres, self.strength.number, self.sample.grams)
        if found.free_caustic > 1:
            raise problem(
                "this titration finds more alkali than the sample weighs",
                "look at the units: acid in ml, strength in mol/l, sample in g",
            )
        return self
