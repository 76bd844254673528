"""Every open format that is written is validated by something its authors did not write.

SARIF by OASIS's schema, JSON Schema by its metaschema, Atom and iCalendar by readers of others, sitemaps by
sitemaps.org's schema, JSON-LD by another's processor and schema.org's own terms, CSV by Python's reader.
Sources and licences of the schemas: `tests/data/schemas/README.md`.
"""

from __future__ import annotations

import csv
import html
import importlib
import io
import json
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any

import atoma
import feedparser
import icalendar
import jsonschema
import pytest
from lxml import etree
from pyld import jsonld

from checks.books import proofed
from outputs.test_head import BASE, site_of
from saponary.build.report import as_sarif
from saponary.checks.rules import RULES
from saponary.cli.schema import PARTS
from saponary.manual.held import found as found_in_sample
from saponary.manual.keys import json_schema
from saponary.manual.troubles import troubles
from saponary.outputs.compose import composition
from saponary.outputs.weigh_csv import figures_table, weigh_sheet
from saponary.reading.findings import Finding, Place
from support import BOOKS, REPOSITORY, proof_of

SCHEMAS = REPOSITORY / "tests" / "data" / "schemas"
NOT_BY_LINES = {"press", "template", "writing"}
"""Rules that speak where something is written: no few lines of a book bring them about."""

SHARE = frozenset({"reading", "schema", "stale", "claims", "press", "waiver"})


@cache
def written(edition: str, pattern: str) -> Mapping[str, bytes]:
    """The demo book's files of an edition whose path fits a pattern."""
    composed = composition(site_of(edition), (REPOSITORY / "templates",))
    return {one.path: one.write() for one in composed.files if re.fullmatch(pattern, one.path)}


@cache
def sarif_schema() -> jsonschema.Draft7Validator:
    schema = json.loads((SCHEMAS / "sarif-schema-2.1.0.json").read_text(encoding="utf-8"))
    jsonschema.Draft7Validator.check_schema(schema)
    return jsonschema.Draft7Validator(schema, format_checker=jsonschema.FormatChecker())


def assert_sarif(findings: Iterable[Finding]) -> set[str]:
    """The findings as SARIF are valid; the rules that they name, all of which are listed."""
    told = json.loads(as_sarif(findings))
    assert [error.message for error in sarif_schema().iter_errors(told)] == []
    (run,) = told["runs"]
    listed = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert listed == [rule.name for rule in RULES]
    named = {result["ruleId"] for result in run["results"]}
    assert named <= set(listed)
    return named


def test_the_schema_refuses_what_is_no_sarif() -> None:
    told = json.loads(as_sarif([]))
    told["runs"][0]["results"] = [{"ruleId": "stale", "level": "bad", "message": {"text": "x"}}]
    assert [error.message for error in sarif_schema().iter_errors(told)]


@pytest.mark.slow
@pytest.mark.parametrize("book", sorted(BOOKS))
def test_the_findings_of_the_books_are_sarif(book: str) -> None:
    assert_sarif(proof_of(book).findings)


@pytest.mark.parametrize("rules", [SHARE, pytest.param(None, marks=pytest.mark.slow)], ids=["share", "all"])
def test_findings_of_rules_are_sarif(rules: frozenset[str] | None) -> None:
    """By the samples of the manual; what is only met in writing is made by hand."""
    wanted = rules or {rule.name for rule in RULES}
    findings = [one for name in wanted - NOT_BY_LINES for one in _of_sample(name)]
    findings += [
        Finding(name, "error", Place("recipes/ä b.md"), "it stands in the way")
        for name in wanted & NOT_BY_LINES
    ]
    assert assert_sarif(findings) == wanted


def _of_sample(rule: str) -> Iterator[Finding]:
    sample = troubles()[rule]
    yield from (one for one in found_in_sample(sample, sample.wrong) if one.rule == rule)


@pytest.mark.slow
@pytest.mark.parametrize("rule", [one.name for one in RULES if one.recipe or one.book])
def test_a_book_that_breaks_a_rule_is_told_as_sarif(rule: str) -> None:
    breaker = importlib.import_module(f"checks.test_{rule.replace('-', '_')}").BREAKER
    assert rule in assert_sarif(proofed(breaker).findings)


@pytest.mark.parametrize(
    "part", [part if part == "claims" else pytest.param(part, marks=pytest.mark.slow) for part in PARTS]
)
def test_the_schemas_are_json_schema(part: str) -> None:
    """Source: the metaschema of JSON Schema 2020-12, as the library jsonschema ships it."""
    jsonschema.Draft202012Validator.check_schema(json_schema(part))


def test_the_feed_is_atom() -> None:
    """By two readers: one that asks for what RFC 4287 asks for, and one that notes whatever is not well-formed."""
    (data,) = written("public", r"feed\.xml").values()
    strict = atoma.parse_atom_bytes(data)
    assert len(strict.entries) >= 8 and all(one.title.value and one.links for one in strict.entries)
    lenient = feedparser.parse(data)
    assert not lenient.bozo and lenient.version == "atom10" and len(lenient.entries) == len(strict.entries)
    with pytest.raises(atoma.exceptions.FeedParseError):
        atoma.parse_atom_bytes(re.sub(rb"<id>[^<]*</id>", b"", data, count=1))


