"""What a session promises: nothing accepted is lost, nothing refused is kept, every step can be taken back."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from schedules.errors import InputError
from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.plan import plan_job
from schedules.planned import read_sheet_of
from tests.stage import sample_job
from wizard.session import Session

if TYPE_CHECKING:
    from collections.abc import Iterator

TOP = Path(__file__).parents[2]


def session_of(path: Path) -> Session:
    draft = read_draft(path)
    return Session(draft, read_sheet_of(draft))


@pytest.fixture
def session(site: Path) -> Session:
    return session_of(sample_job("galley-gas", site))


def ceiling(height: str) -> tuple[Edit, ...]:
    return (Edit("site", None, "ceiling", height),)


def test_an_answer_makes_a_new_snapshot_and_leaves_the_old_one(session: Session) -> None:
    before = session.now
    after = session.answer(ceiling("9 ft"), "Ceiling height: 9 ft")
    assert after.version > before.version
    assert before.draft.job.site.ceiling == 96.0
    assert after.draft.job.site.ceiling == 108.0
    assert read_draft(Path(after.draft.file)).text == after.draft.text


def test_a_refused_answer_changes_nothing(session: Session) -> None:
    before, written = session.now, Path(session.now.draft.file).read_text(encoding="utf-8")
    with pytest.raises(InputError, match=r"site\.ceiling"):
        session.answer(ceiling("high"), "Ceiling height: high")
    assert session.now is before
    assert Path(before.draft.file).read_text(encoding="utf-8") == written
    assert not session.can_undo


def test_a_sheet_that_is_not_there_is_refused_before_anything_is_saved(session: Session) -> None:
    with pytest.raises(InputError, match="the file of an equipment sheet"):
        session.answer((Edit("job", None, "sheet", "nowhere.toml"),), "Equipment sheet")
    assert session.now.draft.job.job.sheet == "sheets/marram.toml"


def test_undo_and_redo_go_back_and_forth_and_save_each_time(session: Session) -> None:
    heights = ("9 ft", "10 ft", "11 ft")
    texts = [session.now.draft.text]
    texts += [session.answer(ceiling(height), height).draft.text for height in heights]
    for text in reversed(texts[:-1]):
        assert session.undo().draft.text == text
        assert read_draft(Path(session.now.draft.file)).text == text
    assert not session.can_undo
    for text in texts[1:]:
        assert session.redo().draft.text == text
    assert not session.can_redo


def test_an_answer_after_an_undo_ends_what_could_be_given_again(session: Session) -> None:
    session.answer(ceiling("9 ft"), "nine")
    session.undo()
    session.answer(ceiling("10 ft"), "ten")
    assert not session.can_redo


def test_what_was_done_last_is_told(session: Session) -> None:
    assert session.answer(ceiling("9 ft"), "Ceiling height: 9 ft").last == "Ceiling height: 9 ft"
    assert session.undo().last == "Taken back: Ceiling height: 9 ft"
    assert session.redo().last == "Given again: Ceiling height: 9 ft"


def test_a_plan_of_an_older_version_is_not_taken(session: Session) -> None:
    first = session.now
    plan = plan_job(first.sheet, first.draft.job)
    session.answer(ceiling("9 ft"), "nine")
    assert session.settle(first.version, plan) is None
    assert session.now.planning


def test_the_effect_is_measured_from_the_last_plan_that_settled(session: Session) -> None:
    session.plan_now()
    session.answer(ceiling("9 ft"), "nine")
    second = session.answer(ceiling("10 ft"), "ten")
    settled = session.settle(second.version, plan_job(second.sheet, second.draft.job))
    assert settled is not None
    assert settled.effect is not None
    needs = next(
        difference
        for change in settled.effect.cables
        if change.subject == "W1"
        for difference in change.differences
        if difference.what == "needs"
    )
    assert needs.was != needs.now
    again = session.settle(second.version, plan_job(second.sheet, second.draft.job))
    assert again is not None
    assert again.effect == settled.effect, "remedies that come later don't wipe the effect"


EDITS = st.one_of(
    st.integers(7, 30).map(lambda feet: ceiling(f"{feet} ft")),
    st.sampled_from(["overhead", "direct", "taped", "sideways"]).map(
        lambda way: (Edit("run", "W1", "route", way),)
    ),
    st.integers(-60, 60).map(lambda inches: (Edit("place", "H", "along", f"{inches} in"),)),
    st.sampled_from([("gas-valve",), ("fan-inside", "gas-valve"), ("no-such",)]).map(
        lambda names: (Edit("", None, "choices", list(names)),)
    ),
    st.just((Edit("raceway", "R1", "", None),)),
)


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(moves=st.lists(st.one_of(EDITS, st.sampled_from(["undo", "redo"])), max_size=12))
def test_the_file_is_the_job_after_every_move(site: Path, moves: list[tuple[Edit, ...] | str]) -> None:
    """Against a plain list of texts with a place in it: the file always holds the text at that place."""
    session = session_of(sample_job("galley-gas", site))
    texts, place = [session.now.draft.text], 0
    for move in moves:
        if isinstance(move, tuple):
            try:
                session.answer(move, "answer")
            except InputError:
                continue
            texts, place = [*texts[: place + 1], session.now.draft.text], place + 1
        elif move == "undo" and place:
            session.undo()
            place -= 1
        elif move == "redo" and place + 1 < len(texts):
            session.redo()
            place += 1
        assert (session.can_undo, session.can_redo) == (place > 0, place + 1 < len(texts))
        assert read_draft(Path(session.now.draft.file)).text == texts[place]


ANSWERING = """
import sys
from pathlib import Path
from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.planned import read_sheet_of
from wizard.session import Session

draft = read_draft(Path(sys.argv[1]))
session = Session(draft, read_sheet_of(draft))
for number in range(1, 100000):
    session.answer((Edit("site", None, "ceiling", f"{number % 300 + 80} in"),), "answer")
    print(number, flush=True)
"""


def answers_before_the_plug_is_pulled(path: Path, wanted: int) -> Iterator[int]:
    """The numbers of the answers that a process reports as accepted, until it is killed after `wanted` of them."""
    with subprocess.Popen(
        [sys.executable, "-c", ANSWERING, str(path)],
        cwd=path.parent,
        env=os.environ | {"PYTHONPATH": str(TOP)},
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout is not None
        for line in process.stdout:
            yield int(line)
            if int(line) == wanted:
                process.send_signal(signal.SIGKILL)


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal on this system")
@pytest.mark.parametrize("wanted", [1, 2, 5, 13, 34])
def test_no_accepted_answer_is_lost_when_the_plug_is_pulled(site: Path, wanted: int) -> None:
    path = site / sample_job("galley-gas", site)
    accepted = list(answers_before_the_plug_is_pulled(path, wanted))
    assert accepted[:wanted] == list(range(1, wanted + 1))
    left = read_draft(path).job.site.ceiling
    # The kill may fall into the answer after the last one that was reported; never before it.
    possible = {float(number % 300 + 80) for number in (accepted[-1], accepted[-1] + 1)}
    assert left in possible
