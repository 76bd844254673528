"""What templates say: escaped, but for what is HTML already."""

from __future__ import annotations

from markupsafe import Markup

from saponary.messages.message import Listed, Within, message
from saponary.outputs.templating import HtmlSpeaker

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
