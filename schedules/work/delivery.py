"""What must be in the delivery for the options bought, and what to do before signing and when something is broken."""

from __future__ import annotations

import calendar
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from schedules.tables import rule
from schedules.work.working_days import working_day_after
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.sheet.choices import Part

_RULES = "receiving_rules"
_EDITION = "2015"
_MONTHS_PER_YEAR = 12

CARTON_UNKNOWN = "carton not stated by the sheet"

DAMAGE_NOTE = (
    "Delivered with damage: ______ (which carton, which side, what is crushed, torn, wet or rattles). "
    "Opened in front of the driver: yes / no. Seen inside: ______. Photographed: yes / no. "
    "Pieces on the bill: ___, pieces received: ___. Date, time, name: ______"
)
"""To write on the delivery receipt, both copies, before signing. In our own words."""

BEFORE_SIGNING = (
    "Count the pieces against the bill of lading and against this list.",
    "Walk round every carton while it is still on the lift gate; look at straps, corners, tilt and shock marks.",
    "Open what looks wrong in front of the driver, and write what is seen on both copies of the receipt.",
    "Never sign a clean receipt for goods not seen. A remark such as 'subject to inspection' counts for nothing.",
    "Refuse a hood whose suppression tank, piping or glass is visibly damaged; keep the receipt's copy.",
)

PHOTOGRAPHS = (
    "the load on the truck before anything is moved",
    "each side of each carton, with its label in the picture",
    "every dent, hole, wet mark or broken strap, with a tape or a coin beside it",
    "tilt and shock indicators",
    "the opened carton, packing still in place",
    "the hood's front, back, both sides, filters, tank and gauge, rating plate",
    "every small part laid out beside this list",
    "the signed receipt with its remarks",
)


@dataclass(frozen=True, slots=True)
class Expected:
    """One thing that must be in the delivery."""

    part: str
    name: str
    quantity: int
    carton: str


@dataclass(frozen=True, slots=True)
class Deadlines:
    """Until when damage is reported, a claim is filed and, after a refusal, a suit begins (years)."""

    notice: date
    claim: date
    suit_years: int
    working: Working


def receiving_list(
    parts: Iterable[Part], ordered_extensions: frozenset[str], extensions: frozenset[str]
) -> tuple[Expected, ...]:
    """What must arrive, by carton in the sheet's order; a cable's extension only where the job orders it."""
    expected = [
        Expected(part.id, part.name, part.quantity, part.carton or CARTON_UNKNOWN)
        for part in parts
        if part.id not in extensions or part.id in ordered_extensions
    ]
    cartons = list(dict.fromkeys(item.carton for item in expected))
    return tuple(sorted(expected, key=lambda item: cartons.index(item.carton)))


def deadlines(delivered: date) -> Deadlines:
    """Until when to report damage and claim it after a delivery on this day. Public holidays are not known."""
    notice, claim = rule("concealed_damage_notice", _EDITION, _RULES), rule("claim_filed", _EDITION, _RULES)
    suit = rule("suit_after_refusal", _EDITION, _RULES)
    last_notice = working_day_after(delivered, int(notice.number))
    last_claim = months_after(delivered, int(claim.number))
    return Deadlines(
        last_notice,
        last_claim,
        int(suit.number),
        Working(
            name="time limits after the delivery",
            formula="delivery + business days for the notice, + calendar months for the claim",
            inputs=(
                Input("delivered", delivered.isoformat(), "job"),
                Input(notice.words, f"{notice.number:g} {notice.unit}", str(notice.source)),
                Input(claim.words, f"{claim.number:g} {claim.unit}", str(claim.source)),
                Input(suit.words, f"{suit.number:g} {suit.unit}", str(suit.source)),
            ),
            result=f"notice by {last_notice.isoformat()}, claim by {last_claim.isoformat()}",
            source=notice.source,
            note=f"{notice.note}; public holidays are not known, so count them as working days",
        ),
    )


def months_after(day: date, months: int) -> date:
    """The same day of the month so many months on; the month's last where it has no such day."""
    total = day.month - 1 + months
    year, month = day.year + total // _MONTHS_PER_YEAR, total % _MONTHS_PER_YEAR + 1
    return date(year, month, min(day.day, calendar.monthrange(year, month)[1]))
