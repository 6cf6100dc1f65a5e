"""Does every power-limited cable have a source that is listed for its class, and who decides where nobody says?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Finding, Remedy, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.circuits.limited_wiring import LimitedCable
    from schedules.derived import Derived


def check_limited(derived: Derived) -> Iterator[Finding]:
    """Check listings of power-limited sources, and ask where the class rests on somebody's judgement."""
    unlisted: dict[str, list[LimitedCable]] = {}
    for cable in derived.limited:
        yield from _mislisted(cable)
        if not cable.listed and not cable.mislisted:
            for key in cable.supplies or (cable.cable,):
                unlisted.setdefault(key, []).append(cable)
        if cable.safety:
            yield _safety(cable)
    for key, cables in unlisted.items():
        yield _unlisted(key, cables)


def _mislisted(cable: LimitedCable) -> Iterator[Finding]:
    if cable.mislisted:
        yield Finding(
            code="class-not-listed",
            severity=Severity.STOP,
            subject=cable.cable,
            says=f"{cable.cable} is {cable.circuit_class} wiring, but {', '.join(cable.mislisted)} is listed otherwise",
            rule="the class of power-limited wiring is that of the source that feeds it",
            source=cable.by_class.working.source,
            remedies=(
                Remedy(
                    f"feed {cable.cable} from a source that is listed for {cable.circuit_class} wiring, or run it as "
                    f"what {', '.join(cable.mislisted)} is listed for; then correct `class` or `listed` in the "
                    "equipment sheet"
                ),
            ),
        )


def _unlisted(key: str, cables: list[LimitedCable]) -> Finding:
    tags = ", ".join(cable.cable for cable in cables)
    fed = f"{key} feeds {tags}" if cables[0].supplies else f"the sheet doesn't show what feeds {tags}"
    judgement = cables[0].by_class.judgements[0]
    return Finding(
        code="class-source-open",
        severity=Severity.CHECK,
        subject=key,
        says=(
            f"{fed}, {cables[0].circuit_class} wiring only if its source is listed so. {judgement.question} "
            f"Decided by: {judgement.who_decides}"
        ),
        rule="the class of power-limited wiring is that of the source that feeds it",
        source=judgement.source,
    )


def _safety(cable: LimitedCable) -> Finding:
    judgement = cable.by_class.judgements[-1]
    return Finding(
        code="safety-control-class",
        severity=Severity.CHECK,
        subject=cable.cable,
        says=(
            f"what {cable.cable} carries releases the agent or shuts off the heat. {judgement.question} "
            f"Decided by: {judgement.who_decides}"
        ),
        rule="the control circuit of safety equipment may be class 1 whatever feeds it",
        source=judgement.source,
    )
