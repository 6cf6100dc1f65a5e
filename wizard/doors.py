"""What is behind each quick door."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.screens.compare import CompareScreen
from wizard.screens.enclosures import EnclosuresScreen
from wizard.screens.reach import ReachScreen

if TYPE_CHECKING:
    from textual.screen import Screen

    from wizard.messages import Door
    from wizard.session import Snapshot


def behind(door: Door, snapshot: Snapshot) -> Screen[None]:
    """The screen behind a door, for a job that is planned."""
    match door:
        case "terminations":
            return EnclosuresScreen(snapshot)
        case "reach":
            return ReachScreen(snapshot)
        case "compare":
            return CompareScreen(snapshot)
