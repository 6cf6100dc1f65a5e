"""NEC chapters 1 to 3 and the product standards: every row carried, against values retyped by hand."""

from __future__ import annotations

from schedules.tables import load

# 310.16: size; copper at 60, 75, 90 C; aluminum at 60, 75, 90 C [A].
AMPACITY = """
18  -   -   14   -   -   -
16  -   -   18   -   -   -
14  15  20  25   -   -   -
12  20  25  30   15  20  25
10  30  35  40   25  30  35
8   40  50  55   35  40  45
6   55  65  75   40  50  55
4   70  85  95   55  65  75
3   85  100 115  65  75  85
2   95  115 130  75  90  100
1   110 130 145  85  100 115
1/0 125 150 170  100 120 135
2/0 145 175 195  115 135 150
3/0 165 200 225  130 155 175
4/0 195 230 260  150 180 205
250 215 255 290  170 205 230
"""

# 310.15(B)(1): ambient band [C], factors for 60, 75, 90 C insulation.
CORRECTION = """
-  10  1.29 1.20 1.15
11 15  1.22 1.15 1.12
16 20  1.15 1.11 1.08
21 25  1.08 1.05 1.04
26 30  1.00 1.00 1.00
31 35  0.91 0.94 0.96
36 40  0.82 0.88 0.91
41 45  0.71 0.82 0.87
46 50  0.58 0.75 0.82
51 55  0.41 0.67 0.76
56 60  -    0.58 0.71
61 65  -    0.47 0.65
66 70  -    0.33 0.58
71 75  -    -    0.50
76 80  -    -    0.41
81 85  -    -    0.29
"""

# 310.15(C)(1): conductors from, to, percent.
ADJUSTMENT = [(1, 3, 100), (4, 6, 80), (7, 9, 70), (10, 20, 50), (21, 30, 45), (31, 40, 40), (41, None, 35)]

# 314.16(A): kind, trade size, volume [cu in], most of 18, 16, 14, 12, 10, 8, 6 AWG.
METAL_BOXES = """
round_or_octagonal|4 x 1-1/4|12.5|8 7 6 5 5 4 2
round_or_octagonal|4 x 1-1/2|15.5|10 8 7 6 6 5 3
round_or_octagonal|4 x 2-1/8|21.5|14 12 10 9 8 7 4
square|4 x 1-1/4|18.0|12 10 9 8 7 6 3
square|4 x 1-1/2|21.0|14 12 10 9 8 7 4
square|4 x 2-1/8|30.3|20 17 15 13 12 10 6
square|4-11/16 x 1-1/4|25.5|17 14 12 11 10 8 5
square|4-11/16 x 1-1/2|29.5|19 16 14 13 11 9 5
square|4-11/16 x 2-1/8|42.0|28 24 21 18 16 14 8
device|3 x 2 x 1-1/2|7.5|5 4 3 3 3 2 1
device|3 x 2 x 2|10.0|6 5 5 4 4 3 2
device|3 x 2 x 2-1/4|10.5|7 6 5 4 4 3 2
device|3 x 2 x 2-1/2|12.5|8 7 6 5 5 4 2
device|3 x 2 x 2-3/4|14.0|9 8 7 6 5 4 2
device|3 x 2 x 3-1/2|18.0|12 10 9 8 7 6 3
device|4 x 2-1/8 x 1-1/2|10.3|6 5 5 4 4 3 2
device|4 x 2-1/8 x 1-7/8|13.0|8 7 6 5 5 4 2
device|4 x 2-1/8 x 2-1/8|14.5|9 8 7 6 5 4 2
masonry_per_gang|3-3/4 x 2 x 2-1/2|14.0|9 8 7 6 5 4 2
masonry_per_gang|3-3/4 x 2 x 3-1/2|21.0|14 12 10 9 8 7 4
FS_single_cover_per_gang|min depth 1-3/4|13.5|9 7 6 6 5 4 2
FD_single_cover_per_gang|min depth 2-3/8|18.0|12 10 9 8 7 6 3
FS_multiple_cover_per_gang|min depth 1-3/4|18.0|12 10 9 8 7 6 3
FD_multiple_cover_per_gang|min depth 2-3/8|24.0|16 13 12 10 9 8 4
"""
BOX_SIZES = ("18", "16", "14", "12", "10", "8", "6")

