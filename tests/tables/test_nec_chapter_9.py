"""NEC Chapter 9: every row of every table carried, against values retyped from the reference by hand."""

from __future__ import annotations

import pytest

from schedules.tables import load

# Table 1: conductors, percent.
FILL = {(1, 1): 53, (2, 2): 31, (3, None): 40}

# Table 2: trade size, one-shot or full-shoe radius, radius of other bends [in].
BEND_RADIUS = """
1/2    4     4
3/4    4.5   5
1      5.75  6
1-1/4  7.25  8
1-1/2  8.25  10
2      9.5   12
2-1/2  10.5  15
3      13    18
3-1/2  15    21
4      16    24
5      24    30
6      30    36
"""

# Table 4: trade size, metric designator, internal diameter [in], internal area [sq in].
RACEWAYS = {
    "EMT": """
        1/2    16  0.622  0.304
        3/4    21  0.824  0.533
        1      27  1.049  0.864
        1-1/4  35  1.380  1.496
        1-1/2  41  1.610  2.036
        2      53  2.067  3.356
        2-1/2  63  2.731  5.858
        3      78  3.356  8.846
        3-1/2  91  3.834  11.545
        4      103 4.334  14.753
    """,
    "ENT": """
        1/2    16  0.560  0.246
        3/4    21  0.760  0.454
        1      27  1.000  0.785
        1-1/4  35  1.340  1.410
        1-1/2  41  1.570  1.936
        2      53  2.020  3.205
    """,
    "FMC": """
        3/8    12  0.384  0.116
        1/2    16  0.635  0.317
        3/4    21  0.824  0.533
        1      27  1.020  0.817
        1-1/4  35  1.275  1.277
        1-1/2  41  1.538  1.858
        2      53  2.040  3.269
        2-1/2  63  2.500  4.909
        3      78  3.000  7.069
        3-1/2  91  3.500  9.621
        4      103 4.000  12.566
    """,
    "LFNC-B": """
        3/8    12  0.494  0.192
        1/2    16  0.632  0.314
        3/4    21  0.830  0.541
        1      27  1.054  0.873
        1-1/4  35  1.395  1.528
        1-1/2  41  1.588  1.981
        2      53  2.033  3.246
    """,
    "LFMC": """
        3/8    12  0.494  0.192
        1/2    16  0.632  0.314
        3/4    21  0.830  0.541
        1      27  1.054  0.873
        1-1/4  35  1.395  1.528
        1-1/2  41  1.588  1.981
        2      53  2.033  3.246
        2-1/2  63  2.493  4.881
        3      78  3.085  7.475
        3-1/2  91  3.520  9.731
        4      103 4.020  12.692
    """,
    "RMC": """
        1/2    16  0.632  0.314
        3/4    21  0.836  0.549
        1      27  1.063  0.887
        1-1/4  35  1.394  1.526
        1-1/2  41  1.624  2.071
        2      53  2.083  3.408
        2-1/2  63  2.489  4.866
        3      78  3.090  7.499
        3-1/2  91  3.570  10.010
        4      103 4.050  12.882
    """,
    "PVC-40": """
        1/2    16  0.602  0.285
        3/4    21  0.804  0.508
        1      27  1.029  0.832
        1-1/4  35  1.360  1.453
        1-1/2  41  1.590  1.986
        2      53  2.047  3.291
        2-1/2  63  2.445  4.695
        3      78  3.042  7.268
        3-1/2  91  3.521  9.737
        4      103 3.998  12.554
    """,
    "PVC-80": """
        1/2    16  0.526  0.217
        3/4    21  0.722  0.409
        1      27  0.936  0.688
        1-1/4  35  1.255  1.237
        1-1/2  41  1.476  1.711
        2      53  1.913  2.874
        2-1/2  63  2.290  4.119
        3      78  2.864  6.442
        3-1/2  91  3.326  8.688
        4      103 3.786  11.258
    """,
}

# Table 5: size, diameter [in], area [sq in].
INSULATED = {
    "THHN/THWN/THWN-2": """
        14   0.111  0.0097
        12   0.130  0.0133
        10   0.164  0.0211
        8    0.216  0.0366
        6    0.254  0.0507
        4    0.324  0.0824
        3    0.352  0.0973
        2    0.384  0.1158
        1    0.446  0.1562
        1/0  0.486  0.1855
        2/0  0.532  0.2223
        3/0  0.584  0.2679
        4/0  0.642  0.3237
        250  0.711  0.3970
    """,
    "XHHW/XHHW-2/XHH": """
        14   0.133  0.0139
        12   0.152  0.0181
        10   0.176  0.0243
        8    0.236  0.0437
        6    0.274  0.0590
        4    0.322  0.0814
        3    0.350  0.0962
        2    0.382  0.1146
        1    0.442  0.1534
        1/0  0.482  0.1825
        2/0  0.528  0.2190
        3/0  0.580  0.2642
        4/0  0.638  0.3197
        250  0.705  0.3904
    """,
    "TFN/TFFN": """
        18   0.084  0.0055
        16   0.096  0.0072
    """,
}

