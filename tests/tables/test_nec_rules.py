"""Rules of the NEC carried in our own words: section, editions, numbers and confidence, retyped by hand."""

from __future__ import annotations

from schedules.tables import load

# Rule | editions whose text was read | section | numbers | unit | confidence (two texts, one text, memory).
RULES = """
hood_cord_min|2020;2023|422.16(B)(4)|18|in|two
hood_cord_max|2020;2023|422.16(B)(4)|48|in|two
hood_individual_circuit|2020;2023|422.16(B)(4)|1|individual circuit|two
hood_receptacle_place|2020;2023|422.16(B)(4)|||two
hood_cord_grounding|2020;2023|422.16(B)(4)|||two
cooktop_oven_connection|2023|422.16(B)(3)|||one
appliance_listing_voltage|2023|422.6|50|V|one
appliance_conductors|2023|422.10(A)|||one
appliance_continuous|2023|422.10(A)|125|percent|one
appliance_overcurrent|2023|422.11(A)|||one
range_split_above|2023|422.11(B)|60|A|one
range_split_device|2023|422.11(B)|50|A|one
disconnect_small|2023|422.31(A)|300|VA|one
disconnect_large|2023|422.31(B)|300|VA|one
disconnect_motor|2023|422.31(C)|0.125|hp|one
disconnect_plug|2023|422.33(A)|||one
disconnect_range_plug|2023|422.33(B)|||one
in_sight_within|2020;2023|Article 100|50|ft|memory
nameplate_split|2023|422.62(B)|15|A|one
range_circuit_min|2023|210.19(C)|40|A|two
range_circuit_min|2020|210.19(A)(3)|40|A|two
range_tap_min|2023|210.19(C) Ex. 1|20|A|two
range_neutral_share|2023|210.19(C) Ex. 2|70|percent|two
range_neutral_min|2023|210.19(C) Ex. 2|10|AWG|two
other_tap_min|2023|210.19(D) Ex. 1|15|A|two
branch_conductor_min|2023|210.19(D)|14|AWG|two
branch_ratings|2020|210.18|15|A min|two
branch_ratings|2023|210.18|10|A|two
conductor_continuous|2023|210.19(A)|125|percent|two
device_continuous|2020;2023|210.20(A)|125|percent|two
single_receptacle|2020;2023|210.21(B)(1)|||two
receptacle_above|2020;2023|210.21(B)(3)|50|A|two
range_receptacle|2020;2023|210.21(B)(4)|||two
individual_circuit|2020;2023|210.22|||two
cord_load_share|2020|210.23(A)|80|percent|two
fastened_load_share|2020|210.23(A)|50|percent|two
fastened_load_share|2023|210.23(B)(2)|50|percent|two
cord_load_share|2023|210.23(B)(1)|80|percent|two
cooking_circuits|2023|210.23(D)|||two
small_appliance_count|2020;2023|210.11(C)(1)|2|circuits|two
small_appliance_serves|2023|210.52(B)(1)|||one
specific_appliance_min|2023|210.52(B)(1) Ex. 2|15|A|one
small_appliance_no_other|2023|210.52(B)(2)|||one
gas_ignition_exception|2023|210.52(B)(2) Ex. 2|||one
appliance_receptacle_within|2023|210.50(C)|6|ft|one
countertop_reach|2023|210.52(C)|24|in|one
dwelling_circuits|2023|210.25(A)|||one
multiwire_disconnect|2023|210.4(B)|||one
range_demand_above|2020;2023|220.55|1.75|kW|two
range_demand_note_1|2020;2023|Table 220.55 Note 1|5|percent|two
range_demand_note_2|2020;2023|Table 220.55 Note 2|||two
range_demand_note_3|2020;2023|Table 220.55 Note 3|||two
range_demand_branch|2020|Table 220.55 Note 4|||memory
range_demand_branch|2023|Table 220.55 Notes 4,5,6|||one
hood_load|2023|220.14(A)|||one
fixed_appliance_demand|2023|220.53|75|percent|one
ampere_rounding|2023|220.5(B)|0.5|A|one
load_article_moved|2026|220 to 120|||two
range_grounding|2023|250.140(A)|4|wires|two
existing_three_wire|2023|250.140(B)|||two
existing_three_wire_neutral|2023|250.140(B)(2)|10|AWG|two
existing_three_wire_bare|2023|250.140(B)(4)-(5)|||one
egc_not_above_circuit|2020;2023|250.122(A)|||two
egc_increase|2023|250.122(B)|||two
lfmc_as_egc|2023|250.118(A)(6)|6|ft|one
cord_equipment_grounded|2023|250.114(3)|||one
box_bonding|2020;2023|250.148|||two
gfci_kitchen|2020|210.8(A)(6)|6|ft|two
gfci_kitchen|2023|210.8(A)(6)|150|V to ground max|two
gfci_appliances|2020|210.8(D)|||two
gfci_appliances|2023|210.8(D)|60|A|two
gfci_appliances|2026|210.8(D)|||memory
gfci_access|2023|210.8|||two
gfci_class_a_list|2023|422.5(A)|60|A|one
afci_kitchen|2020|210.12(A)|15;20|A|two
afci_kitchen|2023|210.12(B)|10;15;20|A|two
afci_extension|2020|210.12(D)|6|ft|two
afci_alarm_exception|2023|210.12(B) Ex. 1|||two
next_size_up_to|2023|240.4(B)|800|A|one
tap_protection|2023|240.4(E)|||one
tap_overcurrent|2023|240.21(A)|||one
breaker_poles|2023|240.15(B)|||one
other_articles|2023|210.3|||one
feeders|2023|215|1000|A|one
class_1_18awg|2023|724.43|7|A|two
class_1_16awg|2023|724.43|10|A|two
class_1_protection|2023|724.45|||two
safety_control|2020|725.31(A)|||memory
per_instructions|2020;2023|110.3(B)|||one
motor_control|2020;2023|430.72|||one
termination_temperature|2023|110.14(C)(1)|60|C|one
torque|2023|110.14(D)|||one
upturned_lugs|2023|110.14(A)|10|AWG|one
mixed_systems|2023|300.3(C)(1)|1000|V|one
bored_hole_edge|2020;2023|300.4(A)(1)|1.25|in|two
steel_plate_thickness|2020;2023|300.4(A)(1)|0.0625|in|two
notch_plate|2023|300.4(A)(2)|0.0625|in|one
metal_framing_grommet|2023|300.4(B)(1)|||two
parallel_edge|2023|300.4(D)|1.25|in|one
groove_depth|2023|300.4(F)|1.25|in|one
large_conductor_bushing|2023|300.4(G)|4|AWG|one
securing|2023|300.11(A)|||one
support_of_control_cable|2023|300.11(C)(2)|||one
free_conductor|2020;2023|300.14|6|in|two
free_conductor_beyond_opening|2020;2023|300.14|3|in|one
free_conductor_small_opening|2020;2023|300.14|8|in|one
box_required|2023|300.15|||one
firestop|2023|300.21|||one
exhaust_duct_wiring|2023|300.22(A)|||one
duct_flexible_max|2023|300.22(B)|4|ft|one
plenum_wiring|2023|300.22(C)|||one
joist_bay_exception|2023|300.22(C) Ex.|||one
mixed_ampacity_length|2023|310.14(A)(2) Ex.|10|ft|one
bundling_length|2023|310.15(C)(1)|24|in|one
mc_bundling_count|2023|310.15(C)(1)(d)|20|conductors|one
neutral_not_counted|2023|310.15(E)|||one
egc_not_counted|2023|310.15(F)|||one
correction_table_name|2020;2023|310.15(B)(1) naming|||one
box_conductor|2020;2023|314.16(B)(1)|1|allowance|two
box_canopy_wires|2020;2023|314.16(B)(1) Ex.|4|wires|two
box_clamps|2020;2023|314.16(B)(2)|1|allowance|two
box_fittings|2020;2023|314.16(B)(3)|1|allowance|two
box_yoke|2020;2023|314.16(B)(4)|2|allowances|two
box_egc_first_four|2020;2023|314.16(B)(5)|1|allowance|two
box_egc_first_count|2020;2023|314.16(B)(5)|4|wires|two
box_egc_beyond_four|2020;2023|314.16(B)(5)|0.25|allowance|two
box_terminal_block|2023|314.16(B)(6)|1|allowance|one
box_volume_table_name|2020|Table 314.16(B)|||two
nm_sheath_in_box|2020;2023|314.17(B)(2)|0.25|in|two
plastic_box_fastened_within|2020;2023|314.17(B)(2) Ex.|8|in|two
large_conductor_entry|2020;2023|314.17(C)|4|AWG|two
box_setback|2020;2023|314.20|0.25|in|two
support_weight|2023|314.27(D)|6|lb|one
pull_box_straight|2023|314.28(A)(1)|8|x trade size|one
pull_box_angle|2023|314.28(A)(2)|6|x trade size|one
pull_box_from_size|2023|314.28(A)|4|AWG|one
pull_box_same_conductor|2023|314.28(A)(2)|6|x trade size|one
box_access|2023|314.29|||one
nm_use|2023|334.10|||one
nm_through_floor|2023|334.15(B)|6|in|two
nm_framing|2023|334.17|||one
nm_sheath_past_clamp|2023|334.19|0.25|in|one
nm_bend|2023|334.24|5|x diameter|one
nm_support_every|2020;2023|334.30|4.5|ft|two
nm_support_from_box|2020;2023|334.30|12|in|two
nm_length_to_support|2023|334.30|18|in|one
nm_unsupported_whip|2023|334.30(B)(2)|4.5|ft|one
nm_ampacity_column|2020;2023|334.80|60|C|two
nm_bundling|2023|334.80|2|cables|one
mc_support_every|2020;2023|330.30|6|ft|memory
fmc_support_every|2020;2023|348.30|4.5|ft|memory
bends_between_pulls|2023|358.24(B)|360|degrees|two
bends_between_pulls|2020|358.26|360|degrees|one
bend_radius|2023|358.24(A)|||one
emt_support_every|2023|358.30|10|ft|one
emt_support_from_box|2023|358.30|3|ft|one
emt_largest|2023|358.20(B)|6|trade size|one
ent_largest|2023|362.20(B)|2.5|trade size|one
power_source_class|2020|725.121|||one
dry_contact_class|2020;2023|articles 725 and 760 (scopes)|||memory
class_2_separation|2020;2023|725.136(A)|||two
class_2_barrier|2020;2023|725.136(B)|||one
class_2_enclosure_gap|2020;2023|725.136(D)|0.25|in|two
class_2_one_opening|2020;2023|725.136(E)|||two
class_2_elsewhere_gap|2020;2023|725.136(I)|2|in|memory
alarm_elsewhere_gap|2020;2023|760.136|2|in|memory
alarm_no_gfci_afci|2020;2023|760.41(B);760.121(B)|||memory
class_1_moved|2023|Class 1 split|||two
cable_rules_moved|2023|cable rules|||one
limited_energy_moved|2026|limited energy|||two
protection_moved|2026|300.4 to 300.6|||one
ten_ampere_conductors|2026|10 A circuits|||one
identification|2023|200.6;250.119;210.5(C)|||one
branch_drop_advice|2020;2023|210.19 note|3|percent|two
total_drop_advice|2020;2023|210.19 note|5|percent|two
"""
CONFIDENCE = {"two": "two_texts", "one": "one_text", "memory": "memory"}

