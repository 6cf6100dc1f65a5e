"""What do the household cooking appliances on one circuit, and all of a kitchen together, count as?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.circuits.cooking_circuits import range_circuit_rating, range_receptacle_rating, reduced_neutral
from schedules.circuits.demand import LIMITS, cooking_branch_load, cooking_demand
from schedules.circuits.feeds import current_of
from schedules.sheet.hardware import Load
from schedules.tables import rule

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from schedules.circuits.cooking_circuits import ReducedNeutral
    from schedules.circuits.demand import Demand
    from schedules.circuits.feeds import CircuitNeed
    from schedules.circuits.overcurrent import Rating
    from schedules.connections.graph import Connections
    from schedules.sheet.sheet import Sheet
    from schedules.tables.edition import Code

RANGE = "electric range"
COOKING = (RANGE, "cooktop", "wall oven")
"""Appliances that the demand table speaks of."""

_W_PER_KW = 1000


@dataclass(frozen=True, slots=True)
class CookingAppliance:
    """One electric cooking appliance: its load's key, what it is, rating [kW]."""

    load: str
    appliance: str
    rating_kw: float


@dataclass(frozen=True, slots=True)
class CookingLoad:
    """The cooking appliances of one circuit.

    demand: how they count, None where their company is not one that a circuit may feed, and then `refused`. rating:
    least circuit for a range by its demand and its own least; None for others. receptacle: least one for one range.
    neutral: how far a range's neutral may be reduced, None where it may not.
    """

    appliances: tuple[CookingAppliance, ...]
    demand: Demand | None
    refused: str
    rating: Rating | None
    receptacle: Rating | None
    neutral: ReducedNeutral | None

    @property
    def plated_w(self) -> float:
        """What their nameplates add up to [W]."""
        return sum(item.rating_kw for item in self.appliances) * _W_PER_KW

    @property
    def counted_w(self) -> float:
        """What they count as [W]: their demand, else all of their nameplates."""
        return self.plated_w if self.demand is None else self.demand.demand_kw * _W_PER_KW


def cooking_appliances(keys: Iterable[str], connections: Connections) -> tuple[CookingAppliance, ...]:
    """Those of these loads that the demand table speaks of, by what the sheet or the job says they are."""
    found = []
    for key in keys:
        spec = connections.inside[key].spec
        if isinstance(spec, Load) and spec.appliance in COOKING:
            found.append(CookingAppliance(key, spec.appliance, current_of(spec) * spec.rated / _W_PER_KW))
    return tuple(found)


def unnamed_appliances(
    keys: Iterable[str], connections: Connections, sheet: Sheet, edition: Code
) -> tuple[str, ...]:
    """Cooking loads, large enough for the demand table, of which nobody says what they are."""
    cooking = {item.id for item in sheet.effect if item.kind == "cooking"}
    floor_w = rule("range_demand_above", edition).number * _W_PER_KW
    return tuple(
        key
        for key in keys
        if isinstance(spec := connections.inside[key].spec, Load)
        and spec.appliance is None
        and spec.effect in cooking
        and current_of(spec) * spec.rated > floor_w
    )


def cooking_load(need: CircuitNeed, connections: Connections, edition: Code) -> CookingLoad | None:
    """How the cooking appliances of a circuit count, and what follows for the circuit; None where it has none."""
    appliances = cooking_appliances(need.feeds, connections)
    if not appliances:
        return None
    ratings = {name: [item.rating_kw for item in appliances if item.appliance == name] for name in COOKING}
    try:
        demand = cooking_branch_load(
            ranges_kw=ratings[RANGE],
            cooktops_kw=ratings["cooktop"],
            ovens_kw=ratings["wall oven"],
            edition=edition,
        )
    except ValueError as error:
        return CookingLoad(appliances, None, str(error), None, None, None)
    if len(appliances) > 1 or appliances[0].appliance != RANGE:
        return CookingLoad(appliances, demand, "", None, None, None)
    kw = appliances[0].rating_kw
    reducible = kw >= rule("range_circuit_from", edition, LIMITS).number
    return CookingLoad(
        appliances,
        demand,
        "",
        range_circuit_rating(kw, load_kw=demand.demand_kw, supply_v=need.volts, edition=edition),
        range_receptacle_rating(demand.demand_kw, supply_v=need.volts, edition=edition),
        reduced_neutral(need.circuit.rating, rating_kw=kw, edition=edition) if reducible else None,
    )


def kitchen_demand(needs: Sequence[CircuitNeed], connections: Connections, edition: Code) -> Demand | None:
    """What all electric cooking appliances together count as on the service; None without any, or above the table."""
    keys = dict.fromkeys(key for need in needs for key in need.feeds)
    ratings = [item.rating_kw for item in cooking_appliances(keys, connections)]
    try:
        return cooking_demand(ratings, edition=edition) if ratings else None
    except (ValueError, LookupError):
        return None
