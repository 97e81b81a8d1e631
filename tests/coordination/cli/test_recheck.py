"""`fusewright recheck`: lines, summary, exit status; interrupted, killed, and taken up again."""

from __future__ import annotations

import json
import os
import pty
import re
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from coordination.fleet.schema import line_schema
from coordination.fleet.state import HEADER

COMMAND = (sys.executable, "-c", "from coordination.cli import main; main()", "recheck")


@pytest.fixture
def folder(systems: Any) -> Path:
    """A job of every kind, and what is none."""
    for which in ("good", "failing", "unproven", "broken"):
        getattr(systems, which)()
    (systems.folder / "compose.yaml").write_text("services: {}\n", "utf-8")
    return Path(systems.folder)


def lines(text: str) -> list[Any]:
    found = [json.loads(each) for each in text.splitlines()]
    for each in found:
        jsonschema.validate(each, line_schema())
    return found


def test_a_line_a_job_and_a_summary(folder: Path, fusewright: Any, systems: Any) -> None:
    fusewright("seal", folder / "good.yaml", "--by", "T")
    fusewright("seal", folder / "failing.yaml", "--by", "T")
    (folder / "failing.yaml").write_text(
        (folder / "good.yaml").read_text("utf-8").replace("length: 2.4 m", "length: 2.5 m"), "utf-8"
    )
    rating = "- {voltage: 125 V, current: 20 kA}"
    systems.write("new.yaml", rating, rating.replace("20 kA", "1 kA"))
    done = fusewright("recheck", folder)
    assert (done.status, done.err) == (1, "")
    told = done.out.splitlines()
    assert [line.split()[0] for line in told[:5]] == [
        "UNUSABLE", "PASS", "PASS", "FAIL", "UNPROVEN",
    ]  # fmt: skip
    assert "broken.yaml: " in told[0]
    assert "nominal_voltage" in told[0]
    assert "changed since " in told[1]
    assert "1 cured" in told[1]
    assert "; as sealed " in told[2]
    assert told[3].endswith("; no seal")
    assert "5 jobs: 1 unusable, 1 fail, 1 unproven, 2 pass" in told
    assert any("1 as sealed, 1 changed, 2 without a seal" in line for line in told)
    assert any("file in 1, parts in 1" in line for line in told)
    assert any("1 other YAML file" in line for line in told)


def test_lines_for_machines(folder: Path, fusewright: Any) -> None:
    done = fusewright("recheck", folder, "--format", "jsonl", "--jobs", 1)
    found = lines(done.out)
    jobs = [each["job"] for each in found[:-1]]
    assert [os.path.basename(each["file"]) for each in jobs] == [
        "broken.yaml", "failing.yaml", "good.yaml", "unproven.yaml",
    ]  # fmt: skip
    assert [each["status"] for each in jobs] == [None, 1, 0, 3]
    summary = found[-1]["summary"]
    assert summary["verdicts"] == {"fail": 1, "pass": 1, "unproven": 1}
    assert (summary["skipped"], summary["status"], done.status) == (1, 1, 1)


@pytest.mark.parametrize(
    ("which", "status"), [("good", 0), ("failing", 1), ("unproven", 3), ("broken", 3)]
)
def test_the_exit_status(which: str, status: int, systems: Any, fusewright: Any) -> None:
    path = getattr(systems, which)()
    assert fusewright("recheck", path).status == status


