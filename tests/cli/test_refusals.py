"""Bad input as a whole process: exit status 2, one line per mistake, never a traceback, nothing written."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import TYPE_CHECKING, get_args

import pytest

from schedules.job.records import RouteKind

if TYPE_CHECKING:
    from collections.abc import Callable
    from subprocess import CompletedProcess

    Run = Callable[..., CompletedProcess[bytes]]

TOP = Path(__file__).parents[2]
ROUTES = get_args(RouteKind)
TEMPLATES = TOP / "schedules" / "templates"


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    """A job and its sheet in the folder in which the program runs."""
    for name in ("sheet.toml", "job.toml"):
        shutil.copy(TEMPLATES / name, tmp_path / name)
    return tmp_path / "job.toml"


def complaints(done: CompletedProcess[bytes]) -> list[str]:
    """The lines of a refusal."""
    assert done.returncode == 2
    assert done.stdout == b""
    said = done.stderr.decode()
    assert "Traceback" not in said
    return said.splitlines()


def either(names: tuple[str, ...]) -> str:
    """Names as a message offers them."""
    quoted = [f'"{name}"' for name in names]
    return f"{', '.join(quoted[:-1])} or {quoted[-1]}"


def changed(job: Path, was: str, now: str) -> None:
    """Replace one passage of a file that is there exactly once."""
    text = job.read_text()
    assert text.count(was) == 1
    job.write_text(text.replace(was, now))


def line_of(job: Path, passage: str) -> int:
    """The line on which a passage stands."""
    return job.read_text().partition(passage)[0].count("\n") + 1


def test_every_mistake_is_named_with_its_place(hoodwright: Run, kitchen: Path) -> None:
    changed(kitchen, 'tolerance = "1/2 in"', "tolerance = 3")
    changed(kitchen, 'ceiling = "8 ft"', 'ceiling = "8,5 ft"')
    changed(kitchen, 'route = "taped"', 'route = "tapped"')
    changed(kitchen, 'prepared_by = "name of who measured"', 'prepared_by = "name of who measured"\nnmae = 1')
    assert complaints(hoodwright("check", "job.toml")) == [
        f"job.toml:{line_of(kitchen, 'nmae')}: job.nmae: found this key; allowed: did you mean name? one of code, "
        "date, name, note, prepared_by, residential_code, revision, sheet",
        f"job.toml:{line_of(kitchen, 'tolerance = 3')}: site.tolerance: found 3; allowed: text with its unit, "
        "such as 6 in",
        f'job.toml:{line_of(kitchen, "ceiling =")}: site.ceiling: found "8,5 ft"; allowed: a decimal point, and no '
        "comma between digits",
        f'job.toml:{line_of(kitchen, "tapped")}: run.3.route: found "tapped"; allowed: {either(ROUTES)}',
    ]


def test_two_entries_about_one_thing_are_refused(hoodwright: Run, kitchen: Path) -> None:
    was = kitchen.read_text()
    again = '\n[[place]]\nenclosure = "H"\nalong = "40 ft"\n\n[[run]]\ncable = "W1"\nroute = "direct"\n'
    kitchen.write_text(was + again)
    place, run = (was + again).count("[[place]]"), (was + again).count("[[run]]")
    line = was.count("\n")
    assert complaints(hoodwright("check", "job.toml")) == [
        f'job.toml:{line + 3}: place.{place}.enclosure: found "H"; allowed: one place of this enclosure; '
        "there is one above",
        f'job.toml:{line + 7}: run.{run}.cable: found "W1"; allowed: one run of this cable; there is one above',
    ]


def test_a_missing_sheet_is_told_at_the_job_that_names_it(hoodwright: Run, kitchen: Path) -> None:
    (kitchen.parent / "sheet.toml").unlink()
    assert complaints(hoodwright("check", "job.toml")) == [
        f'job.toml:{line_of(kitchen, "sheet = ")}: job.sheet: found "sheet.toml"; allowed: the file of an equipment '
        "sheet, relative to this job"
    ]


def test_a_sheets_mistakes_are_told_in_the_sheet(hoodwright: Run, kitchen: Path) -> None:
    sheet = kitchen.parent / "sheet.toml"
    changed(sheet, 'id = "mains-screw"', 'id = "mains-scrw"')
    said = complaints(hoodwright("check", "job.toml"))
    assert len(said) == 6
    assert all(
        line.endswith('found "mains-screw"; allowed: a declared clamp; did you mean mains-scrw?')
        for line in said
    )
    assert said == complaints(hoodwright("sheet", "check", "sheet.toml"))


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("check", "none.toml"), "none.toml: found no such file; allowed: a TOML file"),
        (("check", "."), ".: found a directory; allowed: a TOML file"),
        (
            ("show", "job.toml", "cabels"),
            'hoodwright show: SCHEDULE: found "cabels"; allowed: terminations, ',
        ),
        (
            ("show", "job.toml", "--enclosure", "Z"),
            'hoodwright show: --enclosure: found "Z"; allowed: PB, H, V, PS',
        ),
        (
            ("show", "job.toml", "circuits", "--enclosure", "H"),
            "hoodwright show: --enclosure: found circuits, which no enclosure divides; allowed: ",
        ),
        (
            ("show", "job.toml", "--width", "3"),
            "hoodwright show: argument --width: found '3'; allowed: a whole number from 40 to 1000",
        ),
        (
            ("show", "job.toml", "--width", "80", "--json"),
            "hoodwright show: argument --json: not allowed with argument --width",
        ),
        (("reach", "job.toml", "W9"), 'hoodwright reach: CABLE: found "W9"; allowed: W1, W2, W3, W4'),
        (("explain", "job.toml", "W9"), 'hoodwright explain: ITEM: found "W9"; allowed: W1, '),
        (
            ("draw", "job.toml", "--enclosure", "Z", "-o", "z.svg"),
            'hoodwright draw: --enclosure: found "Z"; allowed: PB, H, V, PS',
        ),
        (
            ("draw", "job.toml", "-o", "z.gif"),
            'hoodwright draw: --output: found "z.gif"; allowed: a name that ends in .svg, .png, .dot, or --format',
        ),
        (
            ("draw", "job.toml", "-o", "z.svg", "--format", "png"),
            'hoodwright draw: --format: found png for "z.svg"; allowed: the same as the file\'s ending',
        ),
        (
            ("draw", "job.toml", "-o", "none/z.svg"),
            "none/z.svg: found No such file or directory; allowed: a place ",
        ),
        (("new", "x.toml", "--sheet", "none.toml"), "none.toml: found no such file; allowed: a TOML file"),
        (
            ("new", "x.toml", "--sheet", "sheet.toml", "--name", "a\x1b[2Jb"),
            "x.toml:",
        ),
        (("new", "x.toml"), "hoodwright new: the following arguments are required: --sheet"),
        (("sheet",), "hoodwright sheet: the following arguments are required: COMMAND"),
        (
            ("chekc", "job.toml"),
            'hoodwright: found "chekc"; allowed: a job\'s file, or one of open, new, check',
        ),
        (("job.toml",), "hoodwright: the wizard needs a terminal"),
        ((), "hoodwright: the wizard needs a terminal"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_a_refusal_says_what_was_found_and_what_is_allowed(
    hoodwright: Run, kitchen: Path, words: tuple[str, ...], complaint: str
) -> None:
    before = {path: path.read_bytes() for path in kitchen.parent.iterdir()}
    said = complaints(hoodwright(*words))
    assert said[0].startswith(complaint)
    assert {path: path.read_bytes() for path in kitchen.parent.iterdir()} == before


def test_nothing_is_written_into_a_folder_that_can_not_be_written(hoodwright: Run, kitchen: Path) -> None:
    (kitchen.parent / "there.svg").mkdir()
    (kitchen.parent / "there.svg" / "example-kitchen-overview.svg").mkdir()
    said = complaints(hoodwright("draw", "job.toml", "-o", "there.svg", "--force"))
    assert "example-kitchen-overview.svg: found Is a directory" in said[-1]
    left = [path.name for path in (kitchen.parent / "there.svg").iterdir()]
    assert left == ["example-kitchen-overview.svg"]


def test_hostile_words_are_shown_and_never_obeyed(hoodwright: Run, kitchen: Path) -> None:
    changed(kitchen, 'cable = "W3"', 'cable = "W\\u001b[2J"')
    for words in (("check", "job.toml"), ("show", "job.toml", "\x1b]0;owned\x07"), ("\x1b[31m",)):
        done = hoodwright(*words)
        assert done.returncode == 2
        assert not any(byte < 0x20 and byte != 0x0A for byte in done.stderr)
        assert b"\\u001b" in done.stderr or b"U+001B" in done.stderr


def test_a_terminal_without_the_signs_gets_escapes(hoodwright: Run, kitchen: Path) -> None:
    done = hoodwright("show", "job.toml", "cables", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert (done.returncode, done.stderr) == (0, b"")
    assert rb"From \u2013 to" in done.stdout


SIX = 'trade_size = "6"'


def test_a_trade_size_that_no_knockout_has_is_refused(hoodwright: Run, kitchen: Path) -> None:
    sheet = kitchen.parent / "sheet.toml"
    changed(sheet, 'trade_size = "2"', SIX)
    assert complaints(hoodwright("check", "job.toml")) == [
        f'sheet.toml:{line_of(sheet, SIX)}: opening.2.trade_size: found "6"; allowed: a knockout\'s '
        "trade size: 1/2, 3/4, 1, 1-1/4, 1-1/2, 2, 2-1/2, 3, 3-1/2, 4"
    ]


def test_a_load_beyond_every_breaker_is_a_finding(hoodwright: Run, kitchen: Path) -> None:
    changed(kitchen.parent / "sheet.toml", 'power = "24 W"', 'power = "240 kW"')
    done = hoodwright("check", "job.toml")
    assert (done.returncode, done.stderr) == (1, b"")
    # 240 kW at 120 V are 2,000 A, beside the gas valve's 14 W.
    assert "Q2 (Gas valve and light) needs a circuit of 2001 A" in " ".join(done.stdout.decode().split())


def test_a_circuit_is_not_downstream_of_itself(hoodwright: Run, tmp_path: Path) -> None:
    text = (
        (TOP / "samples" / "jobs" / "must-fail.toml")
        .read_text(encoding="utf-8")
        .replace('downstream_of = "Q5"', 'downstream_of = "Q1"')
    )
    (tmp_path / "self.toml").write_text(text, encoding="utf-8")
    said = complaints(hoodwright("check", "self.toml"))
    assert len(said) == 1
    assert said[0].endswith('circuit.1.downstream_of: found "Q1"; allowed: another circuit than itself')
