"""A scene of a story, drawn: which conductors are live, which are dead, and what the event has just changed of that."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.behaviour.wire_states import WireKind
from schedules.drawings.picture import End, Line, Paper, Pen
from schedules.drawings.split import draw_pages
from schedules.drawings.views import job_line, point_to_point, warning

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.behaviour.wire_states import WireState
    from schedules.connections.points import Landing, Point
    from schedules.drawings.picture import Picture
    from schedules.plan import Plan
    from schedules.teaching.story import Scene

_CAUTION = (
    "Solved by calculation, never measured: no conductor is dead until it was switched off, locked, tagged and "
    "measured dead. A conductor that carries current turns live where it is opened."
)
_LETTERS = "Letters at the ends are colour codes of IEC 60757."

_PENS = {
    WireKind.LIVE: Pen.LIVE,
    WireKind.CARRIES: Pen.CARRIES,
    WireKind.DEAD: Pen.DEAD,
    WireKind.OPEN: Pen.OPEN,
}


def in_scene(plan: Plan, scene: Scene, before: Scene | None, paper: Paper = Paper.TABLOID) -> Picture:
    """Every conductor point to point where it then lands, live or dead in words at both ends and by its line.

    before: the scene from which the event led here; what it changed is marked.
    """
    picture = point_to_point(plan, paper)
    landings = plan.derived.connections.landings
    now, was = scene.wires, {} if before is None else before.wires
    lines = [
        _line(line, now[line.key], was.get(line.key), landings)
        if line.key in now
        else replace(line, pen=Pen.DEAD)
        for line in picture.lines
    ]
    shown = {(block.key, terminal.key) for block in picture.blocks for terminal in block.terminals}
    lines += [line for line in _touching(scene, landings) if _stands(line, shown)]
    return replace(
        picture,
        title=f"{scene.says[:1].upper()}{scene.says[1:]}: what is live",
        subtitle=f"{plan.derived.job.job.name}{warning(plan)}. {_told(scene, before)}",
        lines=tuple(lines),
        footer=(job_line(plan), f"{_CAUTION} {_LETTERS}", *picture.footer[1:]),
    )


def scene_files(plan: Plan, scene: Scene, before: Scene | None) -> dict[str, bytes]:
    """The scene as SVG and PNG, on as many pages as can be read, by file name.

    Raises DrawingError where a page is not proved, EngineError.
    """
    files: dict[str, bytes] = {}
    for number, page in enumerate(draw_pages(in_scene(plan, scene, before)), start=1):
        files |= {f"live-{number}.svg": page.svg.encode(), f"live-{number}.png": page.png()}
    return files


def words_of(now: WireState, was: WireState | None) -> str:
    """What a conductor is, in few words; with a sign where it was something else before."""
    changed = was is not None and was.kind is not now.kind
    match now.kind:
        case WireKind.OPEN:
            live = " and ".join(map(str, now.live_ends))
            return f"× OPEN, live at {live}" if live else "× OPEN, dead"
        case WireKind.LIVE:
            return f"+ LIVE NOW {max(now.volts):.0f} V" if changed else f"LIVE {max(now.volts):.0f} V"
        case WireKind.CARRIES:
            sign = "−" if was is not None and was.kind is WireKind.LIVE else "+"
            return f"{sign} CARRIES NOW {_amperes(now)}" if changed else f"carries {_amperes(now)}"
        case _:
            return "− DEAD NOW" if changed else "dead"


def _amperes(state: WireState) -> str:
    """A current by the unit that a person would read it in."""
    return f"{state.amperes:.1f} A" if state.amperes >= 1.0 else f"{1000 * state.amperes:.0f} mA"


def _line(line: Line, now: WireState, was: WireState | None, landings: Mapping[Point, Landing]) -> Line:
    """The line as it stands in the scene: moved where a slip moved it."""
    a, b = (_end(point, landings) for point in now.ends)
    if a == b:
        return replace(line, note=f"BOTH ENDS ON {now.ends[0]}, {words_of(now, was)}", pen=_pen(now, was))
    slipped = "MOVED, " if (a, b) != (line.a, line.b) else ""
    return replace(line, a=a, b=b, note=f"{slipped}{words_of(now, was)}", pen=_pen(now, was))


def _end(point: Point, landings: Mapping[Point, Landing]) -> End:
    return End(landings[point].enclosure, str(point))


def _pen(now: WireState, was: WireState | None) -> Pen:
    if was is not None and (was.kind is WireKind.LIVE) != (now.kind is WireKind.LIVE):
        if now.kind is WireKind.LIVE:
            return Pen.NOW_LIVE
        if was.kind is WireKind.LIVE and now.kind is not WireKind.OPEN:
            return Pen.NOW_DEAD
    return _PENS[now.kind]


def _touching(scene: Scene, landings: Mapping[Point, Landing]) -> Iterator[Line]:
    """What joins two terminals that must not be joined."""
    for place, (a, b) in enumerate(scene.change.touching, start=1):
        one, other = _end(a, landings), _end(b, landings)
        yield Line(f"!{place}", one, other, size="strand", note="TOUCHES")


def _stands(line: Line, shown: set[tuple[str, str]]) -> bool:
    """Whether both its terminals are in the drawing; a maker's own may not be."""
    return line.a != line.b and all((end.block, end.terminal) in shown for end in (line.a, line.b))


def _told(scene: Scene, before: Scene | None) -> str:
    parts = [f"State: {scene.state}."]
    parts += [f"WRONG: {words}." for words in scene.wrong]
    parts += [f"{words} TRIPPED." for words in scene.tripped]
    parts += [f"DANGER: {'; '.join(scene.hazards)}."] if scene.hazards else []
    parts += [] if scene.settled else ["Contacts never come to rest; drawn as at one instant."]
    parts += [] if before is None else [f"Marked + or −: what changed since “{before.says}”."]
    return " ".join(parts)
