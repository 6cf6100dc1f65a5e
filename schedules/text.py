"""Text that somebody else wrote: what is refused at the door, and how each output makes the rest harmless."""

from __future__ import annotations

import html
import re
import unicodedata

# Control, format (bidi overrides, zero width), surrogate, private use, unassigned, line and paragraph
# separator.
_FORBIDDEN_CATEGORIES = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})

# Letters and marks that take no ink, so that two names that differ look the same.
_INVISIBLE = frozenset("\u034f\u115f\u1160\u17b4\u17b5\u3164\uffa0")

_NAMELESS = {
    "Cc": "CONTROL CHARACTER",
    "Cs": "SURROGATE",
    "Co": "PRIVATE USE CHARACTER",
    "Cn": "UNASSIGNED CHARACTER",
}

# Unicode gives control characters no name; these are the ones a person may have typed or pasted.
_CONTROL_NAMES = {
    "\x00": "NULL",
    "\x07": "BELL",
    "\x08": "BACKSPACE",
    "\t": "TAB",
    "\n": "LINE FEED",
    "\r": "CARRIAGE RETURN",
    "\x1b": "ESCAPE",
    "\x7f": "DELETE",
    "\x9b": "CONTROL SEQUENCE INTRODUCER",
}

_LINE_LAYOUT = frozenset("\n\t")

# A spreadsheet takes a cell that starts so for a formula or for one hidden behind white space.
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")

# Names that one desktop system keeps for devices, with any ending.
_RESERVED_NAMES = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
)

_LONGEST_FILENAME = 60


def refuse_hostile(text: str, *, multi_line: bool = False) -> str | None:
    """Name the first character that data may not hold, e.g. `U+202E RIGHT-TO-LEFT OVERRIDE`.

    None if there is none. multi_line: line feed and tab are let through.
    """
    if _is_plain(text):
        return None
    for character in text:
        if _is_forbidden(character, multi_line=multi_line):
            return _name(character)
    return None


def printable(text: str, limit: int = 80) -> str:
    """Any text as one line of visible characters, at most `limit` of them, for a message about it."""
    # Escaping only lengthens, so what stands beyond the limit never shows.
    shown = _escaped(text[: limit + 1], multi_line=False)
    return shown if len(shown) <= limit else shown[: limit - 1] + "…"


def for_terminal(text: str, *, multi_line: bool = False) -> str:
    """Text that a terminal shows and never obeys. multi_line: line feed and tab stay."""
    return _escaped(text, multi_line=multi_line)


def for_html(text: str) -> str:
    """Text for an HTML or SVG text node or quoted attribute."""
    return html.escape(_escaped(text, multi_line=True), quote=True)


def for_style(text: str) -> str:
    """Text for a quoted string in a style sheet: all but letters and digits of ASCII is told by its number."""
    shown = _escaped(text, multi_line=False)
    return "".join(sign if sign.isascii() and sign.isalnum() else f"\\{ord(sign):06x}" for sign in shown)


def for_dot(text: str) -> str:
    r"""Text for an HTML-like Graphviz label: one line, escaped, backslashes doubled.

    Graphviz expands `\N` and its like even inside such labels, and even where the backslash is an entity.
    """
    return html.escape(_escaped(text, multi_line=False), quote=True).replace("\\", "\\\\")


def for_csv(text: str) -> str:
    """Text for a CSV cell, which a spreadsheet then shows and never computes. Quoting is the CSV writer's."""
    shown = _escaped(text, multi_line=True)
    return f"'{shown}" if shown.startswith(_FORMULA_STARTS) else shown


def for_filename(name: str) -> str:
    """A name as a file's stem: lower-case ASCII letters, digits and hyphens; no path parts, no ending.

    Different names may give the same stem: whoever writes several files numbers them.
    """
    letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    stem = re.sub(r"[^a-z0-9]+", "-", letters).strip("-")[:_LONGEST_FILENAME].rstrip("-")
    if not stem:
        return "unnamed"
    return f"{stem}-file" if stem in _RESERVED_NAMES else stem


def _is_plain(text: str) -> bool:
    """Whether a text is printable ASCII: nearly all text is, and none of it is forbidden."""
    return text.isascii() and text.isprintable()


def _is_forbidden(character: str, *, multi_line: bool) -> bool:
    if multi_line and character in _LINE_LAYOUT:
        return False
    return character in _INVISIBLE or unicodedata.category(character) in _FORBIDDEN_CATEGORIES


def _name(character: str) -> str:
    name = unicodedata.name(character, "") or _CONTROL_NAMES.get(character)
    return f"U+{ord(character):04X} {name or _NAMELESS[unicodedata.category(character)]}"


def _escaped(text: str, *, multi_line: bool) -> str:
    if _is_plain(text):
        return text
    return "".join(
        _escape(character) if _is_forbidden(character, multi_line=multi_line) else character
        for character in text
    )


def _escape(character: str) -> str:
    code = ord(character)
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"
