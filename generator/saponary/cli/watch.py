"""`saponary watch BOOK`."""

from __future__ import annotations

import argparse

from saponary.cli.command import CLEAN, Misuse, book_argument, day, today

PORT = 8040


def arguments(parser: argparse.ArgumentParser) -> None:
    book_argument(parser)
    parser.add_argument(
        "--port",
        type=int,
        default=PORT,
        help=f"where browsers of this machine find it (default: {PORT}; 0 takes any that is free)",
    )
    parser.add_argument(
        "--edition",
        action="append",
        default=[],
        metavar="NAME",
        help="an edition by name (default: every edition that the book has)",
    )
    parser.add_argument(
        "--on", type=day, default=None, metavar="DATE", help="the day the pages speak of (default: today)"
    )


def run(given: argparse.Namespace) -> int:
    # The drawing libraries are behind these.
    from saponary.cli.is_asked import is_asked
    from saponary.watch.run import PortTaken, watch

    is_asked(given.book)
    if not 0 <= given.port <= 65535:
        raise Misuse(f"there is no port {given.port}; a port is a number from 1 to 65535, or 0 for any")
    try:
        watch(given.book, given.edition, given.port, lambda: given.on or today(), _say)
    except PortTaken as taken:
        raise Misuse(f"port {given.port} is taken ({taken}); --port 0 takes one that is free") from taken
    return CLEAN


def _say(text: str) -> None:
    print(text, flush=True)
