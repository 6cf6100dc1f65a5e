"""What each schedule is for, in a line: read by help texts, so nothing heavy is loaded for it."""

from __future__ import annotations

CATALOGUE = {
    "terminations": "one row per conductor end, by enclosure: for the screwdriver",
    "conductors": "one row per conductor, both ends and their labels: for checking",
    "spares": "cores that are capped at both ends",
    "empty": "terminals on which nothing lands, and why",
    "cables": "what each needs, has and has to spare, or where to cut it",
    "circuits": "what the panel must feed",
    "raceways": "the trade sizes, and what decided them",
    "openings": "what must pass each knockout or hole",
    "boxes": "the volume that each box needs and has",
    "framing": "holes and notches in studs, plates and joists; nail plates",
    "takeoff": "cable, conductors and raceway to buy, with their fittings",
    "cuts": "what is cut from which stick, coil or reel",
    "interlocks": "what each cause does to each effect, solved",
    "causes": "the same in words, for a narrow page",
    "readings": "what the meter should read at each commissioning step",
    "faults": "what each single fault does, and who notices it",
    "mounting": "heights, studs and loads of the hood's bracket",
    "bracket": "each hole of the bracket: what it meets and what holds there",
    "blocks": "wood to be set behind the bracket before cover",
    "duct": "each piece of the duct, its speed and its loss",
    "air": "exhaust and make-up air",
    "gas": "pipe, valve and pressure at the range",
    "receiving": "what the delivery must contain",
    "work": "the order of work by trade, with its inspections",
    "work-options": "what each option adds to the work",
    "before-cover": "what each trade has seen before the board goes on",
    "directory": "what is written into the panel's door",
    "labels": "every label: wires, cables, boxes, breakers",
    "owner": "the owner's card",
    "as-built": "lengths as pulled, ends as landed, initials",
}
"""By name, in the order in which they are shown."""
