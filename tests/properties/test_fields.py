"""Every answer of a job is declared once, and what a field accepts is what the job's record accepts."""

from __future__ import annotations

import dataclasses
from types import UnionType
from typing import TYPE_CHECKING, Annotated, Any, Literal, Union, get_args, get_origin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from schedules.files.records import Record
from schedules.job.draft import ROW_KEYS
from schedules.job.job_tables import TABLES
from schedules.job.records import Job
from schedules.quantities.numerals import UnitError
from schedules.questions.fields import FIELDS, fields_of

if TYPE_CHECKING:
    from schedules.questions.field import Field

NOT_ASKED = {("", "format")}
"""The version of the file format is the program's own business."""


def record_of(annotation: object) -> type[Record] | None:
    """The record that a table of the job holds, once or repeated."""
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return annotation
    if get_origin(annotation) is tuple:
        return record_of(get_args(annotation)[0])
    return None


def tables() -> dict[str, type[Record]]:
    found = {}
    for name, info in Job.model_fields.items():
        record = record_of(info.annotation)
        if record is not None:
            found[name] = record
    return found


def keys_of_the_job() -> set[tuple[str, str]]:
    """Every key that a job file may have, but for those that only name a row."""
    keys = {("", name) for name in Job.model_fields if name not in tables()}
    for table, record in tables().items():
        keys |= {(table, key) for key in record.model_fields if key != ROW_KEYS.get(table)}
    return keys - NOT_ASKED


def test_every_key_of_a_job_is_declared_once_and_no_other() -> None:
    assert set(FIELDS) == keys_of_the_job()


def annotation_of(field: Field) -> Any:
    """What the record says of one key, its constraints included."""
    record = tables()[field.table] if field.table else Job
    info = record.model_fields[field.key]
    return Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation


def literals(annotation: Any) -> set[object]:
    if get_origin(annotation) is Literal:
        return set(get_args(annotation))
    if get_origin(annotation) in (Union, UnionType, Annotated):
        return set().union(*(literals(part) for part in get_args(annotation)))
    return set()


@pytest.mark.parametrize("field", FIELDS.values(), ids=lambda field: f"{field.table}.{field.key}")
def test_the_example_is_read_and_the_record_takes_it(field: Field) -> None:
    value = field.read(field.example)
    TypeAdapter(annotation_of(field), config=Record.model_config if False else None).validate_python(
        _frozen(value)
    )


@pytest.mark.parametrize("field", FIELDS.values(), ids=lambda field: f"{field.table}.{field.key}")
def test_fixed_options_are_those_of_the_record(field: Field) -> None:
    allowed = literals(annotation_of(field))
    if allowed and field.options:
        assert {option.value for option in field.options} == allowed


@pytest.mark.parametrize("field", FIELDS.values(), ids=lambda field: f"{field.table}.{field.key}")
def test_required_is_what_the_record_requires(field: Field) -> None:
    record = tables()[field.table] if field.table else Job
    needed = record.model_fields[field.key].is_required()
    # A place is measured one coordinate at a time: the record takes it half done, the plan asks for the rest.
    assert field.required == (needed or field.key in ("along", "out", "up"))


def _frozen(value: object) -> object:
    if isinstance(value, list):
        return tuple(_frozen(item) for item in value)
    return value


@pytest.mark.parametrize("field", FIELDS.values(), ids=lambda field: f"{field.table}.{field.key}")
def test_words_stand_for_everything_that_a_screen_shows(field: Field) -> None:
    assert field.label
    assert field.label[0].isupper()
    assert field.why.endswith((".", "?"))
    assert field.range
    assert len(field.label) <= 32


def outcome(field: Field, text: str) -> tuple[object, UnitError | None]:
    try:
        return field.read(text), None
    except UnitError as error:
        return None, error


def taken_by_the_record(field: Field, value: object) -> bool:
    try:
        TypeAdapter(annotation_of(field)).validate_python(_frozen(value))
    except ValidationError:
        return False
    return True


@given(text=st.text(max_size=60), key=st.sampled_from(sorted(FIELDS)))
def test_any_text_is_read_or_refused_in_words(text: str, key: tuple[str, str]) -> None:
    field = FIELDS[key]
    value, error = outcome(field, text)
    if error is not None:
        assert error.found
        assert error.allowed
    elif field.reads not in ("options", "option", "line"):
        # Only names that a sheet gives may still be refused by the record.
        assert taken_by_the_record(field, value)


@given(
    inches=st.floats(-3000, 3000).map(lambda value: f"{value:.3f} in"),
    key=st.sampled_from(sorted(key for key, field in FIELDS.items() if field.reads == "length")),
)
def test_a_length_within_range_is_taken_by_the_record(inches: str, key: tuple[str, str]) -> None:
    value, error = outcome(FIELDS[key], inches)
    assert error is not None or taken_by_the_record(FIELDS[key], value)


@pytest.mark.parametrize(
    ("key", "text", "found"),
    [
        (("site", "ceiling"), "8 in", "8 in"),
        (("site", "ceiling"), "9", "9 without a unit"),
        (("site", "ceiling"), "nan m", "nan m"),
        (("site", "tolerance"), "5 ft", "5 ft"),
        (("site", "waste"), "80 %", "80 %"),
        (("place", "along"), "1 km", "1 km"),
        (("run", "waypoint"), "1 ft, 2 ft", "1 ft, 2 ft"),
        (("raceway", "trade_size"), "7", "trade size 7"),
        (("raceway", "bend"), "900 deg", "900 deg"),
        (("raceway", "bend"), "90 deg, 6 in, 7 in", "90 deg, 6 in, 7 in"),
        (("circuit", "receptacle"), "15", "15 without a unit"),
        (("circuit", "receptacles"), "1.5", "1.5"),
        (("job", "name"), "a\u202eb", "a\\u202eb"),
        (("job", "code"), "2019", "2019"),
    ],
)
def test_slips_are_refused_naming_what_was_found(key: tuple[str, str], text: str, found: str) -> None:
    with pytest.raises(UnitError, match="allowed") as refusal:
        FIELDS[key].read(text)
    assert found in refusal.value.found


def test_a_share_needs_no_sign() -> None:
    assert FIELDS["site", "waste"].read("12.5") == "12.5 %"


def test_every_table_of_a_job_is_told_of_once() -> None:
    assert set(TABLES) == {table for table, _ in FIELDS}
    repeated = {table for table in TABLES if table in ROW_KEYS}
    assert repeated == {name for name, table in TABLES.items() if table.one}


def test_entries_with_a_tag_of_their_own_have_a_letter_of_their_own() -> None:
    letters = {name: table.letter for name, table in TABLES.items() if table.letter}
    assert set(letters) == {table for table, key in ROW_KEYS.items() if key == "tag"}
    assert len(set(letters.values())) == len(letters)


def test_fields_of_a_table_keep_their_order() -> None:
    assert [field.key for field in fields_of("place")][:3] == ["along", "out", "up"]


def test_a_field_is_frozen() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError, match="label"):
        FIELDS["site", "ceiling"].label = "x"  # type: ignore[misc]


@pytest.mark.parametrize("table", ["tested", "as_built", "acknowledged"])
def test_a_reading_is_no_ones_initials(table: str) -> None:
    with pytest.raises(UnitError, match="letters"):
        FIELDS[table, "initials"].read("118")
    assert FIELDS[table, "initials"].read(" RA ") == "RA"
