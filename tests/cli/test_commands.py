"""Every command as a whole process: what it prints, what it writes, its exit status."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.cautions import CAUTION
from schedules.rows.catalogue import CATALOGUE
from schedules.rows.every import SCHEDULES
from schedules.version import __version__

if TYPE_CHECKING:
    from collections.abc import Callable
    from subprocess import CompletedProcess

    Run = Callable[..., CompletedProcess[bytes]]

TOP = Path(__file__).parents[2]
JOBS = TOP / "samples" / "jobs"
SHEETS = TOP / "samples" / "sheets"
SOUND = sorted(path for path in JOBS.glob("*.toml") if not path.stem.startswith("must-fail"))
FAILING = JOBS / "must-fail.toml"
TEMPLATE_JOB = TOP / "schedules" / "templates" / "job.toml"
COMMANDS = (
    "open",
    "new",
    "check",
    "show",
    "draw",
    "pack",
    "reach",
    "explain",
    "compare",
    "combos",
    "deck",
    "faults",
    "what-if",
    "diagnose",
    "worksheet",
    "sheet",
    "job",
    "plan",
    "completion",
)


def lines(done: CompletedProcess[bytes]) -> list[str]:
    """What a command printed, after seeing that it complained of nothing."""
    assert done.stderr == b""
    return done.stdout.decode().splitlines()


def says(printed: list[str]) -> str:
    """A listing as one text, however it was wrapped."""
    return " ".join(" ".join(printed).split())


def test_help_names_every_command_and_exit_status(hoodwright: Run) -> None:
    done = hoodwright("--help")
    printed = lines(done)
    assert done.returncode == 0
    assert {
        name for name in COMMANDS if re.search(rf"^    {name}\b", "\n".join(printed), re.MULTILINE)
    } == set(COMMANDS)
    assert "  0  done" in "\n".join(printed)
    assert max(map(len, printed)) <= 90


@pytest.mark.parametrize(
    "words",
    [
        *((name,) for name in COMMANDS),
        ("sheet", "check"),
        ("sheet", "template"),
        ("sheet", "schema"),
        ("job", "template"),
        ("job", "schema"),
        ("plan", "schema"),
    ],
    ids=" ".join,
)
def test_every_command_teaches_with_an_example(hoodwright: Run, words: tuple[str, ...]) -> None:
    done = hoodwright(*words, "--help")
    printed = "\n".join(lines(done))
    assert done.returncode == 0
    assert "examples:\n" in printed
    assert "hoodwright" in printed.partition("examples:\n")[2]


def test_the_help_of_show_names_every_schedule(hoodwright: Run) -> None:
    printed = "\n".join(lines(hoodwright("show", "--help")))
    assert re.findall(r"^  ([a-z-]+)  ", printed, re.MULTILINE)[: len(CATALOGUE)] == list(CATALOGUE)
    assert list(CATALOGUE) == list(SCHEDULES)


def test_version(hoodwright: Run) -> None:
    assert lines(hoodwright("--version")) == [f"hoodwright {__version__}"]


@pytest.mark.parametrize("job", SOUND, ids=lambda path: path.stem)
def test_faults_of_a_sound_kitchen(hoodwright: Run, job: Path) -> None:
    done = hoodwright("faults", job, "--hidden")
    printed = lines(done)
    assert done.returncode == 0
    counted = re.search(r"(\d+) single faults tried: (\d+) are dangerous, (\d+) of these", says(printed))
    assert counted is not None
    tried, dangerous, hidden = map(int, counted.groups())
    assert tried > dangerous > hidden > 0
    assert "Dangerous and not noticed in use" in says(printed)
    assert "Not dangerous" not in says(printed)
    assert max(map(len, printed)) <= 80


def test_faults_at_an_unknown_enclosure(hoodwright: Run) -> None:
    done = hoodwright("faults", SOUND[0], "--enclosure", "ZZ")
    assert done.returncode == 2
    assert done.stdout == b""
    assert b'--enclosure: found "ZZ"; allowed: ' in done.stderr


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--break", "1304"), "Danger: Electric range heats in a fire"),
        (("--swap", "102@X1:1N", "103@X1:1PE"), "Danger: grounding conductor carries current: 103"),
        (("--join", "X1:1L", "X1:1N"), "Q1 trips"),
        (("--swap", "101@Q1:L", "101@X1:1L"), "Danger: none Noticed: nobody, short of a meter"),
    ],
)
def test_what_if(hoodwright: Run, words: tuple[str, ...], told: str) -> None:
    printed = lines(hoodwright("what-if", JOBS / "galley-gas.toml", *words))
    assert told in says(printed)
    assert max(map(len, printed)) <= 80


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--break", "9999"), "no wire 9999 with these choices"),
        (("--swap", "101@X1:2L", "102@X1:1N"), "wire 101 is on Q1:L and X1:1L, not on X1:2L"),
        (("--join", "X1:1L", "nowhere"), "no terminal nowhere: with these choices"),
    ],
)
def test_what_if_of_what_is_not_there(hoodwright: Run, words: tuple[str, ...], told: str) -> None:
    done = hoodwright("what-if", JOBS / "galley-gas.toml", *words)
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.decode() == f"hoodwright what-if: {told}\n"


def test_diagnose_proposes_what_to_look_at_first(hoodwright: Run) -> None:
    printed = lines(hoodwright("diagnose", JOBS / "galley-gas.toml"))
    assert printed[0].startswith("CAUTION: ")
    assert any(line.startswith("Next: ") for line in printed)
    assert max(map(len, printed)) <= 80


def test_diagnose_names_the_fault(hoodwright: Run) -> None:
    job = JOBS / "galley-gas.toml"
    printed = lines(hoodwright("diagnose", job, "--found", "state cooking = exhaust off"))
    assert says(printed).endswith("Found: load M1.motor is open.")


def test_diagnose_refuses_what_can_not_have_been_found(hoodwright: Run) -> None:
    words = ("--found", "look Q1 = perhaps", "--found", "nonsense", "--without", "nothing")
    done = hoodwright("diagnose", JOBS / "galley-gas.toml", *words)
    assert done.returncode == 2
    assert done.stdout == b""
    assert b'--without: found "nothing"; allowed: a probe' in done.stderr
    done = hoodwright("diagnose", JOBS / "galley-gas.toml", *words[:4])
    assert done.stderr.decode().splitlines() == [
        'hoodwright diagnose: --found: found "perhaps"; allowed: no or yes',
        'hoodwright diagnose: --found: found "nonsense"; allowed: '
        "PROBE = VALUE, such as state cooking = all right",
    ]


def test_diagnose_lists_its_probes_and_proves_itself(hoodwright: Run) -> None:
    job = TEMPLATE_JOB
    probes = lines(hoodwright("diagnose", job, "--probes"))
    assert any(line.startswith("ring W1: ") for line in probes)
    proved = says(lines(hoodwright("diagnose", job, "--prove")))
    counted = re.search(r"(\d+) single faults planted, .*: (\d+)\. Readings: ([\d.]+) on average", proved)
    assert counted is not None
    assert counted[1] == counted[2]


@pytest.mark.parametrize("job", SOUND, ids=lambda path: path.stem)
def test_check_of_a_sound_kitchen(hoodwright: Run, job: Path) -> None:
    done = hoodwright("check", job)
    printed = lines(done)
    assert done.returncode == 0
    assert "SOUND: nothing stops the work" in says(printed)
    assert re.search(r"Not tried here: [1-9]\d* single faults", says(printed))
    assert max(map(len, printed)) <= 80


def test_check_of_the_failing_kitchen(hoodwright: Run) -> None:
    done = hoodwright("check", FAILING)
    printed = lines(done)
    assert done.returncode == 1
    assert "NOT SOUND:" in says(printed)
    assert any(line.startswith("STOP") for line in printed)
    assert "planned again and cured" in says(printed)


@pytest.mark.parametrize("command", ["check", "show"])
def test_cautions_stand_first_and_last(hoodwright: Run, command: str) -> None:
    printed = says(lines(hoodwright(command, TEMPLATE_JOB)))
    assert printed.startswith(CAUTION)
    assert printed.endswith(CAUTION)


def test_show_prints_every_schedule_within_80_columns(hoodwright: Run) -> None:
    done = hoodwright("show", TEMPLATE_JOB)
    printed = lines(done)
    assert done.returncode == 0
    for title in ("Terminations by enclosure", "Conductors, both ends", "Cables", "Circuits", "Openings"):
        assert title in printed
    assert max(map(len, printed)) <= 80


@pytest.mark.parametrize("job", SOUND, ids=lambda path: path.stem)
def test_no_schedule_of_a_sample_is_wider_than_80_columns(hoodwright: Run, job: Path) -> None:
    assert [line for line in lines(hoodwright("show", job)) if len(line) > 80] == []


def test_a_table_that_is_too_wide_is_listed_row_by_row(hoodwright: Run) -> None:
    words = ("show", JOBS / "training-room.toml", "interlocks")
    assert "  Exhaust fan runs: " in "\n".join(lines(hoodwright(*words, "--width", "80")))
    assert "  Exhaust fan runs: " not in "\n".join(lines(hoodwright(*words, "--width", "400")))


def test_the_single_faults_are_printed_when_asked_for(hoodwright: Run) -> None:
    assert "Single faults" not in lines(hoodwright("show", TEMPLATE_JOB))
    assert "Single faults" in lines(hoodwright("show", TEMPLATE_JOB, "faults"))


def test_show_has_room_for_more_columns_when_asked(hoodwright: Run) -> None:
    narrow = lines(hoodwright("show", TEMPLATE_JOB, "terminations", "--width", "80"))
    wide = lines(hoodwright("show", TEMPLATE_JOB, "terminations", "--width", "200"))
    assert not any("Label text" in line for line in narrow)
    assert any("Label text" in line for line in wide)
    assert max(map(len, wide)) <= 200


def test_show_of_one_enclosure_holds_its_rows_only(hoodwright: Run) -> None:
    done = hoodwright("show", TEMPLATE_JOB, "terminations", "--enclosure", "V")
    printed = lines(done)
    assert "V  Gas valve" in printed
    assert not any(line.startswith("H ") for line in printed)
    # Cable 3 of the template sheet ends on the valve's three pins.
    assert [line.split()[:2] for line in printed if line.startswith("Y1:")] == [
        ["Y1:1", "301"],
        ["Y1:2", "302"],
        ["Y1:3", "303"],
    ]


def test_show_of_an_enclosure_leaves_out_what_no_enclosure_divides(hoodwright: Run) -> None:
    printed = lines(hoodwright("show", TEMPLATE_JOB, "--enclosure", "H"))
    assert "Terminations by enclosure" in printed
    assert "Circuits" not in printed


def test_show_json_is_one_document(hoodwright: Run) -> None:
    done = hoodwright("show", FAILING, "--json")
    document = json.loads(done.stdout)
    assert (done.returncode, done.stderr) == (1, b"")
    assert (document["format"], document["version"], document["sound"]) == ("hoodwright-plan", 1, False)
    assert set(document["schedules"]) == set(SCHEDULES)
    assert any(finding["remedies"] for finding in document["findings"])


def test_show_json_of_chosen_schedules(hoodwright: Run) -> None:
    document = json.loads(hoodwright("show", TEMPLATE_JOB, "cables", "--enclosure", "PS", "--json").stdout)
    assert [row["cable"] for row in document["schedules"]["cables"]["rows"]] == ["W4"]


def test_reach_answers_in_its_first_line(hoodwright: Run) -> None:
    done = hoodwright("reach", TEMPLATE_JOB, "W3")
    printed = lines(done)
    assert done.returncode == 0
    # Taped 7' 2"; entries 10" and 2", service loop 12": 9' 2" needed of 10'. Tolerance 1/2".
    assert printed[0] == 'W3 reaches: 10" to spare, 9-1/2" if every measurement is off.'
    assert "rule: margin" in says(printed)


def test_reach_of_a_short_cable_gives_its_cure(hoodwright: Run, tmp_path: Path) -> None:
    job = tmp_path / "far.toml"
    text = TEMPLATE_JOB.read_text().replace('taped = "7\' 2\\""', 'taped = "9\' 2\\""')
    sheet = TOP / "schedules" / "templates" / "sheet.toml"
    job.write_text(text.replace('sheet = "sheet.toml"', f'sheet = "{sheet.as_posix()}"'))
    done = hoodwright("reach", job, "W3")
    printed = lines(done)
    assert done.returncode == 1
    # 2 ft further than above: 14" short.
    assert printed[0] == "W3 is SHORT by 1' 2\"."


def test_reach_of_all_cables(hoodwright: Run) -> None:
    done = hoodwright("reach", TEMPLATE_JOB)
    printed = lines(done)
    assert done.returncode == 0
    assert printed[0].startswith("Every factory cable reaches")
    assert {line.split()[0] for line in printed if line.startswith("W")} == {"W1", "W2", "W3", "W4"}


def test_explain_lists_what_can_be_explained(hoodwright: Run) -> None:
    printed = lines(hoodwright("explain", TEMPLATE_JOB))
    assert {line.split()[0] for line in printed} >= {"W1", "W3", "R1", "Q1"}


@pytest.mark.parametrize(
    ("item", "heading"),
    [
        ("W3", "reach of W3 = "),
        ("w1", "cut length of W1 = "),
        ("Q1", "load of Q1 = "),
        ("R1", "trade size of "),
    ],
)
def test_explain_gives_rule_inputs_and_source(hoodwright: Run, item: str, heading: str) -> None:
    done = hoodwright("explain", TEMPLATE_JOB, item)
    printed = lines(done)
    assert done.returncode == 0
    assert printed[0].startswith(heading)
    assert any(line.startswith("  rule: ") for line in printed)
    assert any(line.startswith("  source: ") for line in printed)


def test_explain_takes_a_number_by_its_name(hoodwright: Run) -> None:
    assert lines(hoodwright("explain", TEMPLATE_JOB, "cut", "length", "of", "W1"))[0].startswith(
        "cut length of W1"
    )


def test_compare_two_jobs(hoodwright: Run, tmp_path: Path) -> None:
    other = tmp_path / "other.toml"
    sheet = TOP / "schedules" / "templates" / "sheet.toml"
    text = TEMPLATE_JOB.read_text().replace(
        'choices = ["gas-valve", "pull-remote"]', 'choices = ["gas-valve"]'
    )
    other.write_text(text.replace('sheet = "sheet.toml"', f'sheet = "{sheet.as_posix()}"'))
    done = hoodwright("compare", TEMPLATE_JOB, other)
    printed = lines(done)
    assert done.returncode == 0
    assert "- W4: Pull station cable" in printed
    same = hoodwright("compare", TEMPLATE_JOB, TEMPLATE_JOB, "-o", "differs")
    assert same.stdout.decode().splitlines() == ["Nothing differs."]
    assert "no conductor differs, so nothing is drawn" in same.stderr.decode()
    assert same.returncode == 0
    assert not (tmp_path / "differs").exists()


def test_draw_writes_a_proved_drawing(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("draw", TEMPLATE_JOB, "-o", "kitchen.svg")
    assert lines(done) == ["wrote kitchen.svg"]
    assert done.returncode == 0
    assert b"<svg" in (tmp_path / "kitchen.svg").read_bytes()[:1000]


def test_draw_says_that_an_unsound_plan_is_not_to_be_built(hoodwright: Run) -> None:
    done = hoodwright("draw", FAILING, "-o", "hood.svg", "--enclosure", "H")
    assert done.returncode == 1
    told = done.stderr.decode()
    assert told.startswith("hoodwright draw: NOT SOUND: 4 findings stop the work")
    assert told.endswith("hoodwright check lists them.\n")


def test_draw_into_a_folder_writes_every_view(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    done = hoodwright("draw", TEMPLATE_JOB, "-o", "out", "--format", "png")
    assert done.returncode == 0
    written = sorted((tmp_path / "out").iterdir())
    assert [path.name for path in written] == [
        "example-kitchen-ladder.png",
        "example-kitchen-overview.png",
        "example-kitchen-point-to-point.png",
    ]
    assert all(path.read_bytes().startswith(b"\x89PNG") for path in written)


def test_draw_writes_the_ladder_of_a_circuit_and_of_an_interlock(hoodwright: Run, tmp_path: Path) -> None:
    loft = JOBS / "loft-gas.toml"
    assert hoodwright("draw", loft, "--ladder", "GAS", "-o", "gas.svg").returncode == 0
    assert "Interlock of gas: Gas valve is open" in (tmp_path / "gas.svg").read_text(encoding="utf-8")
    done = hoodwright("draw", loft, "--ladder", "gsa", "-o", "other.svg")
    assert done.returncode == 2
    assert b'--ladder: found "gsa"; allowed: Q1, Q2, Q5, Q6, controls' in done.stderr
    assert not (tmp_path / "other.svg").exists()


def test_draw_writes_the_wall_to_scale(hoodwright: Run, tmp_path: Path) -> None:
    galley = JOBS / "galley-gas.toml"
    done = hoodwright("draw", galley, "--view", "elevation", "-o", "wall.svg")
    assert lines(done) == ["wrote wall.svg"]
    assert done.returncode == 0
    assert "printed at full size" in (tmp_path / "wall.svg").read_text()
    assert hoodwright("draw", galley, "--view", "elevation", "-o", "walls").returncode == 0
    assert [path.name for path in (tmp_path / "walls").iterdir()] == [
        "galley-kitchen-gas-cooktop-over-an-electric-oven-elevation-a.svg"
    ]
    assert hoodwright("draw", galley, "--view", "plan", "-o", "plan.png").returncode == 0
    assert (tmp_path / "plan.png").read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--view", "elevation", "-o", "w.dot"), "--view elevation: found dot; allowed: svg, png"),
        (
            ("--view", "elevation", "--paper", "Letter", "-o", "w.svg"),
            "--output: found one file for 3 sheets; allowed: a folder, or larger paper for fewer sheets",
        ),
        (
            ("--view", "elevation", "--reach", "W1", "-o", "w.svg"),
            '--reach: found "W1"; allowed: W5, W7; did you mean W7 or W5?',
        ),
        (
            ("--reach", "W5", "-o", "w.svg"),
            "--reach: found no elevation to hatch it on; allowed: --view elevation",
        ),
    ],
)
def test_what_can_not_be_drawn_to_scale_is_refused(
    arguments: tuple[str, ...], words: str, hoodwright: Run, tmp_path: Path
) -> None:
    refused = hoodwright("draw", JOBS / "galley-gas.toml", *arguments)
    assert refused.returncode == 2
    assert refused.stderr.decode() == f"hoodwright draw: {words}\n"
    assert list(tmp_path.iterdir()) == []


def test_a_crowded_drawing_comes_on_several_pages_in_a_folder(hoodwright: Run, tmp_path: Path) -> None:
    crowded = JOBS / "training-room.toml"
    one = hoodwright("draw", crowded, "-o", "all.svg", "--paper", "Letter")
    assert b"on Letter paper the smallest words are" in one.stderr
    assert (tmp_path / "all.svg").is_file()
    (tmp_path / "pages").mkdir()
    several = hoodwright("draw", crowded, "-o", "pages", "--view", "point-to-point", "--paper", "Letter")
    assert several.stderr == b""
    names = sorted(path.name for path in (tmp_path / "pages").iterdir())
    assert len(names) > 1
    assert names[0].endswith("-point-to-point-1.svg")


def test_draw_leaves_an_existing_file_alone_unless_forced(hoodwright: Run, tmp_path: Path) -> None:
    target = tmp_path / "hood.dot"
    target.write_text("mine")
    refused = hoodwright("draw", TEMPLATE_JOB, "--enclosure", "H", "-o", "hood.dot")
    assert refused.returncode == 2
    assert refused.stderr == b"hood.dot: found a file that is there already; allowed: a new file\n"
    assert target.read_text() == "mine"
    assert hoodwright("draw", TEMPLATE_JOB, "--enclosure", "H", "-o", "hood.dot", "--force").returncode == 0
    assert "graph" in target.read_text()


def test_new_starts_a_job_that_can_be_checked(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    done = hoodwright("new", "jobs/hill.toml", "--sheet", SHEETS / "marram.toml", "--name", "Hill Road 7")
    printed = lines(done)
    assert done.returncode == 0
    assert printed[0] == "wrote jobs/hill.toml"
    assert "NEC 2023 was assumed" in printed[1]
    checked = hoodwright("check", "jobs/hill.toml")
    assert checked.returncode == 1
    assert "Job: Hill Road 7" in checked.stdout.decode()
    assert "not decided" in checked.stdout.decode()


def test_new_refuses_to_overwrite(hoodwright: Run, tmp_path: Path) -> None:
    target = tmp_path / "kitchen.toml"
    target.write_text("mine")
    done = hoodwright("new", "kitchen.toml", "--sheet", SHEETS / "marram.toml")
    assert done.returncode == 2
    assert done.stderr == b"kitchen.toml: found a file that is there already; allowed: a new file\n"
    assert target.read_text() == "mine"


@pytest.mark.parametrize("sheet", sorted(SHEETS.glob("*.toml")), ids=lambda path: path.stem)
def test_sheet_check_of_the_samples(hoodwright: Run, sheet: Path) -> None:
    done = hoodwright("sheet", "check", sheet)
    assert done.returncode == 0
    assert "no mistake found" in says(lines(done))


def test_the_templates_can_be_used_as_they_are_printed(hoodwright: Run, tmp_path: Path) -> None:
    assert hoodwright("sheet", "template", "-o", "sheet.toml").returncode == 0
    (tmp_path / "job.toml").write_bytes(hoodwright("job", "template").stdout)
    assert hoodwright("sheet", "check", "sheet.toml").returncode == 0
    assert hoodwright("check", "job.toml").returncode == 0


@pytest.mark.parametrize("words", [("sheet", "schema"), ("job", "schema"), ("plan", "schema")], ids=" ".join)
def test_schemas_are_json(hoodwright: Run, words: tuple[str, str]) -> None:
    done = hoodwright(*words)
    assert done.returncode == 0
    assert json.loads(done.stdout)["$schema"].startswith("https://json-schema.org/")


@pytest.mark.parametrize("shell", ["bash", "zsh", "tcsh"])
def test_completion_knows_the_commands(hoodwright: Run, shell: str) -> None:
    done = hoodwright("completion", shell)
    assert done.returncode == 0
    assert all(name.encode() in done.stdout for name in COMMANDS)
