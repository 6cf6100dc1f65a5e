"""Which residential, mechanical and fuel gas code holds for one kitchen, local amendments included."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.tables import Adopted

if TYPE_CHECKING:
    from schedules.job.records import Job

_OLDEST_FUEL_GAS = 2012


def residential_code(job: Job) -> Adopted | None:
    """The edition of the IRC, and of the IMC that comes out with it; None where the job doesn't say."""
    year = job.job.residential_code
    return None if year is None else Adopted(str(year), job.adopted.amendments)


def fuel_gas_code(job: Job) -> Adopted | None:
    """The edition of the IFGC that comes out with it; the oldest one carried stands in for older ones."""
    year = job.job.residential_code
    return None if year is None else Adopted(str(max(year, _OLDEST_FUEL_GAS)), job.adopted.amendments)
