"""An equipment sheet is written piece by piece: every version reads back as what was meant, whole or not."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.connections.options import conflicts
from schedules.errors import InputError
from schedules.files.records import Record
from schedules.files.validation import models_in
from schedules.planned import plan_unmeasured
from schedules.questions.picking import everything
from schedules.questions.sheet_keys import key_at, keys_at, keys_of, kinds_of, record_at
from schedules.questions.sheet_names import declared
from schedules.sheet.drafting import SheetDraft, read_sheet_draft, sheet_draft, within
from schedules.sheet.sheet import Sheet
from schedules.sheet.sheet_tables import TABLES
from schedules.sheet.starting import EMPTY, sheet_file, start_sheet
from schedules.templates import sheet_template
from tests.stage import SAMPLES

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from schedules.files.toml_positions import TomlPath

SHEETS = sorted((SAMPLES / "sheets").glob("*.toml"))
GENERIC = sheet_draft(sheet_template(), "generic.toml")
SMALL = sheet_draft(
    """\
format = 1

[sheet]
id = "few"  # as on the label
name = "Few things"
revision = "A"
source = "Invented"
cautions = ["Invented.", "Wire nothing by it."]

[[group]]
id = "heat"
title = "Which heat?"
why = "It decides the valve."
pick = "one"
choice = [
  { id = "gas", title = "Gas", requires = [{ any = ["light"], reason = "one box" }] },
  { id = "light", title = "Light" },
]

[[device]]
tag = "X1"
name = "Strip"
enclosure = "H"
terminal = [
  { id = "1", potential = "L", carries = "line", clamp = "screw", land = { all = ["gas"] } },
  { id = "2", potential = "N", carries = "neutral", clamp = "screw", land = "never" },
]
element = [
  { kind = "load", id = "lamp", between = ["1", "2"], rated = "120 V", power = "20 W", effect = "light" },
]

[[cable]]
number = 3
name = "Valve cable"
make = "factory"
type = "TC-ER-JP 14/3"
from = { enclosure = "H", opening = "HK2" }
to = { enclosure = "V" }
length = "10 ft"
core = [{ id = "BK", colour = "BK", size = "14 AWG", from = "X1:1" }]
when = { all = ["gas"] }
""",
    "small.toml",
)
"""A sheet that is far from whole, with every shape of entry in it, so that many versions of it are soon read."""


def records(record: type[Record], seen: set[type[Record]]) -> set[type[Record]]:
    """A record and all records within it."""
    if record not in seen:
        seen.add(record)
        for info in record.model_fields.values():
            for inner in models_in(info.annotation):
                assert issubclass(inner, Record)
                records(inner, seen)
    return seen


def leaves(value: Any, path: TomlPath = ()) -> Iterator[tuple[TomlPath, Any]]:
    """Every place of a document that holds no table, in the document's order."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list) and value and isinstance(value[0], dict):
        for place, inner in enumerate(value):
            yield from leaves(inner, (*path, place))
    else:
        yield path, value


def test_every_key_of_the_format_has_its_words_and_no_word_is_left_over() -> None:
    for record in records(Sheet, set()):
        declared_keys = {info.alias or name for name, info in record.model_fields.items()} - {"format"}
        assert {key.key for key in keys_of(record)} == declared_keys, record.__name__
        assert all(key.label and key.why for key in keys_of(record))


def test_every_table_of_the_format_is_a_place_of_its_own() -> None:
    assert set(TABLES) == set(Sheet.model_fields) - {"format"}


def test_a_sheet_written_anew_piece_by_piece_is_the_same_sheet() -> None:
    made = sheet_draft("format = 1\n", "made.toml")
    begun: set[TomlPath] = set()
    for path, value in leaves(SMALL.document):
        if path == ("format",):
            continue
        for length in range(1, len(path)):
            entry = path[:length]
            if isinstance(entry[-1], int) and entry not in begun:
                made = made.with_entry(entry[:-1], {})
                begun.add(entry)
        made = made.with_value(path, value)
    assert made.document == SMALL.document
    assert tomllib.loads(made.text) == made.document


