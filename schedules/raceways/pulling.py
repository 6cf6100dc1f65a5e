"""In which order are these cables pulled, and does each connector pass beside the cables already in?

The bulkiest goes first, through the emptiest raceway. Every later connector must find room in the bore's
cross section together with all cables pulled before it; so must every plain cable.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.raceways.packing import needed_bore
from schedules.raceways.passage import ALLOWANCE_IN, DERIVED_HERE, Passage, Plug, swept_diameter
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from schedules.quantities.sizes import TradeSize
    from schedules.raceways.occupants import Occupant


@dataclass(frozen=True, slots=True)
class Pull:
    """One conductor or cable to be pulled.

    plug: the connector that leads it, None for a bare end. prescribed: the least trade size that its maker asks for.
    cable: what it is part of, where it is one of several loose conductors.
    """

    occupant: Occupant
    plug: Plug | None = None
    prescribed: TradeSize | str | None = None
    cable: str = ""

    @property
    def whole(self) -> str:
        """The cable that must stay together, of which this is all or a part."""
        return self.cable or self.occupant.name

    @property
    def across_in(self) -> float:
        """Width of the widest part [in]: connector or cable."""
        return (
            self.occupant.diameter_in
            if self.plug is None
            else max(self.plug.across_in, self.occupant.diameter_in)
        )


@dataclass(frozen=True, slots=True)
class Place:
    """One place that everything is pulled through: bore [in] and, in a bend, radius to the centreline [in]."""

    where: str
    bore_in: float
    radius_in: float | None = None


@dataclass(frozen=True, slots=True)
class PullStep:
    """One pull: what goes in, beside what, and how it passes each place."""

    pull: Pull
    already_in: tuple[Occupant, ...]
    passages: tuple[Passage, ...]


@dataclass(frozen=True, slots=True)
class PullPlan:
    """All pulls in their order."""

    steps: tuple[PullStep, ...]

    @property
    def passages(self) -> tuple[Passage, ...]:
        """Every passage of every step, in order."""
        return tuple(passage for step in self.steps for passage in step.passages)

    @property
    def passes(self) -> bool:
        """Whether everything passes everywhere."""
        return all(passage.passes for passage in self.passages)

    @property
    def tightest(self) -> Passage | None:
        """The passage with the least to spare; None where nothing is pulled."""
        return min(self.passages, key=lambda passage: passage.spare_in, default=None)


def pull_order(pulls: Iterable[Pull]) -> tuple[Pull, ...]:
    """Sort pulls: widest part first, the longer plug before the shorter, then by name."""
    return tuple(
        sorted(
            pulls,
            key=lambda pull: (
                -pull.across_in,
                -(pull.plug.length_in if pull.plug else 0.0),
                pull.occupant.name,
            ),
        )
    )


def plan_pulls(pulls: Iterable[Pull], places: Sequence[Place]) -> PullPlan:
    """Pull everything in order, bulkiest first, and hold each against every place and what already lies there.

    Raises ValueError for a bore or radius that is not above zero.
    """
    steps: list[PullStep] = []
    already_in: tuple[Occupant, ...] = ()
    for pull in pull_order(pulls):
        passages = tuple(_passage(pull, already_in, place) for place in places)
        steps.append(PullStep(pull, already_in, passages))
        already_in = (*already_in, pull.occupant)
    return PullPlan(tuple(steps))


def _passage(pull: Pull, already_in: tuple[Occupant, ...], place: Place) -> Passage:
    if place.bore_in <= 0:
        raise ValueError(f"{place.where}: a bore must be above 0 in, not {place.bore_in:g}")
    own = pull.occupant.diameter_in
    if pull.plug is not None:
        own = max(own, swept_diameter(pull.plug, place.radius_in))
    clear = place.bore_in - ALLOWANCE_IN
    needed = needed_bore(clear, (own, *(occupant.diameter_in for occupant in already_in)))
    leading = pull.plug.name if pull.plug is not None else pull.occupant.name
    return Passage(
        place.where,
        needed,
        clear,
        Working(
            name=f"{leading} through {place.where}",
            formula="width taken up, packed beside the cables already in, not above the bore less the allowance",
            inputs=(
                Input(f"{leading} takes up", f"{own:.3f} in", _sweep(pull.plug, place)),
                *(
                    Input(f"beside {occupant.name}", f"{occupant.diameter_in:.3f} in")
                    for occupant in already_in
                ),
                Input("bore", f"{place.bore_in:.3f} in"),
                Input("allowance", f"{ALLOWANCE_IN:g} in", "ours"),
            ),
            result=f"needs {needed:.3f} in of {clear:.3f} in clear",
            source=DERIVED_HERE,
        ),
    )


def _sweep(plug: Plug | None, place: Place) -> str:
    if plug is None:
        return "outside diameter"
    if place.radius_in is None:
        return "diameter or diagonal"
    return (
        f"{plug.across_in:.3f} in across, {plug.length_in:.3f} in long, in a bend of {place.radius_in:g} in"
    )
