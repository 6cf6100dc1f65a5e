"""What can be done where a raceway doesn't fit its wall? Every proposal is computed like the first attempt."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from schedules.framing.nail_plates import exempt_from_plates
from schedules.framing.walls import Wall, WallFit, raceway_in_wall
from schedules.raceways.pulling import pull_order
from schedules.raceways.trade_size import RacewaySize, size_raceway
from schedules.site.lumber import lumber_sizes
from schedules.tables import load, rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.raceways.bends import Bend
    from schedules.raceways.pulling import Pull
    from schedules.tables.edition import Code

RemedyKind = Literal["smaller raceway", "split", "up the bay", "wider wall", "fur out", "surface"]


@dataclass(frozen=True, slots=True)
class WallRemedy:
    """One way out.

    fits: each raceway in its wall, empty where none goes into one. depth_in: furring [in]. shared: names of what is
    pulled through each raceway, where it is split.
    """

    kind: RemedyKind
    words: str
    raceways: tuple[RacewaySize, ...] = ()
    fits: tuple[WallFit, ...] = ()
    depth_in: float | None = None
    shared: tuple[tuple[str, ...], ...] = ()


def wall_remedies(
    refused: WallFit,
    pulls: Sequence[Pull],
    *,
    bends: Sequence[Bend] = (),
    edition: Code,
    framing_edition: Code,
) -> tuple[WallRemedy, ...]:
    """Every remedy that works for a raceway that doesn't fit its wall, least building work first.

    pulls, bends: what the raceway was sized for; a smaller one still holds it and passes every connector.
    Raises ValueError for a raceway that does fit.
    """
    if refused.fits:
        raise ValueError(f"{refused.raceway} {refused.trade_size} fits; there is nothing to remedy")
    trial = _Trial(refused, tuple(pulls), tuple(bends), edition, framing_edition)
    return (
        *trial.smaller_raceways(),
        *trial.split(),
        *trial.up_the_bay(),
        *trial.wider_wall(),
        trial.fur_out(),
        _on_the_surface(refused),
    )


@dataclass(frozen=True, slots=True)
class _Trial:
    refused: WallFit
    pulls: tuple[Pull, ...]
    bends: tuple[Bend, ...]
    edition: Code
    framing_edition: Code

    def smaller_raceways(self) -> Iterator[WallRemedy]:
        """Any type whose own least size fits."""
        kinds = dict.fromkeys(row.text("raceway") for row in load("raceway_outside_diameter").rows)
        for kind in kinds:
            sized = size_raceway(kind, self.pulls, bends=self.bends, edition=self.edition)
            fit = self._in_wall(sized, self.refused.wall)
            if fit is not None and fit.fits:
                words = f"{kind} {sized.trade_size} holds everything and goes {fit.way}"
                yield WallRemedy("smaller raceway", words, (sized,), (fit,))

    def split(self) -> Iterator[WallRemedy]:
        """Two raceways of the same type, the bulkiest cables in one, the rest in the other.

        Loose conductors of one circuit stay together, since their currents must cancel: NEC 300.3(B), from memory.
        """
        ordered = pull_order(self.pulls)
        cables = tuple(dict.fromkeys(pull.whole for pull in ordered))
        for count in range(1, len(cables)):
            shared = (cables[:count], cables[count:])
            parts = tuple(tuple(pull for pull in ordered if pull.whole in names) for names in shared)
            sized = tuple(
                size_raceway(self.refused.raceway, part, bends=self.bends, edition=self.edition)
                for part in parts
            )
            fits = tuple(self._in_wall(part, self.refused.wall) for part in sized)
            good = tuple(fit for fit in fits if fit is not None and fit.fits)
            if len(good) == len(sized):
                words = " and ".join(
                    f"{part.raceway} {part.trade_size} for {', '.join(names)}"
                    for part, names in zip(sized, shared, strict=True)
                )
                yield WallRemedy("split", f"{words}, side by side", sized, good, shared=shared)
                return

    def up_the_bay(self) -> Iterator[WallRemedy]:
        """Upright between two studs, where it was to go across them."""
        if self.refused.way == "through the studs":
            fit = self._as_refused(self.refused.wall, "up the bay")
            if fit.fits:
                tied = fit.tie is not None and fit.tie.holds
                words = "run it upright between two studs" + ("; the top plate gets a tie" if tied else "")
                yield WallRemedy("up the bay", words, (), (fit,))

    def wider_wall(self) -> Iterator[WallRemedy]:
        """The shallowest deeper stud that takes the raceway as it is."""
        sizes = lumber_sizes()
        for stud in sizes[sizes.index(self.refused.wall.stud) + 1 :]:
            fit = self._as_refused(replace(self.refused.wall, stud=stud), self.refused.way)
            if fit.fits:
                yield WallRemedy("wider wall", f"frame this wall with {stud} studs", (), (fit,))
                return

    def fur_out(self) -> WallRemedy:
        """Strips on the studs' face, deep enough for the raceway and its distance from nails."""
        nails = rule("parallel_edge", self.edition)
        exempt = exempt_from_plates(self.refused.raceway)
        depth = self.refused.outside_in + (0.0 if exempt else nails.number)
        behind = "" if exempt else f", {nails.number:g} in of it to the furring's face"
        return WallRemedy("fur out", f"fur out the wall by at least {depth:.2f} in{behind}", (), (), depth)

    def _in_wall(self, sized: RacewaySize, wall: Wall) -> WallFit | None:
        """Fit of a newly sized raceway, None where no size made is large enough."""
        if sized.trade_size is None:
            return None
        return raceway_in_wall(
            sized.raceway,
            sized.trade_size,
            wall,
            way=self.refused.way,
            edition=self.edition,
            framing_edition=self.framing_edition,
        )

    def _as_refused(self, wall: Wall, way: Literal["through the studs", "up the bay"]) -> WallFit:
        return raceway_in_wall(
            self.refused.raceway,
            self.refused.trade_size,
            wall,
            way=way,
            outside_in=self.refused.outside_in,
            edition=self.edition,
            framing_edition=self.framing_edition,
        )


def _on_the_surface(refused: WallFit) -> WallRemedy:
    return WallRemedy(
        "surface",
        f"run {refused.raceway} {refused.trade_size} on the wall's surface, or inside the cabinets, out of harm's way",
    )
