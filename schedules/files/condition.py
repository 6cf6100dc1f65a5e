"""Conditions as data: which named facts must hold. Never evaluated code."""

from __future__ import annotations

from schedules.files.records import Record, Slug


class Condition(Record):
    """Holds when every name of `all`, at least one of `any` (if given) and no name of `none` is true.

    Facts are choices where a sheet says what an option adds, signals where it says what a contact does.
    An empty condition always holds.
    """

    all: tuple[Slug, ...] = ()
    any: tuple[Slug, ...] = ()
    none: tuple[Slug, ...] = ()

    def holds(self, facts: frozenset[str]) -> bool:
        """Tell whether the condition holds for these facts."""
        return (
            facts.issuperset(self.all)
            and (not self.any or not facts.isdisjoint(self.any))
            and facts.isdisjoint(self.none)
        )

    @property
    def names(self) -> tuple[str, ...]:
        """Every fact that the condition speaks of, in order."""
        return self.all + self.any + self.none

    def in_words(self) -> str:
        """Say the condition, e.g. `gas-valve and (pull-near or pull-far), without alarm`."""
        parts = list(self.all)
        if self.any:
            either = " or ".join(self.any)
            parts.append(f"({either})" if len(self.any) > 1 else either)
        words = " and ".join(parts) or "always"
        return f"{words}, without {' or '.join(self.none)}" if self.none else words


ALWAYS = Condition()
