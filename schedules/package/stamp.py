"""What stands on every page of a package, with a code that tells an outdated sheet from the present one."""

from __future__ import annotations

import hashlib
import io
from typing import TYPE_CHECKING

from schedules.package.tables import one_line
from schedules.writers.document import Stamp

if TYPE_CHECKING:
    from schedules.plan import Plan

# Digits and capitals that are not mistaken for each other when read out.
_ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_SIGNS = 8
_NAME_IN_MATRIX = 40


def contents_code(data: bytes) -> str:
    """A short name for these contents, such as `7K3Q-M2XD`: another plan gives another one, but for one in 2^40."""
    number = int.from_bytes(hashlib.sha256(data).digest()[:5], "big")
    signs = "".join(_ALPHABET[number >> (5 * place) & 31] for place in reversed(range(_SIGNS)))
    return f"{signs[:4]}-{signs[4:]}"


def make_stamp(plan: Plan, code: str) -> Stamp:
    """The stamp of a plan's pages."""
    title, sheet = plan.derived.job.job, plan.derived.sheet.sheet
    name = one_line(title.name)
    revision = one_line(title.revision)
    return Stamp(
        job=name,
        sheet=f"{one_line(sheet.name)}, revision {one_line(sheet.revision)}",
        code_edition=f"NEC {title.code}",
        date=one_line(title.date),
        revision=revision,
        prepared_by=one_line(title.prepared_by or ""),
        code=code,
        matrix=_matrix(f"hoodwright 1\n{name[:_NAME_IN_MATRIX]}\nrevision {revision}\n{code}"),
    )


def _matrix(text: str) -> str:
    """A QR code (ISO/IEC 18004) as SVG: job, revision and contents for a phone to read."""
    # Deferred: only a package pays for the library.
    import segno  # noqa: PLC0415

    stream = io.BytesIO()
    segno.make_qr(text, error="m").save(stream, kind="svg", xmldecl=False, svgns=True, border=4)
    return stream.getvalue().decode()
