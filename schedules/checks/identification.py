"""Is every conductor's colour, as bought and as re-marked, one that its use allows?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Finding, Remedy, Severity
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.points import Conductor
    from schedules.derived import Derived
    from schedules.working import Source

NEUTRAL_COLOURS = frozenset({"WH", "GY"})
GROUND_COLOURS = frozenset({"GN", "GNYE", "bare"})


def check_identification(derived: Derived) -> Iterator[Finding]:
    """Check white and grey, green and bare, against what the conductor carries."""
    sources = _sources(derived)
    for conductor in derived.connections.conductors.values():
        carries = derived.connections.landings[conductor.a].carries
        problem = _problem(conductor, carries)
        if problem is not None:
            rule, says, cure = problem
            yield Finding(
                code="colour-misleads",
                severity=Severity.FIX,
                subject=conductor.number,
                says=f"conductor {conductor.number} ({conductor.cable} {conductor.core}) {says}",
                rule=rule,
                source=sources[carries],
                remedies=(Remedy(f"in the equipment sheet, {cure}"),),
            )


def shown_colour(conductor: Conductor) -> str:
    """The colour that a person sees at the ends: the re-marking where there is one."""
    return conductor.mark or conductor.colour


def _problem(conductor: Conductor, carries: str) -> tuple[str, str, str] | None:
    """The rule that its colour breaks, how, and what to do; None where it breaks none."""
    colour = shown_colour(conductor)
    limited = conductor.circuit_class != "power"
    if carries == "neutral" and colour not in NEUTRAL_COLOURS:
        return (
            "a grounded conductor is white or grey",
            f"is a neutral but shows {colour}",
            f"land the white or grey core on it; one of {_marked_from('200.6(B)')} may be marked WH at both ends "
            "instead (`mark`)",
        )
    if carries == "ground" and colour not in GROUND_COLOURS:
        return (
            "an equipment grounding conductor is green, green-yellow or bare",
            f"is a ground but shows {colour}",
            f"land the green, green-yellow or bare core on it; one of {_marked_from('250.119(B)')} may be marked GN "
            "at both ends instead (`mark`)",
        )
    # Power-limited cable is sold in any colours: the code's colour rules for power circuits don't bind it.
    if carries in ("line", "signal") and not limited:
        if colour in NEUTRAL_COLOURS:
            return (
                "white or grey used for anything but a neutral is re-marked at both ends",
                f"shows {colour} and is no neutral",
                'mark it at both ends in any colour but white, grey and green (`mark = "BK"`), or take another core',
            )
        if colour in GROUND_COLOURS:
            return (
                "green and bare are kept for equipment grounding",
                f"shows {colour} and is no ground",
                "take another core: a green or bare one is not marked as anything else",
            )
    return None


def _marked_from(section: str) -> str:
    """From which size a core of any colour may be marked, as the table prints it: `4 AWG or larger`."""
    return load("nec_conductor_identification").where(section=section)[0].text("size_limit")


def _sources(derived: Derived) -> dict[str, Source]:
    table, edition = load("nec_conductor_identification"), str(derived.job.job.code)
    by_use = {
        "neutral": "200.6(A)",
        "ground": "250.119(A)",
        "line": "200.7(C)(1)",
        "signal": "200.7(C)(1)",
    }
    return {
        use: table.source(table.where(section=section)[0], edition=edition) for use, section in by_use.items()
    }
