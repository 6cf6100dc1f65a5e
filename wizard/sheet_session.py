"""One equipment sheet being written: its versions, undo and redo, saved after every accepted entry."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.errors import InputError

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.sheet.drafting import SheetDraft


@dataclass(frozen=True, slots=True)
class SheetSnapshot:
    """All that the screen shows.

    did: what led here, in words; last: what was done last, which may be to take something back. plan: what the sheet
    makes with all that fits together, None while it makes nothing or is being planned. unsaved: why the file could not
    be written.
    """

    version: int
    draft: SheetDraft
    did: str = ""
    last: str = ""
    plan: Plan | None = None
    unsaved: str = ""


class SheetSession:
    """The snapshots of one sheet. Every change makes a new one; none is ever altered."""

    def __init__(self, draft: SheetDraft) -> None:
        self.now = SheetSnapshot(1, draft)
        self._past: list[SheetSnapshot] = []
        self._future: list[SheetSnapshot] = []
        self._last_version = 1

    def take(self, draft: SheetDraft, did: str) -> SheetSnapshot:
        """Take a new version and save it."""
        self._past.append(self.now)
        self._future.clear()
        return self._become(replace(self.now, draft=draft, did=did, last=did))

    def undo(self) -> SheetSnapshot | None:
        """Take the last entry back; None where there is none."""
        if not self._past:
            return None
        before = self._past.pop()
        self._future.append(self.now)
        return self._become(replace(before, last=f"Taken back: {self.now.did}"))

    def redo(self) -> SheetSnapshot | None:
        """Give the entry again that was taken back; None where there is none."""
        if not self._future:
            return None
        after = self._future.pop()
        self._past.append(self.now)
        return self._become(replace(after, last=f"Given again: {after.did}"))

    def settle(self, version: int, plan: Plan) -> SheetSnapshot | None:
        """Take what one version makes; None where the sheet has moved on since."""
        if version != self.now.version:
            return None
        self.now = replace(self.now, plan=plan)
        return self.now

    def _become(self, snapshot: SheetSnapshot) -> SheetSnapshot:
        self._last_version += 1
        self.now = replace(snapshot, version=self._last_version, plan=None, unsaved=_saved(snapshot.draft))
        return self.now


def _saved(draft: SheetDraft) -> str:
    """Write the sheet's file; say why where it can't be."""
    try:
        draft.save()
    except InputError as error:
        return str(error)
    return ""
