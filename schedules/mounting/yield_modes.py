"""How much a dowel carries in single shear: the six yield modes, with a gap between the two members."""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.working import Confidence, Input, Source, Working

_ROOT_NEEDS_NO_KD_IN = 0.25
_THIN_ROOT_IN = 0.17
_TR12 = Source("AWC TR-12 general dowel equations, NDS 12.3.1", Confidence.MEMORY)

# Reduction terms of NDS table 12.3.1B for dowels of 1/4 in and more, before the angle to grain.
_BEARING, _BEARING_ROTATION, _HINGE = 4.0, 3.6, 3.2


@dataclass(frozen=True, slots=True)
class Dowel:
    """One fastener as a beam in bearing: nominal and root diameter [in], bending yield strength [psi]."""

    diameter_in: float
    root_in: float
    bending_yield_psi: float


@dataclass(frozen=True, slots=True)
class Bearing:
    """One member's part of the dowel: length [in] and dowel bearing strength [psi]."""

    length_in: float
    strength_psi: float


@dataclass(frozen=True, slots=True)
class Lateral:
    """Reference lateral value of one fastener [lb], the mode that governs, and what each mode gives [lb]."""

    value_lb: float
    mode: str
    by_mode: tuple[tuple[str, float], ...]
    working: Working


def wood_bearing_strength(diameter_in: float, specific_gravity: float, *, across_grain: bool) -> float:
    """Dowel bearing strength of wood [psi], NDS 12.3.3, by nominal diameter [in].

    Below 1/4 in the grain's direction makes no difference. Raises ValueError for what is not above zero.
    """
    if diameter_in <= 0 or specific_gravity <= 0:
        raise ValueError(
            f"diameter and specific gravity above 0, not {diameter_in:g} and {specific_gravity:g}"
        )
    if diameter_in < _ROOT_NEEDS_NO_KD_IN:
        return 16600.0 * math.pow(specific_gravity, 1.84)
    if across_grain:
        return 6100.0 * math.pow(specific_gravity, 1.45) / math.sqrt(diameter_in)
    return 11200.0 * specific_gravity


def lateral_value(
    dowel: Dowel, main: Bearing, side: Bearing, *, gap_in: float = 0.0, grain_angle_deg: float
) -> Lateral:
    """Reference lateral value of one fastener in single shear [lb], the least of six yield modes.

    main: the wood, its length the embedded one less half the tip. side: the plate. gap_in: between the two [in];
    what fills it, such as drywall, is given no strength. grain_angle_deg: largest angle of load to grain, 0 to 90;
    `main.strength_psi` must be that of this angle. Root diameter throughout, as the code wants for screws.
    Raises ValueError for what is not above zero, a negative gap or another angle.
    """
    _refuse(dowel, main, side, gap_in, grain_angle_deg)
    forces = _mode_forces(dowel, main, side, gap_in)
    terms = _reduction_terms(dowel, grain_angle_deg)
    by_mode = tuple((mode, force / terms[mode]) for mode, force in forces.items())
    mode, value = min(by_mode, key=lambda item: item[1])
    return Lateral(
        value,
        mode,
        by_mode,
        Working(
            name="lateral value of one fastener",
            formula="least of six yield modes, each over its reduction term; a gap adds to every lever",
            inputs=(
                Input("root diameter", f"{dowel.root_in:g} in"),
                Input("bending yield strength", f"{dowel.bending_yield_psi:g} psi"),
                Input("in the wood", f"{main.length_in:.2f} in at {main.strength_psi:.0f} psi"),
                Input("in the plate", f"{side.length_in:.3f} in at {side.strength_psi:.0f} psi"),
                Input("gap", f"{gap_in:g} in"),
                Input("load to grain", f"{grain_angle_deg:g} degrees"),
                *(Input(f"mode {name}", f"{pounds:.1f} lb") for name, pounds in by_mode),
            ),
            result=f"{value:.1f} lb, mode {mode}",
            source=_TR12,
            note="drywall in the gap is given no strength" if gap_in else "",
        ),
    )


def _refuse(dowel: Dowel, main: Bearing, side: Bearing, gap_in: float, angle: float) -> None:
    sizes = (
        dowel.diameter_in,
        dowel.root_in,
        dowel.bending_yield_psi,
        main.length_in,
        main.strength_psi,
        side.length_in,
        side.strength_psi,
    )
    if min(sizes) <= 0 or gap_in < 0 or not 0 <= angle <= 90:
        raise ValueError(
            f"sizes and strengths above 0, gap 0 or more, angle 0 to 90; found {sizes}, {gap_in:g}, {angle:g}"
        )


def _mode_forces(dowel: Dowel, main: Bearing, side: Bearing, gap_in: float) -> dict[str, float]:
    """Yield force of each mode [lb]: root of A·P² + B·P + C = 0, bearing per length q, dowel moment M.

    Without a gap these are the equations of NDS 12.3.1.
    """
    main_q, side_q = main.strength_psi * dowel.root_in, side.strength_psi * dowel.root_in
    moment = dowel.bending_yield_psi * dowel.root_in**3 / 6
    main_rotates = main_q * main.length_in**2 / 4
    side_rotates = side_q * side.length_in**2 / 4
    return {
        "Im": main_q * main.length_in,
        "Is": side_q * side.length_in,
        "II": _root(
            1 / (4 * side_q) + 1 / (4 * main_q),
            side.length_in / 2 + gap_in + main.length_in / 2,
            side_rotates + main_rotates,
        ),
        "IIIm": _root(
            1 / (2 * side_q) + 1 / (4 * main_q), gap_in + main.length_in / 2, moment + main_rotates
        ),
        "IIIs": _root(
            1 / (4 * side_q) + 1 / (2 * main_q), side.length_in / 2 + gap_in, side_rotates + moment
        ),
        "IV": _root(1 / (2 * side_q) + 1 / (2 * main_q), gap_in, 2 * moment),
    }


def _root(a: float, b: float, c: float) -> float:
    """The positive root of a·P² + b·P − c = 0, in the form that loses no digits to a large b."""
    return 2 * c / (b + math.sqrt(b * b + 4 * a * c))


def _reduction_terms(dowel: Dowel, grain_angle_deg: float) -> dict[str, float]:
    """Rd of NDS table 12.3.1B with its note 1 on lag screws whose root is thinner than 1/4 in."""
    by_angle = 1 + 0.25 * grain_angle_deg / 90
    if dowel.root_in < _ROOT_NEEDS_NO_KD_IN:
        thin = 2.2 if dowel.root_in <= _THIN_ROOT_IN else 10 * dowel.root_in + 0.5
        term = thin * by_angle if dowel.diameter_in >= _ROOT_NEEDS_NO_KD_IN else thin
        return dict.fromkeys(("Im", "Is", "II", "IIIm", "IIIs", "IV"), term)
    return {
        "Im": _BEARING * by_angle,
        "Is": _BEARING * by_angle,
        "II": _BEARING_ROTATION * by_angle,
        "IIIm": _HINGE * by_angle,
        "IIIs": _HINGE * by_angle,
        "IV": _HINGE * by_angle,
    }