@pytest.mark.parametrize("file", SHEETS, ids=lambda file: file.stem)
def test_every_value_of_a_sample_can_be_typed_or_chosen_again(file: Path) -> None:
    draft = read_sheet_draft(file)
    for path, value in leaves(draft.document):
        key = key_at(draft.document, path)
        if path == ("format",):
            continue
        assert key is not None, path
        choices = [option.value for option in key.options]
        if key.names:
            choices += [option.value for option in declared(draft.document, path, key.names)]
        for item in value if isinstance(value, list) else [value]:
            if choices and not (key.shape == "condition" and not key.options):
                # A breaker that is off is a signal too, though no list declares it.
                assert item in choices or str(item).endswith("-off"), (path, item)
        if not choices:
            typed = "; ".join(map(str, value)) if isinstance(value, list) else str(value)
            assert key.read(typed) == value, path


def test_an_unfinished_entry_is_kept_and_what_it_lacks_is_named() -> None:
    draft = GENERIC.with_entry(("opening",), {})
    place = len(GENERIC.document["opening"])
    assert not draft.sound
    lacking = {mistake.key for mistake in draft.mistakes}
    assert lacking == {f"opening.{place + 1}.{key}" for key in ("tag", "enclosure", "kind")}
    for key, value in (("tag", "HK9"), ("enclosure", "H"), ("kind", "knockout"), ("trade_size", "3/4")):
        draft = draft.with_value(("opening", place, key), value)
    assert [mistake.key for mistake in draft.mistakes] == [f"opening.{place + 1}"]
    assert "compartment" in draft.mistakes[0].allowed
    assert draft.with_value(("opening", place, "compartment"), "power").sound


@pytest.mark.parametrize("text", ["format = 1\n", 'format = 1\n\n[[device]]\nid = "a"\n', GENERIC.text])
def test_a_new_entry_stands_behind_one_blank_line(text: str) -> None:
    draft = sheet_draft(text, "sheet.toml").with_entry(("device",), {"id": "last"})
    before, _, after = draft.text.partition('[[device]]\nid = "last"\n')
    assert after or draft.text.endswith('id = "last"\n')
    assert before.endswith("\n\n")
    assert not before.endswith("\n\n\n")


def test_a_name_that_nothing_declares_is_a_contradiction_not_a_slip() -> None:
    draft = GENERIC.with_value(("device", 0, "enclosure"), "HX")
    assert draft.slips == ()
    assert "device.1.enclosure" in {mistake.key for mistake in draft.contradictions}
    assert not draft.sound


def test_what_is_below_a_place_is_told_from_its_neighbours() -> None:
    draft = GENERIC.with_value(("device", 0, "tag"), "x 1")
    slip = next(mistake for mistake in draft.slips if mistake.key == "device.1.tag")
    assert within(slip, ())
    assert within(slip, ("device", 0))
    assert not within(slip, ("device", 1))
    assert not within(slip, ("device", 0, "t"))


@given(st.data())
def test_taking_out_what_was_added_leaves_the_sheet_as_it_was(data: st.DataObject) -> None:
    lists = [("device",), ("cable",), ("device", 0, "terminal"), ("cable", 0, "core"), ("group", 0, "choice")]
    path = data.draw(st.sampled_from(lists))
    count = len(SMALL.at(path))
    added = SMALL.with_entry(path, {})
    assert len(added.at(path)) == count + 1
    assert added.without((*path, count)).document == SMALL.document


@given(st.data())
def test_writing_a_value_changes_that_value_alone(data: st.DataObject) -> None:
    every = [item for item in leaves(SMALL.document) if isinstance(item[1], str)]
    path, value = data.draw(st.sampled_from(every))
    text = data.draw(st.text(alphabet="abcXYZ019 \"\\'#=[]{}-µ", min_size=1, max_size=20))
    changed = SMALL.with_value(path, text)
    assert changed.at(path) == text
    assert changed.with_value(path, value).document == SMALL.document


