"""Every label: both ends of each conductor and cable, each enclosure, each breaker."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from schedules.rows.circuits import circuits
from schedules.rows.schedule import Column, Schedule
from schedules.rows.terminations import conductors, spares

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.plan import Plan

Use = Literal["wire", "plate"]
"""What a label sticks on: round a wire, its text repeated, or flat on a cable's tag, a box, a panel."""


@dataclass(frozen=True, slots=True)
class LabelRow:
    """One label. kind: what it marks. at: the enclosure at which it is put on. lines: its text, the first one large."""

    kind: str
    use: Use
    at: str
    lines: tuple[str, ...]


def labels(plan: Plan) -> Schedule[LabelRow]:
    """One row per label, enclosure by enclosure: wires, spares, cables, then the plate of the enclosure itself."""
    order = {item.tag: place for place, item in enumerate(plan.derived.selection.enclosures)}
    rows = (*_wires(plan), *_spares(plan), *_cables(plan), *_plates(plan), *_breakers(plan))
    return Schedule(
        id="labels",
        title="Labels",
        columns=(
            Column("at", "At", lambda row: row.at),
            Column("kind", "For", lambda row: row.kind),
            Column("line", "Text", lambda row: " / ".join(row.lines)),
        ),
        rows=tuple(sorted(rows, key=lambda row: order[row.at])),
        enclosures=lambda row: (row.at,),
        note="A wire's text is repeated round it, so that it is read from any side.",
    )


def _wires(plan: Plan) -> Iterator[LabelRow]:
    for row in conductors(plan).rows:
        yield LabelRow("wire end", "wire", row.from_enclosure, (row.from_label,))
        yield LabelRow("wire end", "wire", row.to_enclosure, (row.to_label,))


def _spares(plan: Plan) -> Iterator[LabelRow]:
    for row in spares(plan).rows:
        for here, there in (
            (row.from_enclosure, row.to_enclosure),
            (row.to_enclosure, row.from_enclosure),
        ):
            yield LabelRow("spare end", "wire", here, (f"{row.number} spare, to {there}",))


def _cables(plan: Plan) -> Iterator[LabelRow]:
    for cable in plan.derived.selection.cables:
        a, b = cable.origin.enclosure, cable.target.enclosure
        for here, there in ((a, b), (b, a)):
            circuit = f", circuit {cable.circuit}" if cable.circuit else ""
            yield LabelRow(
                "cable end", "plate", here, (f"{cable.tag} to {there}", cable.name, f"{cable.type}{circuit}")
            )


def _plates(plan: Plan) -> Iterator[LabelRow]:
    """The enclosure's plate names every circuit that may be live inside, so that all of them are switched off."""
    by_cable = {cable.tag: cable.circuit for cable in plan.derived.selection.cables}
    connections = plan.derived.connections
    for enclosure in plan.derived.selection.enclosures:
        inside = {
            by_cable[item.cable]
            for item in connections.conductors.values()
            if enclosure.tag
            in (connections.landings[item.a].enclosure, connections.landings[item.b].enclosure)
        }
        live = ", ".join(sorted(tag for tag in inside if tag is not None))
        if inside and enclosure.kind != "panel":
            said = f"Switch off {live} and every other supply; test dead" if live else "Test dead"
            yield LabelRow("enclosure", "plate", enclosure.tag, (enclosure.tag, enclosure.name, said))


def _breakers(plan: Plan) -> Iterator[LabelRow]:
    panels = [item.tag for item in plan.derived.selection.enclosures if item.kind == "panel"]
    for row in circuits(plan).rows if panels else ():
        yield LabelRow("breaker", "plate", panels[0], (f"{row.circuit} {row.breaker}", row.name))
