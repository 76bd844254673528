"""What the build of a book asks of each recipe, kept so that a recipe that is as it was is not read for it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from saponary.book.computed import Computed
from saponary.book.cure_days import cure_days
from saponary.book.on_sale import ready_day
from saponary.book.shots import named_photos
from saponary.book.standing import held, standing
from saponary.book.status import Name, Status, status
from saponary.lye.fingerprint import matches
from saponary.schema.waivers import Waived


@dataclass(frozen=True)
class Facts:
    """Of one recipe: its status, the editions it names, its waivers, where its batches stand, which photos it
    and its lots show, the earlier formulas that its batches record, and the days on which what is said of a lot
    turns: those of the pour, and those on which the cure is over."""

    status: Name
    editions: tuple[str, ...]
    waived: tuple[Waived, ...]
    batch_files: tuple[str, ...]
    photos: tuple[str, ...]
    lot_photos: tuple[str, ...]
    earlier: tuple[str, ...]
    turns: tuple[date, ...]


def facts_of(computed: Computed) -> Facts:
    """What a recipe tells."""
    marks = dict.fromkeys(one.batch.formula for one in computed.batches if one.batch.formula is not None)
    cure = cure_days(computed.model, computed.settings)
    turns = {day for one in computed.batches for day in (one.batch.poured, ready_day(one.batch, cure))}
    return Facts(
        status=status_of(computed).name,
        editions=tuple(computed.model.editions),
        waived=computed.file.waived(),
        batch_files=tuple(dict.fromkeys(one.file for one in computed.batches)),
        photos=tuple(dict.fromkeys(name for name, _ in named_photos(computed))),
        lot_photos=tuple(dict.fromkeys(s.file for one in computed.batches for s in one.batch.photos)),
        earlier=tuple(mark for mark in marks if not matches(mark, computed.fingerprint)),
        turns=tuple(sorted(turns)),
    )


def status_of(computed: Computed) -> Status:
    """The status of a recipe by its batches, but for those whose weights are of another soap."""
    back = [batch.lot for batch, _ in held(computed)]
    batches = [one.batch for one in computed.batches if not standing(one.batch, computed).astray]
    return status(computed.model, batches, computed.fingerprint, computed.settings, back)
