"""Tables on paper: columns fit between the margins, no word is wider than its column, every column is printed."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.drawings.metrics import width_pt
from schedules.package.legible import breakable, legible
from schedules.package.paper import SHEETS, lay_out
from schedules.package.tables import kept_together
from schedules.package.widths import BODY_PT, INSET_PT, LONGEST_WORD_PT
from schedules.writers.document import Fill, Head, Mark, Row, Table

WORDS = st.text("abcdefghij W1", min_size=1, max_size=60)


@st.composite
def tables(draw: st.DrawFn) -> Table:
    columns = draw(st.integers(1, 26))
    heads = tuple(
        Head(str(place), draw(WORDS), draw(st.booleans()), draw(st.sampled_from(Fill)))
        for place in range(columns)
    )
    rows = tuple(
        Row(
            tuple("" if head.fill is not Fill.PRINTED else draw(WORDS) for head in heads),
            mark=draw(st.sampled_from(Mark)),
        )
        for _ in range(draw(st.integers(1, 4)))
    )
    return Table("t", "T", "", heads, rows)


@given(tables(), st.sampled_from(["Letter", "A4"]), st.booleans())
@settings(max_examples=150)
def test_every_table_fits_between_the_margins(table: Table, paper: str, before: bool) -> None:
    sheet = SHEETS[paper]
    layout = lay_out(table, sheet, before=before)
    room = sheet.room_pt(across=layout.across) - (22 if layout.marked else 0)
    printed = [place for part in layout.parts for place in part.places]
    assert set(printed) == set(range(len(table.heads)))
    assert all(part.places[0] == 0 for part in layout.parts)
    assert len(printed) - (len(layout.parts) - 1) == len(table.heads)
    assert layout.marked == any(row.mark for row in table.rows)
    for part in layout.parts:
        assert sum(part.widths_pt) <= room + 0.5 or len(part.places) <= 2
        for place, width, upright in zip(part.places, part.widths_pt, part.upright, strict=True):
            cells = [row.cells[place] for row in table.rows]
            longest = max(width_pt(word, layout.size_pt) for cell in cells for word in cell.split(" "))
            assert min(longest, LONGEST_WORD_PT) + 2 * INSET_PT <= width + 0.01
            if not upright:
                words = table.heads[place].text.split(" ")
                assert (
                    max(width_pt(word, layout.size_pt, bold=True) for word in words) + 2 * INSET_PT
                    <= width + 0.51
                )


@given(st.text(max_size=200))
def test_no_word_is_longer_than_a_cell_allows(text: str) -> None:
    shown = breakable(text)
    for piece in shown.replace("\u200b", " ").split(" "):
        assert width_pt(piece, BODY_PT) <= LONGEST_WORD_PT
    assert shown.replace("\u200b", "") == legible(text)


def test_a_number_stays_with_its_unit() -> None:
    nbsp = "\u00a0"
    for text in ("14 AWG", "3' 11-1/4\"", "12 lbf·in", "4.5 cu in", "PB – H", "100 %", "20 A"):
        assert kept_together(text) == text.replace(" ", nbsp)
    assert kept_together("wire 101 to the panel") == "wire 101 to the panel"
    assert kept_together("2 of 5") == "2 of 5"
