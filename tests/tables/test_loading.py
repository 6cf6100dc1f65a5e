"""The loader refuses a table that breaks its own header, and cites every row."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

from schedules.errors import InputError
from schedules.tables import has_rule, load, names, rule
from schedules.tables.loading import read
from schedules.working import Confidence

if TYPE_CHECKING:
    from pathlib import Path

HEADER = """
title = "A table"
standard = "STD"
second_check = "none"
key = ["size"]
confidence = "confidence"

[editions.2020]
number = "Table 1"

[editions.2026]
number = "Table 2"
confidence = "memory"

[columns.size]
type = "text"

[columns.value_in]
type = "number"
unit = "in"
order = "rises"

[columns.confidence]
type = "confidence"
"""


def written(tmp_path: Path, rows: str, header: str = HEADER) -> Path:
    (tmp_path / "some_table.toml").write_text(header, encoding="utf-8")
    path = tmp_path / "some_table.csv"
    path.write_text(rows, encoding="utf-8")
    return path


def test_a_sound_table_is_read_with_types_units_and_citation(tmp_path: Path) -> None:
    table = read(written(tmp_path, "size,value_in,confidence\na,1.5,two_texts\nb,2,one_text\n"))
    assert table.row("b").number("value_in") == 2.0
    assert table.columns["value_in"].unit == "in"
    assert str(table.source(table.row("a"), edition="2020")) == "STD 2020 Table 1"
    assert table.source(table.row("b"), edition="2020").confidence is Confidence.ONE_TEXT


def test_an_edition_that_was_not_read_is_never_better_than_memory(tmp_path: Path) -> None:
    table = read(written(tmp_path, "size,value_in,confidence\na,1.5,two_texts\n"))
    assert table.source(table.row("a"), edition="2026").confidence is Confidence.MEMORY
    assert table.citation("2026") == "STD 2026 Table 2"


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (
            "size,value_in\na,1\n",
            r"some_table\.csv:1: found size, value_in; allowed: size, value_in, confidence",
        ),
        ("size,value_in,confidence\na,1\n", r":2: found 2 cells; allowed: 3 cells"),
        ("size,value_in,confidence\na,x,memory\n", r":2: value_in: found 'x'; allowed: a number"),
        ("size,value_in,confidence\na,1,sure\n", r":2: confidence: found 'sure'; allowed: a confidence"),
        ("size,value_in,confidence\na,1,memory\na,2,memory\n", r":3: size: found \('a',\)"),
        (
            "size,value_in,confidence\na,2,memory\nb,1,memory\n",
            r":3: value_in: found 1\.0; allowed: rises from 2\.0",
        ),
        (
            "size,value_in,confidence\na,2,memory\nb,2,memory\n",
            r":3: value_in: found 2\.0; allowed: rises from 2\.0",
        ),
    ],
)
def test_a_broken_table_is_refused(tmp_path: Path, rows: str, message: str) -> None:
    path = written(tmp_path, rows)
    with pytest.raises(InputError, match=message):
        read(path)


def test_every_mistake_is_reported_at_once(tmp_path: Path) -> None:
    path = written(tmp_path, "size,value_in,confidence\na,x,memory\nb,y,sure\n")
    with pytest.raises(InputError, match="value_in") as caught:
        read(path)
    assert [mistake.line for mistake in caught.value.mistakes] == [2, 3, 3]


def test_an_unknown_column_type_or_order_is_refused(tmp_path: Path) -> None:
    rows = "size,value_in,confidence\na,1,memory\n"
    path = written(tmp_path, rows, HEADER.replace('type = "number"', 'type = "figure"'))
    with pytest.raises(InputError, match="value_in: found 'figure'"):
        read(path)
    path = written(tmp_path, rows, HEADER.replace('"rises"', '"climbs"'))
    with pytest.raises(InputError, match="value_in: found 'climbs'"):
        read(path)


def test_an_empty_cell_is_an_error_and_never_a_zero() -> None:
    row = load("nec_310_16_ampacity").row("18")
    assert not row.has("copper_60c_a")
    with pytest.raises(LookupError, match="no single number in 'copper_60c_a'"):
        row.number("copper_60c_a")
    with pytest.raises(LookupError, match="no count in 'copper_60c_a'"):
        row.count("copper_60c_a")


def test_an_unknown_row_names_what_there_is() -> None:
    table = load("nec_ch9_table4_raceway_internal")
    with pytest.raises(LookupError, match=r"no row for trade_size 7/8; there are: 1/2, 3/4, 1"):
        table.row("EMT", "7/8")
    with pytest.raises(LookupError, match=r"no row for raceway IMC; there are: EMT, ENT"):
        table.row("IMC", "1")
    with pytest.raises(LookupError, match="a row is named by raceway, trade_size"):
        table.row("EMT")
    with pytest.raises(LookupError, match=r"no edition '2017'; there are: 2020, 2023, 2026"):
        table.citation("2017")
    with pytest.raises(LookupError, match="no table 'nec'"):
        load("nec")


def test_every_table_has_a_header_and_loads_and_cites_every_row() -> None:
    for name in names():
        table = load(name)
        assert table.rows
        assert table.title
        assert table.second_check
        for edition in table.editions:
            for row in table.rows:
                assert table.source(row, edition=edition).citation.startswith(table.standard), (name, row)


def test_rows_can_not_be_changed() -> None:
    row = load("nec_310_16_ampacity").rows[0]
    with pytest.raises(TypeError, match="does not support item assignment"):
        row.cells["size"] = "19"  # type: ignore[index]


def test_importing_the_tables_reads_no_file_and_loads_no_parser() -> None:
    code = "import sys, schedules.tables; print([m for m in ('csv', 'tomllib', 'pint') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_rule_is_cited_in_the_edition_it_was_read_in() -> None:
    assert rule("free_conductor", "2023").number == 6
    assert str(rule("free_conductor", "2023").source) == "NEC 2023 300.14"
    stand_in = rule("pull_box_straight", "2020").source
    assert stand_in.citation == "NEC 2023 314.28(A)(1), standing in for 2020"
    assert stand_in.confidence is Confidence.MEMORY


def test_a_rule_that_moved_is_found_under_each_edition() -> None:
    assert rule("bends_between_pulls", "2020").source.citation == "NEC 2020 358.26"
    assert rule("bends_between_pulls", "2023").source.citation == "NEC 2023 358.24(B)"
    assert rule("bends_between_pulls", "2026").source.citation == "NEC 2023 358.24(B), standing in for 2026"


def test_a_rule_that_an_edition_lacks_is_not_made_up() -> None:
    assert not has_rule("box_terminal_block", "2020")
    assert has_rule("box_terminal_block", "2023")
    with pytest.raises(LookupError, match="NEC 2020 has no rule 'box_terminal_block'"):
        rule("box_terminal_block", "2020")
    with pytest.raises(LookupError, match="no rule 'box_lid'"):
        rule("box_lid", "2023")
    with pytest.raises(LookupError, match=r"no rule 'box_lid'"):
        has_rule("box_lid", "2023")
    with pytest.raises(LookupError, match=r"no edition '2017'; there are: 2020, 2023, 2026"):
        rule("box_clamps", "2017")


def test_a_rule_with_several_numbers_does_not_pretend_to_have_one() -> None:
    several = rule("afci_kitchen", "2023")
    assert several.numbers == (10.0, 15.0, 20.0)
    with pytest.raises(LookupError, match="gives 3 numbers, not one"):
        _ = several.number
