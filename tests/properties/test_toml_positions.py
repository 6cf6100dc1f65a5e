"""Lines of TOML keys: every path that tomllib finds, no other, each on its own line."""

from __future__ import annotations

import string
import tomllib
from typing import Any

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from schedules.files.toml_positions import NestingError, Positions, TomlPath, dotted, line_of, positions


def paths_of(value: Any, path: TomlPath = ()) -> set[TomlPath]:
    """Every path in a document that tomllib made: the independent view of what there is."""
    found = {path} if path else set()
    if isinstance(value, dict):
        for key, inner in value.items():
            found |= paths_of(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            found |= paths_of(inner, (*path, index))
    return found


NASTY = {
    "empty": "",
    "comment only": "# a = 1\n#[b]",
    "no last line end": "a = 1",
    "dotted keys": "a.b.c = 1\na.b.d = 2\na . e = 3\n",
    "quoted keys": '"a.b" = 1\n\'c"d\'."e\'f" = 2\n"" = 3\n"a\\"b\\u0041" = 4\n\'a\\b\' = 5\n',
    "number keys": "1.2 = 3\n-1 = 2\ntrue = false\n",
    "tables": '[a]\nx = 1\n[a.b]\ny = 2\n[c.d.e]\n[c]\nz = 3\n[ f . "g h" ] # note\n',
    "array of tables": "[[a]]\nx = 1\n[[a]]\n[[a]]\nx = 2\n",
    "nested arrays of tables": "[[a]]\n[[a.b]]\nx=1\n[[a.b]]\nx=2\n[a.b.c]\ny=1\n"
    "[[a]]\n[[a.b]]\n[a.c]\nz=1\n[[a.c.d]]\n",
    "array of tables below a table": "[x]\n[[x.y]]\n[x.y.z]\n[[x.y]]\n[[x.y.w]]\n[[x.y.w]]\n",
    "multi-line basic": 'a = """\nb = 1\n[c]\n\\"""\n"" \\\n   x"""\nd = 1\n',
    "multi-line literal": "a = '''\nb = 1\n'' [c] \\'''\nd = 1\n",
    "strings that end in quotes": "a = \"\"\"x\"\"\"\"\"\nb = '''x'''''\n"
    "c = \"\"\"\"\"\"\nd = ''''''\ne = \"\"\nf = ''\n",
    "strings full of marks": "a = \"[x] # = , } ]\"\nb = '[{=#,'\n"
    'c = ["]", \'}\', "#"] # ]\nd = {x = "}", y = \'{\'}\n',
    "escaped ends": 'a = "\\\\"\nb = "\\""\nc = "\\\\\\""\n',
    "arrays": "a = [1, 2, [3, [4, 5]], []]\nb = [\n  1, # one\n  # none\n  2,\n]\n",
    "inline tables": 'a = {b = 1, c.d = 2, e = {f = [1, {g = 2}]}, "h i" = {}}\n',
    "inline tables in an array": "t = [\n  {n = 1, m = [\n 1,\n 2]},\n  {n = 2},\n]\n",
    "dates": "a = 1979-05-27T07:32:00Z\nb = 1979-05-27 07:32:00\nc = 07:32:00\n"
    "d = [1979-05-27 07:32:00, 1979-05-27]\n",
    "numbers": "a = 1_000\nb = 0xff\nc = -inf\nd = +1.5e-3\ne = nan\n",
    "carriage returns": 'a = 1\r\n[b]\r\nc = """\r\nx\r\n"""\r\nd = [\r\n1\r\n]\r\n',
    "no spaces": "a=1\nb={c=1,d=[{e=1}]}\n[f]\ng=1\n",
    "dotted keys inside a table": "[a]\nb.c.d = 1\nb.e = 2\n[[f]]\ng.h = 1\n[[f]]\ng.h = 2\n",
    "unicode keys": '"Küche" = 1\n"厨房"."Ω" = 2\n',
    "key on many": "[[a]]\nb = {c = [{d = 1}, {d = 2}]}\n[[a]]\nb = {c = [\n{d = 3}]}\n",
}


@pytest.mark.parametrize("name", NASTY)
def test_paths_of_nasty_documents_are_those_of_tomllib(name: str) -> None:
    text = NASTY[name]
    assert set(positions(text)) == paths_of(tomllib.loads(text))


# Lines counted by hand.
LINES: list[tuple[str, TomlPath, int]] = [
    ("tables", ("a", "x"), 2),
    ("tables", ("c", "d"), 5),
    ("tables", ("c",), 6),
    ("tables", ("c", "z"), 7),
    ("tables", ("f", "g h"), 8),
    ("dotted keys", ("a", "b"), 1),
    ("dotted keys", ("a", "b", "d"), 2),
    ("dotted keys", ("a", "e"), 3),
    ("array of tables", ("a",), 1),
    ("array of tables", ("a", 1), 3),
    ("array of tables", ("a", 2, "x"), 5),
    ("nested arrays of tables", ("a", 0, "b", 1, "x"), 5),
    ("nested arrays of tables", ("a", 0, "b", 1, "c", "y"), 7),
    ("nested arrays of tables", ("a", 1, "b", 0), 9),
    ("nested arrays of tables", ("a", 1, "c", "d", 0), 12),
    ("multi-line basic", ("d",), 7),
    ("multi-line literal", ("d",), 4),
    ("strings that end in quotes", ("f",), 6),
    ("arrays", ("b",), 2),
    ("arrays", ("b", 0), 3),
    ("arrays", ("b", 1), 5),
    ("inline tables in an array", ("t", 0, "n"), 2),
    ("inline tables in an array", ("t", 0, "m", 0), 3),
    ("inline tables in an array", ("t", 0, "m", 1), 4),
    ("inline tables in an array", ("t", 1), 5),
    ("inline tables in an array", ("t", 1, "n"), 5),
    ("carriage returns", ("b",), 2),
    ("carriage returns", ("b", "d"), 6),
    ("carriage returns", ("b", "d", 0), 7),
    ("key on many", ("a", 1, "b", "c", 0, "d"), 5),
]


@pytest.mark.parametrize(("name", "path", "line"), LINES)
def test_each_path_has_its_own_line(name: str, path: TomlPath, line: int) -> None:
    assert positions(NASTY[name])[path] == line


KEYS = st.one_of(
    st.text(alphabet=string.ascii_letters + string.digits + "_-", min_size=1, max_size=5),
    st.text(alphabet="ab.\"'\\#=[]{} Ωü", max_size=5),
)
SCALARS = st.one_of(
    st.integers(min_value=-(2**63), max_value=2**63 - 1),
    st.booleans(),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(alphabet="ab.\"'\\#=[]{},\n\tΩ", max_size=12),
    st.datetimes(),
    st.dates(),
)
DOCUMENTS = st.dictionaries(
    KEYS,
    st.recursive(
        SCALARS,
        lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(KEYS, inner, max_size=4)),
        max_leaves=20,
    ),
    max_size=6,
)