# 314.16(B)(1): size, volume [cu in].
BOX_VOLUME = {"18": 1.5, "16": 1.75, "14": 2.0, "12": 2.25, "10": 2.5, "8": 3.0, "6": 5.0}

# 250.122: device [A], copper, aluminum.
GROUNDING = [
    (15, "14", "12"),
    (20, "12", "10"),
    (60, "10", "8"),
    (100, "8", "6"),
    (200, "6", "4"),
    (300, "4", "2"),
    (400, "3", "1"),
]

# 240.6(A) to 225 A.
RATINGS = [10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225]

# 240.4(D): size, material, device [A], continuous load [A], section in 2020, section in 2023.
SMALL = [
    ("18", "copper", 7, 5.6, "240.4(D)(1)", "240.4(D)(1)"),
    ("16", "copper", 10, 8.0, "240.4(D)(2)", "240.4(D)(2)"),
    ("14", "copper-clad aluminum", 10, 8.0, "", "240.4(D)(3)"),
    ("14", "copper", 15, None, "240.4(D)(3)", "240.4(D)(4)"),
    ("12", "aluminum or copper-clad aluminum", 15, None, "240.4(D)(4)", "240.4(D)(5)"),
    ("12", "copper", 20, None, "240.4(D)(5)", "240.4(D)(6)"),
    ("10", "aluminum or copper-clad aluminum", 25, None, "240.4(D)(6)", "240.4(D)(7)"),
    ("10", "copper", 30, None, "240.4(D)(7)", "240.4(D)(8)"),
]

# 110.14(C)(1): circuit over, to [A], column [C].
TERMINATION = [(0.0, 100.0, 60), (0.0, 100.0, 75), (100.0, None, 75)]

# 210.21(B)(3): circuit, receptacle from, to [A].
RECEPTACLES = [(15, None, 15), (20, 15, 20), (30, 30, 30), (40, 40, 50), (50, 50, 50)]

# 220.55: appliances, column A [%], column B [%], column C [kW].
RANGES = [(1, 80, 80, 8.0), (2, 75, 65, 11.0), (3, 70, 55, 14.0), (4, 66, 50, 17.0), (5, 62, 45, 20.0)]

# Knockouts: trade size, least, nominal, largest [in], hole saw, punched hole [in].
KNOCKOUTS = """
1/2    0.859 0.875 0.906 7/8   0.885
3/4    1.094 1.109 1.141 1-1/8 1.115
1      1.359 1.375 1.406 1-3/8 1.362
1-1/4  1.719 1.734 1.766 1-3/4 1.701
1-1/2  1.969 1.984 2.016 2     1.951
2      2.453 2.469 2.500 2-1/2 2.416
2-1/2  2.953 2.969 3.000 3     -
3      3.578 3.594 3.625 3-5/8 -
3-1/2  4.094 4.125 4.156 4-1/8 -
4      4.609 4.641 4.672 4-5/8 -
"""

# Outside diameters [in] by trade size.
TRADE_SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4")
OUTSIDE = {
    "EMT": (0.706, 0.922, 1.163, 1.510, 1.740, 2.197, 2.875, 3.500, 4.000, 4.500),
    "RMC": (0.840, 1.050, 1.315, 1.660, 1.900, 2.375, 2.875, 3.500, 4.000, 4.500),
    "PVC-40": (0.840, 1.050, 1.315, 1.660, 1.900, 2.375, 2.875, 3.500, 4.000, 4.500),
    "PVC-80": (0.840, 1.050, 1.315, 1.660, 1.900, 2.375, 2.875, 3.500, 4.000, 4.500),
}

