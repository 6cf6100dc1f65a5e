"""What can go wrong with a drawing. Nothing is written when one of these is raised."""

from __future__ import annotations


class DrawingError(Exception):
    """A drawing can't be made or can't be trusted. Carries every failure found, in words."""

    def __init__(self, failures: tuple[str, ...]) -> None:
        super().__init__("\n".join(failures))
        self.failures = failures

    def __reduce__(self) -> tuple[type[DrawingError], tuple[tuple[str, ...]]]:
        """How it passes between processes: with its failures, not with the text made of them."""
        return type(self), (self.failures,)


class PictureError(DrawingError):
    """What was to be drawn contradicts itself: a key used twice, or a line's end on nothing."""


class EngineError(DrawingError):
    """The Graphviz engine is missing, too slow, or said anything at all that it should not have said."""
