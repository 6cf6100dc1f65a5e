"""Words for the screens: what the last answer did, what a question wants, what a finding says."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from textual.content import Content

from schedules.cautions import CAUTIONS
from schedules.comparison import Kind, count
from schedules.quantities.lengths import Style, format_length, parse_length
from schedules.quantities.numerals import UnitError
from schedules.text import printable
from wizard.steps import STEPS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.comparison import Change, Comparison
    from schedules.findings import Finding
    from wizard.question import Question, StepId
    from wizard.session import Snapshot

_SIGNS = {Kind.ADDED: "+", Kind.REMOVED: "−", Kind.ALTERED: "~"}
_STYLES = {Kind.ADDED: "$text-success", Kind.REMOVED: "$text-error", Kind.ALTERED: "$text-warning"}


def effect_content(snapshot: Snapshot) -> Content:
    """What the last answer did, every change of it."""
    lines = list(_news(snapshot))
    if _has_changes(snapshot) and snapshot.effect is not None:
        lines += comparison_lines(snapshot.effect)
    return Content("\n").join(lines)


def brief_effect(snapshot: Snapshot, longest: int) -> Content:
    """What the last answer did, in at most so many lines: counts, then the first changes."""
    lines = list(_news(snapshot))
    if _has_changes(snapshot) and snapshot.effect is not None:
        changed = [(subject, changes) for subject, changes in snapshot.effect.by_subject() if changes]
        lines.append(
            Content("; ".join(f"{subject} {_counts(changes)}" for subject, changes in changed).capitalize())
        )
        every = [_line(change) for _, changes in changed for change in changes]
        room = longest - len(lines)
        lines += every if len(every) <= room else every[: room - 1]
        if len(every) > room:
            lines.append(Content(f"and {len(every) - room + 1} more: press e"))
    return Content("\n").join(lines)


def _has_changes(snapshot: Snapshot) -> bool:
    return not snapshot.planning and snapshot.effect is not None and not snapshot.effect.same


def _news(snapshot: Snapshot) -> Iterator[Content]:
    """What was done, and why nothing more can be told of it yet."""
    if snapshot.unsaved:
        yield Content.styled(f"NOT SAVED: {printable(snapshot.unsaved, 200)}", "bold $text-error")
    if not snapshot.last:
        yield Content("Nothing answered yet since the job was opened.")
        yield from (Content(caution) for caution in CAUTIONS)
        return
    yield Content.styled(snapshot.last, "bold")
    if snapshot.planning:
        yield Content("planning …")
    elif snapshot.effect is None:
        yield Content("first plan of this job")
    elif snapshot.effect.same:
        yield Content("changes no termination, cable, circuit, opening or finding")


def without_questions(snapshot: Snapshot, *, failed: bool) -> str:
    """Why a step asks nothing. failed: this job could not be planned."""
    if snapshot.plan is not None:
        return "Nothing to ask here with these options"
    return "No plan" if failed else "Planning…"


def comparison_lines(comparison: Comparison) -> Iterator[Content]:
    """Each schedule that differs: how many things were added, removed, altered, then each of them."""
    for subject, changes in comparison.by_subject():
        if changes:
            yield Content.assemble((subject.capitalize(), "bold"), f"  {_counts(changes)}")
            yield from (_line(change) for change in changes)


def _counts(changes: tuple[Change, ...]) -> str:
    return ", ".join(f"{number} {kind}" for kind in Kind if (number := count(changes, kind)))


def _line(change: Change) -> Content:
    return Content.assemble((f" {_SIGNS[change.kind]} ", f"bold {_STYLES[change.kind]}"), str(change))


def question_content(question: Question) -> Content:
    """What a question wants: the reason, then unit, range and example, then the answer in both systems."""
    field = question.field
    lines = [Content(field.why)]
    if question.kind in ("add", "remove", "open"):
        return lines[0]
    if question.kind == "choices":
        return Content(_HOW_MANY[question.several, question.needed])
    wants = []
    if question.options:
        wants.append(Content(f"Enter opens the list of {len(question.options)} answers."))
    else:
        wants.append(Content.assemble(("Allowed " if field.allowed else "Range ", "bold"), field.range))
        wants += [Content.assemble(("Unit ", "bold"), field.unit)] if field.unit else []
        wants += [Content.assemble(("Example ", "bold"), field.example)] if field.example else []
    lines.append(Content("  ").join(wants))
    both = _both_ways(question)
    if both:
        lines.append(Content.assemble(("Now ", "bold"), both))
    return Content("\n").join(lines)


_HOW_MANY = {
    (False, True): "Exactly one of these.",
    (True, True): "One or more of these.",
    (True, False): "Any of these, or none.",
}


def _both_ways(question: Question) -> str:
    """The answer in both systems, so that a slip of unit is seen."""
    if question.field.reads != "length" or not question.written:
        return ""
    try:
        length_in = parse_length(question.written)
    except UnitError:
        return ""
    return f"{format_length(length_in)} = {format_length(length_in, Style.METRIC)}"


def finding_content(finding: Finding) -> Content:
    """One finding for the list: severity as a word, subject, sentence."""
    style = {"stop": "bold $text-error", "fix": "bold $text-warning"}.get(finding.severity, "bold")
    line = Content.assemble(
        (f"{finding.severity.upper():5} ", style), (f"{finding.subject}  ", "bold"), finding.says
    )
    found = finding.acknowledgement
    if found is None:
        return line
    words = f"  {found.initials}: does not count" if found.void else f"  acknowledged by {found.initials}"
    return Content.assemble(line, (words, "bold $text-error" if found.void else "$text-success"))


def finding_details(finding: Finding) -> Content:
    """A finding's numbers, rule, source, what would cure it, and who answers for it."""
    lines = [Content.assemble(("Means  ", "bold"), finding.severity.meaning)]
    if finding.acknowledgement is not None:
        lines.append(Content.assemble(("Answer  ", "bold"), str(finding.acknowledgement)))
    if finding.numbers:
        numbers = "; ".join(f"{item.name} {item.value}" for item in finding.numbers)
        lines.append(Content.assemble(("Numbers  ", "bold"), numbers))
    lines.append(Content.assemble(("Rule  ", "bold"), f"{finding.rule} [{finding.source}]"))
    for place, remedy in enumerate(finding.remedies, start=1):
        proof = "planned again: cures it" if remedy.edits else "by hand"
        lines.append(Content.assemble((f"Remedy {place}  ", "bold"), f"{remedy.words} ({proof})"))
    if not finding.remedies:
        lines.append(Content("No remedy was computed; go to the field and decide."))
    return Content("\n").join(lines)


def title_content(snapshot: Snapshot, step: StepId) -> Content:
    """The head of the job's screen: step, whether it is saved, job, file."""
    job = snapshot.draft.job.job
    saved = "NOT SAVED" if snapshot.unsaved else "saved"
    file = printable(Path(snapshot.draft.file).name, 60)
    title = next(item.title for item in STEPS if item.id == step)
    return Content.assemble(
        (title, "bold"), f"   {saved}   ", (job.name, "bold"), f"   revision {job.revision}   {file}"
    )
