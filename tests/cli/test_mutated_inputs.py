"""2,000 mutated sheets and jobs: each is refused in clear words or gives a plan, and no text from it acts on an output.

Every case is made from its number alone. To see one again: `pytest tests/cli/test_mutated_inputs.py -k "[17-"` runs
the fifty cases that begin with number 17 · 50; a failure names the case.
"""

from __future__ import annotations

import copy
import json
import random
import tomllib
import unicodedata
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.comparison import compare
from schedules.errors import InputError
from schedules.planned import plan_file
from schedules.rows.every import SCHEDULES
from schedules.schema import job_schema, sheet_schema
from schedules.workings import workings
from schedules.writers.comparing import comparison_lines
from schedules.writers.data import plan_json
from schedules.writers.listing import (
    check_lines,
    every_reach_lines,
    explainable_lines,
    explained_lines,
    reach_lines,
    show_lines,
)
from wizard.__main__ import main

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule

TOP = Path(__file__).parents[2]
TEMPLATES = TOP / "schedules" / "templates"
SAMPLE_JOBS = sorted((TOP / "samples" / "jobs").glob("*.toml"))

CASES, CHUNK = 2000, 50
SAMPLE_EVERY = 20
"""One case in so many is made from a sample; the others from the small template, which is quicker."""

Document = dict[str, Any]
Place = tuple[Any, Any]
"""A table or list of a document and the key or index of one value in it."""

HOSTILE = (
    "\x1b[2J\x1b[1;31m",
    "\x9b31m",
    "\x00",
    "a\u202eb",
    "\u2066x\u2069",
    "\u200b",
    "\ufeff",
    "line\nline",
    "tab\tstop",
    "\u2028",
    "\U000e0041",
    "\ufdd0",
)
ODD = (
    "",
    " ",
    "[/foo]",
    "[@click=app.quit]x[/]",
    "<b>&amp;</b>",
    '"><script>alert(1)</script>',
    "=1+1",
    "../../../../etc/passwd",
    "\\N\\G",
    "{0} %s ${x}",
    "W" * 5000,
    "Ω≈ç√ 漢字 ñ",
    "🔥",
    "H",
    "W1",
    "Q1:L",
    "X1:PE",
    "gas-valve",
    "PE",
)
QUANTITIES = (
    "10 kg",
    "5' 3-1/2",
    "10",
    "nan m",
    "inf ft",
    "1e9 ft",
    "-3 ft",
    "0 in",
    "9999 ft",
    "0.0001 mm",
    "12 lbf.in",
    "2,53 m",
    "120 V",
    "0.000000000001 A",
    "999999999999 W",
    "40 AWG",
    "2000 kcmil",
    "14 AWG",
    "3/8",
    "6",
    "1000 %",
    "90 deg",
    "-40 C",
    "1 Mohm",
    "9999999 VA",
    "10 s",
    "21 cu in",
)
NUMBERS = (
    0,
    -1,
    1,
    2,
    3,
    7,
    99,
    100,
    2023,
    10**12,
    2**63,
    -(2**70),
    0.0,
    -1.5,
    1e308,
    float("nan"),
    float("inf"),
)


@cache
def source(path: Path) -> str:
    """A file's text, as JSON of its document: quick to copy."""
    return json.dumps(tomllib.loads(path.read_text(encoding="utf-8")))


@cache
def sheet_named_in(job: Path) -> str:
    """The name of the sheet, as a job says it."""
    named: str = json.loads(source(job))["job"]["sheet"]
    return named


@cache
def schema_of(kind: str) -> Document:
    """The schema of one kind of file, made once."""
    return job_schema() if kind == "job" else sheet_schema()


def places(document: Document) -> list[Place]:
    """Every value of a document."""
    found: list[Place] = []
    waiting: list[Any] = [document]
    while waiting:
        home = waiting.pop()
        steps = list(home) if isinstance(home, dict) else range(len(home))
        for step in steps:
            found.append((home, step))
            if isinstance(home[step], dict | list):
                waiting.append(home[step])
    return found


def drop(luck: random.Random, document: Document) -> None:
    home, step = luck.choice(places(document))
    del home[step]


