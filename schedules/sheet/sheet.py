"""The whole equipment sheet as one frozen record."""

from __future__ import annotations

from typing import Literal

from schedules.files.records import Line, Paragraph, Record, Slug
from schedules.sheet.behaviour import Effect, Promise, Signal, State
from schedules.sheet.choices import Choice, Group, Part
from schedules.sheet.hardware import Clamp, Connector, Device, Enclosure, Opening
from schedules.sheet.hood import Fan, GasValve, Hood
from schedules.sheet.wiring import Cable, Circuit, FactoryWire


class Title(Record):
    """What identifies the sheet on every page."""

    id: Slug
    name: Line
    revision: Line
    source: Paragraph
    cautions: tuple[Paragraph, ...] = ()


class Sheet(Record):
    """One hood family. `format` is the version of this file format."""

    format: Literal[1]
    sheet: Title
    group: tuple[Group, ...]
    part: tuple[Part, ...] = ()
    enclosure: tuple[Enclosure, ...]
    opening: tuple[Opening, ...]
    clamp: tuple[Clamp, ...]
    connector: tuple[Connector, ...] = ()
    device: tuple[Device, ...]
    circuit: tuple[Circuit, ...]
    cable: tuple[Cable, ...]
    factory_wire: tuple[FactoryWire, ...] = ()
    signal: tuple[Signal, ...]
    effect: tuple[Effect, ...]
    state: tuple[State, ...] = ()
    promise: tuple[Promise, ...] = ()
    hood: Hood | None = None
    fan: tuple[Fan, ...] = ()
    gas_valve: tuple[GasValve, ...] = ()

    @property
    def choices(self) -> tuple[Choice, ...]:
        """Every choice of every group, in sheet order."""
        return tuple(choice for group in self.group for choice in group.choice)
