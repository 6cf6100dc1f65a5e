"""What a trainer asks the command line for, each as a whole process."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from subprocess import CompletedProcess

    Run = Callable[..., CompletedProcess[bytes]]

SAMPLES = Path(__file__).parents[2] / "samples"
SMALL = Path(__file__).parents[2] / "schedules" / "templates" / "job.toml"
MARRAM = SAMPLES / "sheets" / "marram.toml"


def lines(done: CompletedProcess[bytes], status: int = 0) -> list[str]:
    assert done.stderr == b""
    assert done.returncode == status
    return done.stdout.decode().splitlines()


def test_combos_tells_what_is_barred_in_the_sheets_words(hoodwright: Run) -> None:
    printed = lines(hoodwright("combos", MARRAM, "--barred"))
    text = " ".join(" ".join(printed).split())
    assert "512 of 2048 thinkable combinations can be built" in text
    assert "What can't be built, and why" in text
    assert "there is nothing else that it feeds" in text
    assert max(map(len, printed)) <= 80
    assert "Every combination, planned" not in text


def test_combos_of_a_kitchen_says_what_each_choice_adds(hoodwright: Run) -> None:
    printed = lines(hoodwright("combos", SMALL))
    text = "\n".join(printed)
    assert [line[:5].strip() for line in printed if "  gas-valve" in line] == ["1", "2"]
    assert "gas-valve pull-remote" in text
    assert "What each choice adds" in text
    assert "Remote pull station" in text
    assert max(map(len, printed)) <= 80
    limited = "\n".join(lines(hoodwright("combos", SMALL, "--with", "pull-remote", "--limit", "1")))
    assert "Never seen by itself among these combinations" in limited


def test_combos_as_json_says_the_same(hoodwright: Run) -> None:
    document = json.loads("".join(lines(hoodwright("combos", SMALL, "--json"))))
    assert (document["format"], document["version"]) == ("hoodwright-combos", 1)
    assert (document["thinkable"], document["possible"]) == (2, 2)
    without, with_it = document["combinations"]
    assert (without["choices"], with_it["choices"]) == (["gas-valve"], ["gas-valve", "pull-remote"])
    (adding,) = [item for item in document["costs"] if item["pairs"]]
    assert adding["matters_to_wiring"] is True
    for name in ("cables", "terminations", "circuits", "openings"):
        assert adding["adds"][name]["least"] == with_it[name] - without[name] == adding["adds"][name]["most"]


def test_combos_refuses_an_unknown_choice_and_a_limit_of_none(hoodwright: Run) -> None:
    done = hoodwright("combos", MARRAM, "--with", "gas", "--limit", "0")
    assert done.returncode == 2
    assert done.stdout == b""
    assert b'--with: found "gas"; allowed: fan-inside, ' in done.stderr
    assert b"--limit: found 0; allowed: a whole number from 1" in done.stderr


def test_combos_of_what_is_neither_sheet_nor_job(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "other.toml").write_text("format = 1\n", encoding="utf-8")
    done = hoodwright("combos", "other.toml")
    assert done.returncode == 2
    assert b"other.toml" in done.stderr
    assert b"Traceback" not in done.stderr


def test_a_deck_says_how_small_it_is_and_what_to_point_at(hoodwright: Run) -> None:
    printed = lines(hoodwright("deck", SMALL))
    text = " ".join(" ".join(printed).split())
    assert "show every pair of choices that can stand together" in text
    assert "Demonstration 1 of 2" in text
    assert "cables, more: " in text
    assert max(map(len, printed)) <= 80


def test_a_worksheet_is_the_same_for_the_same_seed(hoodwright: Run, tmp_path: Path) -> None:
    options = ("--enclosure", "H", "--faults", "2")
    for folder in ("one", "two"):
        done = hoodwright("worksheet", SMALL, "--seed", "7", *options, "-o", folder)
        assert done.returncode == 0
        assert done.stderr == b"setting the exercises\n"
    one, two = (
        {path.name: path.read_bytes() for path in (tmp_path / folder).iterdir()} for folder in ("one", "two")
    )
    assert set(one) == {"worksheet-7.pdf", "worksheet-7.html", "answers-7.pdf", "answers-7.html"}
    assert one == two


def test_a_worksheet_needs_an_enclosure_that_is_there(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("worksheet", SMALL, "--enclosure", "ZZ", "-o", "out")
    assert done.returncode == 2
    assert b"no conductor lands in ZZ with these choices; there are: " in done.stderr
    assert not (tmp_path / "out").exists()


def test_two_jobs_compared_with_the_drawing_marked(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "sheet.toml").write_bytes(SMALL.with_name("sheet.toml").read_bytes())
    text = SMALL.read_text(encoding="utf-8")
    other = text.replace('"gas-valve", "pull-remote"', '"gas-valve"', 1)
    assert text != other
    (tmp_path / "one.toml").write_text(other, encoding="utf-8")
    (tmp_path / "two.toml").write_text(text, encoding="utf-8")
    printed = "\n".join(lines(hoodwright("compare", "one.toml", "two.toml", "-o", "differs")))
    added = printed.count("+ wire ")
    assert added > 0
    assert "wrote differs/differs-1.svg" in printed
    drawing = (tmp_path / "differs" / "differs-1.svg").read_text(encoding="utf-8")
    assert drawing.count("+ ADDED<") >= 2 * added
    assert "REMOVED" not in drawing
    assert (tmp_path / "differs" / "differs-1.png").read_bytes().startswith(b"\x89PNG")


def test_a_state_is_drawn_live_and_dead_with_what_a_broken_wire_changes(
    hoodwright: Run, tmp_path: Path
) -> None:
    done = hoodwright("draw", SMALL, "--state", "IDLE", "--break", "101", "-o", str(tmp_path / "live.svg"))
    assert done.stdout.decode().startswith("wrote ")
    drawing = (tmp_path / "live.svg").read_text(encoding="utf-8")
    assert "× OPEN, live at Q1:L" in drawing
    assert "− DEAD NOW" in drawing
    assert "never measured" in drawing
    refused = hoodwright("draw", SMALL, "--break", "101", "-o", str(tmp_path / "none.svg"))
    assert (refused.returncode, refused.stdout) == (2, b"")
    assert b"no state to see it in; allowed: --state NAME" in refused.stderr
