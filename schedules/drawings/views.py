"""From a plan to pictures: overview, the whole point to point, one enclosure, one circuit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.cautions import ON_A_DRAWING
from schedules.drawings.home import home_pictures
from schedules.drawings.picture import Block, End, Line, Paper, Picture, Terminal, TerminalKind
from schedules.quantities.lengths import format_length
from schedules.raceways.openings import used_openings
from schedules.rows.terminations import in_number_order
from schedules.sheet.hardware import Contact

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.connections.points import Conductor, Landing, Point, Spare
    from schedules.plan import Plan
    from schedules.sheet.wiring import Cable
    from schedules.site.reach import CableLength

CONTACTS = "Contacts are drawn in shelf state: unpowered, not operated."


def overview(plan: Plan, paper: Paper = Paper.TABLOID) -> Picture:
    """Enclosures and cables: type, length and openings on each cable."""
    lengths = {item.cable: item for item in plan.derived.lengths}
    blocks = []
    lines = []
    for enclosure in plan.derived.selection.enclosures:
        ends = [cable for cable in plan.derived.selection.cables if enclosure.tag in _enclosures(cable)]
        if ends:
            blocks.append(_cable_block(plan, enclosure.tag, ends))
    shown = {block.key for block in blocks}
    for cable in plan.derived.selection.cables:
        a, b = _enclosures(cable)
        if {a, b} <= shown and a != b:
            lines.append(
                Line(
                    key=cable.tag,
                    a=End(a, cable.tag),
                    b=End(b, cable.tag),
                    size=cable.type,
                    note=_length_note(lengths[cable.tag]),
                )
            )
    return _picture(
        plan, "Overview: enclosures and cables", tuple(blocks), tuple(lines), paper, contacts=False
    )


def point_to_point(plan: Plan, paper: Paper = Paper.TABLOID) -> Picture:
    """Every conductor from terminal to terminal, every terminal of every enclosure in use."""
    return _wired(
        plan,
        "Point to point",
        in_number_order(plan),
        plan.derived.connections.spares,
        whole=None,
        paper=paper,
    )


def one_enclosure(plan: Plan, tag: str, paper: Paper = Paper.LETTER) -> Picture:
    """All that lands in one enclosure; of the others, only what it goes to.

    Raises LookupError for an enclosure that the plan doesn't have.
    """
    enclosure = next((item for item in plan.derived.selection.enclosures if item.tag == tag), None)
    if enclosure is None:
        known = ", ".join(item.tag for item in plan.derived.selection.enclosures)
        raise LookupError(f"no enclosure {tag} with these options; there are: {known}")
    landings = plan.derived.connections.landings
    landing_here = [
        item
        for item in in_number_order(plan)
        if tag in (landings[item.a].enclosure, landings[item.b].enclosure)
    ]
    spares = tuple(item for item in plan.derived.connections.spares if tag in item.enclosures)
    return _wired(plan, f"{tag}  {enclosure.name}", landing_here, spares, whole=tag, paper=paper)


def one_circuit(plan: Plan, tag: str, paper: Paper = Paper.LETTER) -> Picture:
    """The conductors of one circuit's cables.

    Raises LookupError for a circuit that the plan doesn't have.
    """
    need = next((item for item in plan.derived.circuits if item.circuit.tag == tag), None)
    if need is None:
        known = ", ".join(item.circuit.tag for item in plan.derived.circuits)
        raise LookupError(f"no circuit {tag} with these options; there are: {known}")
    carried = [item for item in in_number_order(plan) if item.circuit == tag]
    return _wired(plan, f"Circuit {tag}  {need.circuit.name}", carried, (), whole="", paper=paper)


def _wired(
    plan: Plan,
    title: str,
    carried: list[Conductor],
    spares: Iterable[Spare],
    *,
    whole: str | None,
    paper: Paper,
) -> Picture:
    """Draw conductors. whole: the one enclosure shown with all its terminals, None for every one, empty for none."""
    landings = plan.derived.connections.landings
    used = {end for item in carried for end in (item.a, item.b)}
    capped = [spare for spare in spares if whole is None or whole in spare.enclosures]
    shown = {landings[end].enclosure for end in used} | {tag for spare in capped for tag in spare.enclosures}
    contacts = _contact_kinds(plan)
    blocks = []
    for order, enclosure in enumerate(plan.derived.selection.enclosures):
        if enclosure.tag not in shown:
            continue
        full = whole is None or whole == enclosure.tag
        terminals = tuple(
            _terminal(plan, landing, contacts)
            for point, landing in landings.items()
            if landing.enclosure == enclosure.tag and (point in used or (full and not landing.wired_by_maker))
        )
        blocks.append(Block(enclosure.tag, enclosure.tag, enclosure.name, terminals, order, partial=not full))
    lines = [_conductor_line(plan, item) for item in carried]
    lines += [
        Line(
            key=spare.number,
            a=End(spare.enclosures[0], None),
            b=End(spare.enclosures[1], None),
            colour=spare.colour,
            size=str(spare.size),
            cable=spare.cable,
            note="spare",
        )
        for spare in capped
    ]
    return _picture(plan, title, tuple(blocks), tuple(lines), paper, contacts=True)


def _picture(
    plan: Plan,
    title: str,
    blocks: tuple[Block, ...],
    lines: tuple[Line, ...],
    paper: Paper,
    *,
    contacts: bool,
) -> Picture:
    return Picture(
        title=title,
        subtitle=f"{plan.derived.job.job.name}{warning(plan)}",
        blocks=blocks,
        lines=lines,
        footer=(
            job_line(plan),
            f"{CONTACTS} {ON_A_DRAWING}" if contacts else ON_A_DRAWING,
        ),
        paper=paper,
        home=home_pictures(plan.derived.sheet),
    )


def job_line(plan: Plan) -> str:
    """Which job, sheet and code a drawing was made from."""
    job, sheet = plan.derived.job.job, plan.derived.sheet.sheet
    return f"Job revision {job.revision}, {job.date}. Sheet {sheet.name}, revision {sheet.revision}. NEC {job.code}."


def warning(plan: Plan) -> str:
    """A drawing out of the printer must not look ready to wire where its plan is not."""
    if plan.sound:
        return ""
    count = sum(1 for finding in plan.findings if finding.severity.blocks)
    return f". NOT SOUND, do not build by it: {count} finding{'s' if count > 1 else ''} to cure first"


def _enclosures(cable: Cable) -> tuple[str, str]:
    return cable.origin.enclosure, cable.target.enclosure


def _cable_block(plan: Plan, tag: str, cables: list[Cable]) -> Block:
    enclosures = [item.tag for item in plan.derived.selection.enclosures]
    name = next(item.name for item in plan.derived.selection.enclosures if item.tag == tag)
    terminals = tuple(
        Terminal(cable.tag, _opening(plan, cable, tag), TerminalKind.OPENING) for cable in cables
    )
    return Block(tag, tag, name, terminals, enclosures.index(tag))


def _opening(plan: Plan, cable: Cable, enclosure: str) -> str:
    names = [used.opening for used in used_openings(plan.derived.job, cable) if used.enclosure == enclosure]
    return names[0] if names else ""


def _length_note(length: CableLength) -> str:
    if length.cut_in is not None:
        return f"cut {format_length(length.cut_in)}"
    if length.required_in is None:
        return "not measured"
    return f"needs {format_length(length.required_in)} of {format_length(length.supplied_in or 0.0)}, {length.verdict}"


def _terminal(plan: Plan, landing: Landing, contacts: dict[Point, TerminalKind]) -> Terminal:
    kind = contacts.get(landing.point, TerminalKind.SCREW)
    if landing.connector is not None:
        kind = TerminalKind.PIN
    elif landing.clamp is not None and landing.clamp.style == "lead":
        kind = TerminalKind.LEAD
    if landing.empty_on_purpose:
        note = "left empty"
    elif landing.needed and not plan.derived.connections.landed(landing.point):
        note = "conductor missing"
    else:
        note = "not used"
    return Terminal(
        key=str(landing.point),
        designation=landing.point.terminal,
        kind=kind,
        group=landing.point.device,
        note=note,
        href=f"#{landing.point.device}-{landing.point.terminal}",
    )


def _contact_kinds(plan: Plan) -> dict[Point, TerminalKind]:
    """Tell each contact terminal's part: one that several contacts share is their common."""
    contacts = [item for item in plan.derived.connections.inside.values() if isinstance(item.spec, Contact)]
    seen: dict[Point, int] = {}
    for item in contacts:
        for end in (item.a, item.b):
            seen[end] = seen.get(end, 0) + 1
    kinds: dict[Point, TerminalKind] = {}
    for item in contacts:
        if (
            not isinstance(item.spec, Contact)
            or item.a.device != item.b.device
            or item.key.count(".breaker-")
        ):
            continue
        common, other = (item.b, item.a) if seen[item.b] > seen[item.a] else (item.a, item.b)
        kinds[common] = TerminalKind.COM
        kinds[other] = TerminalKind.NO if item.spec.form == "NO" else TerminalKind.NC
    return kinds


def _conductor_line(plan: Plan, conductor: Conductor) -> Line:
    landings = plan.derived.connections.landings
    return Line(
        key=conductor.number,
        a=End(landings[conductor.a].enclosure, str(conductor.a)),
        b=End(landings[conductor.b].enclosure, str(conductor.b)),
        colour=conductor.colour,
        remarked=conductor.mark or "",
        size=str(conductor.size),
        cable=conductor.cable,
    )
