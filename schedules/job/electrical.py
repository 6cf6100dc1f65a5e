"""Job tables of what this kitchen changes in the wiring: circuits, nameplates, cables together, local amendments."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints, ValidationInfo, field_validator

from schedules.files.records import Current, Length, Line, Power, Record, Tag, refuse
from schedules.sheet.hardware import Appliance
from schedules.sheet.wiring import Feed

BreakerType = Literal["standard", "GFCI", "AFCI", "AFCI and GFCI"]

Means = Literal["lockable breaker", "breaker in sight", "switch in sight"]
"""How something wired in is disconnected from its supply."""

LoadKey = Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Z0-9]{0,5}\.[a-z][a-z0-9]*(-[a-z0-9]+)*$")]
"""One load: `DEVICE.load`."""

RuleName = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$", max_length=60)]
"""Our name for a rule of a code, as the working of a number shows it."""


class CircuitChange(Feed):
    """What this panel does differently for one circuit.

    downstream_of: taken from the load side of that breaker. breaker_type: what is planned or already there.
    gfci_receptacle: its receptacle has the ground-fault protection, not the breaker. extends: length by which an
    existing circuit is only extended, without new outlets [in]. disconnect: what disconnects what is wired in on it.
    """

    circuit: Tag
    downstream_of: Tag | None = None
    spaces: Line | None = None
    directory: Line | None = None
    breaker_type: BreakerType | None = None
    gfci_receptacle: bool = False
    extends: Length | None = None
    disconnect: Means | None = None

    @field_validator("downstream_of")
    @classmethod
    def _another_circuit(cls, value: str | None, info: ValidationInfo) -> str | None:
        if value is not None and value == info.data.get("circuit"):
            raise refuse("another circuit than itself")
        return value


class Nameplate(Record):
    """What the thing that was bought says of itself, in place of the sheet's figure: power [W] or current [A]."""

    load: LoadKey
    power: Power | None = None
    current: Current | None = None
    appliance: Appliance | None = None


class Bundle(Record):
    """Cables that lie together, without air between them, over a length [in]."""

    tag: Tag
    cables: Annotated[tuple[Tag, ...], Field(min_length=2)]
    length: Length


class AmendedRule(Record):
    """A local amendment: another number for one rule, in that rule's unit. source: where it is published."""

    rule: RuleName
    number: float
    unit: Line
    source: Line
