"""`saponary proof BOOK`."""

from __future__ import annotations

import argparse

from saponary.build.last_run import LastRun
from saponary.cli.command import book_argument, telling_options
from saponary.cli.told_again import Done, Telling, run_or_tell_again


def arguments(parser: argparse.ArgumentParser) -> None:
    book_argument(parser)
    telling_options(parser)


def run(given: argparse.Namespace) -> int:
    def anew(telling: Telling, last: LastRun) -> Done:
        # What reads and computes is imported where something has changed.
        from saponary.cli.asked_book import proofed
        from saponary.cli.is_asked import is_asked
        from saponary.cli.tell import stands, tell

        is_asked(given.book)
        last.begin()
        proof = proofed(given.book)
        return Done(tell(proof, given.format, telling, strict=given.strict), stands=stands(proof))

    return run_or_tell_again(given.book, ("proof", given.format, str(given.strict)), "", anew)
