"""Hostile text: refused with its name, shown harmlessly everywhere.

Names and categories are the Unicode character database's; what must come of a text is by construction: read back by the
standard library's own readers of CSV and HTML, it is the same text.
"""

from __future__ import annotations

import csv
import html
import io
import re
import unicodedata
from html.parser import HTMLParser

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from schedules.text import (
    for_csv,
    for_dot,
    for_filename,
    for_html,
    for_terminal,
    printable,
    refuse_hostile,
)

ANY_TEXT = st.text(alphabet=st.characters(exclude_categories=()))

# Names as the Unicode character database gives them; control characters by their usual alias.
REFUSED = [
    ("\x00", "U+0000 NULL"),
    ("a\x1b[31mb", "U+001B ESCAPE"),
    ("\x7f", "U+007F DELETE"),
    ("\x01", "U+0001 CONTROL CHARACTER"),
    ("\x9b31m", "U+009B CONTROL SEQUENCE INTRODUCER"),
    ("\x85", "U+0085 CONTROL CHARACTER"),
    ("\r", "U+000D CARRIAGE RETURN"),
    ("abc\u202edef", "U+202E RIGHT-TO-LEFT OVERRIDE"),
    ("\u2066", "U+2066 LEFT-TO-RIGHT ISOLATE"),
    ("\u2069", "U+2069 POP DIRECTIONAL ISOLATE"),
    ("\u200b", "U+200B ZERO WIDTH SPACE"),
    ("\u200d", "U+200D ZERO WIDTH JOINER"),
    ("\u00ad", "U+00AD SOFT HYPHEN"),
    ("\ufeff", "U+FEFF ZERO WIDTH NO-BREAK SPACE"),
    ("\u2028", "U+2028 LINE SEPARATOR"),
    ("\u2029", "U+2029 PARAGRAPH SEPARATOR"),
    ("\ud800", "U+D800 SURROGATE"),
    ("\ue000", "U+E000 PRIVATE USE CHARACTER"),
    ("\uffff", "U+FFFF UNASSIGNED CHARACTER"),
    ("\u3164", "U+3164 HANGUL FILLER"),
    ("\U000e0041", "U+E0041 TAG LATIN CAPITAL LETTER A"),
]


@pytest.mark.parametrize(("text", "name"), REFUSED)
def test_a_forbidden_character_is_named(text: str, name: str) -> None:
    assert refuse_hostile(text) == name
    assert refuse_hostile(text, multi_line=True) == name


def test_the_first_of_several_is_named() -> None:
    assert refuse_hostile("a\u200bb\x1b") == "U+200B ZERO WIDTH SPACE"


@pytest.mark.parametrize(
    "text", ["", "Hood J-box", "8' 3-1/2\"", "Küche", "Ω ½ °C lbf·in", "厨房", "[/x]", "\\N"]
)
def test_ordinary_text_passes(text: str) -> None:
    assert refuse_hostile(text) is None


def test_line_feed_and_tab_pass_only_in_text_of_several_lines() -> None:
    assert refuse_hostile("a\n\tb", multi_line=True) is None
    assert refuse_hostile("a\nb") == "U+000A LINE FEED"
    assert refuse_hostile("a\tb") == "U+0009 TAB"


@given(ANY_TEXT, st.integers(min_value=10, max_value=90))
def test_printable_is_one_short_visible_line(text: str, limit: int) -> None:
    shown = printable(text, limit)
    assert refuse_hostile(shown) is None
    assert len(shown) <= limit


def test_printable_escapes_and_cuts() -> None:
    assert printable("a\u202eb\x1b\U000e0041") == "a\\u202eb\\u001b\\U000e0041"
    assert printable("x" * 81) == "x" * 79 + "…"
    assert printable("x" * 80) == "x" * 80


@given(ANY_TEXT)
def test_what_passes_the_door_reaches_the_terminal_unchanged_and_the_rest_never_does(text: str) -> None:
    shown = for_terminal(text)
    assert refuse_hostile(shown) is None
    assert (shown == text) == (refuse_hostile(text) is None)


def test_terminal_text_of_several_lines_keeps_its_lines() -> None:
    assert for_terminal("a\n\tb\x1b", multi_line=True) == "a\n\tb\\u001b"


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.text = ""
        self.tags: list[tuple[str, list[tuple[str, str | None]]]] = []

    def handle_data(self, data: str) -> None:
        self.text += data

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, attrs))


@given(ANY_TEXT)
@example('"><script>x</script>')
@example("' onclick='x")
def test_html_text_stays_text_in_node_and_attribute(text: str) -> None:
    reader = _Reader()
    reader.feed(f'<p title="{for_html(text)}">{for_html(text)}</p>')
    reader.close()
    shown = for_terminal(text, multi_line=True)
    assert reader.tags == [("p", [("title", shown)])]
    assert reader.text == shown


@given(ANY_TEXT)
@example("\\N")
@example("<b>&amp;")
@example("&#92;N")
def test_dot_label_has_no_markup_no_newline_and_only_doubled_backslashes(text: str) -> None:
    label = for_dot(text)
    assert not set('<>"\n') & set(label)
    assert re.search(r"&(?!amp;|lt;|gt;|quot;|#x27;)", label) is None
    assert all(len(run) % 2 == 0 for run in re.findall(r"\\+", label))
    assert html.unescape(label.replace("\\\\", "\\")) == for_terminal(text)


@given(st.sampled_from(["", "=", "+", "-", "@", "\t", "\r", "\n"]), ANY_TEXT)
def test_csv_cell_never_starts_a_formula(start: str, text: str) -> None:
    cell = for_csv(start + text)
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
    file = io.StringIO(newline="")
    csv.writer(file).writerow([cell])
    assert next(csv.reader(io.StringIO(file.getvalue(), newline=""))) == [cell]


def test_csv_leaves_ordinary_cells_alone() -> None:
    assert for_csv("8' 3-1/2\"") == "8' 3-1/2\""
    assert for_csv("=1+1") == "'=1+1"


@given(ANY_TEXT)
@example("../../etc/passwd")
@example("C:\\x")
@example("NUL")
def test_filename_is_a_safe_stem(name: str) -> None:
    assert re.fullmatch(r"[a-z0-9](?:[a-z0-9-]*[a-z0-9])?", for_filename(name))
    assert len(for_filename(name)) <= 60


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("../../etc/passwd", "etc-passwd"),
        ("Küche Nord", "kuche-nord"),
        ("NUL", "nul-file"),
        ("com1", "com1-file"),
        ("..", "unnamed"),
        ("", "unnamed"),
        ("厨房", "unnamed"),
    ],
)
def test_filename_of_known_names(name: str, stem: str) -> None:
    assert for_filename(name) == stem


def test_every_format_and_control_character_is_refused() -> None:
    for code in range(0x110000):
        character = chr(code)
        if unicodedata.category(character) in {"Cc", "Cf"}:
            assert refuse_hostile(character), f"U+{code:04X}"
