"""NDS, NIOSH and clearance tables: every row carried, against values retyped by hand."""

from __future__ import annotations

from schedules.tables import load, rule
from schedules.working import Confidence

# Fastener: diameter, root, tip [in], bending yield strength [psi]. NDS 2018 Appendix L and table I1, from memory.
FASTENERS = """
lag 1/4|1/4|0.173|5/32|70000
lag 5/16|5/16|0.227|3/16|60000
lag 3/8|3/8|0.265|7/32|45000
lag 7/16|7/16|0.328|9/32|45000
lag 1/2|1/2|0.371|5/16|45000
wood screw 8|0.164|0.131|0.328|90000
wood screw 10|0.190|0.152|0.380|80000
wood screw 12|0.216|0.171|0.432|80000
wood screw 14|0.242|0.196|0.484|70000
"""

THREADS = {1: 3 / 4, 1.5: 1.25, 2: 1.5, 2.5: 1.75, 3: 2, 4: 2.5, 5: 3, 6: 3.5}

# Heads of table 12K in two scans of it; the first two rows one text and memory.
GRAVITIES = {
    "southern-pine": 0.55,
    "douglas-fir-larch": 0.50,
    "douglas-fir-larch-north": 0.49,
    "douglas-fir-south": 0.46,
    "hem-fir": 0.43,
    "spruce-pine-fir": 0.42,
    "spruce-pine-fir-south": 0.36,
}

DURATIONS = {
    "permanent": 0.9,
    "ten years": 1.0,
    "two months": 1.15,
    "seven days": 1.25,
    "ten minutes": 1.6,
}

# Lifts a minute, then up to 1 hour, 1 to 2, 2 to 8. NIOSH 94-110 table 5.
FREQUENCIES = """
0.2 1.00 .95 .85
0.5 .97 .92 .81
1 .94 .88 .75
2 .91 .84 .65
3 .88 .79 .55
"""

GRIPS = {"good": (1.0, 1.0), "fair": (0.95, 1.0), "poor": (0.9, 0.9)}

NDS_RULES = {
    "lag_penetration": ("12.1.4.6", (4,), "D"),
    "wood_screw_penetration": ("12.1.5.6", (6,), "D"),
    "wood_screw_thread": ("Appendix L Table L3", (66.7,), "%"),
    "edge_distance": ("Table 12.5.1", (1.5,), "D"),
    "end_distance": ("Table 12.5.1", (4,), "D"),
    "steel_bearing_a653": ("12.3.3", (61850,), "psi"),
    "steel_bearing_a36": ("12.3.3", (87000,), "psi"),
    "lead_hole": ("12.1.4.2", (40, 70), "%"),
}


def number(text: str) -> float:
    top, _, bottom = text.partition("/")
    return float(top) / float(bottom) if bottom else float(text)


def test_every_fastener() -> None:
    expected = {}
    for line in FASTENERS.split("\n")[1:-1]:
        name, *cells = line.split("|")
        expected[name] = tuple(number(cell) for cell in cells)
    columns = ("diameter_in", "root_in", "tip_in", "bending_yield_psi")
    found = {
        row.text("fastener"): tuple(row.number(name) for name in columns)
        for row in load("nds_fasteners").rows
    }
    assert found == expected


def test_every_thread_length() -> None:
    rows = load("nds_lag_thread_length").rows
    assert {row.number("length_in"): row.number("thread_in") for row in rows} == THREADS


def test_every_specific_gravity() -> None:
    rows = load("nds_specific_gravity").rows
    assert {row.text("species"): row.number("specific_gravity") for row in rows} == GRAVITIES


def test_every_load_duration() -> None:
    rows = load("nds_load_duration").rows
    assert {row.text("duration"): row.number("factor") for row in rows} == DURATIONS


def test_every_frequency_multiplier() -> None:
    expected: dict[tuple[str, float], float] = {}
    for line in FREQUENCIES.split("\n")[1:-1]:
        often, *values = map(float, line.split())
        expected |= {
            (hours, often): value
            for hours, value in zip(("up to 1", "1 to 2", "2 to 8"), values, strict=True)
        }
    found = {
        (row.text("hours"), row.number("lifts_per_min")): row.number("multiplier")
        for row in load("niosh_frequency").rows
    }
    assert found == expected


def test_every_coupling_multiplier() -> None:
    table = load("niosh_coupling")
    assert {row.text("grip") for row in table.rows} == set(GRIPS)
    for grip, values in GRIPS.items():
        heights = ("below 30 in", "30 in and above")
        assert tuple(table.row(grip, height).number("multiplier") for height in heights) == values


def test_every_nds_rule() -> None:
    assert {row.text("rule") for row in load("nds_rules").rows} == set(NDS_RULES)
    for name, (section, numbers, unit) in NDS_RULES.items():
        found = rule(name, "2018", "nds_rules")
        assert (found.numbers, found.unit) == (numbers, unit)
        assert found.source.citation == f"NDS 2018 {section}"


def test_what_the_trade_does_is_marked_as_such_and_nothing_else_is() -> None:
    table = load("trade_practice")
    assert {table.source(row, "number").confidence for row in table.rows} == {Confidence.COMMON_PRACTICE}
