"""Reading TOML: a bad file gives mistakes with file, line and key, all at once, and no other exception."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from schedules.errors import InputError, Mistake
from schedules.files.toml_reading import LARGEST_BYTES, parse_toml, read_toml
from schedules.text import refuse_hostile


def mistakes_in(text: str) -> tuple[Mistake, ...]:
    with pytest.raises(InputError, match=r"^job\.toml") as refused:
        parse_toml(text, "job.toml")
    return refused.value.mistakes


def test_a_good_file_gives_its_document_and_text(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    text = 'a = 1\r\nb = """\r\nx\ty\r\n"""\r\n"Küche" = "½"\r\n'
    file.write_bytes(text.encode())
    assert read_toml(file) == ({"a": 1, "b": "x\ty\n", "Küche": "½"}, text)


def test_a_byte_order_mark_is_let_pass(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(b"\xef\xbb\xbfa = 1\n")
    assert read_toml(file) == ({"a": 1}, "a = 1\n")


def one_mistake(path: Path | str) -> Mistake:
    with pytest.raises(InputError, match="allowed: ") as refused:
        read_toml(path)
    (mistake,) = refused.value.mistakes
    return mistake


def test_what_is_no_readable_file_is_said_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert one_mistake(tmp_path / "none.toml").found == "no such file"
    assert one_mistake(tmp_path / "none.toml").file == str(tmp_path / "none.toml")
    assert one_mistake(tmp_path).found == "a directory"
    assert one_mistake("a\0b").found == "no file name"
    assert one_mistake("a\0b").file == "a\\u0000b"
    assert one_mistake("x" * 5000).found == "a file that can't be read: File name too long"
    assert one_mistake(os.devnull).found == "something that is not a file"
    plain = tmp_path / "plain.toml"
    plain.write_text("a = 1\n")
    assert one_mistake(plain / "below").found == "a file that can't be read: Not a directory"

    def locked(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", locked)
    assert one_mistake(plain).found == "a file that can't be read: Permission denied"


def test_size_is_limited(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(b"#" * LARGEST_BYTES)
    assert read_toml(file)[0] == {}
    file.write_bytes(b"#" * (LARGEST_BYTES + 1))
    assert one_mistake(file).found == "more than 4 MiB"


def test_text_must_be_utf_8(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(b"a = 1\nb = '\xfc'\n")
    mistake = one_mistake(file)
    assert (mistake.line, mistake.found, mistake.allowed) == (2, "byte 0xfc", "UTF-8 text")
    file.write_bytes("a = 1\n".encode("utf-16"))
    assert one_mistake(file).found == "byte 0xff"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a = 1\nb = \n", 2),
        ("a = 1\na = 2\n", 2),
        ("\n\n[x", 3),
        ("a = '''\n\n", 3),
        ("a = 1\x00", 1),
        ("b = 2024-13-01", 1),
    ],
)
def test_text_that_is_not_toml_names_its_line(text: str, line: int) -> None:
    (mistake,) = mistakes_in(text)
    assert mistake.line == line
    assert mistake.found.startswith("text that is not TOML: ")
    assert refuse_hostile(mistake.found) is None


def test_all_hostile_strings_and_keys_are_told_at_once() -> None:
    text = (
        "[[device]]\n"
        'name = "a\\u001b[31m"\n'
        'tags = ["x", "a\u202eb"]\n'
        '"k\\u200by" = 1\n'
        "[[device]]\n"
        'name = """\nline\n\\u2028"""\n'
        'inline = { "a\\u0007" = { b = "\\u0085" } }\n'
    )
    assert [(mistake.line, mistake.key, mistake.found) for mistake in mistakes_in(text)] == [
        (2, "device.1.name", "U+001B ESCAPE"),
        (3, "device.1.tags.2", "U+202E RIGHT-TO-LEFT OVERRIDE"),
        (4, "device.1.k\\u200by", "U+200B ZERO WIDTH SPACE in the key"),
        (6, "device.2.name", "U+2028 LINE SEPARATOR"),
        (9, "device.2.inline.a\\u0007", "U+0007 BELL in the key"),
        (9, "device.2.inline.a\\u0007.b", "U+0085 CONTROL CHARACTER"),
    ]


def test_a_comment_can_not_disguise_a_value() -> None:
    (mistake,) = mistakes_in("a = 1\nb = 2 # \u202e 3 = b\n")
    assert (mistake.line, mistake.key) == (2, "")
    assert mistake.found == "U+202E RIGHT-TO-LEFT OVERRIDE in a comment"


def test_line_ends_and_tabs_pass_in_strings_but_not_in_keys() -> None:
    assert parse_toml('a = "x\\n\\ty"', "job.toml") == {"a": "x\n\ty"}
    (mistake,) = mistakes_in('"a\\nb" = 1')
    assert mistake.found == "U+000A LINE FEED in the key"


def test_numbers_stay_within_64_bits_and_finite() -> None:
    good = "a = 9223372036854775807\nb = -9223372036854775808\nc = 1e308\nd = true\n"
    assert parse_toml(good, "job.toml")["b"] == -(2**63)
    text = (
        "a = 9223372036854775808\nb = [1, -9223372036854775809]\nc = nan\n"
        "d = {e = -inf}\nf = 1e999\ng = 0x1ffffffffffffffff\n"
    )
    assert [(mistake.line, mistake.key, mistake.found) for mistake in mistakes_in(text)] == [
        (1, "a", "an integer beyond 64 bits"),
        (2, "b.2", "an integer beyond 64 bits"),
        (3, "c", "nan"),
        (4, "d.e", "-inf"),
        (5, "f", "inf"),
        (6, "g", "an integer beyond 64 bits"),
    ]
    (mistake,) = mistakes_in(f"x = 1\na = {'9' * 5000}\n")
    assert (mistake.line, mistake.found) == (2, "a number with thousands of digits")


DEPTHS = {
    "arrays": "a = " + "[" * 33 + "]" * 33,
    "many arrays": "a = " + "[" * 100_000 + "]" * 100_000,
    "inline tables": "a = " + "{a = " * 32 + "1" + "}" * 32,
    "many inline tables": "a = " + "{a = " * 100_000 + "1" + "}" * 100_000,
    "dotted key": ".".join("a" * 33) + " = 1",
    "long dotted key": ".".join("a" * 100_000) + " = 1",
    "long quoted key": ".".join(['"\\""'] * 100_000) + " = 1",
    "long literal key": " . ".join(["'a b'"] * 100_000) + " = 1",
    "long header": "[" + ".".join("a" * 100_000) + "]",
    "long key inside": "a = {" + ".".join("b" * 100_000) + " = 1}",
    "tables": "[[" + ".".join("a" * 32) + "]]",
}


@pytest.mark.parametrize("name", DEPTHS)
def test_nesting_deeper_than_32_levels_is_refused_with_its_line(name: str) -> None:
    (mistake,) = mistakes_in("x = 1\n" + DEPTHS[name])
    assert mistake.line == 2
    assert mistake.found == "a table or array nested deeper"
    assert mistake.allowed == "at most 32 levels of tables and arrays"


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 32 + "]" * 32,
        ".".join("a" * 32) + " = 1",
        "a = '" + ".".join("a" * 1000) + "'",
        "a = 1 # " + ".".join("a" * 1000),
    ],
)
def test_32_levels_and_dots_in_text_are_let_pass(text: str) -> None:
    assert parse_toml(text, "job.toml") == tomllib.loads(text)


def test_a_long_key_in_text_that_is_not_toml_never_reaches_the_parser() -> None:
    (mistake,) = mistakes_in("[\n" + ".".join("a" * 100_000))
    assert mistake.found == "a key of too many parts in text that is not TOML"


@given(st.text(alphabet="ab.\"'\\#=[]{},\n\r \t1\x1b\u202eü", max_size=40))
@example('a = "\\ud800"')
@example("[[a]]\n[a]")
def test_any_text_gives_a_document_or_mistakes(text: str) -> None:
    try:
        document = parse_toml(text, "job.toml")
    except InputError as refused:
        assert refused.mistakes  # noqa: PT017
        assert all(refuse_hostile(str(mistake)) is None for mistake in refused.mistakes)  # noqa: PT017
    else:
        assert document == tomllib.loads(text)
        assert refuse_hostile(text.replace("\r\n", "\n"), multi_line=True) is None