# Table 8: size, stranding, circular mils, strands, bare diameter [in], bare area [sq in], then ohm/kft at 75 C of
# uncoated copper, coated copper, aluminum.
CONDUCTORS = """
18  solid    1620   1  0.040 0.001  7.77   8.08   12.8
18  stranded 1620   7  0.046 0.002  7.95   8.45   13.1
16  solid    2580   1  0.051 0.002  4.89   5.08   8.05
16  stranded 2580   7  0.058 0.003  4.99   5.29   8.21
14  solid    4110   1  0.064 0.003  3.07   3.19   5.06
14  stranded 4110   7  0.073 0.004  3.14   3.26   5.17
12  solid    6530   1  0.081 0.005  1.93   2.01   3.18
12  stranded 6530   7  0.092 0.006  1.98   2.05   3.25
10  solid    10380  1  0.102 0.008  1.21   1.26   2.00
10  stranded 10380  7  0.116 0.011  1.24   1.29   2.04
8   solid    16510  1  0.128 0.013  0.764  0.786  1.26
8   stranded 16510  7  0.146 0.017  0.778  0.809  1.28
6   stranded 26240  7  0.184 0.027  0.491  0.510  0.808
4   stranded 41740  7  0.232 0.042  0.308  0.321  0.508
3   stranded 52620  7  0.260 0.053  0.245  0.254  0.403
2   stranded 66360  7  0.292 0.067  0.194  0.201  0.319
1   stranded 83690  19 0.332 0.087  0.154  0.160  0.253
1/0 stranded 105600 19 0.372 0.109  0.122  0.127  0.201
2/0 stranded 133100 19 0.418 0.137  0.0967 0.101  0.159
3/0 stranded 167800 19 0.470 0.173  0.0766 0.0797 0.126
4/0 stranded 211600 19 0.528 0.219  0.0608 0.0626 0.100
250 stranded 250000 37 0.575 0.260  0.0515 0.0535 0.0847
"""

# Table 9, ohm/kft to neutral: size; reactance in PVC or aluminum, in steel; resistance of copper in PVC, aluminum,
# steel; of aluminum wire in the same; impedance at 0.85 of copper in the same; of aluminum wire in the same.
IMPEDANCES = """
14  .058 .073  3.1  3.1  3.1   -    -    -     2.7  2.7  2.7   -    -    -
12  .054 .068  2.0  2.0  2.0   3.2  3.2  3.2   1.7  1.7  1.7   2.8  2.8  2.8
10  .050 .063  1.2  1.2  1.2   2.0  2.0  2.0   1.1  1.1  1.1   1.8  1.8  1.8
8   .052 .065  .78  .78  .78   1.3  1.3  1.3   .69  .69  .70   1.1  1.1  1.1
6   .051 .064  .49  .49  .49   .81  .81  .81   .44  .45  .45   .71  .72  .72
4   .048 .060  .31  .31  .31   .51  .51  .51   .29  .29  .30   .46  .46  .46
3   .047 .059  .25  .25  .25   .40  .41  .40   .23  .24  .24   .37  .37  .37
2   .045 .057  .19  .20  .20   .32  .32  .32   .19  .19  .20   .30  .30  .30
1   .046 .057  .15  .16  .16   .25  .26  .25   .16  .16  .16   .24  .24  .25
1/0 .044 .055  .12  .13  .12   .20  .21  .20   .13  .13  .13   .19  .20  .20
2/0 .043 .054  .10  .10  .10   .16  .16  .16   .11  .11  .11   .16  .16  .16
3/0 .042 .052  .077 .082 .079  .13  .13  .13   .088 .092 .094  .13  .13  .14
4/0 .041 .051  .062 .067 .063  .10  .11  .10   .074 .078 .080  .11  .11  .11
250 .041 .052  .052 .057 .054  .085 .090 .086  .066 .070 .073  .094 .098 .10
"""
IMPEDANCE_COLUMNS = (
    "x_pvc_or_aluminum_conduit_ohm_per_kft",
    "x_steel_conduit_ohm_per_kft",
    "r_copper_pvc_conduit_ohm_per_kft",
    "r_copper_aluminum_conduit_ohm_per_kft",
    "r_copper_steel_conduit_ohm_per_kft",
    "r_aluminum_wire_pvc_conduit_ohm_per_kft",
    "r_aluminum_wire_aluminum_conduit_ohm_per_kft",
    "r_aluminum_wire_steel_conduit_ohm_per_kft",
    "z085_copper_pvc_conduit_ohm_per_kft",
    "z085_copper_aluminum_conduit_ohm_per_kft",
    "z085_copper_steel_conduit_ohm_per_kft",
    "z085_aluminum_wire_pvc_conduit_ohm_per_kft",
    "z085_aluminum_wire_aluminum_conduit_ohm_per_kft",
    "z085_aluminum_wire_steel_conduit_ohm_per_kft",
)