def change_type(luck: random.Random, document: Document) -> None:
    home, step = luck.choice(places(document))
    home[step] = luck.choice([True, 1, 1.5, "text", [], {}, ["text"], [{}], {"id": "x"}, [[1]], "2026-01-01"])


def change_number(luck: random.Random, document: Document) -> None:
    numbers = [place for place in places(document) if type(place[0][place[1]]) in (int, float)]
    home, step = luck.choice(numbers or places(document))
    home[step] = luck.choice(NUMBERS)


def change_text(luck: random.Random, document: Document) -> None:
    home, step = luck.choice(texts(document))
    home[step] = luck.choice((*HOSTILE, *ODD))


def spoil_text(luck: random.Random, document: Document) -> None:
    home, step = luck.choice(texts(document))
    at = luck.randrange(len(home[step]) + 1)
    home[step] = home[step][:at] + luck.choice((*HOSTILE, *ODD)) + home[step][at:]


def change_quantity(luck: random.Random, document: Document) -> None:
    measured = [place for place in texts(document) if place[0][place[1]][:1].isdigit()]
    home, step = luck.choice(measured or texts(document))
    home[step] = luck.choice(QUANTITIES)


def swap_reference(luck: random.Random, document: Document) -> None:
    """Give a key the value that the same key has elsewhere: a right form, a wrong thing."""
    home, step = luck.choice(places(document))
    others = [other[0][other[1]] for other in places(document) if other[1] == step]
    home[step] = copy.deepcopy(luck.choice(others))


def swap_two_texts(luck: random.Random, document: Document) -> None:
    one, other = luck.choice(texts(document)), luck.choice(texts(document))
    one[0][one[1]], other[0][other[1]] = other[0][other[1]], one[0][one[1]]


def repeat(luck: random.Random, document: Document) -> None:
    """Put an element into its list once more, so that its name is there twice."""
    lists = [place[0][place[1]] for place in places(document) if isinstance(place[0][place[1]], list)]
    if home := luck.choice(lists or [[]]):
        home.append(copy.deepcopy(luck.choice(home)))


def reorder(luck: random.Random, document: Document) -> None:
    lists = [place[0][place[1]] for place in places(document) if isinstance(place[0][place[1]], list)]
    luck.choice(lists or [[]]).reverse()


def empty(luck: random.Random, document: Document) -> None:
    homes = [place[0][place[1]] for place in places(document) if isinstance(place[0][place[1]], dict | list)]
    luck.choice(homes or [document]).clear()


def rename(luck: random.Random, document: Document) -> None:
    keyed = [place for place in places(document) if isinstance(place[0], dict)]
    home, step = luck.choice(keyed)
    home[luck.choice([f"{step}x", step.upper(), step[:-1], "when", "id", "\x1b[2J", "[/b]"])] = home.pop(step)


def nest(luck: random.Random, document: Document) -> None:
    home, step = luck.choice(places(document))
    value = home[step]
    for _ in range(luck.choice([1, 5, 31, 40, 200])):
        value = [value] if luck.random() < 0.5 else {"x": value}
    home[step] = value


def add_key(luck: random.Random, document: Document) -> None:
    """Add what the schema knows and the file doesn't have, in a right form and with any meaning."""
    schema = schema_of("job" if "job" in document else "sheet")
    known = list(tables(document, schema, schema))
    home, part = luck.choice(known)
    missing = sorted(set(part["properties"]) - set(home))
    if missing:
        key = luck.choice(missing)
        home[key] = plausible(luck, document, part["properties"][key], schema)


def tie_circuits(luck: random.Random, document: Document) -> None:
    """Circuits taken from one another, round and round; states that come after one another."""
    tags = luck.choice([["Q1", "Q2"], ["Q1"], ["Q2", "Q1", "Q3"]])
    if "job" in document:
        ring = zip(tags, tags[1:] + tags[:1], strict=True)
        document["circuit"] = [{"circuit": tag, "downstream_of": other} for tag, other in ring]
    elif isinstance(document.get("state"), list) and document["state"]:
        luck.choice(document["state"])["after"] = luck.choice(document["state"]).get("id", "none")


