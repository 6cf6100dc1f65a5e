"""Random equipment sheets by seed: up to 12 enclosures, 100 terminals and 150 conductors, grown as equipment is.

Breakers feed strips; contacts pass what they feed on to loads elsewhere; transformers make a control supply, which
plugs and factory cables carry to relays, keys and loops; jumpers, spare cores, terminals left empty, links inside a
box; options bring some of it. Each sheet is written as TOML and read by the product's own reader, which must find
nothing wrong with it. Everything is invented.
"""

from __future__ import annotations

import random

import tomlkit

from schedules.connections import options
from schedules.job.records import Job
from schedules.plan import Plan, plan_job
from schedules.sheet.drafting import sheet_draft
from tests.equipment_growth import FULL, MOST_AGAIN, MOST_CABLES, PLUG_POLES, Bounds, Growth, Table

_NAMES = (
    "Hood",
    "Control enclosure",
    "Contactor box behind the left-hand cabinet",
    "Fan",
    "Gas valve, plastic coil housing",
    "Pull station by the way out",
    "Überdruckwächter 50 Ω",
    "Make-up air unit",
    "House fire-alarm panel",
    "Junction box",
    "Keys",
)
# How often a sheet may grow.
_STEPS = 40


def _clamp() -> Table:
    return {
        "id": "any",
        "style": "screw",
        "smallest": "22 AWG",
        "largest": "6 AWG",
        "holds": 8,
        "prepare": "bare",
        "strip": "3/8 in",
    }


def sheet_text(seed: int, bounds: Bounds = FULL) -> str:
    """The text of a random equipment sheet."""
    chance = random.Random(seed)
    growth = Growth(chance, bounds)
    for n in range(chance.randint(2, bounds.enclosures)):
        kind = "panel" if n == 0 else chance.choice(("equipment", "equipment", "box", "by-others"))
        entry = {
            "tag": f"E{n}" if n else "PB",
            "name": "Panel" if n == 0 else chance.choice(_NAMES),
            "kind": kind,
        }
        growth.add("enclosure", **entry, metal=chance.random() < 0.5, entry="6 in", free_conductor="6 in")
    growth.add("signal", id="fire", name="fire", set_by="outside", fire=True)
    for _ in range(chance.randint(0, 3)):
        growth.signal()
    choices = [f"choice-{n}" for n in range(1, chance.randint(1, 5))]
    most_terminals = chance.randint(bounds.terminals // 3, bounds.terminals)
    most_conductors = chance.randint(bounds.conductors // 3, bounds.conductors) - MOST_AGAIN
    growth.circuit()
    for _ in range(_STEPS):
        growth.when = {"all": [chance.choice(choices)]} if choices and chance.random() < 0.2 else None
        if growth.room(most_terminals, most_conductors):
            chance.choice((growth.circuit, growth.loop))()
    growth.when = None
    while growth.shared() and growth.conductors < most_conductors and growth.count("cable") < MOST_CABLES:
        growth.again()
    group = {"id": "bought", "title": "What is bought?", "why": "It decides what is fitted.", "pick": "any"}
    if choices:
        growth.when = None
        growth.add("group", **group, choice=[{"id": name, "title": name} for name in choices])
    plug = {"id": "plug", "name": "plug", "poles": PLUG_POLES, "diameter": "1 in", "rigid_length": "2 in"}
    title = {"id": f"random-{seed}", "name": f"Random {seed}", "revision": "1", "source": "by seed"}
    empty: Table = {"group": [], "opening": [], "effect": [], "device": [], "circuit": [], "cable": []}
    return tomlkit.dumps(
        {"format": 1, "sheet": title} | empty | growth.tables | {"clamp": [_clamp()], "connector": [plug]}
    )


def random_plan(seed: int, bounds: Bounds = FULL) -> Plan:
    """A random sheet with a random choice of what may be bought, planned."""
    draft = sheet_draft(sheet_text(seed, bounds), f"random-{seed}.toml")
    if draft.sheet is None or not draft.sound:
        raise AssertionError(draft.mistakes)
    chance = random.Random(seed)
    bought = sorted(options.combinations(draft.sheet), key=lambda choices: (len(choices), sorted(choices)))
    choices = chance.choice((chance.choice(bought), bought[-1]))
    job = {"name": f"Random {seed}", "sheet": "none", "revision": "1", "date": "2026-01-01", "code": 2023}
    runs = tuple(
        {"cable": cable.tag, "route": "taped", "taped": f"{chance.randint(4, 90)} ft"}
        for cable in draft.sheet.cable
        if chance.random() < 0.8 and cable.when.holds(choices)
    )
    return plan_job(
        draft.sheet,
        Job.model_validate(
            {
                "format": 1,
                "job": job,
                "choices": tuple(sorted(choices)),
                "site": {"tolerance": "1/4 in"},
                "run": runs,
            }
        ),
    )