# Notes: our name, number, confidence.
NOTES = {
    "complete_systems": ((), "two_texts"),
    "egc_counts": ((), "one_text"),
    "nipple_length": ((24.0,), "one_text"),
    "nipple_fill": ((60.0,), "two_texts"),
    "other_cables": ((), "one_text"),
    "mixed_sizes": ((), "memory"),
    "rounding": ((0.8,), "memory"),
    "bare_conductors": ((), "memory"),
    "multiconductor_cable": ((1.0,), "memory"),
    "flat_cable": ((), "memory"),
    "jam_ratio_low": ((2.8,), "two_texts"),
    "jam_ratio_high": ((3.2,), "two_texts"),
}


def lines(block: str) -> list[list[str]]:
    return [line.split() for line in block.strip().splitlines()]


def test_table_1_fill() -> None:
    rows = load("nec_ch9_table1_fill").rows
    assert {
        (row.cells["conductors_min"], row.cells["conductors_max"]): row.number("max_fill_percent")
        for row in rows
    } == FILL


def test_table_2_bend_radius() -> None:
    printed = [
        [row.text("trade_size"), row.number("one_shot_radius_in"), row.number("other_bends_radius_in")]
        for row in load("nec_ch9_table2_bend_radius").rows
    ]
    assert printed == [[size, float(shot), float(other)] for size, shot, other in lines(BEND_RADIUS)]


@pytest.mark.parametrize("raceway", RACEWAYS)
def test_table_4_raceways(raceway: str) -> None:
    printed = [
        [
            row.text("trade_size"),
            row.count("metric_designator"),
            row.number("internal_diameter_in"),
            row.number("internal_area_sq_in"),
        ]
        for row in load("nec_ch9_table4_raceway_internal").where(raceway=raceway)
    ]
    assert printed == [
        [size, int(metric), float(diameter), float(area)]
        for size, metric, diameter, area in lines(RACEWAYS[raceway])
    ]


def test_table_4_has_no_other_raceway() -> None:
    rows = load("nec_ch9_table4_raceway_internal").rows
    assert {row.text("raceway") for row in rows} == set(RACEWAYS)


def test_table_4_only_one_diameter_is_from_memory() -> None:
    table = load("nec_ch9_table4_raceway_internal")
    doubtful = [
        (row.text("raceway"), row.text("trade_size"))
        for row in table.rows
        if row.text("diameter_confidence") == "memory" or row.text("area_confidence") != "two_texts"
    ]
    assert doubtful == [("FMC", "3-1/2")]


def test_table_4_diameter_and_area_agree_within_their_rounding() -> None:
    for row in load("nec_ch9_table4_raceway_internal").rows:
        diameter, area = row.number("internal_diameter_in"), row.number("internal_area_sq_in")
        widest = 3.14159265 / 4 * (diameter + 0.0005) ** 2 + 0.0005
        narrowest = 3.14159265 / 4 * (diameter - 0.0005) ** 2 - 0.0005
        assert narrowest <= area <= widest, row.cells


@pytest.mark.parametrize("insulation", INSULATED)
def test_table_5_insulated_conductors(insulation: str) -> None:
    printed = [
        [row.text("size"), row.number("diameter_in"), row.number("area_sq_in")]
        for row in load("nec_ch9_table5_insulated_conductors").where(insulation=insulation)
    ]
    assert printed == [
        [size, float(diameter), float(area)] for size, diameter, area in lines(INSULATED[insulation])
    ]


def test_table_5_has_no_other_insulation() -> None:
    rows = load("nec_ch9_table5_insulated_conductors").rows
    assert {row.text("insulation") for row in rows} == set(INSULATED)


def test_table_8_conductor_properties() -> None:
    printed = [
        [
            row.text("size"),
            row.text("stranding"),
            row.count("circular_mils"),
            row.count("strand_count"),
            row.number("bare_diameter_in"),
            row.number("bare_area_sq_in"),
            row.number("copper_uncoated_ohm_per_kft"),
            row.number("copper_coated_ohm_per_kft"),
            row.number("aluminum_ohm_per_kft"),
        ]
        for row in load("nec_ch9_table8_dc_resistance").rows
    ]
    expected = [
        [size, stranding, int(mils), int(strands), *(float(value) for value in values)]
        for size, stranding, mils, strands, *values in lines(CONDUCTORS)
    ]
    assert printed == expected


def test_table_9_impedances() -> None:
    printed = [
        [row.text("size"), *(row.cells[column] for column in IMPEDANCE_COLUMNS)]
        for row in load("nec_ch9_table9_ac_impedance").rows
    ]
    expected = [
        [size, *(None if value == "-" else float(value) for value in values)]
        for size, *values in lines(IMPEDANCES)
    ]
    assert printed == expected


def test_notes() -> None:
    rows = load("nec_ch9_notes").rows
    assert {row.text("rule"): (row.numbers("number"), row.text("confidence")) for row in rows} == NOTES
