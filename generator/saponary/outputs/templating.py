"""Templates and style sheets, from a book's own folder first and the standard ones after it.

Every value is escaped unless a view model has made it safe itself; a template of a book
runs without reach into Python, and no link leads it out of its folder.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache
from pathlib import Path
from types import CodeType

from jinja2 import (
    BytecodeCache,
    Environment,
    FileSystemLoader,
    StrictUndefined,
    TemplateNotFound,
    TemplateSyntaxError,
)
from jinja2.bccache import Bucket
from jinja2.exceptions import SecurityError
from jinja2.runtime import Context
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from saponary.assets import for_user, resources
from saponary.messages.message import Day, Message, Value, message
from saponary.messages.speaker import Speaker, speaker
from saponary.outputs.squeezed import squeezed
from saponary.quantity.numbers import WeightUnit
from saponary.quantity.units import MASS, TEMPERATURE, VOLUME
from saponary.schema.look import Accent

STYLES = "style"
SCRIPTS = "script"
TYPE = "fonts"


class _Inside(FileSystemLoader):
    """A loader that does not follow a link out of the folders it searches."""

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        try:
            found = super().get_source(environment, template)
        except TemplateNotFound:
            raise
        except UnicodeDecodeError as error:
            raise self._unread(template, f"this template is not UTF-8 ({error.reason})") from error
        except OSError as error:
            raise self._unread(template, f"this template cannot be read: {error.strerror}") from error
        inside = [Path(folder).resolve() for folder in self.searchpath]
        if not any(Path(found[1]).resolve().is_relative_to(folder) for folder in inside):
            raise TemplateNotFound(template)
        return found

    def _unread(self, template: str, why: str) -> TemplateSyntaxError:
        places = (Path(folder) / template for folder in self.searchpath)
        place = next((path for path in places if path.exists()), Path(template))
        return TemplateSyntaxError(why, 1, template, str(place))


class BookEnvironment(ImmutableSandboxedEnvironment):
    """Fills templates of a book laid over the standard ones: without reach into Python, and within bounds."""

    intercepted_binops = frozenset({"**"})
    own: tuple[Path, ...] = ()
    """The folders of the book's own templates."""

    def call_binop(self, context: Context, operator: str, left: object, right: object) -> object:
        if operator == "**" and not (isinstance(right, int | float) and abs(right) <= _HIGHEST):
            raise SecurityError(f"a power above {_HIGHEST} is too much for a page")
        made: object = super().call_binop(context, operator, left, right)
        return made


_HIGHEST = 100
"""The highest power that a template may raise a number to."""


class _Compiled(BytecodeCache):
    """Templates as compiled, by their names and sources: compiled once however many sites a process composes.

    The standard ones are kept for the user too, and are believed by the digest of their source.
    """

    def __init__(self, kind: str) -> None:
        self._kind = kind
        self._codes: dict[str, tuple[str, CodeType]] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        checksum, code = self._codes.get(bucket.key, ("", None))
        if checksum == bucket.checksum:
            bucket.code = code
        elif (kept := for_user.recall((self._kind, bucket.key))) is not None:
            bucket.bytecode_from_string(kept)

    def dump_bytecode(self, bucket: Bucket) -> None:
        if bucket.code is None:
            return
        self._codes[bucket.key] = (bucket.checksum, bucket.code)
        if Path(bucket.code.co_filename).is_relative_to(resources.templates()):
            for_user.keep((self._kind, bucket.key), bucket.bytecode_to_string())


_COMPILED = {True: _Compiled("template in the sandbox"), False: _Compiled("template")}
"""By whether the sandbox fills them: what is compiled for it asks it about every name."""


_BEFORE_UNIT = re.compile(
    rf" (?<=\d )(?=(?:{'|'.join((*MASS, *VOLUME, 'mm', 'cm', *TEMPERATURE))})(?![\w-])|%)"
)
"""A space that a line is not to end at: a number stands by its unit. The space comes first, since it is looked for quickly."""


@lru_cache(maxsize=4096)
def _escaped(text: str) -> Markup:
    """A text escaped: those of the catalogue are on every page."""
    return escape(text)


@dataclass(frozen=True)
class HtmlSpeaker(Speaker):
    """Says messages as HTML: every text escaped, but for values that are HTML already."""

    plain: dict[str, Markup] = field(default_factory=dict[str, Markup], compare=False)
    """Texts said without a value, which stand on page after page, as they were said first."""

    def say(self, what: Value | None) -> Markup:
        return Markup(_BEFORE_UNIT.sub("\u00a0", super().say(what)))

    def __call__(self, key: str | Value | None, /, **values: Value) -> Markup:
        if isinstance(key, str) and not values:
            said = self.plain.get(key)
            if said is None:
                said = self.plain[key] = self.say(Message(key))
            return said
        return self.say(Message(key, values) if isinstance(key, str) else key)

    def literal(self, text: str) -> str:
        # HTML compares equal to the plain text that looks like it, and must not be taken for it.
        return _escaped(text) if type(text) is str else escape(text)

    def day(self, day: Day) -> str:
        return Markup(f'<time datetime="{day.on.isoformat()}">{super().day(day)}</time>')


