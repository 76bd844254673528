"""`saponary manual [TOPIC|KEY|RULE|WORDS]`, and `saponary manual --site FOLDER`."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from pathlib import Path

from saponary.assets import resources
from saponary.cli.command import CLEAN, FOUND, Misuse
from saponary.reading.findings import suggest


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "words", nargs="*", metavar="WORD", help="a topic, a key, a rule, or words to look for"
    )
    parser.add_argument(
        "--site", type=Path, metavar="FOLDER", help="write the manual as a site, with every example built"
    )
    parser.add_argument("--templates", action="store_true", help="print where the standard templates lie")


def run(given: argparse.Namespace) -> int:
    if given.templates:
        print(resources.templates())
        return CLEAN
    if given.site is not None:
        return _site(given.site)
    print(*_asked(given.words), sep="\n")
    return CLEAN


def _asked(words: list[str]) -> Iterable[str]:
    """What is printed for these words. Imports what tells of keys and rules where one may be meant."""
    from saponary.manual.topic_lines import topic_lines
    from saponary.manual.topics import topic

    found = topic("-".join(words))
    if found is not None:
        return topic_lines(found)
    from saponary.manual import find, terminal
    from saponary.manual.keys import PLACES

    if not words:
        return terminal.contents()
    one = words[0] if len(words) == 1 else ""
    cards = [line for key in find.keys(one) for line in (*terminal.key_lines(key), "")] if one else []
    if one in PLACES:
        cards += terminal.file_lines(one)
    rule = find.rule(one)
    if rule is not None:
        cards += terminal.rule_text(rule)
    named = find.topics_named(words)
    return cards or (topic_lines(named[0]) if len(named) == 1 else _found(words))


def _found(words: list[str]) -> Iterable[str]:
    from saponary.manual import find

    hits = list(find.search(words))
    if not hits:
        asked = " ".join(words)
        raise Misuse(f"the manual has nothing on {asked!r}; {suggest(words[0], find.names(), 'names')}")
    width = min(max(len(hit.ask) for hit in hits), 34)
    return [f"{hit.ask:<{width}}  {hit.line}" for hit in hits]


def _site(folder: Path) -> int:
    """Write the manual's site. What draws is imported here alone."""
    from saponary.build.listed import InTheWay
    from saponary.manual.site import NotClean, write_manual
    from saponary.reading.findings_text import as_text

    try:
        count = write_manual(folder)
    except NotClean as wrong:
        print(as_text(wrong.findings))
        return FOUND
    except InTheWay as there:
        raise Misuse(f"{there}; nothing was written: move it away, or name another folder") from there
    print(f"{folder}: {count} files; open {(folder / 'index.html').resolve().as_uri()}")
    return CLEAN
