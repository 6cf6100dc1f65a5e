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


def effect_content(snapshot: Snapshot, longest: int | None = None) -> Content:
    """What the last answer did. longest: at most so many lines, the rest counted."""
    lines = list(_effect_lines(snapshot))
    if longest is not None and len(lines) > longest:
        rest = len(lines) - (longest - 1)
        lines = [*lines[: longest - 1], Content(f"and {rest} more: press e")]
    return Content("\n").join(lines)


def _effect_lines(snapshot: Snapshot) -> Iterator[Content]:
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
    else:
        yield from comparison_lines(snapshot.effect)


def comparison_lines(comparison: Comparison) -> Iterator[Content]:
    """Each schedule that differs: how many things were added, removed, altered, then each of them."""
    for subject, changes in comparison.by_subject():
        if changes:
            yield _counted(subject, changes)
            for change in changes:
                yield Content.assemble(
                    (f" {_SIGNS[change.kind]} ", f"bold {_STYLES[change.kind]}"), str(change)
                )


def _counted(subject: str, changes: tuple[Change, ...]) -> Content:
    counts = [f"{number} {kind}" for kind in Kind if (number := count(changes, kind))]
    return Content.assemble((subject.capitalize(), "bold"), f"  {', '.join(counts)}")


def question_content(question: Question) -> Content:
    """What a question wants: the reason, then unit, range and example, then the answer in both systems."""
    field = question.field
    lines = [Content(field.why)]
    if question.kind in ("add", "remove"):
        return lines[0]
    if question.kind == "choices":
        return Content(_HOW_MANY[question.several, question.needed])
    wants = []
    if field.unit:
        wants.append(Content.assemble(("Unit ", "bold"), field.unit))
    if not question.options:
        wants.append(Content.assemble(("Range ", "bold"), field.range))
        wants.append(Content.assemble(("Example ", "bold"), field.example))
    else:
        wants.append(Content(f"Enter opens the list of {len(question.options)} answers."))
    if wants:
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
    return Content.assemble(
        (f"{finding.severity.upper():5} ", style), (f"{finding.subject}  ", "bold"), finding.says
    )


def finding_details(finding: Finding) -> Content:
    """A finding's numbers, rule, source, and what would cure it."""
    lines = [Content.assemble(("Means  ", "bold"), finding.severity.meaning)]
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
