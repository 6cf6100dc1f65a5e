"""Sheet tables of what the equipment does: signals, effects, states, and what its maker promises."""

from __future__ import annotations

from typing import Literal

from schedules.files.condition import ALWAYS, Condition
from schedules.files.records import Line, Paragraph, Record, Slug


class Signal(Record):
    """A yes/no fact that contacts follow. `outside`: a person, heat or fire sets it; `coil`: a coil drives it.

    fire: it stands for a release of the suppression. latched: it stays until reset by hand.
    """

    id: Slug
    name: Line
    set_by: Literal["outside", "coil"]
    fire: bool = False
    latched: bool = False


class Effect(Record):
    """What a person sees of a load: heat, air, light, alarm."""

    id: Slug
    name: Line
    kind: Literal["cooking", "exhaust", "make-up air", "light", "controls", "alarm", "release", "other"]


class State(Record):
    """A situation to be solved: which outside signals are set and which circuits are off.

    after: the situation just before, from which relays that hold themselves and latched signals come; without it
    nothing is held. reset: latched signals that a hand has released since.
    """

    id: Slug
    name: Line
    signals: tuple[Slug, ...] = ()
    circuits_off: tuple[Line, ...] = ()
    after: Slug | None = None
    reset: tuple[Slug, ...] = ()
    when: Condition = ALWAYS


class Promise(Record):
    """What the maker's manual says an effect does in these states. Never a default of ours.

    follows: as a person's switches call for. unchanged: as in the state before.
    """

    states: tuple[Slug, ...]
    effect: Slug
    does: Literal["on", "off", "follows", "unchanged"]
    source: Paragraph
    when: Condition = ALWAYS
