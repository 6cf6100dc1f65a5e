"""`hoodwright job template|schema`: job files."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_file
from wizard.commands.document import give

if TYPE_CHECKING:
    import argparse


def _template(arguments: argparse.Namespace) -> int:
    from schedules.templates import job_template  # noqa: PLC0415

    return give(job_template().encode(), arguments.output)


def _schema(arguments: argparse.Namespace) -> int:
    from schedules.schema import job_schema  # noqa: PLC0415
    from schedules.writers.data import as_json  # noqa: PLC0415

    return give(as_json(job_schema()), arguments.output)


COMMAND = Command(
    name="job",
    summary="job files: a commented example, schema for an editor",
    description=(
        "A job is one kitchen, in TOML: the equipment sheet that it uses, the options bought, where things are, how "
        "the cables go, what was found on site. `hoodwright new` starts one for your sheet, "
        "`hoodwright check` checks it."
    ),
    examples=(
        ("hoodwright job template", "a complete job with a comment beside every key"),
        ("hoodwright job schema -o job.schema.json", "for an editor"),
    ),
    parts=(
        Command(
            name="template",
            summary="print a complete, commented job",
            description=(
                "Print a complete, invented job with a comment beside every key. It belongs to the sheet that "
                "`hoodwright sheet template` prints. To start a job for your own sheet, use `hoodwright new`."
            ),
            examples=(("hoodwright job template -o example.toml", "into a new file"),),
            arguments=lambda parser: add_file(parser, "the template"),
            run=_template,
        ),
        Command(
            name="schema",
            summary="print the JSON Schema of a job, for an editor",
            description=(
                "Print the JSON Schema of jobs. An editor that knows it completes keys, shows what each means and "
                "marks mistakes while you type."
            ),
            examples=(("hoodwright job schema -o job.schema.json", "into a new file"),),
            arguments=lambda parser: add_file(parser, "the schema"),
            run=_schema,
        ),
    ),
)