def test_what_could_not_be_looked_at_is_no_pass(systems: Any, fusewright: Any) -> None:
    systems.good()
    assert fusewright("recheck", systems.folder).status == 0
    (systems.folder / "dead.yaml").symlink_to("nowhere")
    done = fusewright("recheck", systems.folder, "--width", 400)
    assert done.status == 3
    assert re.search(r"no file +.*dead\.yaml", done.out)
    (systems.folder / "dead.yaml").unlink()
    (systems.folder / "good.yaml.seal.json").write_text("{}", "utf-8")
    done = fusewright("recheck", systems.folder)
    assert done.status == 3
    assert "SEAL UNUSABLE: this is no seal" in done.out


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("nowhere",), "no such file or directory; allowed: a folder, or a system file"),
        (("{empty}",), "there is no YAML file"),
        (("{none}",), "there is no system file among 1 YAML files"),
        (("{good}", "--changed-part", "no-such-part"), "no job uses a part 'no-such-part'"),
        (("{good}", "--scheduler", "tcp://x:1"), "only dask has a scheduler"),
        (("{good}", "--rules-from", "nowhere.py"), "the file cannot be read"),
        (("{good}", "--house-rules", "{good}"), "unknown key"),
        (("{good}", "--catalogue", "nowhere.sqlite"), "no catalogue file"),
        (("{good}", "--resume", "{good}"), "it was left as it is"),
        (("{good}", "--jobs", "0"), "--jobs"),
        (("{good}", "--limit", "0"), "--limit"),
    ],
)
def test_what_cannot_be_done_is_refused(
    words: tuple[str, ...], message: str, systems: Any, fusewright: Any
) -> None:
    good = systems.good()
    for name in ("empty", "none"):
        (systems.folder / name).mkdir()
    (systems.folder / "none/x.yaml").write_text("services: {}\n", "utf-8")
    places = {"good": good, "empty": systems.folder / "empty", "none": systems.folder / "none"}
    done = fusewright("recheck", *(word.format(**places) for word in words))
    assert (done.status, done.out) == (2, "")
    assert message in " ".join(done.err.split())
    assert "Traceback" not in done.err


def test_a_part_that_changed(systems: Any, fusewright: Any) -> None:
    path = systems.good()
    part = re.search(r"\{fuse: ([\w-]+)", path.read_text("utf-8"))
    assert part is not None
    (systems.folder / "small.yaml").write_text(
        "system: s\nsources:\n  a: {part: battery-lfp-100-12v}\n"
        "equipment:\n  b: {current: 1 A}\n"
        "circuits:\n  c: {from: a, to: b, parts: [{cable: cable-10-awg-105c, length: 1 m}]}\n",
        "utf-8",
    )
    done = fusewright("recheck", systems.folder, "--changed-part", part[1])
    assert done.status == 0
    assert "1 job: 1 pass" in done.out
    assert "1 job without the part" in done.out


def test_a_pack_is_left_out_of_the_jobs_that_ask_for_it(systems: Any, fusewright: Any) -> None:
    systems.good()
    text = systems.good().read_text("utf-8")
    assert "\npacks:" not in text
    other = systems.folder / "other.yaml"
    other.write_text(text + "packs: [fundamentals, us_small_craft]\n", "utf-8")
    fusewright("seal", other, "--by", "T", "--without-pack", "us_small_craft")
    with_it = fusewright("recheck", systems.folder)
    assert "changed since" in with_it.out
    without = fusewright("recheck", systems.folder, "--without-pack", "us_small_craft")
    assert without.status == 0
    assert "as sealed" in without.out


def test_hostile_names_are_shown_not_sent(systems: Any, process: Any) -> None:
    good = systems.good()
    name = os.fsdecode(b"a\nPASS b\x1b[31m\xff.yaml")
    good.rename(good.with_name(name))
    done = process("recheck", systems.folder)
    assert (done.status, done.err) == (0, "")
    assert len([line for line in done.out.splitlines() if "PASS" in line]) == 1
    assert "\x1b" not in done.out
    found = lines(process("recheck", systems.folder, "--format", "jsonl").out)
    assert os.path.basename(found[0]["job"]["file"]) == name


def test_two_processes_print_what_one_prints(folder: Path, fusewright: Any) -> None:
    one = fusewright("recheck", folder, "--jobs", 1)
    two = fusewright("recheck", folder, "--jobs", 2)
    assert one.out == two.out


#: Makes a job last long enough to be stopped at.
SLOW = '''
import time
from coordination.rules import Card, COMMON_PRACTICE, passed, rule

CARD = Card(name="slow", title="t", why="w", wrong="w", right="r", severity="paperwork",
            source=COMMON_PRACTICE)

@rule(CARD, each="source")
def slow(source, study):
    time.sleep(0.4)
    return passed("slept")
'''