def templates_of(root: Path) -> list[Path]:
    """The folders of a book's templates: its own where it has one, then the standard one."""
    return [folder for folder in (root / "templates", resources.templates()) if folder.is_dir()]


def is_standard(templates: Sequence[Path]) -> bool:
    """Whether these are the standard templates alone, which do not change while the program runs."""
    return len(templates) == 1 and templates[0] == resources.templates()


def environment(templates: Sequence[Path], said: Speaker) -> Environment:
    """The engine that fills templates: strict about names, and escaping everything. The standard ones come last.

    `say("key", …)` says a text of the catalogue, `value|said` a message or figure of a view,
    `value|bare` the same without any element, for an attribute, `svg|told(words)` is a picture that brings its words.
    """
    standard = is_standard([folder.resolve() for folder in templates])
    # The sandbox looks at every name that a template asks for; our own templates need none.
    made = (Environment if standard else BookEnvironment)(
        loader=_Inside([str(folder) for folder in templates]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        bytecode_cache=_COMPILED[not standard],
    )
    if isinstance(made, BookEnvironment):
        made.own = tuple(templates[:-1])
    html = HtmlSpeaker(said.language, said.texts, said.units)

    def told(svg: str, words: Value, font: str = "") -> Markup:
        """A picture in SVG with its words inside it, where a PDF looks for them, and with its typeface."""
        head, close, rest = svg.partition(">")
        face = f' font-family="{escape(font)}"' if font else ""
        return Markup(f"{head}{face}{close}<title>{html.say(words)}</title>{rest}")

    for name, thing in {"message": message, "say": html}.items():
        made.globals[name] = thing  # pyright: ignore[reportArgumentType]
    made.filters["told"] = told  # pyright: ignore[reportArgumentType]
    made.filters["said"] = html.say
    made.filters["bare"] = said.say  # pyright: ignore[reportArgumentType]
    return made


def environment_of(templates: Sequence[Path], language: str, units: WeightUnit) -> Environment:
    """What fills these templates. The standard ones do not change, and are compiled and loaded once."""
    if is_standard(templates):
        return _standard(language, units)
    return environment(templates, speaker(language, units))


@lru_cache(maxsize=2)
def _standard(language: str, units: WeightUnit) -> Environment:
    return environment([resources.templates()], speaker(language, units))


def style_sheet(templates: Sequence[Path]) -> bytes:
    """All of `style/*.css` in the order of their names, squeezed; the first folder that has a name wins."""
    return _standard_style() if is_standard(templates) else _style_sheet(templates)


@cache
def _standard_style() -> bytes:
    return _style_sheet([resources.templates()])


def _style_sheet(templates: Sequence[Path]) -> bytes:
    found: dict[str, bytes] = {}
    for folder in templates:
        for path in (folder / STYLES).glob("*.css"):
            if _lies_in(folder, path):
                found.setdefault(path.name, path.read_bytes().replace(b"\r\n", b"\n"))
    whole = b"".join(found[name] for name in sorted(found))
    key = hashlib.sha256(whole).hexdigest()
    return for_user.made(("style", key), lambda: squeezed(whole))


def accent_style(accent: Accent) -> bytes:
    """The accent of the book's own, after the standard styles; nothing where it has none."""
    light = f":root {{ --accent: {accent.light}; }}\n" if accent.light else ""
    dark = (
        f"@media (prefers-color-scheme: dark) {{ :root {{ --accent: {accent.dark}; }} }}\n"
        if accent.dark
        else ""
    )
    if accent.light and not accent.dark:
        light = f"@media not (prefers-color-scheme: dark) {{ :root {{ --accent: {accent.light}; }} }}\n"
    return f"\n{light}{dark}".encode() if light or dark else b""


def _lies_in(folder: Path, path: Path) -> bool:
    """A file of the folder itself, and no link that leads out of it."""
    return path.is_file() and path.resolve().is_relative_to(folder.resolve())


def script(templates: Sequence[Path], name: str) -> bytes:
    """One of `script/*.js`; the first folder that has it wins."""
    for folder in templates:
        path = folder / SCRIPTS / name
        if _lies_in(folder, path):
            return path.read_bytes().replace(b"\r\n", b"\n")
    raise FileNotFoundError(f"no template folder has {SCRIPTS}/{name}")


def font_names(templates: Sequence[Path]) -> list[str]:
    """Every `fonts/*.woff2` of the folders, each name once."""
    found = {p.name for folder in templates for p in (folder / TYPE).glob("*.woff2") if _lies_in(folder, p)}
    return sorted(found)


def font(templates: Sequence[Path], name: str) -> bytes:
    """One of `fonts/*.woff2`; the first folder that has it wins."""
    path = next(p for folder in templates if _lies_in(folder, p := folder / TYPE / name))
    return path.read_bytes()


def named_by_content(name: str, data: bytes) -> str:
    """A file's address changes with its bytes, so that no stale copy is shown."""
    stem, _, ending = name.rpartition(".")
    return f"assets/{stem}-{hashlib.sha256(data).hexdigest()[:10]}.{ending}"
