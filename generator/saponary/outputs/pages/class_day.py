"""The day of a class as a calendar file of one event (iCalendar, RFC 5545), for a student to keep."""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from datetime import date
from functools import partial

from saponary.book.classes import ClassFile, ClassPlan
from saponary.messages.speaker import speaker
from saponary.outputs import rests_on
from saponary.outputs.page_kind import RECIPES, PageContext, PageKind, SiteFile
from saponary.outputs.pages.calendar import folded, text
from saponary.outputs.pages.classes import taught
from saponary.views import links
from saponary.views.site import SiteInput

_NAMES = uuid.UUID("0c8e6a52-8a0f-5d0f-9f0e-64a6d5b7c1aa")
"""The space in which the ids of classes are named."""


def class_day(read: ClassFile, plan: ClassPlan, on: date, site: SiteInput) -> bytes:
    """From the first hour of the timetable by the clock where it is held (3.3.5, form 1), else the whole day."""
    say = speaker(site.book.settings.language, site.book.settings.units)
    book = site.book.settings.title
    start = f"DTSTART;VALUE=DATE:{on:%Y%m%d}"
    if plan.timetable:
        start = f"DTSTART:{on:%Y%m%d}T{plan.timetable[0].at.replace(':', '')}00"
    hours = "\n".join(f"{slot.at} {slot.what}" for slot in plan.timetable)
    told = "\n".join(part for part in (plan.summary, hours) if part)
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Saponary//Class//EN",
        "CALSCALE:GREGORIAN",
        "BEGIN:VEVENT",
        f"UID:{uuid.uuid5(_NAMES, f'{book} {read.slug}')}",
        f"DTSTAMP:{site.on:%Y%m%d}T000000Z",
        start,
        f"SUMMARY:{text(say.say(plan.title))}",
        *([f"LOCATION:{text(plan.place)}"] if plan.place else []),
        *([f"DESCRIPTION:{text(told)}"] if told else []),
        "END:VEVENT",
        "END:VCALENDAR",
    ]
    return b"".join(folded(line) for line in lines)


def _render(context: PageContext) -> Iterator[SiteFile]:
    for read, plan, _ in taught(context):
        if plan.date is not None:
            path = links.class_day(read.slug)
            uses = (rests_on.SETTINGS, rests_on.CLASSES, rests_on.DAY)
            yield SiteFile(path, partial(class_day, read, plan, plan.date, context.site), uses)


KIND = PageKind("class-day", _render, needs="work", readers=RECIPES)