class Fleet:
    """Copies of the starter, of which a run can be stopped in the midst."""

    def __init__(self, systems: Any, count: int) -> None:
        text = systems.good().read_text("utf-8")
        self.folder = systems.folder / "fleet"
        self.folder.mkdir()
        for number in range(count):
            (self.folder / f"{number:03}.yaml").write_text(f"{text}# {number}\n", "utf-8")
        self.state = systems.folder / "state"
        rules = systems.folder / "slow.py"
        rules.write_text(SLOW, "utf-8")
        self.words = (
            *COMMAND, str(self.folder), "--resume", str(self.state), "--format", "jsonl",
            "--rules-from", str(rules),
        )  # fmt: skip

    def kept(self) -> list[str]:
        """The file of every line of the state that is whole."""
        if not self.state.exists():
            return []
        text = self.state.read_bytes().removeprefix(HEADER).decode("ascii")
        whole = [line for line in text.splitlines(keepends=True) if line.endswith("}\n")]
        return [json.loads(line.partition(" ")[2])["path"] for line in whole]

    def stopped(self, how: signal.Signals, after: int) -> subprocess.Popen[bytes]:
        """A run that was stopped as soon as so many jobs were kept."""
        running = subprocess.Popen(
            self.words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True
        )
        deadline = time.monotonic() + 120
        while len(self.kept()) < after and time.monotonic() < deadline and running.poll() is None:
            time.sleep(0.01)
        if how == signal.SIGINT:  # as a terminal sends it: to all of them
            os.killpg(running.pid, how)
        else:
            running.send_signal(how)
        return running


def gone(group: int) -> bool:
    """Whether no process is left of a session, within ten seconds."""
    for _ in range(200):
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGKILL, signal.SIGTERM])
def test_a_run_that_was_stopped_is_taken_up_again(how: signal.Signals, systems: Any) -> None:
    fleet = Fleet(systems, 16)
    running = fleet.stopped(how, after=3)
    out, err = running.communicate(timeout=60)
    assert running.returncode == (130 if how == signal.SIGINT else -how)
    assert gone(running.pid), "a worker outlived the run"
    assert b"Traceback" not in err
    if how == signal.SIGINT:
        assert b"take it up again with --resume" in err
        assert lines(out.decode())[-1]["summary"]["status"] == 3
    before = fleet.kept()
    assert 3 <= len(before) < 16
    done = subprocess.run(fleet.words, capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    found = lines(done.stdout.decode())
    assert [os.path.basename(each["job"]["file"]) for each in found[:-1]] == [
        f"{number:03}.yaml" for number in range(16)
    ]
    assert found[-1]["summary"]["verdicts"] == {"pass": 16}
    # What was finished was not done again: no file stands twice in the state.
    after = fleet.kept()
    assert after[: len(before)] == before
    assert sorted(after) == sorted(set(after))
    assert len(after) == 16


def test_what_changed_meanwhile_is_done_again(systems: Any, fusewright: Any) -> None:
    fleet = Fleet(systems, 4)
    words = fleet.words[4:]
    first = fusewright("recheck", *words)
    path = fleet.folder / "002.yaml"
    rating = "- {voltage: 125 V, current: 20 kA}"
    path.write_text(path.read_text("utf-8").replace(rating, rating.replace("20", "1")), "utf-8")
    second = fusewright("recheck", *words)
    assert (first.status, second.status) == (0, 1)
    assert [os.path.basename(each) for each in fleet.kept()[4:]] == ["002.yaml"]
    verdicts = [each["job"]["verdict"] for each in lines(second.out)[:-1]]
    assert verdicts == ["pass", "pass", "fail", "pass"]


def test_a_bar_is_drawn_on_a_terminal_only(systems: Any) -> None:
    systems.good()
    ours, theirs = pty.openpty()
    words = [*COMMAND, str(systems.folder)]
    done = subprocess.run(words, stdout=subprocess.PIPE, stderr=theirs, check=False)
    os.close(theirs)
    shown = os.read(ours, 10_000)
    os.close(ours)
    assert done.returncode == 0
    assert b"] 1/1  0 fail" in shown
    assert shown.endswith(b"\r\x1b[K")
    assert b"\x1b" not in done.stdout
    plain = subprocess.run(words, capture_output=True, check=False)
    assert (plain.stderr, plain.stdout) == (b"", done.stdout)
