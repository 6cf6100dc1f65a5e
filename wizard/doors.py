"""What is behind each quick door."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.screens.compare import CompareScreen
from wizard.screens.drawings import DrawingsScreen
from wizard.screens.enclosures import EnclosuresScreen
from wizard.screens.lesson import LessonScreen
from wizard.screens.reach import ReachScreen

if TYPE_CHECKING:
    from textual.screen import Screen

    from wizard.messages import Door
    from wizard.session import Session


def behind(door: Door, session: Session) -> Screen[None]:
    """The screen behind a door, for a job that is planned."""
    match door:
        case "terminations":
            return EnclosuresScreen(session)
        case "reach":
            return ReachScreen(session)
        case "compare":
            return CompareScreen(session)
        case "drawings":
            return DrawingsScreen(session)
        case "class":
            return LessonScreen(session)
