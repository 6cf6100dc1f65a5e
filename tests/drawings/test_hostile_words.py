"""Text from a file is drawn as it is, whatever it looks like: property over hostile and random words.

Source of the dangerous spellings: the escape sequences of the DOT language and the entities of XML.
"""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.drawings.drawing import draw
from schedules.drawings.engine import system_engine
from schedules.drawings.errors import PictureError
from schedules.drawings.picture import Block, End, Line, Picture, Terminal, TerminalKind, legible

HOSTILE = (
    r"\N",
    r"\G\E\T\H\L",
    r"a\lb\r\n",
    "\\",
    r"\\",
    '"',
    '"];evil[label="',
    "<B>bold</B>",
    "</TABLE>>",
    "<![CDATA[",
    "-->",
    "&lt;&amp;&#92;N&bogus;",
    "&",
    "%s{0}{{x}}",
    "a:b|c{d}",
    "</svg><script>alert(1)</script>",
    "node",
    "  spaced   out  ",
    "\x1b[31mred\x00\x07",
    "\u202etfel",
    "Überdruck-Wächter 24 V⎓ ±5 %",
    "漢字かな",
    "🔥",
    "é" * 40,
    "W" * 120,
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen",
    "->",
    "strict digraph {}",
)


def said_by(picture: Picture) -> str:
    return " ".join(ET.fromstring(draw(picture).svg).itertext())  # noqa: S314 - our own engine's drawing


def worded(text: str) -> Picture:
    """A picture that says one text wherever a text can stand."""
    blocks = tuple(
        Block(key, text, text, (Terminal("1", text, kind, text), Terminal("2", text, kind, text, text)))
        for key, kind in (("a", TerminalKind.PIN), ("b", TerminalKind.NC))
    )
    lines = (
        Line("1", End("a", "1"), End("b", "1"), "WH", "BK", text, text, text),
        Line(f"2 {text}", End("a", None), End("b", "1"), text, text, text, text, text),
        Line("3", End("a", "1"), End("a", "2"), "BK"),
    )
    return Picture(text, blocks, lines, text, (text, text), description=text)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_are_drawn_as_they_are(text: str) -> None:
    assert legible(worded(text)).title in said_by(worded(text))


@pytest.mark.skipif(system_engine() is None, reason="no Graphviz on this system")
@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_are_harmless_in_another_graphviz(text: str) -> None:
    engine = system_engine()
    assert engine is not None
    assert draw(worded(text), engine=engine).svg


@given(st.text(max_size=40))
@settings(max_examples=60)
def test_any_words_are_drawn_as_they_are(text: str) -> None:
    assert legible(worded(text)).title in said_by(worded(text))


def test_words_are_made_visible_once() -> None:
    picture = legible(worded("\x1b[2J \u202e"))
    assert picture.title == "\\u001b[2J \\u202e"
    assert legible(picture) == picture


@pytest.mark.parametrize("href", ["javascript:alert(1)", "http://example.org/", "row-1", " #row"])
def test_a_link_leads_nowhere_but_into_the_document(href: str) -> None:
    with pytest.raises(PictureError, match="does not start with #"):
        Picture("Linked", (Block("a", "A", "A", (Terminal("1", "1", href=href),)),), ())


def test_a_link_may_hold_anything() -> None:
    href = '#a"><script>&<\\N'
    picture = Picture("Linked", (Block("a", "A", "A", (Terminal("1", "1", href=href),)),), ())
    links = [
        found
        for element in ET.fromstring(draw(picture).svg).iter()  # noqa: S314 - our own engine's drawing
        if (found := element.get("{http://www.w3.org/1999/xlink}href"))
    ]
    assert links == [href]
