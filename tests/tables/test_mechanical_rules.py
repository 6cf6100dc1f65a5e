"""Rules on exhaust, make-up air, clearance and gas: section, numbers and editions, retyped by hand."""

from __future__ import annotations

import pytest

from schedules.tables import has_rule, load, rule

# Table, rule | editions whose text was read | section | numbers | unit | confidence (two texts, one text, memory).
RULES = {
    "irc_mechanical_rules": """
makeup_air_above|2009;2012;2015|M1503.4|400|cfm|two
makeup_air_above|2018;2021|M1503.6|400|cfm|two
makeup_air_only_with_fuel|2018;2021|M1503.6|1|appliance|two
makeup_air_share|2018;2021|M1503.6|100|%|two
makeup_air_damper|2015;2018;2021|M1503.6.2|1|damper|two
makeup_air_damper_access|2015;2018;2021|M1503.6.2|||one
makeup_air_room|2015;2018;2021|M1503.6.1|100|%|one
exhaust_least|2018;2021|M1503.5|100|cfm|two
duct_smooth|2018;2021|M1503.3|||two
duct_material|2018;2021|M1503.4|||one
termination_property_line|2018;2021|M1504.3|3|ft|one
termination_opening|2018;2021|M1504.3|3|ft|two
termination_intake|2018;2021|M1504.3|10|ft|one
termination_above_intake|2018;2021|M1504.3|3|ft|one
combustible_above_range|2012;2015;2018;2021|M1901.1|30|in|two
combustible_above_range_protected|2018;2021|M1901.1|24|in|two
fireblocking|2018;2021|R302.11|||memory
duct_elbow_takes_off|2018;2021|Table M1504.2|15|ft|memory
duct_table_rating|2018;2021|M1504.2|0.25|in wg|memory
""",
    "imc_rules": """
makeup_air_above|2009;2012;2015|505.2|400|cfm|two
makeup_air_above|2018;2021|505.4|400|cfm|two
makeup_air_share|2009;2012;2015;2018;2021|505.4|100|%|two
makeup_air_starts|2009;2012;2015;2018;2021|505.4|||two
duct_smooth|2018;2021|505.3|||two
""",
    "ifgc_rules": """
shutoff_within|2012;2015;2018;2021|409.5.1|6|ft|two
manifold_shutoff_within|2012;2015;2018;2021|409.5.3|50|ft|one
connector_length|2012;2015;2018;2021|411.1.3.1|6|ft|memory
connectors|2012;2015;2018;2021|411.1.3.1|1|connector|one
connector_not_concealed|2012;2015;2018;2021|411.1.3.3|||two
test_pressure|2018;2021|406.4|3|psi|memory
fire_valve_reset|2012;2015;2018;2021|507.2.1.1|||one
""",
}
WORDS = {"two": "two_texts", "one": "one_text", "memory": "memory"}


@pytest.mark.parametrize("table", RULES)
def test_every_rule(table: str) -> None:
    expected = [tuple(line.split("|")) for line in RULES[table].split("\n")[1:-1]]
    found = [
        (
            row.text("rule"),
            ";".join(row.words("editions")),
            row.text("section"),
            ";".join(f"{number:g}" for number in row.numbers("number")),
            row.text("unit"),
            row.text("confidence"),
        )
        for row in load(table).rows
    ]
    assert found == [(*cells[:-1], WORDS[cells[-1]]) for cells in expected]


@pytest.mark.parametrize("edition", ["2009", "2012", "2015"])
def test_the_fuel_condition_came_with_2018(edition: str) -> None:
    assert not has_rule("makeup_air_only_with_fuel", edition, "irc_mechanical_rules")
    with pytest.raises(LookupError, match="has no rule 'makeup_air_only_with_fuel'"):
        rule("makeup_air_only_with_fuel", edition, "irc_mechanical_rules")


PIPES = {
    "1/2": (0.622, 1.55, 3.1, 0.36, 17.3),
    "3/4": (0.824, 2.06, 4.12, 0.48, 22.9),
    "1": (1.049, 2.62, 5.24, 0.61, 29.1),
}


def test_every_gas_pipe_and_gas() -> None:
    columns = ("inside_diameter_in", "elbow_ft", "tee_ft", "full_bore_valve_ft", "globe_ft")
    rows = load("gas_pipe").rows
    assert {row.text("nominal"): tuple(row.number(name) for name in columns) for row in rows} == PIPES
    gases = {
        row.text("gas"): (row.number("sizing_factor"), row.number("specific_gravity"))
        for row in load("gas_properties").rows
    }
    assert gases == {"natural": (0.6094, 0.6), "propane": (1.2462, 1.5)}
