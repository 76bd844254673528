"""What templates say: escaped, but for what is HTML already."""

from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import Environment
from jinja2.sandbox import SandboxedEnvironment
from markupsafe import Markup

from saponary.assets import resources
from saponary.messages.message import Listed, Within, message
from saponary.messages.speaker import speaker
from saponary.outputs.templating import HtmlSpeaker, environment

SPEAKER = HtmlSpeaker("en", {"list.and": "and", "on": "A & B on {day}", "of": "of {what}"})


def test_texts_and_values_are_escaped_once() -> None:
    assert SPEAKER.say(message("on", day="<b>")) == "A &amp; B on &lt;b&gt;"
    assert SPEAKER.say(message("of", what=message("on", day="&"))) == "of A &amp; B on &amp;"
    assert SPEAKER.say(Within("R&D, new")) == "R&amp;D"
    assert isinstance(SPEAKER.say("a"), Markup)


def test_values_that_are_html_stay_so() -> None:
    day = Markup("<time>{}</time>").format("<")
    assert SPEAKER("on", day=day) == "A &amp; B on <time>&lt;</time>"
    assert SPEAKER.say(Listed((day, "<"))) == "<time>&lt;</time> and &lt;"


def test_a_template_is_compiled_once_and_anew_when_it_changes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    compiled: list[str] = []
    plainly = Environment.compile

    def counted(self: Environment, source: str, *more: object, **names: object) -> object:
        compiled.append(source)
        return plainly(self, source, *more, **names)  # type: ignore[call-overload]

    monkeypatch.setattr(Environment, "compile", counted)

    def said(text: str) -> str:
        (tmp_path / "a.html").write_text(text)
        return environment([tmp_path], speaker()).get_template("a.html").render(x="<")

    assert [said("one {{ x }}") for _ in range(3)] == ["one &lt;"] * 3
    assert said("two {{ x }}") == "two &lt;"
    assert compiled == ["one {{ x }}", "two {{ x }}"]


def test_the_sandbox_is_for_books_with_templates_of_their_own(tmp_path: Path) -> None:
    """In whatever order they come, neither is handed what was compiled for the other."""
    standard = resources.templates()
    for folders in ([standard], [tmp_path, standard], [standard], [tmp_path, standard]):
        made = environment(folders, speaker())
        assert isinstance(made, SandboxedEnvironment) == (len(folders) > 1)
    inside = environment([tmp_path, standard], speaker()).get_template("base.html").root_render_func.__code__
    outside = environment([standard], speaker()).get_template("base.html").root_render_func.__code__
    assert inside is not outside
