"""Duct tables: every row carried, against values retyped by hand."""

from __future__ import annotations

from schedules.tables import load

# ASHRAE Fundamentals 2009 chapter 21, r/D 1.5: diameter [mm] and C.
ELBOWS = {
    "stamped 90": "75 .30 100 .21 125 .16 150 .14 180 .12 200 .11 230 .11 250 .11",
    "stamped 45": "75 .18 100 .13 125 .10 150 .08 180 .07 200 .07 230 .07 250 .07",
    "pleated 90": "100 .57 150 .43 200 .34 250 .28 300 .26 350 .25 400 .25",
    "pleated 45": "100 .34 150 .26 200 .21 250 .17 300 .16 350 .15 400 .15",
    "gored 90": "75 .51 150 .28 230 .21 300 .18 380 .16",
    "gored 45": "75 .31 150 .17 230 .13 300 .11 380 .11",
}

# Radius over width, and C.
BY_RADIUS = {
    "three gores 90": "0.75 .54 1 .42 1.5 .34 2 .33",
    "smooth 90": "0.5 .71 0.75 .33 1 .22 1.5 .15 2 .13 2.5 .12",
    "flat smooth 90 edgewise": "0.5 1.53 0.75 .57 1 .27 1.5 .22 2 .20",
    "flat smooth 90 flatwise": "0.5 1.00 0.75 .39 1 .18 1.5 .14 2 .13",
}

MITRED = {0.25: 1.3, 1: 1.2, 3: 0.98}

# Roughness [ft]; whether the model code lets it serve a hood.
ROUGHNESS = {
    "galvanized": (0.0003, "yes"),
    "galvanized-spiral": (0.0003, "yes"),
    "galvanized-rectangular": (0.0005, "yes"),
    "stainless": (0.00015, "yes"),
    "copper": (0.00015, "yes"),
    "aluminium": (0.00015, "no"),
    "pvc": (0.00015, "no"),
    "flexible": (0.003, "no"),
}

AIR = {
    "standard_density": 0.075,
    "standard_viscosity": 1.63e-4,
    "standard_temperature": 70,
    "sutherland_constant": 110.4,
    "lapse": 6.8754e-6,
    "lapse_exponent": 5.2559,
    "velocity_pressure_constant": 1097,
}

# IRC M1504.2 from memory: diameter [in], then 50 80 100 125 150 200 250 300 cfm [ft]; x: not allowed, -: no limit.
SMOOTH = """
3 5 x x x x x x x
4 114 31 10 x x x x x
5 - 152 91 51 28 4 x x
6 - - - 168 112 53 25 9
7 - - - - - 148 88 54
8 - - - - - - 198 133
"""
FLEXIBLE = """
4 56 4 x x x x x x
5 - 81 42 16 2 x x x
6 - - 158 91 55 18 1 x
7 - - - - 161 78 40 19
8 - - - - - 189 111 69
"""
RATINGS = (50, 80, 100, 125, 150, 200, 250, 300)


def pairs(text: str) -> list[tuple[float, float]]:
    numbers = [float(word) for word in text.split()]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def test_every_elbow_by_diameter() -> None:
    found = [
        (row.text("elbow"), row.number("diameter_mm"), row.number("loss_coefficient"))
        for row in load("duct_elbow_by_diameter").rows
    ]
    assert found == [(elbow, *pair) for elbow, text in ELBOWS.items() for pair in pairs(text)]


def test_every_elbow_by_radius() -> None:
    found = [
        (row.text("elbow"), row.number("radius_ratio"), row.number("loss_coefficient"))
        for row in load("duct_elbow_by_radius").rows
    ]
    assert found == [(elbow, *pair) for elbow, text in BY_RADIUS.items() for pair in pairs(text)]


def test_every_mitred_elbow() -> None:
    rows = load("duct_elbow_mitred").rows
    assert {row.number("height_over_width"): row.number("loss_coefficient") for row in rows} == MITRED


def test_every_roughness() -> None:
    rows = load("duct_roughness").rows
    found = {row.text("surface"): (row.number("roughness_ft"), row.text("hood_duct")) for row in rows}
    assert found == ROUGHNESS
    assert [row.text("surface") for row in rows if row.text("flexible") == "yes"] == ["flexible"]


def test_every_property_of_air() -> None:
    assert {row.text("property"): row.number("value") for row in load("air_properties").rows} == AIR


def test_every_duct_length() -> None:
    words = {"x": "not allowed", "-": "no limit"}
    expected = {}
    for duct, text in (("smooth", SMOOTH), ("flexible", FLEXIBLE)):
        for line in text.split("\n")[1:-1]:
            diameter, *cells = line.split()
            for rating, cell in zip(RATINGS, cells, strict=True):
                expected[duct, float(diameter), float(rating)] = words.get(cell, cell)
    found = {
        (row.text("duct"), row.number("diameter_in"), row.number("airflow_cfm")): row.text("length")
        for row in load("irc_m1504_2_duct_length").rows
    }
    assert found == expected
