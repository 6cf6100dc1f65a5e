"""Every answer that a job asks for, declared once, in the order in which it is asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.cable_fields import AS_BUILT, CIRCUIT, PLACE, RACEWAY, RUN
from schedules.field import Field, Option

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

_FT = 12.0

_JOB = (
    Field(
        "job",
        "name",
        "Name of the job",
        "line",
        "Stands at the head of every page, so that no page is taken for another kitchen's.",
        "Kitchen, 14 Alder Lane",
        required=True,
    ),
    Field(
        "job",
        "sheet",
        "Equipment sheet",
        "line",
        "The file with the hood family's data as its maker's manual gives it; its path from the job's folder.",
        "sheets/marram.toml",
        required=True,
    ),
    Field(
        "job",
        "revision",
        "Revision",
        "line",
        "Tells an old print from a new one. Raise it whenever pages were handed out.",
        "A",
        required=True,
    ),
    Field(
        "job",
        "date",
        "Date",
        "line",
        "The date of this revision, as it is to be printed.",
        "2026-03-14",
        required=True,
    ),
    Field(
        "job",
        "code",
        "Code edition",
        "option",
        "Which edition of the electrical code the authority has adopted. Tables and rules are taken from it.",
        "2023",
        options=tuple(Option(year, str(year)) for year in (2020, 2023, 2026)),
        required=True,
    ),
    Field(
        "job",
        "prepared_by",
        "Prepared by",
        "line",
        "Who can be asked about these pages.",
        "R. Ash",
    ),
    Field(
        "job",
        "note",
        "Note",
        "paragraph",
        "Local amendments, and what whoever reads the pages must know.",
        "Permit office wants GFCI on the range circuit.",
        longest=2000,
    ),
)

_CHOICES = (
    Field(
        "",
        "choices",
        "Options bought",
        "options",
        "Each option brings cables, terminals and circuits of its own.",
        "gas-valve, pull-remote",
        required=True,
    ),
)

_SITE = (
    Field(
        "site",
        "tolerance",
        "Each measurement may be off by",
        "length",
        "A cable that reaches only with every measurement right is called tight. Taken off every margin.",
        "1/2 in",
        highest=12.0,
        required=True,
    ),
    Field(
        "site",
        "ceiling",
        "Ceiling height",
        "length",
        "Overhead routes climb to it. Finished floor to finished ceiling.",
        "8' 0\"",
        lowest=6 * _FT,
        highest=40 * _FT,
    ),
    Field(
        "site",
        "above",
        "Above the ceiling",
        "option",
        "Says whether cables can cross overhead, and how.",
        "attic",
        options=(
            Option("attic", "attic", "open, cables cross over the joists"),
            Option("joists", "joists", "a floor above; cables run between or through joists"),
            Option("closed", "closed", "nothing can run there"),
        ),
    ),
    Field(
        "site",
        "below",
        "Below the floor",
        "option",
        "Says whether cables can cross under the floor.",
        "crawlspace",
        options=(
            Option("crawlspace", "crawlspace"),
            Option("basement", "basement"),
            Option("slab", "slab", "nothing can run there"),
        ),
    ),
    Field(
        "site",
        "rise_above",
        "Rise above the ceiling",
        "length",
        "How far past the ceiling an overhead cable climbs before it crosses.",
        "12 in",
        highest=15 * _FT,
    ),
    Field(
        "site",
        "drop_below",
        "Drop below the floor",
        "length",
        "How far past the floor a cable drops before it crosses under it.",
        "18 in",
        highest=15 * _FT,
    ),
    Field(
        "site",
        "cabinet_height",
        "Height of the run through cabinets",
        "length",
        "Cables through cabinets go at this height above the finished floor.",
        "7' 6\"",
        highest=20 * _FT,
    ),
    Field(
        "site",
        "wall_finish",
        "Wall finish still to come",
        "length",
        "Positions measured from the rough wall are reduced by it: drywall, tile, backsplash.",
        "5/8 in",
        highest=6.0,
    ),
    Field(
        "site",
        "floor_finish",
        "Floor finish still to come",
        "length",
        "Heights measured from the rough floor are reduced by it.",
        "3/4 in",
        highest=8.0,
    ),
    Field(
        "site",
        "waste",
        "Waste on field cable",
        "percent",
        "Added to cable that is cut on site. Never to a factory cable: its length is fixed.",
        "10 %",
        highest=50.0,
    ),
)

FIELDS: Mapping[tuple[str, str], Field] = {
    (field.table, field.key): field
    for field in (*_JOB, *_CHOICES, *_SITE, *PLACE, *RUN, *RACEWAY, *CIRCUIT, *AS_BUILT)
}


def fields_of(table: str) -> Iterator[Field]:
    """The fields of one table, in the order in which they are asked."""
    return (field for field in FIELDS.values() if field.table == table)
