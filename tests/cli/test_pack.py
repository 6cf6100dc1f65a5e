"""`hoodwright pack` as a person runs it: what is written, what is refused, what is said meanwhile."""

from __future__ import annotations

import json
import re
import signal
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from subprocess import CompletedProcess

    Run = Callable[..., CompletedProcess[bytes]]

TOP = Path(__file__).parents[2]
JOBS = TOP / "samples" / "jobs"
TEMPLATE_JOB = TOP / "schedules" / "templates" / "job.toml"
QUICK = ("--parts", "json")


def files_in(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def code_of(folder: Path) -> str:
    code: str = json.loads((folder / "package.json").read_bytes())["contents"]
    return code


def own_job(folder: Path) -> Path:
    """A copy of the template's job and sheet that a test may change."""
    job = folder / "job.toml"
    job.write_text(TEMPLATE_JOB.read_text(encoding="utf-8"), encoding="utf-8")
    sheet = TEMPLATE_JOB.with_name("sheet.toml")
    (folder / "sheet.toml").write_text(sheet.read_text(encoding="utf-8"), encoding="utf-8")
    return job


def test_everything_is_written_and_named(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("pack", TEMPLATE_JOB, "-o", "out")
    assert done.returncode in (0, 1)
    named = {line.removeprefix("wrote ") for line in done.stdout.decode().splitlines()}
    written = files_in(tmp_path / "out")
    assert named == {f"out/{name}" for name in written}
    endings = {name.rpartition(".")[2] for name in written}
    assert endings == {"pdf", "html", "xlsx", "csv", "json", "svg", "dot", "png"}
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_progress_is_told_on_standard_error(hoodwright: Run) -> None:
    done = hoodwright("pack", TEMPLATE_JOB, "-o", "out", "--parts", "csv,json")
    assert done.stderr.decode().splitlines() == [
        "planning the job",
        "drawings and schedules",
        "a file for each schedule",
        "the plan for other programs",
        "writing",
    ]


def test_two_hash_seeds_give_the_same_package(hoodwright: Run, tmp_path: Path) -> None:
    for seed in ("1", "4242"):
        done = hoodwright(
            "pack", JOBS / "galley-gas.toml", "-o", seed, PYTHONHASHSEED=seed, TZ=f"UTC-{seed[0]}"
        )
        assert done.returncode == 0
    one, other = files_in(tmp_path / "1"), files_in(tmp_path / "4242")
    assert one.keys() == other.keys()
    assert [name for name in one if one[name] != other[name]] == []


def test_a_job_with_findings_is_packed_and_says_so(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("pack", JOBS / "must-fail.toml", "-o", "out", *QUICK)
    assert done.returncode == 1
    assert (tmp_path / "out" / "package.json").is_file()


def test_a_folder_with_files_is_refused_and_stays(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mine.txt").write_text("mine")
    for force in ((), ("--force",)):
        done = hoodwright("pack", TEMPLATE_JOB, "-o", "out", *QUICK, *force)
        assert done.returncode == 2
        assert b"out: found" in done.stderr
        assert files_in(tmp_path / "out") == {"mine.txt": b"mine"}


def test_an_empty_folder_is_filled(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    assert hoodwright("pack", TEMPLATE_JOB, "-o", "out", *QUICK).returncode in (0, 1)
    assert (tmp_path / "out" / "plan.json").is_file()


def test_only_force_lets_an_earlier_package_give_way(hoodwright: Run, tmp_path: Path) -> None:
    assert hoodwright("pack", TEMPLATE_JOB, "-o", "out", "--parts", "csv").returncode in (0, 1)
    before = files_in(tmp_path / "out")
    again = hoodwright("pack", TEMPLATE_JOB, "-o", "out", *QUICK)
    assert again.returncode == 2
    assert b"--force" in again.stderr
    assert files_in(tmp_path / "out") == before
    assert hoodwright("pack", TEMPLATE_JOB, "-o", "out", *QUICK, "--force").returncode in (0, 1)
    assert set(files_in(tmp_path / "out")) == {"plan.json", "package.json"}


@pytest.mark.parametrize("change", ["added", "changed"])
def test_what_a_person_put_into_a_package_is_never_lost(hoodwright: Run, tmp_path: Path, change: str) -> None:
    assert hoodwright("pack", TEMPLATE_JOB, "-o", "out", *QUICK).returncode in (0, 1)
    mine = tmp_path / "out" / ("photo.jpg" if change == "added" else "plan.json")
    mine.write_bytes(b"mine")
    before = files_in(tmp_path / "out")
    done = hoodwright("pack", TEMPLATE_JOB, "-o", "out", *QUICK, "--force")
    assert done.returncode == 2
    assert mine.name.encode() in done.stderr
    assert files_in(tmp_path / "out") == before


def test_a_place_that_is_not_there_is_refused(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("pack", TEMPLATE_JOB, "-o", "nowhere/out", *QUICK)
    assert done.returncode == 2
    assert b"nowhere" in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_bad_job_writes_nothing(hoodwright: Run, tmp_path: Path) -> None:
    job = own_job(tmp_path)
    job.write_text(job.read_text(encoding="utf-8").replace("code = ", "code = 1"), encoding="utf-8")
    done = hoodwright("pack", job, "-o", "out")
    assert done.returncode == 2
    assert b"job.toml:" in done.stderr
    assert not (tmp_path / "out").exists()


def test_an_unknown_part_is_named_with_those_that_there_are(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("pack", TEMPLATE_JOB, "-o", "out", "--parts", "pdf,docx")
    assert done.returncode == 2
    assert b'found "docx"; allowed: pdf, html, xlsx, csv, ics, labels, json, drawings' in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["electrician", "installer", "inspector", "trainer", "owner"])
def test_each_person_has_a_booklet(hoodwright: Run, tmp_path: Path, name: str) -> None:
    done = hoodwright("pack", TEMPLATE_JOB, "-o", "out", "--parts", "pdf", "--for", name)
    assert done.returncode in (0, 1)
    assert any(path.endswith(f"-{name}.pdf") for path in files_in(tmp_path / "out"))


def test_paper_that_hangs_on_a_wall_is_known_as_current_until_the_job_changes(
    hoodwright: Run, tmp_path: Path
) -> None:
    job = own_job(tmp_path)
    assert hoodwright("pack", job, "-o", "out", *QUICK).returncode in (0, 1)
    code = code_of(tmp_path / "out")
    assert re.fullmatch(r"[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}", code)
    current = hoodwright("pack", job, "--is-current", code.lower())
    assert (current.returncode, current.stdout.split(b":")[0]) == (0, b"current")
    text = job.read_text(encoding="utf-8")
    job.write_text(re.sub(r"(?m)^revision = .*$", 'revision = "other"', text), encoding="utf-8")
    outdated = hoodwright("pack", job, "--is-current", code)
    assert (outdated.returncode, outdated.stdout.split(b":")[0]) == (1, b"OUTDATED")


def test_a_code_with_a_slip_is_refused(hoodwright: Run) -> None:
    done = hoodwright("pack", TEMPLATE_JOB, "--is-current", "7K3Q")
    assert done.returncode == 2
    assert b'found "7K3Q"; allowed: a code such as 7K3Q-M2XD' in done.stderr


def test_what_changed_since_the_last_package_stands_at_the_front(hoodwright: Run, tmp_path: Path) -> None:
    job = own_job(tmp_path)
    assert hoodwright("pack", job, "-o", "one", *QUICK).returncode in (0, 1)
    text = job.read_text(encoding="utf-8")
    assert 'waste = "' in text
    job.write_text(re.sub(r'waste = "[^"]*"', 'waste = "25 %"', text), encoding="utf-8")
    assert hoodwright("pack", job, "-o", "two", "--since", "one", "--parts", "html").returncode in (0, 1)
    page = next(data for name, data in files_in(tmp_path / "two").items() if name.endswith(".html")).decode()
    assert "Changes since the last package" in page
    assert "cut " in page.partition('id="changes"')[2].partition("</section>")[0]
    assert "<b>chg</b></td>" in page


def test_a_since_that_is_no_package_is_refused(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "old").mkdir()
    (tmp_path / "old" / "package.json").write_text('{"format": "other"}')
    done = hoodwright("pack", TEMPLATE_JOB, "-o", "out", "--since", "old", *QUICK)
    assert done.returncode == 2
    assert b"old/package.json: found" in done.stderr
    assert not (tmp_path / "out").exists()


KILLED = """
import os, signal, sys
from schedules.package import folder
count, last = 0, int(sys.argv[1])
real = os.fsync
def fsync(handle):
    global count
    count += 1
    if count == last:
        os.kill(os.getpid(), signal.SIGKILL)
    real(handle)
os.fsync = fsync
from wizard.__main__ import main
main(sys.argv[2:])
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no such signal there")
@pytest.mark.parametrize("at", [1, 5, 20])
def test_a_kill_in_the_middle_leaves_nothing_half(tmp_path: Path, at: int) -> None:
    words = ("pack", str(TEMPLATE_JOB), "-o", str(tmp_path / "out"), "--parts", "csv,json")
    command = [sys.executable, "-c", KILLED, str(at), *words]
    done = subprocess.run(command, cwd=TOP, capture_output=True, check=False)
    assert done.returncode == -signal.SIGKILL
    assert not (tmp_path / "out").exists()
