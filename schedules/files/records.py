"""The strict, frozen record that sheets and jobs are made of, and the kinds of text in it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, StringConstraints, WithJsonSchema
from pydantic_core import PydanticCustomError

from schedules.quantities.sizes import TradeSize, WireSize, parse_trade_size, parse_wire_size
from schedules.quantities.units import Dimension, UnitError, parse_length, parse_quantity
from schedules.text import refuse_hostile

if TYPE_CHECKING:
    from collections.abc import Callable
from datetime import date


class Record(BaseModel):
    """A table of an input file: unknown keys, wrong types and later changes are refused."""

    model_config = ConfigDict(strict=True, frozen=True, extra="forbid", arbitrary_types_allowed=True)


Tag = Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Z0-9]{0,5}$")]
"""What stands on the paper and on the thing: `H`, `X1`, `Q12`."""

Slug = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$", max_length=40)]
"""A name inside files: `gas-valve`."""

PinName = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9+\-./]{1,6}$")]
"""A terminal's designation on its device, IEC 60445 where it applies: `L`, `PE`, `13`."""

Reference = Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Z0-9]{0,5}:[A-Za-z0-9+\-./]{1,6}$")]
"""One terminal: `DEVICE:TERMINAL`."""

Paragraph = Annotated[str, StringConstraints(min_length=1, max_length=2000, strip_whitespace=True)]


def refuse(allowed: str) -> PydanticCustomError:
    """Make the error that a validator raises; `allowed` says in words what may stand there."""
    return PydanticCustomError("refused", "{allowed}", {"allowed": allowed})


def _one_line(text: str) -> str:
    if refuse_hostile(text) is not None:
        raise refuse("one line of text")
    return text


def _written(parse: Callable[[str], object], example: str) -> BeforeValidator:
    """Read a quantity from text; the unit always stands beside the number."""

    def read(value: object) -> object:
        if not isinstance(value, str):
            raise refuse(f"text with its unit, such as {example}")
        try:
            return parse(value)
        except UnitError as error:
            raise refuse(error.allowed) from error

    return BeforeValidator(read)


def _parse_day(text: str) -> date:
    try:
        return date.fromisoformat(text.strip())
    except ValueError as error:
        raise refuse("a day as year-month-day, such as 2026-03-14") from error


def _quantity(dimension: Dimension, example: str) -> BeforeValidator:
    return _written(lambda text: parse_quantity(text, dimension), example)


def _nonnegative(value: float) -> float:
    if value < 0:
        raise refuse("zero or more")
    return value


def _text_schema(example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": [example]})


def _positive(parse: Callable[[str], float], example: str) -> BeforeValidator:
    def read(text: str) -> float:
        value = parse(text)
        if value <= 0:
            raise refuse(f"more than zero, such as {example}")
        return value

    return _written(read, example)


def _amount(dimension: Dimension, example: str) -> BeforeValidator:
    return _positive(lambda text: parse_quantity(text, dimension), example)


Line = Annotated[
    str, StringConstraints(min_length=1, max_length=120, strip_whitespace=True), AfterValidator(_one_line)
]

Coordinate = Annotated[float, _written(parse_length, "8' 3-1/2\""), _text_schema("8' 3-1/2\"")]
"""A measured coordinate [in], may be negative."""

Length = Annotated[float, _positive(parse_length, "10 ft"), _text_schema("10 ft")]
"""A length [in], more than zero."""

Allowance = Annotated[
    float, _written(lambda text: _nonnegative(parse_length(text)), "6 in"), _text_schema("6 in")
]
"""A length [in], zero or more."""

Temperature = Annotated[
    float,
    _written(lambda text: parse_quantity(text, Dimension.TEMPERATURE), "30 C"),
    _text_schema("30 C"),
]
"""A temperature [C], may be below zero."""

Torque = Annotated[float, _amount(Dimension.TORQUE, "12 lbf.in"), _text_schema("12 lbf.in")]
Voltage = Annotated[float, _amount(Dimension.VOLTAGE, "120 V"), _text_schema("120 V")]
Current = Annotated[float, _amount(Dimension.CURRENT, "15 A"), _text_schema("15 A")]
Power = Annotated[float, _amount(Dimension.POWER, "40 W"), _text_schema("40 W")]
ApparentPower = Annotated[float, _amount(Dimension.APPARENT_POWER, "20 VA"), _text_schema("20 VA")]
Resistance = Annotated[float, _amount(Dimension.RESISTANCE, "4.7 kohm"), _text_schema("4.7 kohm")]
Duration = Annotated[float, _amount(Dimension.TIME, "10 s"), _text_schema("10 s")]
Volume = Annotated[float, _amount(Dimension.VOLUME, "21 cu in"), _text_schema("21 cu in")]

Area = Annotated[float, _amount(Dimension.AREA, "250 sq in"), _text_schema("250 sq in")]
Mass = Annotated[float, _amount(Dimension.MASS, "90 lb"), _text_schema("90 lb")]
Pressure = Annotated[float, _amount(Dimension.PRESSURE, "0.5 in wc"), _text_schema("0.5 in wc")]
HeatRate = Annotated[float, _amount(Dimension.HEAT_RATE, "65000 Btu/h"), _text_schema("65000 Btu/h")]
Airflow = Annotated[float, _amount(Dimension.AIRFLOW, "600 cfm"), _text_schema("600 cfm")]

AirflowOrNone = Annotated[
    float,
    _written(lambda text: _nonnegative(parse_quantity(text, Dimension.AIRFLOW)), "0 cfm"),
    _text_schema("0 cfm"),
]
"""An airflow [cfm], zero or more."""

PressureOrNone = Annotated[
    float,
    _written(lambda text: _nonnegative(parse_quantity(text, Dimension.PRESSURE)), "0 in wg"),
    _text_schema("0 in wg"),
]
"""A pressure [in wg], zero or more."""

Day = Annotated[date, _written(_parse_day, "2026-03-14"), _text_schema("2026-03-14")]
"""A calendar day, year-month-day."""

Percent = Annotated[
    float,
    _written(lambda text: _nonnegative(parse_quantity(text, Dimension.RATIO)), "10 %"),
    _text_schema("10 %"),
]
"""A share [%], zero or more."""

Angle = Annotated[float, _amount(Dimension.ANGLE, "90 deg"), _text_schema("90 deg")]

Size = Annotated[WireSize, _written(parse_wire_size, "14 AWG"), _text_schema("14 AWG")]
Trade = Annotated[TradeSize, _written(parse_trade_size, "1-1/4"), _text_schema("1-1/4")]
