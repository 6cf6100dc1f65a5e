"""The answers that a job asks for about the kitchen itself: walls, cabinets, what is taken, ways of routing."""

from __future__ import annotations

from schedules.questions.field import YES_NO, Field, Option

_FT = 12.0
_LONGEST_WALL_IN = 100 * _FT

WALL = (
    Field(
        "wall",
        "length",
        "Length of the wall",
        "length",
        "From corner to corner, finished. Walls follow one another to the right, as you see them from inside.",
        "14' 2\"",
        lowest=6.0,
        highest=_LONGEST_WALL_IN,
        required=True,
    ),
    Field(
        "wall",
        "corner",
        "Corner at its right end",
        "option",
        "The next wall turns towards you or away from you.",
        "inside corner",
        options=(Option("inside", "inside corner"), Option("outside", "outside corner")),
    ),
    Field(
        "wall",
        "open",
        "Open side, no wall",
        "option",
        "Closes the round of the room where there is no wall, as towards a living room.",
        "no",
        options=YES_NO,
    ),
    Field(
        "wall",
        "lumber",
        "Size of its studs",
        "line",
        "How large a hole they may have, and how thick the wall is.",
        "2x4",
        longest=5,
    ),
    Field(
        "wall",
        "spacing",
        "Stud spacing",
        "length",
        "Centre to centre. Boxes go between studs, cables through them.",
        "16 in",
        lowest=4.0,
        highest=48.0,
    ),
    Field(
        "wall",
        "first_stud",
        "First stud",
        "length",
        "From the wall's left corner to the centre of the first stud of that spacing.",
        "15-1/4 in",
        highest=48.0,
    ),
    Field(
        "wall",
        "bearing",
        "Exterior or bearing wall",
        "option",
        "Studs that bear may be bored less.",
        "yes",
        options=YES_NO,
    ),
)


def _on_a_wall(table: str, what: str) -> tuple[Field, ...]:
    """Where a rectangle lies on a wall: asked alike for cabinets and for what is taken."""
    return (
        Field(
            table,
            "wall",
            "Wall",
            "option",
            "Without an answer it is the range wall.",
            "A",
        ),
        Field(
            table,
            "left",
            "Left edge",
            "length",
            f"From the wall's left corner to {what}'s left edge.",
            "3' 2\"",
            lowest=-_LONGEST_WALL_IN,
            highest=_LONGEST_WALL_IN,
            required=True,
        ),
        Field(
            table,
            "width",
            "Width",
            "length",
            f"Of {what}, along the wall.",
            "36 in",
            lowest=0.5,
            highest=_LONGEST_WALL_IN,
            required=True,
        ),
        Field(
            table,
            "bottom",
            "Lower edge above the floor",
            "length",
            "From the finished floor.",
            "54 in",
            highest=40 * _FT,
            required=True,
        ),
        Field(
            table,
            "height",
            "Height",
            "length",
            f"Of {what} itself.",
            "30 in",
            lowest=0.5,
            highest=40 * _FT,
            required=True,
        ),
    )


CABINET = (
    *_on_a_wall("cabinet", "the cabinet"),
    Field(
        "cabinet",
        "depth",
        "Depth",
        "length",
        "From the wall to its front.",
        "13 in",
        lowest=1.0,
        highest=60.0,
        required=True,
    ),
    Field(
        "cabinet",
        "carries",
        "Cables may run through it",
        "option",
        "A run through cabinets passes only those that may be drilled.",
        "yes",
        options=YES_NO,
    ),
)

KEEP_OUT = (
    Field(
        "keep_out",
        "kind",
        "What takes this part of the wall",
        "option",
        "No box stands in it and no way is chosen through it.",
        "window",
        options=(
            Option("window", "window"),
            Option("door", "door or opening"),
            Option("duct", "duct"),
            Option("flue", "flue, or the hot zone behind the range"),
            Option("gas", "gas pipe's zone"),
            Option("plumbing", "plumbing"),
            Option("finish", "finish that nobody may cut", "a stone backsplash, a mirror"),
            Option("other", "something else"),
        ),
        required=True,
    ),
    *_on_a_wall("keep_out", "what is there"),
    Field(
        "keep_out",
        "bars",
        "What may not be there",
        "options",
        "Without an answer neither boxes nor cables.",
        "devices, cables",
        options=(Option("devices", "boxes and devices"), Option("cables", "cables")),
    ),
)

COOKING_RANGE = (
    Field(
        "cooking_range",
        "centre",
        "Centre of the range",
        "length",
        "Along the range wall from its left corner.",
        "7' 3-1/2\"",
        lowest=-_LONGEST_WALL_IN,
        highest=_LONGEST_WALL_IN,
    ),
    Field(
        "cooking_range",
        "width",
        "Width of the range",
        "length",
        "Drawn on the elevation, so that whoever drills sees where it will stand.",
        "36 in",
        lowest=6.0,
        highest=120.0,
    ),
    Field(
        "cooking_range",
        "depth",
        "Depth of the range",
        "length",
        "From the wall to its front.",
        "27 in",
        lowest=6.0,
        highest=60.0,
    ),
)

STOCK = (
    Field(
        "stock",
        "item",
        "What is bought",
        "line",
        "Cable or conductor by its type as the take-off names it, raceway by kind and trade size.",
        "NM-B 14/2 G",
        required=True,
    ),
    Field(
        "stock",
        "length",
        "Length of one",
        "length",
        "Of one coil, reel or stick. What is cut is laid out for the least bought.",
        "250 ft",
        lowest=6.0,
        highest=10_000 * _FT,
        required=True,
    ),
)

ROUTING = (
    Field(
        "routing",
        "wiring",
        "Cables on walls run",
        "option",
        "In the wall they need holes in its studs.",
        "in the wall",
        options=(
            Option("in the wall", "in the wall", "through holes in its studs"),
            Option("on the surface", "on the surface", "in raceway or tray that stays to be seen"),
        ),
    ),
    *(
        Field(
            "routing",
            f"per_{thing}",
            label,
            "length",
            "A way with more of them is chosen only where it is shorter by that much.",
            "6 in",
            highest=20 * _FT,
        )
        for thing, label in (
            ("corner", "A corner counts as"),
            ("stud", "A bored stud counts as"),
            ("plate", "A bored plate counts as"),
        )
    ),
)