# Cables: name, form, major from, to, minor from, to, diameter from, to [in], confidence.
CABLES = """
NM-B 14/2 G|flat|0.35 0.39 0.16 0.18 - -|one_text
NM-B 14/3 G|flat|0.46 0.50 0.16 0.19 - -|one_text
NM-B 14/3 G|round|- - - - 0.30 0.35|memory
NM-B 12/2 G|flat|0.40 0.44 0.17 0.20 - -|two_texts
NM-B 12/3 G|flat|0.50 0.55 0.18 0.20 - -|one_text
NM-B 12/3 G|round|- - - - 0.34 0.40|memory
NM-B 10/2 G|flat|0.48 0.52 0.20 0.23 - -|one_text
NM-B 10/3 G|flat|0.60 0.66 0.20 0.23 - -|memory
NM-B 10/3 G|round|- - - - 0.44 0.50|memory
NM-B 8/3 G|round|- - - - 0.56 0.66|memory
NM-B 6/3 G|round|- - - - 0.65 0.76|memory
MC 12/2 G aluminum armor|round|- - - - 0.42 0.48|memory
MC 12/3 G aluminum armor|round|- - - - 0.46 0.52|memory
MC 10/3 G aluminum armor|round|- - - - 0.53 0.60|memory
MC 8/3 G aluminum armor|round|- - - - 0.67 0.73|one_text
MC 6/3 G aluminum armor|round|- - - - 0.81 0.88|one_text
FPLR or CL2/CL3 18/2 unshielded|round|- - - - 0.13 0.17|memory
FPLR or CL2/CL3 18/4 unshielded|round|- - - - 0.16 0.21|memory
FPLR or CL2/CL3 16/2 unshielded|round|- - - - 0.16 0.20|memory
"""
CABLE_COLUMNS = (
    "major_min_in",
    "major_max_in",
    "minor_min_in",
    "minor_max_in",
    "diameter_min_in",
    "diameter_max_in",
)

COLOURS = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue (including light blue)",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
    "GNYE": "green-and-yellow",
}

# Voltage drop: constant, number, formula, confidence.
DROP = [
    ("k_copper", 12.9, "", "two_texts"),
    ("k_aluminum", 21.2, "", "two_texts"),
    ("single_phase_k_method", None, "2*K*I*L/CM", "two_texts"),
    ("three_phase_k_method", None, "sqrt(3)*K*I*L/CM", "two_texts"),
    ("effective_z", None, "R*pf + X*sin(acos(pf))", "two_texts"),
    ("single_phase_table_9", None, "2*I*Z*L/1000", "memory"),
    ("three_phase_table_9", None, "sqrt(3)*I*Z*L/1000", "memory"),
    ("branch_limit", 3.0, "", "two_texts"),
    ("feeder_and_branch_limit", 5.0, "", "two_texts"),
    ("exact_k", None, "R*CM/1000", "one_text"),
    ("temperature_copper", 0.00323, "R2=R1*(1+0.00323*(T2-75))", "memory"),
    ("temperature_aluminum", 0.0033, "R2=R1*(1+0.00330*(T2-75))", "memory"),
    ("table_8_temperature", 75.0, "", "two_texts"),
    ("table_9_power_factor", 0.85, "", "two_texts"),
]

# Raceway types: name, article, bend column, exempt from steel plates, smallest size for general use.
KINDS = [
    ("EMT", "358", "one shot", "yes", "1/2", "UL 797"),
    ("ENT", "362", "other", "no", "1/2", "UL 1653"),
    ("FMC", "348", "other", "no", "1/2", "UL 1"),
    ("LFMC", "350", "other", "no", "1/2", "UL 360"),
    ("LFNC-B", "356", "other", "no", "1/2", "UL 1660"),
    ("RMC", "344", "one shot", "yes", "1/2", "UL 6"),
    ("PVC-40", "352", "one shot", "yes", "1/2", "UL 651"),
    ("PVC-80", "352", "one shot", "yes", "1/2", "UL 651"),
]


def whole(text: str) -> int | None:
    return None if text == "-" else int(text)


def decimal(text: str) -> float | None:
    return None if text == "-" else float(text)


