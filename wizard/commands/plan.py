"""`hoodwright plan schema`: the form of a plan's JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_file
from wizard.commands.document import give

if TYPE_CHECKING:
    import argparse


def _schema(arguments: argparse.Namespace) -> int:
    from schedules.schema import plan_schema  # noqa: PLC0415

    return give(plan_schema(), arguments.output)


COMMAND = Command(
    name="plan",
    summary="plans as JSON: the schema",
    description="A plan is all that is derived from one job. `hoodwright show JOB --json` prints it as JSON.",
    examples=(
        ("hoodwright plan schema -o plan.schema.json", "the JSON Schema of hoodwright-plan, version 1"),
    ),
    parts=(
        Command(
            name="schema",
            summary="print the JSON Schema of a plan",
            description=(
                "Print the JSON Schema of what `hoodwright show JOB --json` prints: format hoodwright-plan, version 1. "
                "A key that is added keeps the version; one that is renamed, removed or changes its meaning raises it."
            ),
            examples=(("hoodwright plan schema -o plan.schema.json", "into a new file"),),
            arguments=lambda parser: add_file(parser, "the schema"),
            run=_schema,
        ),
    ),
)