@pytest.mark.parametrize("edition", ["public", "shop"])
def test_the_sitemap_is_by_its_schema(edition: str) -> None:
    schema = etree.XMLSchema(etree.parse(str(SCHEMAS / "sitemap.xsd")))
    (data,) = written(edition, r"sitemap\.xml").values()
    tree = etree.fromstring(data)
    assert schema.validate(tree), schema.error_log
    assert len(tree) > 8
    tree[0][0].text = "not an address"
    tree[0].append(etree.SubElement(tree[0], tree[0].tag))
    assert not schema.validate(tree)


def test_the_calendars_are_icalendar() -> None:
    """Source: RFC 5545, 3.6: a version and a product each; 3.6.1: UID and DTSTAMP of every event; 3.1: no line above
    75 octets."""
    calendars = written("maker", r".*\.ics")
    assert calendars
    for data in calendars.values():
        calendar = icalendar.Calendar.from_ical(data)
        assert calendar["VERSION"] == "2.0" and calendar["PRODID"] and calendar.errors == []
        for event in calendar.walk("VEVENT"):
            assert event["UID"] and event["DTSTAMP"] and event.errors == []
        assert all(len(line) <= 75 for line in data.split(b"\r\n")) and data.endswith(b"\r\n")
        assert data.count(b"\n") == data.count(b"\r\n")


@cache
def terms(kind: str) -> Mapping[str, Mapping[str, str]]:
    """The types or properties of schema.org, by name."""
    with (SCHEMAS / f"schema_org_{kind}.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {str(next(iter(row.values()))): row for row in rows}


def above(name: str) -> set[str]:
    """A type, and all that it is a kind of."""
    return {name}.union(*(above(one) for one in terms("types")[name]["below"].split()))


def assert_terms(node: Mapping[str, Any]) -> None:
    """An expanded node names a type of schema.org, and properties that are of it and take what they are given."""
    (kind,) = (_short(one) for one in node["@type"])
    assert kind in terms("types"), kind
    for name, values in ((_short(key), values) for key, values in node.items() if key != "@type"):
        known = terms("properties")[name]
        assert above(kind) & set(known["of"].split()), (kind, name)
        takes = set(known["takes"].split())
        for value in values:
            if "@value" in value:
                plain = takes & {"Text", "URL", "Number", "Integer", "Date", "DateTime", "Boolean"}
                member = terms("types").get(str(value["@value"]).rpartition("/")[2], {}).get("member_of", "")
                assert plain or takes & set(member.split()), (name, value)
            else:
                assert above(_short(value["@type"][0])) & takes, (name, value)
                assert_terms(value)


def _short(address: str) -> str:
    assert address.startswith("https://schema.org/"), address
    return address.removeprefix("https://schema.org/")


def _context(url: str, _: object) -> dict[str, Any]:
    assert url == "https://schema.org"
    words = {"@vocab": "https://schema.org/"}
    return {
        "contentType": "application/ld+json",
        "contextUrl": None,
        "documentUrl": url,
        "document": {"@context": words},
    }


@pytest.mark.parametrize(
    ("edition", "pages"),
    [
        ("public", r"recipes/quarry-strata/index\.html"),
        ("shop", r".*/quarry-strata/index\.html"),
        pytest.param("public", r"recipes/[^/]+/index\.html", marks=pytest.mark.slow),
        pytest.param("shop", r".*html", marks=pytest.mark.slow),
    ],
)
def test_what_pages_say_to_programs_is_json_ld_in_the_terms_of_schema_org(edition: str, pages: str) -> None:
    found = [
        html.unescape(text)
        for page in written(edition, pages).values()
        for text in re.findall(
            r'<script type="application/ld\+json">(.*?)</script>', page.decode(), re.DOTALL
        )
    ]
    assert found
    for text in found:
        (node,) = jsonld.expand(json.loads(text), {"documentLoader": _context})
        assert_terms(node)


def test_a_term_that_schema_org_lacks_is_seen() -> None:
    wrong = {"@context": "https://schema.org", "@type": "HowTo", "price": "1"}
    with pytest.raises(AssertionError):
        assert_terms(jsonld.expand(wrong, {"documentLoader": _context})[0])


@pytest.mark.parametrize("book", sorted(BOOKS))
def test_tables_are_csv(book: str) -> None:
    """Source: RFC 4180, 2: lines end in CRLF, and each has as many fields as the others; quotes are doubled."""
    computed = [one.computed for one in proof_of(book).recipes]
    for text in (figures_table(computed), *map(weigh_sheet, computed)):
        assert text.endswith("\r\n") and text.replace("\r\n", "").count("\n") == 0
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
        assert len({len(row) for row in rows}) == 1 and len(rows[0]) > 1


def test_the_site_is_known_by_its_address() -> None:
    assert all(BASE.encode() in data for data in written("public", r"feed\.xml|sitemap\.xml").values())
