"""One job being worked on: frozen snapshots, undo and redo, saved after every accepted answer."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from schedules.comparison import Comparison, compare
from schedules.errors import InputError
from schedules.job.draft import ROW_KEYS
from schedules.plan import plan_job
from schedules.planned import read_sheet_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.findings import Edit
    from schedules.job.draft import Draft
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Snapshot:
    """All that the screens show.

    did: the answer that led here, in words; last: what was done last, which may be to take an answer back. effect:
    what that changed, None until it is planned. plan: of this draft, or, while `planning`, of the one before.
    unsaved: why the file could not be written, empty where it was.
    """

    version: int
    draft: Draft
    sheet: Sheet
    plan: Plan | None = None
    planning: bool = True
    did: str = ""
    last: str = ""
    effect: Comparison | None = None
    unsaved: str = ""
    document: Mapping[str, Any] = field(default_factory=dict, compare=False, repr=False)

    def written(self, table: str, row: str | None, key: str) -> object:
        """What the job's file writes for one answer; None where it says nothing."""
        home = self.document.get(table) if table else self.document
        if row is not None:
            entries = home if isinstance(home, list) else []
            home = next((entry for entry in entries if entry.get(ROW_KEYS[table]) == row), None)
        return home.get(key) if isinstance(home, dict) else None


class Session:
    """The snapshots of one job. Every change makes a new one; none is ever altered."""

    def __init__(self, draft: Draft, sheet: Sheet) -> None:
        self.now = Snapshot(1, draft, sheet, document=tomllib.loads(draft.text))
        self._settled: Plan | None = None
        self._past: list[Snapshot] = []
        self._future: list[Snapshot] = []
        self._last_version = 1

    @property
    def can_undo(self) -> bool:
        """Whether an answer can be taken back."""
        return bool(self._past)

    @property
    def can_redo(self) -> bool:
        """Whether an answer that was taken back can be given again."""
        return bool(self._future)

    def answer(self, edits: tuple[Edit, ...], did: str) -> Snapshot:
        """Apply an answer and save it.

        Raises InputError where the result would be no job, or its sheet none; nothing has changed then.
        """
        draft = self.now.draft.edited(edits)
        sheet = self.now.sheet
        if draft.job.job.sheet != self.now.draft.job.job.sheet:
            sheet = read_sheet_of(draft)
        self._past.append(self.now)
        self._future.clear()
        return self._become(
            replace(
                self.now,
                draft=draft,
                sheet=sheet,
                did=did,
                last=did,
                document=tomllib.loads(draft.text),
            )
        )

    def undo(self) -> Snapshot:
        """Take the last answer back. Raises IndexError where there is none."""
        before = self._past.pop()
        self._future.append(self.now)
        return self._become(replace(before, last=f"Taken back: {self.now.did}"))

    def redo(self) -> Snapshot:
        """Give the answer again that was taken back. Raises IndexError where there is none."""
        after = self._future.pop()
        self._past.append(self.now)
        return self._become(replace(after, last=f"Given again: {after.did}"))

    def plan_now(self) -> Plan:
        """The plan of the job as it stands, made at once where nobody has made it yet."""
        plan = self.now.plan
        if plan is None or self.now.planning:
            plan = plan_job(self.now.sheet, self.now.draft.job)
            self.settle(self.now.version, plan)
        return plan

    def settle(self, version: int, plan: Plan) -> Snapshot | None:
        """Take the plan of one version; None where the job has moved on since."""
        if version != self.now.version:
            return None
        effect = self.now.effect
        if self.now.planning:
            effect = None if self._settled is None else compare(self._settled, plan)
        self._settled = plan
        self.now = replace(self.now, plan=plan, planning=False, effect=effect)
        return self.now

    def _become(self, snapshot: Snapshot) -> Snapshot:
        self._last_version += 1
        self.now = replace(
            snapshot,
            version=self._last_version,
            plan=self._settled,
            planning=True,
            effect=None,
            unsaved=_saved(snapshot.draft),
        )
        return self.now


def _saved(draft: Draft) -> str:
    """Write the job's file; say why where it can't be."""
    try:
        draft.save()
    except InputError as error:
        return str(error)
    return ""
