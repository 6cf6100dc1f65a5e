"""Can the gas be shut off by hand and by fire, and does enough of it reach the range?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.answers import Verdict, reaches, resting_on, rule_input
from schedules.practice import practice
from schedules.quantities.lengths import format_length
from schedules.tables import Adopted, load, rule
from schedules.working import Confidence, Input, Source, Working

_RULES = "ifgc_rules"
_PIPES = "gas_pipe"
_GASES = "gas_properties"
_IN_PER_FT = 12
_IN_WC_PER_PSI = 27.7
_ATMOSPHERE_PSI = 14.7
_STANDARD_RANKINE = 520.0
_VALVE_CONSTANT = 1360.0
_HALVINGS = 60

_SIZING = Source("IFGC 2018 402.4.1 equation 4-1", Confidence.MEMORY)
_VALVE = Source(
    "control valve equation for small gas drops, compared with the fluids library", Confidence.MEMORY
)


@dataclass(frozen=True, slots=True)
class Drop:
    """A pressure that is lost [in wc]."""

    drop_in_wc: float
    working: Working


@dataclass(frozen=True, slots=True)
class Capacity:
    """How much gas a pipe brings [cfh]."""

    flow_cfh: float
    working: Working


@dataclass(frozen=True, slots=True)
class GasPath:
    """From the meter to the range: what pipe and fire valve lose of the allowed drop [in wc]."""

    flow_cfh: float
    pipe: Drop
    valve: Drop | None
    allowed_in_wc: float
    working: Working

    @property
    def lost_in_wc(self) -> float:
        """Everything that is lost [in wc]."""
        return self.pipe.drop_in_wc + (self.valve.drop_in_wc if self.valve is not None else 0.0)

    @property
    def enough(self) -> bool:
        """Whether no more than the allowed drop is lost."""
        return reaches(self.allowed_in_wc, self.lost_in_wc)


def shutoff(distance_in: float, *, same_room: bool, upstream: bool, edition: str | Adopted) -> Verdict:
    """Whether the manual shutoff is near enough, IFGC 409.5.1.

    distance_in: from the appliance [in]. upstream: before the union or connector. Raises ValueError for a negative
    distance, LookupError for an unknown edition.
    """
    if distance_in < 0:
        raise ValueError(f"a distance is 0 or more, not {distance_in:g} in")
    within = rule("shutoff_within", edition, _RULES)
    breaches = []
    if not reaches(within.number * _IN_PER_FT, distance_in):
        breaches.append(f"{format_length(distance_in)} away, at most {within.number:g} ft")
    if not same_room:
        breaches.append("in another room")
    if not upstream:
        breaches.append("not before the connector")
    return Verdict(
        not breaches,
        tuple(breaches),
        Working(
            name="manual gas shutoff",
            formula=within.words,
            inputs=(
                Input("distance", format_length(distance_in), "job"),
                Input("same room", "yes" if same_room else "no", "job"),
                rule_input(within),
            ),
            result="within reach" if not breaches else "; ".join(breaches),
            source=within.source,
            note=within.note,
        ),
    )


def connector(length_in: float, *, concealed: bool, edition: str | Adopted) -> Verdict:
    """Whether the gas connector may be so, IFGC 411.1.3: its length [in], and nowhere concealed.

    Raises ValueError for a length that is not above zero, LookupError for an unknown edition.
    """
    if length_in <= 0:
        raise ValueError(f"a connector's length is above 0, not {length_in:g} in")
    most, hidden = rule("connector_length", edition, _RULES), rule("connector_not_concealed", edition, _RULES)
    breaches = []
    if not reaches(most.number * _IN_PER_FT, length_in):
        breaches.append(f"{format_length(length_in)} long, at most {most.number:g} ft")
    if concealed:
        breaches.append("concealed in, or run through, wall, floor, ceiling or housing")
    return Verdict(
        not breaches,
        tuple(breaches),
        Working(
            name="gas connector",
            formula="one connector, no longer than the code has it, nowhere concealed",
            inputs=(
                Input("length", format_length(length_in), "job"),
                rule_input(most),
                Input(hidden.words, "", str(hidden.source)),
            ),
            result="allowed" if not breaches else "; ".join(breaches),
            source=resting_on(most.source.citation, most.source, hidden.source),
            note=most.note,
        ),
    )


def fire_valve(*, normally: str, reset: str, downstream_of_manual: bool, edition: str | Adopted) -> Verdict:
    """Whether the electric valve shuts by itself and opens by hand only.

    normally: `closed` or `open`, where it stands without power. reset: `manual` or `automatic`. Raises ValueError for
    another word, LookupError for an unknown edition.
    """
    if normally not in ("closed", "open") or reset not in ("manual", "automatic"):
        raise ValueError(f"closed or open, manual or automatic; not {normally!r}, {reset!r}")
    by_hand = rule("fire_valve_reset", edition, _RULES)
    breaches = []
    if normally == "open":
        breaches.append("it stays open when its wire breaks or the power fails")
    if reset == "automatic":
        breaches.append("gas returns by itself")
    if not downstream_of_manual:
        breaches.append("it stands before the manual shutoff, so it can't be served with the gas off")
    return Verdict(
        not breaches,
        tuple(breaches),
        Working(
            name="gas valve of the fire shutoff",
            formula="closed without power, opened again by hand only, between manual shutoff and connector",
            inputs=(
                Input("without power", normally, "sheet"),
                Input("reset", reset, "sheet"),
                Input(by_hand.words, "", str(by_hand.source)),
            ),
            result="as it should be" if not breaches else "; ".join(breaches),
            source=by_hand.source,
            note=by_hand.note,
        ),
    )


def gas_flow(energy_btu_h: float, gas: str) -> float:
    """Volume of gas that brings this energy rate [cfh], by the table's heating value [Btu/h].

    Raises ValueError for a rate that is not above zero, LookupError for another gas.
    """
    if energy_btu_h <= 0:
        raise ValueError(f"an energy rate is above 0, not {energy_btu_h:g} Btu/h")
    return energy_btu_h / load(_GASES).row(gas).number("heating_value_btu_cu_ft")


def specific_gravity(gas: str) -> float:
    """Weight of a gas over that of air. Raises LookupError for another gas."""
    return load(_GASES).row(gas).number("specific_gravity")


def pipe_length(nominal: str, straight_in: float, *, elbows: int, tees: int, full_bore_valves: int) -> float:
    """Length of schedule 40 pipe with what its fittings add [in]. Raises LookupError for a size not carried."""
    row = load(_PIPES).row(nominal)
    feet = (
        elbows * row.number("elbow_ft")
        + tees * row.number("tee_ft")
        + full_bore_valves * row.number("full_bore_valve_ft")
    )
    return straight_in + feet * _IN_PER_FT


def inside_diameter(nominal: str) -> float:
    """Inside diameter of schedule 40 pipe [in]. Raises LookupError for a size not carried."""
    return load(_PIPES).row(nominal).number("inside_diameter_in")


def pipe_capacity(inside_diameter_in: float, length_in: float, drop_in_wc: float, gas: str) -> Capacity:
    """Gas that a low-pressure pipe brings [cfh], IFGC 402.4.1: D = Q^0.381 / (19.17 (ΔH / (Cr L))^0.206).

    length_in: with fittings [in]. drop_in_wc: that may be lost [in wc]. Raises ValueError for a figure that is not
    above zero, LookupError for another gas.
    """
    if min(inside_diameter_in, length_in, drop_in_wc) <= 0:
        raise ValueError("diameter, length and drop are above 0")
    table = load(_GASES)
    row = table.row(gas)
    factor = row.number("sizing_factor")
    slope = drop_in_wc / (factor * length_in / _IN_PER_FT)
    flow = math.pow(19.17 * inside_diameter_in * math.pow(slope, 0.206), 1 / 0.381)
    return Capacity(
        flow,
        Working(
            name="gas that the pipe brings",
            formula="Q = (19.17 · D · (ΔH / (Cr · L))^0.206)^(1/0.381), under 1.5 psi",
            inputs=(
                Input("inside diameter", f"{inside_diameter_in:g} in"),
                Input("length with fittings", f"{length_in / _IN_PER_FT:.1f} ft"),
                Input("pressure drop", f"{drop_in_wc:g} in wc"),
                Input("Cr", f"{factor:g}", str(table.source(row, "sizing_factor"))),
            ),
            result=f"{flow:.0f} cfh",
            source=_SIZING,
        ),
    )


def pipe_drop(inside_diameter_in: float, length_in: float, flow_cfh: float, gas: str) -> Drop:
    """Pressure lost in a low-pressure pipe [in wc]: the same equation, solved for it.

    Raises ValueError for a figure that is not above zero, LookupError for another gas.
    """
    if min(inside_diameter_in, length_in, flow_cfh) <= 0:
        raise ValueError("diameter, length and flow are above 0")
    table = load(_GASES)
    row = table.row(gas)
    factor = row.number("sizing_factor")
    drop = (
        math.pow(math.pow(flow_cfh, 0.381) / (19.17 * inside_diameter_in), 1 / 0.206)
        * factor
        * length_in
        / _IN_PER_FT
    )
    return Drop(
        drop,
        Working(
            name="pressure lost in the gas pipe",
            formula="ΔH = Cr · L · (Q^0.381 / (19.17 · D))^(1/0.206), under 1.5 psi",
            inputs=(
                Input("flow", f"{flow_cfh:.1f} cfh"),
                Input("inside diameter", f"{inside_diameter_in:g} in"),
                Input("length with fittings", f"{length_in / _IN_PER_FT:.1f} ft"),
                Input("Cr", f"{factor:g}", str(table.source(row, "sizing_factor"))),
            ),
            result=f"{drop:.3f} in wc",
            source=_SIZING,
        ),
    )


def valve_flow(cv: float, drop_in_wc: float, *, inlet_in_wc: float, specific_gravity: float) -> float:
    """Gas through a valve [cfh] at a small drop: 1360 · Cv · √(ΔP · P2 / (S · T)), psi absolute and °R at 60 °F.

    Raises ValueError for a figure that is not above zero or a drop beyond the inlet's pressure.
    """
    if min(cv, specific_gravity, inlet_in_wc) <= 0 or not 0 <= drop_in_wc <= inlet_in_wc:
        raise ValueError("Cv, gravity and inlet pressure are above 0, the drop at most the inlet's pressure")
    outlet_psi = _ATMOSPHERE_PSI + (inlet_in_wc - drop_in_wc) / _IN_WC_PER_PSI
    drop_psi = drop_in_wc / _IN_WC_PER_PSI
    return _VALVE_CONSTANT * cv * math.sqrt(drop_psi * outlet_psi / (specific_gravity * _STANDARD_RANKINE))


def least_cv(flow_cfh: float, drop_in_wc: float, *, inlet_in_wc: float, specific_gravity: float) -> float:
    """The least Cv with which a valve passes a flow [cfh] at a drop [in wc]: the flow grows in proportion to it.

    Raises ValueError for a figure that is not above zero or a drop beyond the inlet's pressure.
    """
    if min(flow_cfh, drop_in_wc) <= 0:
        raise ValueError(f"flow and drop are above 0, not {flow_cfh:g} cfh and {drop_in_wc:g} in wc")
    return flow_cfh / valve_flow(1.0, drop_in_wc, inlet_in_wc=inlet_in_wc, specific_gravity=specific_gravity)


def valve_drop(cv: float, flow_cfh: float, *, inlet_in_wc: float, specific_gravity: float) -> Drop:
    """Pressure lost in a valve [in wc]: the small-drop valve equation, solved for it.

    Raises ValueError for a figure that is not above zero, or where the valve can't pass the flow at all.
    """
    if flow_cfh <= 0:
        raise ValueError(f"a flow is above 0, not {flow_cfh:g} cfh")

    def passed(drop: float) -> float:
        return valve_flow(cv, drop, inlet_in_wc=inlet_in_wc, specific_gravity=specific_gravity)

    if passed(inlet_in_wc) < flow_cfh:
        raise ValueError(f"a valve of Cv {cv:g} doesn't pass {flow_cfh:.0f} cfh at {inlet_in_wc:g} in wc")
    low, high = 0.0, inlet_in_wc
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if passed(middle) < flow_cfh else (low, middle)
    return Drop(
        high,
        Working(
            name="pressure lost in the fire shutoff's gas valve",
            formula="the drop at which 1360 · Cv · √(ΔP · P2 / (S · T)) is the flow",
            inputs=(
                Input("Cv", f"{cv:g}", "sheet"),
                Input("flow", f"{flow_cfh:.1f} cfh"),
                Input("inlet pressure", f"{inlet_in_wc:g} in wc"),
                Input("specific gravity", f"{specific_gravity:g}"),
            ),
            result=f"{high:.3f} in wc",
            source=_VALVE,
        ),
    )


def gas_path(
    flow_cfh: float, pipe: Drop, valve: Drop | None, *, allowed_in_wc: float | None = None
) -> GasPath:
    """Whether pipe and valve together lose no more than the allowed drop [in wc], the trade's where none is given."""
    usual = practice("low_pressure_drop")
    allowed = usual.number if allowed_in_wc is None else allowed_in_wc
    steps = (pipe.working,) if valve is None else (pipe.working, valve.working)
    lost = pipe.drop_in_wc + (valve.drop_in_wc if valve is not None else 0.0)
    return GasPath(
        flow_cfh,
        pipe,
        valve,
        allowed,
        Working(
            name="gas pressure lost up to the range",
            formula="pipe with fittings + fire valve, against the allowed drop",
            inputs=(
                Input("pipe", f"{pipe.drop_in_wc:.3f} in wc"),
                Input("valve", f"{valve.drop_in_wc:.3f} in wc" if valve is not None else "none"),
                Input(
                    "allowed", f"{allowed:g} in wc", "job" if allowed_in_wc is not None else str(usual.source)
                ),
            ),
            result=f"{lost:.3f} in wc of {allowed:g} in wc",
            source=resting_on("IFGC 402.4.1, valve equation", *(step.source for step in steps)),
            steps=steps,
        ),
    )
