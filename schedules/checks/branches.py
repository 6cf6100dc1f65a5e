"""Can each circuit carry what it feeds, and does its wire suit its breaker?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Finding, Severity
from schedules.tables import load, rule
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.circuits import CircuitNeed
    from schedules.derived import Derived


def check_branches(derived: Derived) -> Iterator[Finding]:
    """Check load against rating, conductor against breaker, and that the controls have a circuit of their own."""
    edition = str(derived.job.job.code)
    for need in derived.circuits:
        yield from _load(need, edition)
        yield from _conductor(need, edition)
    yield from _own_circuit(derived)


def _load(need: CircuitNeed, edition: str) -> Iterator[Finding]:
    circuit = need.circuit
    share = rule("device_continuous", edition)
    asked = need.drawn_a + need.continuous_a * (share.number / 100 - 1)
    if asked > circuit.rating:
        yield Finding(
            code="circuit-overloaded",
            severity=Severity.STOP,
            subject=circuit.tag,
            says=f"{circuit.tag} ({circuit.name}) is asked for {asked:.1f} A, its breaker is {circuit.rating:g} A",
            rule="a breaker carries the other load and the continuous load with its surcharge",
            source=share.source,
            numbers=(
                Input("load", f"{need.drawn_a:.2f} A", "plan"),
                Input("continuous part", f"{need.continuous_a:.2f} A", "plan"),
                Input("surcharge", f"{share.number:g} %", "table"),
            ),
        )


def _conductor(need: CircuitNeed, edition: str) -> Iterator[Finding]:
    """The thinnest conductor's 60 °C ampacity and the small-conductor limit are not below the breaker."""
    if need.conductor is None:
        return
    size, rating = need.conductor, need.circuit.rating
    table = load("nec_310_16_ampacity")
    cell = str(size).removesuffix(" AWG").removesuffix(" kcmil")
    row = table.row(cell)
    allowed = row.number("copper_60c_a") if row.has("copper_60c_a") else 0.0
    if allowed < rating:
        yield Finding(
            code="conductor-thin",
            severity=Severity.STOP,
            subject=need.circuit.tag,
            says=f"{need.circuit.tag} has {size}, good for {allowed:g} A, behind a {rating:g} A breaker",
            rule="a breaker is not rated above what its thinnest conductor may carry",
            source=table.source(row, "copper_60c_a", edition),
            numbers=(Input("conductor", str(size), "sheet"), Input("breaker", f"{rating:g} A", "sheet")),
        )


def _own_circuit(derived: Derived) -> Iterator[Finding]:
    effects = {item.id: item.kind for item in derived.sheet.effect}
    for need in derived.circuits:
        if need.circuit.serves != "controls" or not need.circuit.individual:
            continue
        foreign = [key for key in need.feeds if _effect(derived, key, effects) == "cooking"]
        if foreign:
            yield Finding(
                code="controls-not-alone",
                severity=Severity.STOP,
                subject=need.circuit.tag,
                says=f"the controls' circuit {need.circuit.tag} also feeds {', '.join(foreign)}",
                rule="the controls have a circuit of their own",
                source=Source("controls on an individual circuit", Confidence.COMMON_PRACTICE),
            )


def _effect(derived: Derived, key: str, effects: Mapping[str, str]) -> str:
    spec = derived.connections.inside[key].spec
    return effects[spec.effect] if spec is not None and spec.kind == "load" else ""