STANDING_APART = """\
format = 1
group = [
  { id = "a", title = "A" },
  { id = "b", title = "B" },
]
[[device]]
tag = "X1"
[[device.terminal]]
id = "1"
[hood]
width = "30 in"
[[device]]
tag = "X2"  # the second
[hood.bracket]
steel = "a36"
[[device.terminal]]
id = "2"
"""


@pytest.mark.parametrize(
    "path",
    [
        ("group", 1, "title"),
        ("device", 0, "tag"),
        ("device", 0, "name"),
        ("device", 0, "terminal", 0, "id"),
        ("device", 1, "tag"),
        ("device", 1, "terminal", 0, "id"),
        ("device", 1, "terminal", 0, "land", "all"),
        ("hood", "bracket", "steel"),
        ("hood", "bracket", "thickness"),
        ("hood", "collar", "diameter"),
    ],
    ids=lambda path: ".".join(map(str, path)),
)
def test_a_value_is_written_wherever_its_entry_stands(path: TomlPath) -> None:
    draft = sheet_draft(STANDING_APART, "apart.toml")
    changed = draft.with_value(path, "new")
    wanted = dict(leaves(draft.document)) | {path: "new"}
    assert dict(leaves(changed.document)) == wanted
    assert "# the second" in changed.text


def test_comments_stay_while_a_sheet_is_written() -> None:
    changed = GENERIC.with_value(("cable", 2, "length"), "12 ft")
    assert "the least trade size that the maker prescribes" in changed.text
    assert changed.text.count("#") == GENERIC.text.count("#")


@pytest.mark.parametrize("text", ["\x1b[31m", "\u202e", "\x00"])
def test_hostile_characters_are_refused_as_they_are_typed(text: str) -> None:
    with pytest.raises(InputError, match="visible characters"):
        GENERIC.with_value(("sheet", "name"), f"a{text}b")


def test_the_kinds_of_what_is_inside_a_device_are_offered() -> None:
    key = key_at(GENERIC.document, ("device", 0, "element"))
    assert key is not None
    kinds = [str(option.value) for option in kinds_of(key)]
    assert kinds == ["link", "bond", "contact", "coil", "load", "supply", "resistor"]
    assert record_at(GENERIC.document, ("device", 0, "element", 99)) is None


def test_a_condition_holds_names_of_what_its_key_says() -> None:
    contact = next(
        ("device", number, "element", place)
        for number, device in enumerate(GENERIC.document["device"])
        for place, element in enumerate(device.get("element", ()))
        if element["kind"] == "contact"
    )
    assert {key.names for key in keys_at(GENERIC.document, (*contact, "operates"))} == {"signal"}
    assert {key.names for key in keys_at(GENERIC.document, ("cable", 2, "when"))} == {"choice"}


@pytest.mark.parametrize("name", ["Wall hood", "36 inch", "Ünïcode", "---", "x" * 119])
def test_a_new_sheet_bears_its_name_and_that_nobody_has_read_it(name: str, tmp_path: Path) -> None:
    file = sheet_file(tmp_path, name)
    draft = start_sheet(sheet_template(), file, name)
    assert draft.sound, draft.mistakes
    assert draft.sheet is not None
    assert draft.sheet.sheet.name == name
    assert "Not read against a manual" in draft.sheet.sheet.source
    assert not start_sheet(EMPTY, file, name).sound
    assert file.parent == tmp_path


@pytest.mark.parametrize("file", SHEETS, ids=lambda file: file.stem)
def test_all_that_fits_together_can_be_built_and_is_planned(file: Path) -> None:
    draft = read_sheet_draft(file)
    assert draft.sheet is not None
    chosen = everything(draft.sheet)
    assert conflicts(draft.sheet, chosen) == ()
    plan = plan_unmeasured(draft.sheet, file)
    assert frozenset(plan.derived.job.choices) == chosen
    assert plan.derived.selection.cables


def test_a_draft_says_nothing_of_what_is_not_there() -> None:
    assert isinstance(GENERIC, SheetDraft)
    assert GENERIC.at(("device", 99, "tag")) is None
    assert GENERIC.at(("hood", "width")) is None
