"""Every answer that a job asks for, declared once, in the order in which it is asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.questions.acknowledged_fields import ACKNOWLEDGED
from schedules.questions.air_fields import AIR
from schedules.questions.building_fields import BOX, FRAMING
from schedules.questions.cable_fields import AS_BUILT, BUNDLE, PLACE, RACEWAY, RUN
from schedules.questions.circuit_fields import AMENDMENT, CIRCUIT, NAMEPLATE
from schedules.questions.duct_fields import DUCT, FITTING
from schedules.questions.gas_fields import GAS
from schedules.questions.kitchen_fields import CABINET, COOKING_RANGE, KEEP_OUT, ROUTING, STOCK, WALL
from schedules.questions.mounting_fields import MOUNTING, SPACE, STUD
from schedules.questions.room_fields import CHOICES, SITE, TITLE
from schedules.questions.tested_fields import TESTED
from schedules.questions.work_fields import STEP, WORK

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.questions.field import Field

_TABLES = (
    TITLE,
    CHOICES,
    SITE,
    WALL,
    CABINET,
    KEEP_OUT,
    COOKING_RANGE,
    ROUTING,
    PLACE,
    RUN,
    RACEWAY,
    BUNDLE,
    STOCK,
    BOX,
    FRAMING,
    CIRCUIT,
    NAMEPLATE,
    AMENDMENT,
    AS_BUILT,
    ACKNOWLEDGED,
    TESTED,
    MOUNTING,
    STUD,
    SPACE,
    DUCT,
    FITTING,
    AIR,
    GAS,
    WORK,
    STEP,
)

FIELDS: Mapping[tuple[str, str], Field] = {
    (field.table, field.key): field for table in _TABLES for field in table
}


def fields_of(table: str) -> Iterator[Field]:
    """The fields of one table, in the order in which they are asked."""
    return (field for field in FIELDS.values() if field.table == table)
