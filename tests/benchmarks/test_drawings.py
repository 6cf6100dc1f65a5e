"""How long drawings take (benchmark): 60 terminals 0.05 s, 300 terminals 0.5 s, 1,000 terminals 3 s for the layout.

Machines differ, so each time is also given as a ratio to what the engine takes, in the same run, to draw the result.
Run by hand: pytest tests/benchmarks/test_drawings.py --benchmark-only
"""

from __future__ import annotations

from time import perf_counter
from typing import TYPE_CHECKING, TypeVar

import pytest

from schedules.drawings.compose import compose
from schedules.drawings.dot import dot_text
from schedules.drawings.drawing import draw
from schedules.drawings.engine import WHEEL
from schedules.drawings.finish import finished
from schedules.drawings.placement import arrange
from schedules.drawings.proof import prove
from tests.pictures import cabled

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytest_benchmark.fixture import BenchmarkFixture

    from schedules.drawings.picture import Picture

Result = TypeVar("Result")

SIZES = [(9, 60, 70), (30, 300, 350), (100, 1000, 1166)]


def laid_out(picture: Picture) -> str:
    return dot_text(compose(picture, arrange(picture, WHEEL)))


def timed(make: Callable[[], Result]) -> tuple[Result, float]:
    start = perf_counter()
    result = make()
    return result, perf_counter() - start


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[1]} terminals")
def test_layout(benchmark: BenchmarkFixture, size: tuple[int, int, int]) -> None:
    picture = cabled(*size)
    source, layout_s = timed(lambda: laid_out(picture))
    _, engine_s = timed(lambda: WHEEL.render(source, "as given", "svg"))
    benchmark.extra_info["layout_to_engine"] = round(layout_s / engine_s, 2)
    benchmark(laid_out, picture)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[1]} terminals")
def test_proof(benchmark: BenchmarkFixture, size: tuple[int, int, int]) -> None:
    """The proof alone; it must take less than twice the time of making the drawing."""
    picture = cabled(*size)
    svg, made_s = timed(
        lambda: finished(WHEEL.render(laid_out(picture), "as given", "svg").decode(), picture, "")
    )
    failures, proof_s = timed(lambda: prove(picture, svg))
    assert not failures
    benchmark.extra_info["proof_to_drawing"] = round(proof_s / made_s, 2)
    benchmark(prove, picture, svg)


@pytest.mark.parametrize("size", SIZES[:2], ids=lambda size: f"{size[1]} terminals")
def test_whole_drawing(benchmark: BenchmarkFixture, size: tuple[int, int, int]) -> None:
    benchmark(draw, cabled(*size))
