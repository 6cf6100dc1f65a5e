"""Fault finding as the screen goes through it: what was found so far, what is left, what to find out next."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.behaviour.commissioning import commissioning
from schedules.behaviour.diagnose import Finder
from schedules.behaviour.failed_tests import failed_tests
from wizard.behaviour import same_installation

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.behaviour.diagnose import Found, Proposal, Suspect
    from schedules.behaviour.failed_tests import FailedTest
    from schedules.behaviour.probes import Probe
    from schedules.derived import Derived


@dataclass(frozen=True, slots=True)
class Search:
    """One search.

    found: what was entered, in order; without: probes that can't be taken here; failed: the commissioning tests that
    failed, with which it began.
    """

    finder: Finder
    derived: Derived
    found: tuple[Found, ...] = ()
    without: frozenset[str] = frozenset()
    failed: tuple[FailedTest, ...] = ()

    @property
    def apart(self) -> tuple[FailedTest, ...]:
        """The failed tests that say by themselves what is wrong."""
        return tuple(item for item in self.failed if item.found is None)

    @property
    def stray(self) -> tuple[FailedTest, ...]:
        """The failed tests in which something was live with every breaker off."""
        return tuple(item for item in self.failed if item.stray_supply)

    @property
    def suspects(self) -> tuple[Suspect, ...]:
        """The faults that explain all that was found, likeliest first."""
        return self.finder.suspects(self.found)

    @property
    def proposal(self) -> Proposal | None:
        """What to find out next; None where nothing tells any more, or something stray must be cleared before."""
        if self.stray:
            return None
        return self.finder.propose(self.found, self.without)

    def with_found(self, found: Found) -> Search:
        """The same with one more thing found; what the same probe showed before counts no more."""
        kept = tuple(item for item in self.found if item.probe != found.probe)
        return replace(self, found=(*kept, found))

    def without_last(self) -> Search:
        """The same without the last thing found; where nothing was, with all probes again."""
        return replace(self, found=self.found[:-1], without=self.without if self.found else frozenset())

    def skipping(self, probe: Probe) -> Search:
        """The same with a probe that can't be taken here."""
        return replace(self, without=self.without | {probe.id})


def begun(finder: Finder, derived: Derived) -> Search:
    """A search that begins with the commissioning tests of the job that failed."""
    failed = tuple(failed_tests(finder, derived, commissioning(derived), derived.job))
    return Search(
        finder, derived, tuple(item.found for item in failed if item.found is not None), failed=failed
    )


class FinderShelf:
    """Keeps the finder of one installation, which takes seconds to make, until the installation is another."""

    def __init__(self) -> None:
        self._kept: tuple[Derived, Finder] | None = None

    def search(self, derived: Derived, tell: Callable[[float], None]) -> Search:
        """A search that begins with the commissioning tests that failed. What `tell` raises ends the work."""
        if self._kept is None or not same_installation(derived, self._kept[0]):
            self._kept = derived, Finder(derived, tell)
        return begun(self._kept[1], derived)
