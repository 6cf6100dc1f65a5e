"""No published table value is repeated in code: what the NEC, the IRC and the other standards print stands in data.

The code is read as a syntax tree. Two nets are cast. In the modules that state the rules of the NEC and the IRC, every
number other than the plainest arithmetic is named below with its reason. In every module that asks a published table,
no number may equal one that the table prints, unless it is named here as something else.
"""

from __future__ import annotations

import ast
import math
from functools import cache
from pathlib import Path

import pytest

from schedules.tables import load, names

TOP = Path(__file__).parents[2]
PLAIN = {0, 1, 2, 100}
"""Nothing, one, both ends of a way or of a thing, a share in percent."""

RULES = tuple(
    f"{room}/{module}"
    for room, modules in {
        "circuits": (
            "alterations ampacity branch_circuits circuit_drops circuit_plan circuit_protection "
            "circuit_wires conductor_sizing cooking_circuits cooking_load demand fan_contact "
            "gfci_afci grounding hood_supply limited_wiring overcurrent path_drop power_limited "
            "switched_loads voltage_drop"
        ),
        "tables": "conductors",
        "checks": "framing_remedies",
        "boxes": "box_plan pull_boxes volume",
        "raceways": "bends fill occupants openings raceway_plan trade_size",
        "framing": "cuts framing_plan nail_plates wall_remedies walls",
    }.items()
    for module in modules.split()
)
"""Modules of `schedules` that state or apply the rules for raceways, boxes, framing and circuits."""

# Module -> number -> what it is, if not a value of a table.
ALLOWED: dict[str, dict[float, str]] = {
    "answers": {1e-9: "noise of binary arithmetic"},
    "circuits/circuit_drops": {1024: "answers kept"},
    "circuits/circuit_wires": {1024: "answers kept", 4096: "answers kept"},
    "circuits/overcurrent": {64: "answers kept"},
    "circuits/cooking_circuits": {1000: "W in a kW"},
    "circuits/cooking_load": {1000: "W in a kW"},
    "raceways/fill": {3: "three conductors jam side by side, by definition of the ratio"},
    "checks/framing_remedies": {0.25: "furring is cut to quarter inches, ours"},
    "circuits/disconnects": {12: "in in a ft"},
    "circuits/gfci_afci": {12: "in in a ft"},
    "circuits/grounding": {
        0.002: "areas are printed to three or four figures, so a ratio of two is good to this share"
    },
    "raceways/occupants": {4: "area of a circle"},
    "circuits/path_drop": {12: "in in a ft", 12_000: "in in 1000 ft"},
    "raceways/raceway_plan": {256: "answers kept"},
    "circuits/voltage_drop": {12: "in in a ft", 12_000: "in in 1000 ft"},
    "framing/walls": {
        1e-9: "noise of binary arithmetic",
        16: "a hole is bored a sixteenth larger, common practice",
        8: "bits",
    },
    "checks/behaviour": {3: "so many states are named in a sentence"},
    "job/electrical": {60: "characters of a name"},
    "work/delivery": {12: "in in a ft"},
    "exhaust/duct_fittings": {3.0: "flat side to height from which an elbow counts as flatwise"},
    "exhaust/duct_limits": {12: "in in a ft", 4: "area of a circle"},
    "checks/duct": {12: "in in a ft"},
    "checks/gas_remedies": {12: "in in a ft"},
    "checks/mounting_remedies": {
        0.5: "wood screws are sold by half inches",
        4: "the longest one proposed, ours",
    },
    "exhaust/operation": {70: "F, surroundings where a job gives none, told as such"},
    "mounting/fasteners": {0.75: "exponent of a printed formula", 1.5: "exponent of a printed formula"},
    "gas/piping": {12: "in in a ft", 60: "min in an h"},
    "mounting/lifting": {0.2: "lifts a minute below which the printed frequencies don't go"},
    "make_up/make_up_air": {4: "area of a circle"},
    "work/order_of_work": {4: "weight of the likely value in a three-point estimate"},
    "framing/bored_holes": {3: "decimals in a sort key", 4: "decimals in a sort key"},
    "package/label_sheets": {
        3: "a wire's text is printed so often, ours",
        4: "pt of padding, ours",
        5: "pt of the smallest words, ours",
        25.4: "mm in an in",
    },
    "takeoff/take_off": {12: "in in a ft"},
    "rows/readings": {3: "rank of a column"},
    "teaching/combos": {4: "combinations handed to a worker at a time, ours"},
}