CRUDE: tuple[Callable[[random.Random, Document], None], ...] = (
    drop,
    change_type,
    change_number,
    change_text,
    spoil_text,
    swap_two_texts,
    empty,
    rename,
    nest,
)
RIGHT_IN_FORM: tuple[Callable[[random.Random, Document], None], ...] = (
    drop,
    change_quantity,
    swap_reference,
    repeat,
    reorder,
    tie_circuits,
    add_key,
    add_key,
)


def texts(document: Document) -> list[Place]:
    """Every text of a document."""
    found = [place for place in places(document) if isinstance(place[0][place[1]], str)]
    return found or [({"x": "y"}, "x")]


def tables(home: Any, part: Document, schema: Document) -> Iterator[tuple[Document, Document]]:
    """Every table of a document that the schema describes, with what it says of it."""
    while "$ref" in part:
        part = schema["$defs"][part["$ref"].rpartition("/")[2]]
    if isinstance(home, list):
        for item in home:
            yield from tables(item, part.get("items", {}), schema)
    elif isinstance(home, dict) and "properties" in part:
        yield home, part
        for key, value in home.items():
            yield from tables(value, part["properties"].get(key, {}), schema)


def plausible(luck: random.Random, document: Document, part: Document, schema: Document) -> Any:
    """A value of the form that the schema asks for; names are taken from the document."""
    while "$ref" in part:
        part = schema["$defs"][part["$ref"].rpartition("/")[2]]
    if kinds := part.get("anyOf", part.get("oneOf")):
        return plausible(luck, document, luck.choice(kinds), schema)
    if values := part.get("enum", [part["const"]] if "const" in part else None):
        return luck.choice(values)
    used = sorted({home[step] for home, step in texts(document)})
    match part.get("type"):
        case "boolean" | "integer" | "number" as kind:
            return luck.random() < 0.5 if kind == "boolean" else luck.choice([0, 1, 2, 3, 50, 0.5, -1, 1e9])
        case "array":
            inner = part.get("items", {"type": "string"})
            return [plausible(luck, document, inner, schema) for _ in range(luck.randrange(4))]
        case "object":
            keys = set(part.get("required", ())) | {key for key in part["properties"] if luck.random() < 0.4}
            return {key: plausible(luck, document, part["properties"][key], schema) for key in sorted(keys)}
        case _:
            wild = [*used, *QUANTITIES]
            return luck.choice(part.get("examples", wild) if luck.random() < 0.7 else wild)


def spoil_file(luck: random.Random, text: str) -> str:
    """Mutate the text of a file itself."""
    lines = text.split("\n")
    at = luck.randrange(len(lines))
    match luck.randrange(7):
        case 0:
            del lines[at]
        case 1:
            lines.insert(at, lines[luck.randrange(len(lines))])
        case 2:
            lines.insert(at, luck.choice(HOSTILE))
        case 3:
            lines[at] = lines[at][: luck.randrange(len(lines[at]) + 1)]
        case 4:
            lines.insert(at, "# " + luck.choice((*HOSTILE, *ODD)))
        case 5:
            lines.insert(at, "x = " + "[" * luck.choice([10, 40, 3000]))
        case 6:
            lines.insert(at, ".".join("x" * luck.choice([10, 40, 3000])) + " = 1")
    return "\n".join(lines)


def mutate(luck: random.Random, path: Path) -> str:
    """The text of a file after one to three mutations, crude ones or such as leave its form right."""
    document: Document = json.loads(source(path))
    mutations = luck.choice([CRUDE, RIGHT_IN_FORM, RIGHT_IN_FORM])
    for _ in range(luck.choice([1, 1, 2, 3])):
        luck.choice(mutations)(luck, document)
        if not document:
            return ""
    text = as_toml(document)
    return spoil_file(luck, text) if mutations is CRUDE and luck.random() < 0.2 else text


def as_toml(document: Document) -> str:
    """A document as TOML: its own tables as such, what is in them in one line."""
    head, rest = [], []
    for key, value in document.items():
        if isinstance(value, dict):
            rest.append(f"[{json.dumps(key)}]\n{_pairs(value)}")
        elif isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
            rest += [f"[[{json.dumps(key)}]]\n{_pairs(item)}" for item in value]
        else:
            head.append(f"{json.dumps(key)} = {_inline(value)}\n")
    return "".join(head) + "\n".join(rest)