# Rules that an edition doesn't have.
ABSENT = {
    "load_article_moved": ("2020", "2023"),
    "existing_three_wire_bare": ("2020",),
    "box_terminal_block": ("2020",),
    "emt_largest": ("2020",),
    "ent_largest": ("2020",),
    "class_1_moved": ("2020",),
    "cable_rules_moved": ("2020",),
    "limited_energy_moved": ("2020", "2023"),
    "protection_moved": ("2020", "2023"),
    "ten_ampere_conductors": ("2020", "2023"),
}


def test_every_rule_as_retyped() -> None:
    expected = {}
    for line in RULES.strip().splitlines():
        name, editions, section, numbers, unit, confidence = line.split("|")
        values = tuple(float(number) for number in numbers.split(";") if number)
        expected[name, tuple(editions.split(";"))] = (section, values, unit, CONFIDENCE[confidence])
    printed = {
        (row.text("rule"), row.words("editions")): (
            row.text("section"),
            row.numbers("number"),
            row.text("unit"),
            row.text("confidence"),
        )
        for row in load("nec_rules").rows
    }
    assert printed == expected


def test_rules_that_an_edition_lacks() -> None:
    rows = load("nec_rules").rows
    assert {row.text("rule"): row.words("absent_in") for row in rows if row.words("absent_in")} == ABSENT


def test_every_rule_has_words() -> None:
    assert all(row.text("words") for row in load("nec_rules").rows)


def test_editions_with_a_rule_of_their_own_never_overlap() -> None:
    seen = set()
    for row in load("nec_rules").rows:
        for edition in row.words("editions"):
            assert (row.text("rule"), edition) not in seen, row.cells
            seen.add((row.text("rule"), edition))
