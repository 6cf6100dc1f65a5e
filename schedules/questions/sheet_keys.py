"""What is known of each key of an equipment sheet before it is written: label, why, and what may stand there."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import UnionType
from typing import TYPE_CHECKING, Annotated, Any, Literal, Union, get_args, get_origin

from schedules.files.condition import Condition
from schedules.files.records import Record
from schedules.files.validation import PATTERNS, models_in
from schedules.questions.field import YES_NO, Option
from schedules.sheet.sheet import Sheet
from schedules.sheet.sheet_tables import TABLES

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pydantic.fields import FieldInfo

    from schedules.files.toml_positions import TomlPath

Shape = Literal["text", "whole", "number", "names", "one", "several", "condition"]
"""What the file holds: a text or figure, a list of names, a table, a list of tables, a table that says when."""

_WHOLE = re.compile(r"-?[0-9]{1,9}")
_DECIMAL = re.compile(r"-?[0-9]{1,9}(?:\.[0-9]{1,9})?")
_WORDS = Path(__file__).parents[1] / "sheet" / "keys.csv"


@dataclass(frozen=True, slots=True)
class SheetKey:
    """One key of one record of a sheet.

    names: what the names in it are names of, empty where it holds none. records: what tables it holds. example: as an
    editor would show it. allowed: how a text must be formed. options: the answers that the format itself gives.
    """

    key: str
    label: str
    why: str
    shape: Shape
    required: bool
    names: str = ""
    records: tuple[type[Record], ...] = ()
    example: str = ""
    allowed: str = ""
    options: tuple[Option, ...] = ()

    def read(self, text: str) -> object:
        """What the file holds for a typed text. What can't be read that way stays text, for the format to refuse."""
        typed = text.strip()
        match self.shape:
            case "whole" if _WHOLE.fullmatch(typed):
                return int(typed)
            case "number" if _DECIMAL.fullmatch(typed):
                return float(typed)
            case "names":
                return [name.strip() for name in typed.split(";") if name.strip()]
        return typed


def keys_of(record: type[Record], names: str = "") -> tuple[SheetKey, ...]:
    """The keys of a record, in the order in which a person fills them. names: what a condition's names are."""
    words = _words()[record.__name__]
    infos = {info.alias or name: info for name, info in record.model_fields.items()}
    return tuple(_key(key, infos[key], words[key], names) for key in words)


def record_at(document: Mapping[str, Any], path: TomlPath) -> type[Record] | None:
    """What record an entry is, or would be; None where its kind isn't said yet or the path leads to no table."""
    return _records_on(document, path)[-1]


def key_at(document: Mapping[str, Any], path: TomlPath) -> SheetKey | None:
    """The key at the end of a path; None where it leads to an entry of a list or to nothing known."""
    record = record_at(document, path[:-1]) if path and isinstance(path[-1], str) else None
    if record is None:
        return None
    return next((key for key in keys_at(document, path[:-1]) if key.key == path[-1]), None)


def keys_at(document: Mapping[str, Any], path: TomlPath) -> tuple[SheetKey, ...]:
    """The keys of the entry at a path. Those of a condition hold names of whatever the key that it stands for says."""
    record = record_at(document, path)
    if record is None:
        return ()
    around = key_at(document, path) if record is Condition else None
    return keys_of(record, "" if around is None else around.names)


def kinds_of(key: SheetKey) -> tuple[Option, ...]:
    """Where entries of a list are of several kinds: which there are; empty where there is but one."""
    if len(key.records) < 2:
        return ()
    said = ((record, get_args(record.model_fields["kind"].annotation)[0]) for record in key.records)
    return tuple(Option(kind, kind, _words()[record.__name__]["kind"][1]) for record, kind in said)


