"""Turn what pydantic found wrong into mistakes that a person can mend: file, line, key, found, allowed."""

from __future__ import annotations

import difflib
from types import UnionType
from typing import TYPE_CHECKING, Annotated, Any, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from schedules.errors import InputError, Mistake
from schedules.files.toml_positions import TomlPath, dotted, line_of, positions
from schedules.text import printable

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from pydantic_core import ErrorDetails

Model = TypeVar("Model", bound=BaseModel)

_ALLOWED = {
    "missing": "this key is required",
    "string_type": "text in quotes",
    "bool_type": "true or false",
    "int_type": "a whole number",
    "float_type": "a number",
    "finite_number": "a finite number",
    "tuple_type": "a list in brackets",
    "model_type": "a table of keys",
    "model_attributes_type": "a table of keys",
    "dict_type": "a table of keys",
}

PATTERNS = {
    r"^[A-Z][A-Z0-9]{0,5}$": "a tag of 1 to 6 capital letters and digits, a letter first, such as X1",
    r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$": "a lower-case name with hyphens, such as gas-valve",
    r"^[A-Za-z0-9+\-./]{1,6}$": "a designation of 1 to 6 letters, digits or + - . /, such as PE or 13",
    r"^[A-Z][A-Z0-9]{0,5}:[A-Za-z0-9+\-./]{1,6}$": "a terminal as DEVICE:TERMINAL, such as X1:PE",
    r"^[A-Z][A-Z0-9]{0,5}\.[a-z][a-z0-9]*(-[a-z0-9]+)*$": "a load as DEVICE.load, such as M1.motor",
    r"^[a-z][a-z0-9_]*$": "a rule's name, such as range_circuit_min",
    r"^[1-9]x[1-9][0-9]?$": "a nominal lumber size, such as 2x4",
}
"""What each pattern of text is, in words."""


def validate(model: type[Model], data: Mapping[str, Any], file: str, text: str) -> Model:
    """Make a record of TOML data.

    Raises InputError with every mistake found, in file order.
    """
    try:
        return model.model_validate(_frozen(data))
    except ValidationError as error:
        found = [_mistake(item, model, data) for item in error.errors(include_url=False)]
        raise InputError(located(file, text, found)) from None


def located(file: str, text: str, found: Iterable[tuple[TomlPath, str, str]]) -> tuple[Mistake, ...]:
    """Give each (path, found, allowed) its line; a missing key takes its table's line."""
    found = tuple(found)
    lines = positions(text) if found else {}
    mistakes = [
        Mistake(file, line_of(lines, path), dotted(path), what, allowed) for path, what, allowed in found
    ]
    return tuple(sorted(mistakes, key=lambda item: (item.line or 0, item.key, item.allowed)))


def shown(value: object) -> str:
    """Show a found value in a message."""
    match value:
        case dict():
            return "a table"
        case list() | tuple():
            return "a list"
        case bool():
            return "true" if value else "false"
        case str():
            return f'"{printable(value)}"'
        case _:
            return printable(str(value))


def _frozen(value: object) -> Any:
    """Make tuples of lists: strict records hold nothing that can change."""
    if isinstance(value, dict):
        return {key: _frozen(item) for key, item in value.items()}
    if isinstance(value, list):
        return tuple(_frozen(item) for item in value)
    return value


def _mistake(
    error: ErrorDetails, model: type[BaseModel], data: Mapping[str, Any]
) -> tuple[TomlPath, str, str]:
    path = _real_path(error["loc"], data)
    kind = error["type"]
    if kind == "missing":
        return path, "nothing", _ALLOWED["missing"]
    if kind == "extra_forbidden":
        return path, "this key", _known_keys(model, path)
    return path, shown(error["input"]), _allowed(error)


def _allowed(error: ErrorDetails) -> str:
    kind = error["type"]
    context = error.get("ctx", {})
    if kind == "string_pattern_mismatch":
        return PATTERNS[str(context["pattern"])]
    if kind == "literal_error":
        return str(context["expected"]).replace("'", '"')
    if kind in ("union_tag_invalid", "union_tag_not_found"):
        return f"kind = one of {context.get('expected_tags', 'the kinds of element')}".replace("'", '"')
    return _ALLOWED.get(kind, error["msg"][:1].lower() + error["msg"][1:])


def _real_path(location: Sequence[str | int], data: object) -> TomlPath:
    """Leave out the steps that pydantic adds for unions and that are no keys of the file."""
    path: list[str | int] = []
    last = len(location) - 1
    for place, step in enumerate(location):
        match data, step:
            case dict(), str() if step in data:
                data = data[step]
            case list(), int() if step < len(data):
                data = data[step]
            case dict(), _ if place == last:
                pass
            case _:
                continue
        path.append(step)
    return tuple(path)


def _known_keys(model: type[BaseModel], path: TomlPath) -> str:
    names = sorted(_names(model, path[:-1]))
    close = difflib.get_close_matches(str(path[-1]), names, n=1)
    hint = f"did you mean {close[0]}? " if close else ""
    return f"{hint}one of {', '.join(names)}"


def _names(model: type[BaseModel], path: TomlPath) -> set[str]:
    models = {model}
    for step in path:
        if isinstance(step, int):
            continue
        models = {
            inner
            for outer in models
            for name, info in outer.model_fields.items()
            if step == (info.alias or name)
            for inner in models_in(info.annotation)
        }
    return {info.alias or name for outer in models for name, info in outer.model_fields.items()}


def models_in(annotation: object) -> set[type[BaseModel]]:
    """The records that a key's annotation speaks of."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return {annotation}
    if get_origin(annotation) in (tuple, Union, UnionType, Annotated):
        return {inner for argument in get_args(annotation) for inner in models_in(argument)}
    return set()