def lines(block: str) -> list[list[str]]:
    return [line.split() for line in block.strip().splitlines()]


def test_310_16_ampacity() -> None:
    columns = [f"{metal}_{column}c_a" for metal in ("copper", "aluminum") for column in (60, 75, 90)]
    printed = [
        [row.text("size"), *(row.cells[column] for column in columns)]
        for row in load("nec_310_16_ampacity").rows
    ]
    assert printed == [[size, *map(whole, values)] for size, *values in lines(AMPACITY)]


def test_310_15_b_1_temperature_correction() -> None:
    columns = ("ambient_min_c", "ambient_max_c", "factor_60c", "factor_75c", "factor_90c")
    printed = [
        [row.cells[column] for column in columns]
        for row in load("nec_310_15_b_1_temperature_correction").rows
    ]
    assert printed == [
        [whole(low), whole(high), *map(decimal, factors)] for low, high, *factors in lines(CORRECTION)
    ]


def test_310_15_b_1_factors_follow_the_code_equation_at_the_top_of_each_band() -> None:
    # sqrt((Tc - Ta2) / (Tc - 30)) [NEC 310.15(B)], rounded to two places as printed.
    for row in load("nec_310_15_b_1_temperature_correction").rows:
        top = row.count("ambient_max_c")
        for column_c in (60, 75, 90):
            if row.has(f"factor_{column_c}c"):
                factor = ((column_c - top) / (column_c - 30)) ** 0.5
                assert abs(row.number(f"factor_{column_c}c") - factor) <= 0.005 + 1e-9


def test_310_15_c_1_bundling_adjustment() -> None:
    columns = ("conductors_min", "conductors_max", "percent_of_ampacity")
    rows = load("nec_310_15_c_1_bundling_adjustment").rows
    assert [tuple(row.cells[column] for column in columns) for row in rows] == ADJUSTMENT


def test_314_16_a_metal_boxes() -> None:
    printed = [
        [
            row.text("box_type"),
            row.text("trade_size"),
            row.number("volume_cu_in"),
            [row.count(f"max_{size}awg") for size in BOX_SIZES],
        ]
        for row in load("nec_314_16_a_metal_boxes").rows
    ]
    expected = []
    for line in METAL_BOXES.strip().splitlines():
        kind, size, volume, counts = line.split("|")
        expected.append([kind, size, float(volume), [int(count) for count in counts.split()]])
    assert printed == expected


def test_314_16_a_counts_are_the_volume_over_the_allowance() -> None:
    for row in load("nec_314_16_a_metal_boxes").rows:
        for size in BOX_SIZES:
            assert row.count(f"max_{size}awg") == int(row.number("volume_cu_in") / BOX_VOLUME[size])


def test_314_16_b_1_volume_per_conductor() -> None:
    rows = load("nec_314_16_b_1_volume_per_conductor").rows
    assert {row.text("size"): row.number("volume_cu_in") for row in rows} == BOX_VOLUME


def test_250_122_grounding() -> None:
    rows = load("nec_250_122_egc_size").rows
    assert [
        (row.count("overcurrent_device_to_a"), row.text("copper_size"), row.text("aluminum_size"))
        for row in rows
    ] == GROUNDING


def test_240_6_a_standard_ratings() -> None:
    rows = load("nec_240_6_a_standard_ratings").rows
    assert [row.count("rating_a") for row in rows] == RATINGS
    assert [row.count("rating_a") for row in rows if "2020" not in row.words("editions")] == [10]


def test_240_4_d_small_conductors() -> None:
    columns = ("size", "material", "max_overcurrent_a", "max_continuous_load_a")
    printed = [
        (*(row.cells[column] for column in columns), row.text("section_2020"), row.text("section_2023"))
        for row in load("nec_240_4_d_small_conductors").rows
    ]
    assert printed == SMALL


def test_110_14_c_1_termination_temperature() -> None:
    columns = ("circuit_over_a", "circuit_to_a", "column_c")
    rows = load("nec_110_14_c_1_termination_temperature").rows
    assert [tuple(row.cells[column] for column in columns) for row in rows] == TERMINATION


