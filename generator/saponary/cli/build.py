"""`saponary build BOOK`."""

from __future__ import annotations

import argparse

from saponary.build.last_run import LastRun
from saponary.cli.command import book_argument, day, telling_options, today
from saponary.cli.told_again import Done, Telling, run_or_tell_again


def arguments(parser: argparse.ArgumentParser) -> None:
    book_argument(parser)
    telling_options(parser)
    parser.add_argument(
        "--on",
        type=day,
        default=None,
        metavar="DATE",
        help="the day the site speaks of (default: SOURCE_DATE_EPOCH, else today)",
    )
    parser.add_argument(
        "--edition",
        action="append",
        default=[],
        metavar="NAME",
        help="an edition by name, or `all` (default: the open one, and those book.yaml lists under build)",
    )
    parser.add_argument(
        "--adopt",
        action="store_true",
        help="replace files in site/ and private/ that stand in the way and that no build wrote",
    )
    parser.add_argument(
        "--press",
        action="store_true",
        help="also make PDFs: the kinds book.yaml lists under press, else all",
    )
    parser.add_argument(
        "--why",
        metavar="PATH",
        help="say what a page of the site rests on, and what of it has changed since the last build; write nothing",
    )


def run(given: argparse.Namespace) -> int:
    on = given.on or today()

    def anew(telling: Telling, last: LastRun) -> Done:
        # What reads, computes and draws is imported where something has changed.
        from saponary.cli.build_anew import build_anew

        return build_anew(given, on, telling, last)

    if given.why is not None:
        from saponary.cli.why import say_why

        return say_why(given, on)

    words = ("build", given.format, str(given.strict), str(given.press), str(given.adopt), *given.edition)
    return run_or_tell_again(given.book, words, on.isoformat(), anew)