def _records_on(document: Mapping[str, Any], path: TomlPath) -> list[type[Record] | None]:
    """The record at each place of a path, the sheet itself first."""
    on_the_way: list[type[Record] | None] = [Sheet]
    here: Any = document
    key: tuple[type[Record], ...] = ()
    for step in path:
        here = _step_into(here, step)
        if isinstance(step, str):
            around = on_the_way[-1]
            info = None if around is None else _info(around, step)
            key = () if info is None else _records(info)
        on_the_way.append(_of_kind(key, here))
    return on_the_way


def _step_into(here: Any, step: str | int) -> Any:
    match here, step:
        case dict(), str():
            return here.get(step)
        case list(), int() if step < len(here):
            return here[step]
    return None


def _of_kind(records: tuple[type[Record], ...], entry: Any) -> type[Record] | None:
    """Which of several records an entry is, by its kind."""
    if len(records) == 1:
        return records[0]
    kind = entry.get("kind") if isinstance(entry, dict) else None
    return next(
        (item for item in records if kind in get_args(item.model_fields["kind"].annotation)),
        None,
    )


def _info(record: type[Record], key: str) -> FieldInfo | None:
    return next((info for name, info in record.model_fields.items() if (info.alias or name) == key), None)


def _key(key: str, info: FieldInfo, words: tuple[str, str, str], of_condition: str) -> SheetKey:
    label, why, names = words
    records = _records(info)
    return SheetKey(
        key=key,
        label=label,
        why=why,
        shape=_shape(info, records),
        required=info.is_required(),
        names=of_condition if names == "*" else names,
        records=records,
        example=_example(info),
        allowed=_allowed(info),
        options=tuple(_options(info.annotation)),
    )


def _records(info: FieldInfo) -> tuple[type[Record], ...]:
    return tuple(
        sorted(
            (model for model in models_in(info.annotation) if issubclass(model, Record)),
            key=lambda model: list(_words()).index(model.__name__),
        )
    )


def _shape(info: FieldInfo, records: tuple[type[Record], ...]) -> Shape:
    several = tuple in {get_origin(part) for part in _parts(info.annotation)}
    if records == (Condition,):
        return "condition"
    if records:
        return "several" if several else "one"
    if several:
        return "names"
    plain = set(_parts(info.annotation))
    if int in plain:
        return "whole"
    return "number" if float in plain and not _example(info) else "text"


def _parts(annotation: object) -> Iterator[object]:
    """A type and, where it is one of several, each of them."""
    yield annotation
    if get_origin(annotation) in (Union, UnionType):
        for argument in get_args(annotation):
            yield from _parts(argument)
    elif get_origin(annotation) is Annotated:
        yield from _parts(get_args(annotation)[0])


def _options(annotation: object) -> Iterator[Option]:
    """The answers that a type lets a person choose from."""
    for part in _parts(annotation):
        if part is bool:
            yield from YES_NO
        elif get_origin(part) is Literal:
            yield from (Option(value, str(value)) for value in get_args(part))
        elif get_origin(part) is tuple:
            yield from _options(get_args(part)[0])


def _example(info: FieldInfo) -> str:
    """How a quantity may be written, as the record itself gives it."""
    schemas = (getattr(item, "json_schema", None) for item in _metadata(info))
    return next((str(schema["examples"][0]) for schema in schemas if schema and "examples" in schema), "")


def _allowed(info: FieldInfo) -> str:
    """How a tag, a name or a designation must be formed, in words."""
    patterns = (getattr(item, "pattern", None) for item in _metadata(info))
    return next((PATTERNS[str(pattern)] for pattern in patterns if pattern), "")


def _metadata(info: FieldInfo) -> Iterator[Any]:
    """All that a key's type says beside the type itself."""
    yield from info.metadata
    for part in _parts(info.annotation):
        yield from getattr(part, "__metadata__", ())


@cache
def _words() -> dict[str, dict[str, tuple[str, str, str]]]:
    """Label, why and what is named, by record and key, in the file's order."""
    words = {Sheet.__name__: {table.name: (table.title, table.why, "") for table in TABLES.values()}}
    with _WORDS.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            words.setdefault(row["record"], {})[row["key"]] = (row["label"], row["why"], row["names"])
    return words