def numbers_in(path: Path) -> dict[float, list[int]]:
    """Every number that stands in a module, with its lines; ranks of columns and keys are numbers too."""
    found: dict[float, list[int]] = {}
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, int | float)
            and not isinstance(node.value, bool)
        ):
            found.setdefault(float(node.value), []).append(node.lineno)
    return found


def module_name(path: Path) -> str:
    return path.relative_to(TOP / "schedules").with_suffix("").as_posix()


@cache
def printed_in(table: str) -> frozenset[float]:
    """Every number that a table prints, in its lists too."""
    cells = (cell for row in load(table).rows for cell in row.cells.values())
    parts = (part for cell in cells for part in (cell if isinstance(cell, tuple) else (cell,)))
    return frozenset(float(part) for part in parts if isinstance(part, int | float))


def tables_asked_by(path: Path) -> set[str]:
    """Tables that a module names; one that asks for rules without naming a table asks the NEC's."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    words = {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    asked = words & set(names())
    if any(isinstance(node, ast.Name) and node.id == "rule" for node in ast.walk(tree)):
        asked.add("nec_rules")
    return asked


@pytest.mark.parametrize("name", RULES)
def test_a_rule_module_holds_no_number_but_arithmetic(name: str) -> None:
    allowed = PLAIN | set(ALLOWED.get(name, {}))
    strange = {
        number: lines
        for number, lines in numbers_in(TOP / "schedules" / f"{name}.py").items()
        if not any(math.isclose(number, other) for other in allowed)
    }
    assert strange == {}, f"{name}.py: put these into a table, or name what they are"


def test_no_module_repeats_a_number_of_a_table_that_it_asks() -> None:
    repeated = {}
    for path in sorted((TOP / "schedules").rglob("*.py")):
        printed = frozenset().union(*(printed_in(table) for table in tables_asked_by(path)))
        allowed = PLAIN | set(ALLOWED.get(module_name(path), {}))
        same = {number: lines for number, lines in numbers_in(path).items() if number in printed - allowed}
        if same:
            repeated[str(path.relative_to(TOP))] = same
    assert repeated == {}


def test_the_nets_catch_what_they_are_for(tmp_path: Path) -> None:
    """A module with the ampacity of 14 AWG and the 125 percent of 210.20 written out is caught by both."""
    module = tmp_path / "bad.py"
    module.write_text(
        'from schedules.tables import load, rule\n\nTABLE = load("nec_310_16_ampacity")\n'
        "AMPERES = 15\n\n\ndef raised(load_a):\n    rule\n    return load_a * 125 / 100\n",
        encoding="utf-8",
    )
    assert set(numbers_in(module)) - PLAIN == {15.0, 125.0}
    asked = tables_asked_by(module)
    assert asked == {"nec_310_16_ampacity", "nec_rules"}
    assert {15.0, 125.0} <= frozenset().union(*(printed_in(table) for table in asked))


def test_every_rule_module_is_there_and_every_allowance_is_used() -> None:
    paths = {module_name(path): path for path in (TOP / "schedules").rglob("*.py")}
    assert set(RULES) <= set(paths)
    for name, allowed in ALLOWED.items():
        held = numbers_in(paths[name])
        unused = {number for number in allowed if not any(math.isclose(number, other) for other in held)}
        assert unused == set(), name