@given(DOCUMENTS)
def test_paths_of_any_document_are_those_of_tomllib(data: dict[str, Any]) -> None:
    text = tomlkit.dumps(data)
    assert set(positions(text)) == paths_of(tomllib.loads(text))


@given(DOCUMENTS)
def test_every_line_holds_the_key_it_is_given_for(data: dict[str, Any]) -> None:
    text = tomlkit.dumps(data)
    rows = text.split("\n")
    for path, line in positions(text).items():
        last_key = next(part for part in reversed(path) if isinstance(part, str))
        if isinstance(path[-1], str) and last_key.isascii() and last_key.isalnum():
            assert last_key in rows[line - 1]


@st.composite
def written_documents(draw: st.DrawFn) -> tuple[str, Positions]:
    """A text written one thing a line, so that its true lines are known without any scanner."""
    rows: list[str] = []
    lines: Positions = {}
    for number in range(draw(st.integers(min_value=1, max_value=5))):
        rows += draw(st.lists(st.sampled_from(["", "# x = [", "  "]), max_size=2))
        rows.append("[[t]]")
        lines.setdefault(("t",), len(rows))
        lines["t", number] = len(rows)
        rows.append("note = '''")
        lines["t", number, "note"] = len(rows)
        rows += draw(st.lists(st.sampled_from(["[[t]]", "y = 1", "'' #"]), max_size=3))
        rows.append("'''")
        rows.append("ends = [")
        lines["t", number, "ends"] = len(rows)
        for index in range(draw(st.integers(min_value=0, max_value=4))):
            rows += draw(st.lists(st.sampled_from(["", "  # ]"]), max_size=1))
            rows.append(f"  {{ at = {index}, to.x = '}}' }}, # {index}")
            for tail in ((), ("at",), ("to",), ("to", "x")):
                lines["t", number, "ends", index, *tail] = len(rows)
        rows.append("]")
    return "\n".join(rows), lines


@given(written_documents())
def test_lines_are_those_that_were_written(written: tuple[str, Positions]) -> None:
    text, lines = written
    assert set(lines) == paths_of(tomllib.loads(text))
    assert positions(text) == lines


def test_deep_nesting_does_not_exhaust_the_stack() -> None:
    depth = 3_000
    assert len(positions(f"a = {'[' * depth}{']' * depth}")) == depth
    assert len(positions(f"a = {'{a = ' * depth}1{'}' * depth}")) == depth + 1


def test_nesting_beyond_the_limit_names_its_line() -> None:
    with pytest.raises(NestingError, match="line 3: nested deeper than 4 levels") as refused:
        positions("a = [[[1]]]\nb = 1\nc = [[[[1]]]]\n", deepest=4)
    assert refused.value.path == ("c", 0, 0, 0)
    with pytest.raises(NestingError, match="line 2"):
        positions("a = 1\n[a.b.c.d.e]\n", deepest=4)
    with pytest.raises(NestingError, match="line 1"):
        positions("a.b.c.d.e = 1\n", deepest=4)


@given(st.text(alphabet="ab.\"'\\#=[]{},\n\r \t1", max_size=40))
def test_any_text_ends_in_positions_or_a_refusal(text: str) -> None:
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        try:
            positions(text)
        except ValueError as refused:
            assert "line " in str(refused) or isinstance(refused, tomllib.TOMLDecodeError)  # noqa: PT017
    else:
        assert set(positions(text)) == paths_of(document)


def test_a_missing_key_takes_the_line_of_what_is_around_it() -> None:
    lines = positions("[[device]]\nid = 1\n[[device]]\nid = 2\n")
    assert line_of(lines, ("device", 1, "id")) == 4
    assert line_of(lines, ("device", 1, "maker", "x")) == 3
    assert line_of(lines, ("nothing",)) is None
    assert line_of(lines, ()) is None


def test_a_path_prints_with_elements_counted_from_one() -> None:
    assert dotted(("cable", 1, "length")) == "cable.2.length"
    assert dotted(("a\u202eb",)) == "a\\u202eb"
