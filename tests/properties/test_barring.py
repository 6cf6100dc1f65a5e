"""What can't be built, asked rule by rule and pair by pair, against every thinkable combination tried in turn.

By construction: what is expected is counted here by brute force.
"""

from __future__ import annotations

import itertools

from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.teaching.barring import Barred, Barring, barring_of
from schedules.teaching.choices import OptionModel, Rule
from schedules.teaching.models import Ban, Model


@st.composite
def option_models(draw: st.DrawFn) -> OptionModel:
    """Some factors of one choice, without it or with it; some of several, of which one is picked."""
    sizes = draw(st.lists(st.integers(1, 3), min_size=1, max_size=6))
    names = iter("abcdefghijklmnopqrstuvwxyz")
    factors = tuple(
        (frozenset[str](), frozenset({next(names)}))
        if size == 1
        else tuple(frozenset({next(names)}) for _ in range(size))
        for size in sizes
    )
    bans: list[Ban] = []
    for named in draw(st.lists(st.sets(st.integers(0, len(sizes) - 1), min_size=1, max_size=3), max_size=5)):
        levels = {factor: st.sets(st.integers(0, len(factors[factor]) - 1), min_size=1) for factor in named}
        bans.append(tuple((factor, frozenset(draw(levels[factor]))) for factor in sorted(named)))
    model = Model(tuple(map(len, factors)), tuple(bans))
    return OptionModel(model, factors, tuple(Rule(f"rule {n}", "why", ban) for n, ban in enumerate(bans)))


def by_trying(options: OptionModel) -> Barring:
    """The same by every thinkable row."""
    names = [name for levels in options.factors for level in levels for name in sorted(level)]
    rows = list(itertools.product(*map(range, options.model.levels)))
    counts = [
        sum(all(row[factor] in barred for factor, barred in rule.ban) for row in rows)
        for rule in options.rules
    ]
    built = [options.choices(row) for row in rows if options.model.allows(row)]
    seen = frozenset[str]().union(*built)
    groups: dict[frozenset[int], list[str]] = {}
    for name in names:
        if name in seen:
            groups.setdefault(frozenset(n for n, item in enumerate(built) if name in item), []).append(name)
    return Barring(
        len(rows),
        len(built),
        tuple(
            Barred(rule.subject, rule.reason, count)
            for rule, count in zip(options.rules, counts, strict=True)
        ),
        tuple(name for name in names if name not in seen),
        tuple(tuple(group) for group in groups.values() if len(group) > 1),
    )


@settings(max_examples=150, deadline=None)
@given(options=option_models())
def test_asking_the_rules_says_the_same_as_trying_every_combination(options: OptionModel) -> None:
    assert barring_of(options) == by_trying(options)


def test_forty_free_choices_are_counted_at_once() -> None:
    factors = ((frozenset[str](), frozenset({"a"})),) * 2 + tuple(
        (frozenset[str](), frozenset({f"c{n}"})) for n in range(38)
    )
    factors = (factors[0], (frozenset(), frozenset({"b"})), *factors[2:])
    ban: Ban = ((0, frozenset({1})), (1, frozenset({0})))
    found = barring_of(OptionModel(Model((2,) * 40, (ban,)), factors, (Rule("A", "needs B", ban),)))
    assert (found.thinkable, found.possible, found.rules[0].count) == (2**40, 3 * 2**38, 2**38)
    assert (found.never, found.together) == ((), ())