def test_210_21_b_3_receptacles_are_all_from_memory() -> None:
    columns = ("circuit_a", "receptacle_min_a", "receptacle_max_a")
    rows = load("nec_210_21_b_3_receptacle_rating").rows
    assert [tuple(row.cells[column] for column in columns) for row in rows] == RECEPTACLES
    assert {row.text("confidence") for row in rows} == {"memory"}


def test_220_55_range_demand() -> None:
    columns = ("appliance_count", "column_a_percent", "column_b_percent", "column_c_kw")
    rows = load("nec_220_55_range_demand").rows
    assert [tuple(row.cells[column] for column in columns) for row in rows] == RANGES


def test_knockouts() -> None:
    columns = ("knockout_min_in", "knockout_nominal_in", "knockout_max_in")
    printed = [
        [
            row.text("trade_size"),
            *(row.number(column) for column in columns),
            row.text("nearest_hole_saw_in"),
            row.cells["typical_punched_hole_in"],
        ]
        for row in load("knockout_diameter").rows
    ]
    assert printed == [
        [size, float(least), float(nominal), float(largest), saw, decimal(punched)]
        for size, least, nominal, largest, saw, punched in lines(KNOCKOUTS)
    ]


def test_outside_diameters() -> None:
    printed: dict[str, dict[str, float]] = {}
    for row in load("raceway_outside_diameter").rows:
        printed.setdefault(row.text("raceway"), {})[row.text("trade_size")] = row.number(
            "outside_diameter_in"
        )
    assert printed == {kind: dict(zip(TRADE_SIZES, sizes, strict=True)) for kind, sizes in OUTSIDE.items()}


def test_every_raceway_is_thicker_outside_than_inside() -> None:
    outside = load("raceway_outside_diameter")
    for row in outside.rows:
        inside = load("nec_ch9_table4_raceway_internal").row(row.text("raceway"), row.text("trade_size"))
        assert inside.number("internal_diameter_in") < row.number("outside_diameter_in")


def test_typical_cables() -> None:
    printed = [
        [
            row.text("cable"),
            row.text("form"),
            [row.cells[column] for column in CABLE_COLUMNS],
            row.text("confidence"),
        ]
        for row in load("typical_cable_dimensions").rows
    ]
    expected = []
    for line in CABLES.strip().splitlines():
        cable, form, sizes, confidence = line.split("|")
        expected.append([cable, form, [decimal(size) for size in sizes.split()], confidence])
    assert printed == expected


def test_iec_60757_colours() -> None:
    rows = load("iec_60757_colour_codes").rows
    assert {row.text("code"): row.text("colour") for row in rows} == COLOURS
    assert [row.count("table_order") for row in rows] == list(range(1, 16))


def test_voltage_drop_constants() -> None:
    printed = [
        (row.text("constant"), row.cells["number"], row.text("formula"), row.text("confidence"))
        for row in load("voltage_drop_constants").rows
    ]
    assert printed == DROP


def test_conductor_identification_names_its_sections() -> None:
    rows = load("nec_conductor_identification").rows
    assert {row.text("rule"): row.text("section") for row in rows} == {
        "grounded_small": "200.6(A)",
        "grounded_large": "200.6(B)",
        "white_reused_as_hot": "200.7(C)(1)",
        "egc_small": "250.119(A)",
        "egc_large": "250.119(B)",
        "green_in_power_limited": "250.119(A) Ex. 1",
        "ungrounded": "210.5(C)(1)",
        "high_leg": "110.15",
        "dc_positive": "210.5(C)(2)(a)",
        "dc_negative": "210.5(C)(2)(b)",
    }


def test_raceway_kinds() -> None:
    columns = (
        "raceway",
        "article",
        "bend_column",
        "steel_plate_exempt",
        "general_use_from",
        "product_standard",
    )
    rows = load("raceway_kinds").rows
    assert [tuple(row.text(column) for column in columns) for row in rows] == KINDS
