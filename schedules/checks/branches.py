"""Can each circuit carry what it feeds, and do its conductors suit its breaker, its surroundings and its length?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.answers import reaches
from schedules.circuits.ampacity import table_ampacity
from schedules.circuits.branch_circuits import small_appliance_circuits
from schedules.circuits.circuit_wires import MATERIAL, UNKNOWN
from schedules.circuits.overcurrent import standard_ratings
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.tables import load, rule
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.circuits.circuit_wires import CableWires
    from schedules.derived import Derived
    from schedules.tables.edition import Code

_SHEET = Source("equipment sheet", Confidence.SHEET)


def check_branches(derived: Derived) -> Iterator[Finding]:
    """Check load against rating, conductors against breaker and surroundings, and the drop on the way."""
    edition = derived.job.adopted
    for planned in derived.branches:
        yield from _rating(planned, edition)
        for wires in planned.wires:
            yield from _conductor(planned, wires)
            yield from _neutral(derived, planned, wires)
            yield from _ground(planned, wires)
        yield from _drop(derived, planned)
    yield from _surroundings(derived)
    yield from _unknown_types(derived)
    yield from _own_circuit(derived)


def _rating(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    circuit, need = planned.circuit, planned.need
    if circuit.rating not in standard_ratings(edition):
        yield Finding(
            code="breaker-not-standard",
            severity=Severity.FIX,
            subject=circuit.tag,
            says=f"{circuit.tag} ({circuit.name}) is given {circuit.rating:g} A, which is no standard rating",
            rule="a breaker has a standard rating",
            source=Source(load("nec_240_6_a_standard_ratings").citation(edition), Confidence.TWO_TEXTS),
            # The sheet's conductors are for no more than its own rating.
            remedies=_at_most(circuit.rating, edition),
        )
    if planned.rating is None:
        yield Finding(
            code="circuit-load-unknown",
            severity=Severity.CHECK,
            subject=circuit.tag,
            says=f"nobody says what {circuit.tag} ({circuit.name}) draws; its conductors are sized for the breaker",
            rule="a circuit's rating and conductors follow from its load",
            source=rule("individual_circuit", edition).source,
        )
    elif planned.rating.rating_a > circuit.rating:
        yield Finding(
            code="circuit-overloaded",
            severity=Severity.STOP,
            subject=circuit.tag,
            says=(
                f"{circuit.tag} ({circuit.name}) needs a circuit of {planned.rating.rating_a} A, "
                f"its breaker is {circuit.rating:g} A"
            ),
            rule="a breaker carries its load, the continuous part with its surcharge; a range has a least circuit",
            source=planned.rating.working.source,
            numbers=(Input("all it feeds", f"{need.drawn_a:.2f} A", "plan"), *planned.rating.working.inputs),
            remedies=(
                Remedy(
                    f"a {planned.rating.rating_a} A circuit with conductors for it, where the hood's maker allows it; "
                    f"else no more than {circuit.rating:g} A on this one"
                ),
            ),
        )
    yield from _marked(planned, edition)


def _marked(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    circuit = planned.circuit
    if circuit.largest_device is not None and circuit.rating > circuit.largest_device:
        yield Finding(
            code="device-above-marking",
            severity=Severity.STOP,
            subject=circuit.tag,
            says=f"{circuit.tag} has a {circuit.rating:g} A breaker, the nameplate allows {circuit.largest_device:g} A",
            rule="a breaker is not above the largest device marked on the appliance",
            source=rule("appliance_overcurrent", edition).source,
            answer=("circuit", circuit.tag, "largest_device"),
            remedies=_at_most(circuit.largest_device, edition),
        )
    kitchen = small_appliance_circuits(edition)
    if circuit.small_appliance and circuit.rating != kitchen.rating_a:
        yield Finding(
            code="small-appliance-rating",
            severity=Severity.STOP,
            subject=circuit.tag,
            says=f"{circuit.tag} is a small-appliance circuit of {circuit.rating:g} A, not of {kitchen.rating_a} A",
            rule="small-appliance circuits have one rating",
            source=kitchen.working.source,
            answer=("circuit", circuit.tag, "small_appliance"),
            remedies=(
                Remedy(f"a {kitchen.rating_a} A circuit with conductors for it"),
                Remedy(
                    f"say that {circuit.tag} is none of the small-appliance circuits, if it isn't",
                    (Edit("circuit", circuit.tag, "small_appliance", value=False),),
                ),
            ),
        )


def _at_most(amperes: float, edition: Code) -> tuple[Remedy, ...]:
    """The largest standard breaker of no more than this."""
    fitting = [rating for rating in standard_ratings(edition) if rating <= amperes]
    if not fitting:
        return ()
    return (Remedy(f"a breaker of {max(fitting):g} A, if it carries the load"),)


def _conductor(planned: CircuitPlan, wires: CableWires) -> Iterator[Finding]:
    if wires.thick_enough:
        return
    circuit, needed = planned.circuit, wires.needed
    where = f"{wires.cable} of {circuit.tag} ({wires.together.where}, {wires.ambient_c:g} C)"
    says = f"no size is enough for {where}: {wires.why_none}"
    source, numbers = wires.working.source, wires.working.inputs
    if needed is not None:
        says = f"{where} has {wires.live} behind a {circuit.rating:g} A breaker, it needs {needed.size}"
        source, numbers = needed.working.source, needed.working.inputs
    yield Finding(
        code="conductor-thin",
        severity=Severity.STOP,
        subject=wires.cable,
        says=says,
        rule="conductors carry the load where they run and on their terminals, and their breaker may protect them",
        source=source,
        numbers=(*numbers, Input("installed", str(wires.live), "sheet")),
        answer=("run", wires.cable, "size"),
        remedies=_thicker(wires),
    )


def _thicker(wires: CableWires) -> tuple[Remedy, ...]:
    """Buy the cable with conductors that do, and a ground that goes with them."""
    if wires.needed is None or wires.needed_ground is None:
        return ()
    size = wires.needed.size
    ground = max(wires.needed_ground.size, wires.ground or wires.needed_ground.size)
    return (
        Remedy(
            f"buy {wires.cable} with {size}, {ground} to ground",
            (
                Edit("run", wires.cable, "size", str(size)),
                Edit("run", wires.cable, "ground", str(ground)),
            ),
        ),
    )


def _neutral(derived: Derived, planned: CircuitPlan, wires: CableWires) -> Iterator[Finding]:
    """A neutral is as thick as its lines have to be; a range's may be reduced so far.

    One that is as thick as lines that are too thin themselves is told with them.
    """
    if wires.neutral is None or wires.needed is None or wires.neutral >= min(wires.live, wires.needed.size):
        return
    edition = derived.job.adopted
    reduced = planned.cooking.neutral if planned.cooking is not None else None
    if reduced is not None and wires.neutral >= reduced.least_size:
        may = table_ampacity(wires.neutral, material=MATERIAL, column_c=wires.column_c, edition=edition)
        if reaches(may.ampacity_a, reduced.ampacity_a):
            return
    source = reduced.working.source if reduced is not None else wires.needed.working.source
    yield Finding(
        code="neutral-thin",
        severity=Severity.STOP,
        subject=wires.cable,
        says=(
            f"{wires.cable} of {planned.circuit.tag} has a neutral of {wires.neutral}, "
            f"its lines need {wires.needed.size}"
        ),
        rule="a neutral carries what its lines carry, unless a range's may be reduced",
        source=source,
        numbers=() if reduced is None else reduced.working.inputs,
        answer=("run", wires.cable, "size"),
        remedies=_thicker(wires),
    )


def _ground(planned: CircuitPlan, wires: CableWires) -> Iterator[Finding]:
    needed = wires.needed_ground
    if wires.ground_thick_enough or needed is None:
        return
    yield Finding(
        code="ground-thin",
        severity=Severity.STOP,
        subject=wires.cable,
        says=f"{wires.cable} of {planned.circuit.tag} has {wires.ground} to ground, it needs {needed.size}",
        rule="the equipment grounding conductor follows the breaker, and grows with the circuit's conductors",
        source=needed.working.source,
        # The rules that it rests on stand among the inputs in words, without a value.
        numbers=tuple(item for item in needed.working.inputs if item.value),
        answer=("run", wires.cable, "ground"),
        remedies=(
            Remedy(
                f"buy {wires.cable} with {needed.size} to ground",
                (Edit("run", wires.cable, "ground", str(needed.size)),),
            ),
        ),
    )


def _drop(derived: Derived, planned: CircuitPlan) -> Iterator[Finding]:
    drop = planned.drop
    if drop is None or drop.advice.holds:
        return
    cables = {cable.tag: cable for cable in derived.selection.cables}
    field = [leg for leg in drop.legs if cables[leg.name].make == "field"]
    yield Finding(
        code="voltage-drop",
        severity=Severity.NOTE,
        subject=planned.circuit.tag,
        says=f"{planned.circuit.tag} loses {drop.percent:.1f} % of its voltage on the way to {drop.load}",
        rule=f"advice, not a requirement: {'; '.join(drop.advice.reasons)}",
        source=drop.advice.working.source,
        numbers=(
            Input("Chapter 9 Table 8", drop.by_resistance.working.result, "plan"),
            Input("Chapter 9 Table 9", drop.by_impedance.working.result, "plan"),
        ),
        answer=("run", field[0].name, "size") if field else None,
    )


def _surroundings(derived: Derived) -> Iterator[Finding]:
    """An attic is hotter than the table's surroundings; nobody but the site knows how hot."""
    if derived.job.site.above != "attic":
        return
    overhead = {run.cable for run in derived.job.run if run.route == "overhead"}
    wires = [
        item
        for planned in derived.branches
        for item in planned.wires
        if item.cable in overhead and not item.stated and item.hottest_c is not None
    ]
    if not wires:
        return
    weakest = min(wires, key=lambda item: item.hottest_c or 0.0)
    tags = ", ".join(item.cable for item in wires)
    yield Finding(
        code="ambient-open",
        severity=Severity.CHECK,
        subject="site",
        says=(
            f"{tags} run through the attic and the job states no temperature: they are sized for "
            f"{weakest.ambient_c:g} C and do up to {weakest.hottest_c:g} C ({weakest.cable})"
        ),
        rule="ampacity is corrected for the surroundings; the electrician states how hot they get",
        source=weakest.working.source,
        answer=("site", None, "ambient"),
    )


def _unknown_types(derived: Derived) -> Iterator[Finding]:
    types = {cable.tag: cable.type for cable in derived.selection.cables}
    for planned in derived.branches:
        for wires in planned.wires:
            if wires.kind == UNKNOWN:
                yield Finding(
                    code="cable-type-unknown",
                    severity=Severity.CHECK,
                    subject=wires.cable,
                    says=(
                        f"{wires.cable} is {types[wires.cable]}, a type that the tables don't know: the least "
                        "favourable insulation is taken; the electrician reads its jacket"
                    ),
                    rule="a conductor's ampacity starts from its insulation",
                    source=_SHEET,
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
                remedies=(
                    Remedy(
                        f"in the equipment sheet, feed {', '.join(foreign)} from a circuit of its own, not from "
                        f"{need.circuit.tag}"
                    ),
                ),
                source=Source("controls on an individual circuit", Confidence.COMMON_PRACTICE),
            )


def _effect(derived: Derived, key: str, effects: Mapping[str, str]) -> str:
    spec = derived.connections.inside[key].spec
    return effects[spec.effect] if spec is not None and spec.kind == "load" else ""