def _pairs(table: Document) -> str:
    return "".join(f"{json.dumps(key)} = {_inline(value)}\n" for key, value in table.items())


def _inline(value: Any) -> str:
    if isinstance(value, dict):
        pairs = ", ".join(f"{json.dumps(key)} = {_inline(inner)}" for key, inner in value.items())
        return f"{{ {pairs} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_inline, value))}]"
    if isinstance(value, str):
        # TOML knows JSON's escapes, but not its pairs of surrogates.
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return str(value).lower()


def write_case(number: int, folder: Path) -> Path:
    """Write one case's job and sheet; the job's path."""
    luck = random.Random(number)
    job = luck.choice(SAMPLE_JOBS) if number % SAMPLE_EVERY == 0 else TEMPLATES / "job.toml"
    sheet = job.parent / sheet_named_in(job)
    spoiled = luck.choice([("job",), ("job",), ("sheet",), ("sheet",), ("job", "sheet")])
    written = {}
    for name, path in (("job", job), ("sheet", sheet)):
        text = mutate(luck, path) if name in spoiled else path.read_text(encoding="utf-8")
        written[name] = folder / f"{name}.toml"
        written[name].write_text(text.replace(sheet_named_in(job), "sheet.toml"), encoding="utf-8")
    return written["job"]


def forbidden(text: str, allowed: str = "") -> set[str]:
    """Characters that could act on whatever shows the text."""
    if text.isascii() and text.isprintable():
        return set()
    return {
        character
        for character in text
        if character not in allowed
        and unicodedata.category(character) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
    }


def everything_printed(plan: Plan, schedules: list[Schedule[Any]], width: int) -> Iterator[str]:
    """Every line that the command line can print of a plan."""
    yield from check_lines(plan, width)
    yield from show_lines(plan, schedules, width)
    yield from every_reach_lines(plan, width)
    for length in plan.derived.lengths:
        yield from reach_lines(plan, length, width)
    yield from explainable_lines(workings(plan), width)
    yield from explained_lines(workings(plan), width)
    yield from comparison_lines(compare(plan, plan), width)


def refused_clearly(error: InputError) -> None:
    assert error.mistakes
    for mistake in error.mistakes:
        assert mistake.found.strip()
        assert mistake.allowed.strip()
        assert forbidden(str(mistake)) == set()
        assert len(str(mistake)) < 2000


def outcome(number: int, folder: Path) -> str:
    """Plan one case and print all of it; `refused` or `planned`."""
    job = write_case(number, folder)
    try:
        plan = plan_file(job).plan
    except InputError as error:
        refused_clearly(error)
        return "refused"
    # The single faults of a whole sample take a second: they are tried where the case is a small one.
    names = [name for name in SCHEDULES if name != "faults" or number % SAMPLE_EVERY]
    schedules = [SCHEDULES[name](plan) for name in names]
    printed = list(everything_printed(plan, schedules, 80))
    assert set().union(*(forbidden(line) for line in printed)) == set()
    written = plan_json(plan, schedules)
    assert written.isascii()
    assert forbidden(written.decode(), allowed="\n") == set()
    assert json.loads(written)["sound"] is plan.sound
    return "planned"


@pytest.mark.parametrize("chunk", range(CASES // CHUNK), ids=lambda chunk: f"{chunk}-")
def test_a_mutated_input_is_refused_or_planned(chunk: int, tmp_path: Path) -> None:
    outcomes = []
    for number in range(chunk * CHUNK, (chunk + 1) * CHUNK):
        try:
            outcomes.append(outcome(number, tmp_path))
        except Exception as error:
            error.add_note(f"case {number}, written by write_case({number}, folder)")
            raise
    # Both happen in any fifty cases, or the mutations are of one kind only.
    assert set(outcomes) == {"refused", "planned"}


@pytest.mark.parametrize("number", range(0, CASES, 97))
def test_the_command_line_ends_in_words(
    number: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("HOODWRIGHT_TRACEBACK", raising=False)
    status = main(["check", str(write_case(number, tmp_path))])
    printed = capsys.readouterr()
    assert status in (0, 1, 2)
    assert bool(printed.err) is (status == 2)
    assert bool(printed.out) is (status != 2)
    assert forbidden(printed.out + printed.err, allowed="\n") == set()
