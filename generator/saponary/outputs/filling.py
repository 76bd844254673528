"""Fills a template. One of the book's own that fails, or takes too long or too much, is a finding where it does.

A standard template that fails is a fault of the program and is raised as it is. Bounds hold only where the
book has templates of its own.
"""

from __future__ import annotations

import ctypes
import sys
import threading
from collections.abc import Generator
from contextlib import contextmanager, suppress
from pathlib import Path

from jinja2 import Environment, TemplateNotFound, TemplateSyntaxError, UndefinedError

from saponary.outputs.templating import BookEnvironment
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding, Place, suggest

SECONDS = 20.0
"""What filling one template may take; the standard ones take a tenth of a second."""
MEMORY = 1_000_000_000
"""Bytes that it may use."""
LONGEST = 20_000_000
"""Letters that may come of it."""

_SEE = "the standard template of this name shows what it may use"


class BrokenTemplate(Exception):
    """A template of the book's own cannot be filled; the finding says where."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding)
        self.finding = finding

    def __str__(self) -> str:
        return self.finding.message


class _TooLong(Exception):
    """Raised in a template that takes too long."""


def fill(environment: Environment, name: str, **view: object) -> str:
    """The text that comes of a template. Raises BrokenTemplate."""
    if not isinstance(environment, BookEnvironment) or not environment.own:
        return environment.get_template(name).render(**view)
    try:
        with _bounded():
            text = environment.get_template(name).render(**view)
        text.encode("utf-8")
    except _TooLong as error:
        message = f"this template takes longer than {show(SECONDS, 0)} s to fill"
        raise _broken(environment, error, name, message, "take the long loop out") from None
    except MemoryError as error:
        message = f"filling this template takes more than {show(MEMORY / 1e9, 0)} GB of memory"
        raise _broken(environment, error, name, message, "take out what makes long texts or lists") from None
    except UnicodeEncodeError as error:
        said = "what comes of this template is no text that can be written as UTF-8"
        raise _broken(environment, error, name, said, "take out half of a surrogate pair") from error
    except Exception as error:
        place = _place(environment, error)
        if place is None:
            raise
        raise BrokenTemplate(
            Finding("template", "error", place, _said(error), _hint(error, environment, view))
        ) from error
    if len(text) > LONGEST:
        message = f"{show(len(text) / 1e6, 0)} million letters come of this template"
        raise BrokenTemplate(
            Finding("template", "error", Place(f"templates/{name}"), message, "make it shorter")
        )
    return text


def _broken(
    environment: BookEnvironment, error: BaseException, name: str, message: str, hint: str
) -> BrokenTemplate:
    place = _place(environment, error) or Place(f"templates/{name}")
    return BrokenTemplate(Finding("template", "error", place, message, hint))


def _place(environment: BookEnvironment, error: BaseException) -> Place | None:
    """Where in a template of the book's own an error arose: the innermost line of one."""
    if isinstance(error, TemplateSyntaxError) and error.filename:
        own = _own(environment, error.filename)
        return Place(own, error.lineno) if own else None
    found, trace = None, error.__traceback__
    while trace is not None:
        own = _own(environment, trace.tb_frame.f_code.co_filename)
        if own:
            found = Place(own, max(1, trace.tb_lineno))
        trace = trace.tb_next
    return found


def _own(environment: BookEnvironment, file: str) -> str | None:
    """The path in the book of a template of its own."""
    for folder in environment.own:
        if Path(file).is_relative_to(folder):
            return f"templates/{Path(file).relative_to(folder).as_posix()}"
    return None


def _said(error: Exception) -> str:
    if isinstance(error, TemplateNotFound):
        return f"there is no template {error.name!r}"
    if isinstance(error, RecursionError):
        return "this template includes itself"
    text = " ".join(str(error).split())[:300]
    return f"this template cannot be filled: {text or type(error).__name__}"


def _hint(error: Exception, environment: BookEnvironment, view: dict[str, object]) -> str:
    if isinstance(error, TemplateNotFound):
        return suggest(str(error.name), environment.list_templates(extensions=["html"]), "templates")
    if isinstance(error, UndefinedError):
        _, quoted, rest = str(error.message).partition("'")
        word, _, what = rest.partition("'")
        if quoted and what.startswith(" is undefined"):
            return suggest(word, [*view, *environment.globals], "values of this template")
    return _SEE


@contextmanager
def _bounded() -> Generator[None, None, None]:
    """Hold what runs inside to its time and memory."""
    over, lock = False, threading.Lock()
    thread = threading.get_ident()

    def stop() -> None:
        with lock:
            if not over:
                ctypes.pythonapi.PyThreadState_SetAsyncExc(ctypes.c_ulong(thread), ctypes.py_object(_TooLong))

    timer = threading.Timer(SECONDS, stop)
    timer.daemon = True
    timer.start()
    try:
        with _memory_bounded():
            yield
    finally:
        with lock:
            over = True
        timer.cancel()


@contextmanager
def _memory_bounded() -> Generator[None, None, None]:
    if sys.platform == "win32":
        yield
        return
    import resource

    soft, hard = resource.getrlimit(resource.RLIMIT_AS)
    most = _size() + MEMORY
    with suppress(ValueError, OSError):
        resource.setrlimit(resource.RLIMIT_AS, (most if soft < 0 else min(soft, most), hard))
    try:
        yield
    finally:
        with suppress(ValueError, OSError):
            resource.setrlimit(resource.RLIMIT_AS, (soft, hard))


def _size() -> int:
    """Bytes of address space that this process has; where that cannot be told, more than it is likely to have."""
    with suppress(OSError, ValueError, IndexError):
        import resource

        return int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    return 64 * MEMORY
