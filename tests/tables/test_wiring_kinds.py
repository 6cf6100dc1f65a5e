"""Wiring methods: every row against values retyped by hand.

NM cable starts from its 90 C column by NEC 334.80; other insulations from memory of NEC Table 310.4. Which column of
Chapter 9 Table 9 a raceway or armour counts as, and solid wire to 10 AWG, is common practice.
"""

from __future__ import annotations

from typing import get_args

import pytest

from schedules.circuits.circuit_wires import wiring_kind
from schedules.job.records import RacewayKind
from schedules.tables import load

# kind; insulation [C]; solid to [AWG]; conduit.
KINDS = """
NM 90 10 pvc
UF 60 10 pvc
MC 90 10 aluminum
AC 90 10 steel
TC 90 -  pvc
THHN 90 10 pvc
XHHW 90 10 pvc
EMT - - steel
ENT - - pvc
FMC - - steel
LFMC - - steel
LFNC-B - - pvc
RMC - - steel
PVC-40 - - pvc
PVC-80 - - pvc
unknown 60 - steel
"""


def test_every_row() -> None:
    printed = [
        [
            row.text("kind"),
            str(row.count("insulation_c")) if row.has("insulation_c") else "-",
            row.text("solid_to") or "-",
            row.text("conduit"),
        ]
        for row in load("wiring_kinds").rows
    ]
    assert printed == [line.split() for line in KINDS.strip().splitlines()]


def test_every_kind_of_raceway_counts_as_a_conduit() -> None:
    for kind in get_args(RacewayKind):
        assert load("wiring_kinds").row(kind).text("what") == "raceway"


@pytest.mark.parametrize(
    ("cable", "kind"),
    [
        ("NM-B 14/2 G", "NM"),
        ("MC 12/2 G aluminum armor", "MC"),
        ("TC-ER-JP 14/3", "TC"),
        ("THHN/THWN-2 singles", "THHN"),
        ("EMT", "unknown"),
        ("some jacket", "unknown"),
    ],
)
def test_a_cable_is_known_by_how_its_type_begins(cable: str, kind: str) -> None:
    assert wiring_kind(cable).text("kind") == kind
