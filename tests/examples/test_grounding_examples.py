"""Published worked examples: equipment grounding conductors, and how they grow."""

from __future__ import annotations

import pytest

from schedules.circuits.grounding import GroundingConductor, grounding_conductor, table_grounding_conductor
from schedules.tables.conductors import circular_mils, smallest_of_area


def grown(device_a: float, least: str, installed: str, edition: str = "2023") -> GroundingConductor:
    return grounding_conductor(
        device_a,
        material="copper",
        least_circuit_size=least,
        circuit_size=installed,
        only_for_heat=False,
        edition=edition,
    )


@pytest.mark.parametrize(("device_a", "size"), [(40, "10 AWG"), (30, "10 AWG"), (300, "4 AWG")])
def test_exam_questions_2023_table_rows(device_a: float, size: str) -> None:
    # csaplevel1.examzify.com (40 A), grounding2examprep.examzify.com (30 A), inwindustrialtraining.com Code Talk 32
    # (300 A).
    assert str(table_grounding_conductor(device_a, material="copper", edition="2023").size) == size


def test_trade_magazine_quiz_2020_area_of_6_awg() -> None:
    # ecmag.com, quiz Conductors and Circuit Requirements, question 8: 26,240 cmil.
    assert circular_mils("6", edition="2020").circular_mils == 26_240


def test_trade_magazine_2020_twenty_ampere_circuit_at_6_awg() -> None:
    # ecmag.com, CQD Spotlight, equipment grounding: a 20 A circuit enlarged from 12 to 6 AWG needs a 6 AWG EGC.
    assert str(grown(20, "12", "6", "2020").size) == "6 AWG"


def test_engineers_forum_2014_fifty_ampere_circuit_at_1_awg() -> None:
    # mepanet.com, Proportionately Increase: 8 to 1 AWG at 50 A, (83,690/16,510) 10,380 = 52,617 cmil, so 3 AWG.
    found = grown(50, "8", "1", "2020")
    assert str(found.size) == "3 AWG"
    assert "52617 cmil" in [entry.value for entry in found.working.steps[-1].inputs]


def test_engineers_forum_2014_twenty_ampere_circuit_at_1_0() -> None:
    # mepanet.com, the same page: 12 AWG to 1/0 at 20 A makes the EGC 1/0.
    assert str(grown(20, "12", "1/0", "2020").size) == "1/0 AWG"


def test_training_notes_2008_area_of_58436() -> None:
    # inwindustrialtraining.com, Code Talk 32: 350/250 kcmil = 1.4; 1.4 x 41,740 = 58,436 cmil, a 2 AWG EGC.
    assert round(1.4 * circular_mils("4", edition="2020").circular_mils) == 58_436
    assert str(smallest_of_area(58_436, edition="2020").size) == "2 AWG"


def test_code_forum_2008_area_short_by_2_cmil() -> None:
    # Code forum thread "250.122-B": 8 AWG to 4 AWG with a 10 AWG EGC needs 26,242 cmil; 6 AWG has 26,240: "You need
    # a #4". A later answer there blames the rounding of the table, so the question is put to the authority.
    found = grown(40, "8", "4")
    assert str(found.size) == "4 AWG"
    assert found.judgements[0].question.startswith("Does 6 AWG do? It misses the area by 2 cmil of 26240")


def test_code_forum_2008_sixty_ampere_circuit_at_2_awg() -> None:
    # Code forum thread "EGC increased in size": 10.38 x 66.36/26.24 = 26.25 kcmil, and 6 AWG (26.24) is taken.
    found = grown(60, "6", "2")
    # Disagreement: the page takes the shortage for tolerance. We keep to the area and ask.
    assert str(found.size) == "4 AWG"
    assert found.judgements[0].question.startswith("Does 6 AWG do?")


def test_code_forum_2017_forty_ampere_oven_at_6_awg() -> None:
    # Code forum thread "Oven", page 2: 26,240/16,510 = 1.6; 10,380 x 1.6 = 16,608; "#8 is too small so a #6".
    found = grown(40, "8", "6")
    # Disagreement: the ratio was rounded up to 1.6. Unrounded, 16,497 cmil are needed and 8 AWG has 16,510.
    assert str(found.size) == "8 AWG"
    assert "16497 cmil" in [entry.value for entry in found.working.steps[-1].inputs]
    assert found.judgements == ()


def test_exam_question_2020_thirty_ampere_circuit_at_2_awg() -> None:
    # iecyear4studyguide.examzify.com: a very long 30 A circuit with 2 AWG conductors; the page answers 8 AWG because
    # "EGC size is fixed by the protection device".
    # Disagreement: 250.122(B) makes it grow with conductors enlarged for voltage drop; from 10 AWG to 2 AWG it is 2.
    assert str(grown(30, "10", "2", "2020").size) == "2 AWG"
    # Without the growth, the page's own figure holds as more than the table's 10 AWG.
    assert str(table_grounding_conductor(30, material="copper", edition="2020").size) == "10 AWG"


def test_electrical_forum_2008_one_hundred_twenty_five_amperes() -> None:
    # electrical-contractor.net topic 174261: 125 A "normally" has an 8 AWG EGC; 2 AWG to 1/0 makes 26.4 kcmil, 6 AWG.
    # Disagreement: Table 250.122 gives 6 AWG above 100 A, which grows to 3 AWG; 4 AWG misses it by 16 cmil.
    assert str(table_grounding_conductor(125, material="copper", edition="2020").size) == "6 AWG"
    found = grown(125, "2", "1/0", "2020")
    assert str(found.size) == "3 AWG"
    assert found.judgements[0].question.startswith("Does 4 AWG do? It misses the area by 16 cmil of 41740")
