"""The command line as a user meets it: exit statuses, streams, and every kind of input that is no walkthrough."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import jsonschema
import pexpect
import pytest

from stepwarrant.checker import audit
from stepwarrant.checker.json_report import document, schema

COMMAND = str(Path(sys.executable).with_name("stepwarrant"))
GRID = "grid: .23. .... ..4. .3.1\n"
SOUND = GRID + "steps:\nr2c1 = 3 because hidden single in b1\nr1c4 = 4 because naked single\n"
SLIP = GRID + "steps:\nr2c1 = 3 because hidden single in b2\n"


def run(*arguments: str, stdin: str | bytes = b"", env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    data = stdin.encode() if isinstance(stdin, str) else stdin
    done = subprocess.run(
        [COMMAND, *arguments], input=data, capture_output=True, timeout=120, env={**os.environ, **(env or {})}, check=False
    )
    out, err = done.stdout.decode("utf-8"), done.stderr.decode("utf-8")
    assert "Traceback" not in out + err
    return subprocess.CompletedProcess(done.args, done.returncode, out, err)


def flat(text: str) -> str:
    """The text without its line breaks, wherever it was wrapped."""
    return " ".join(text.split())


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "a-sound.path").write_text(SOUND)
    (tmp_path / "deep").mkdir()
    (tmp_path / "deep" / "b-slip.path").write_text(SLIP)
    (tmp_path / "notes.txt").write_text("not a path")
    return tmp_path


def test_a_sound_path(folder: Path) -> None:
    done = run("audit", str(folder / "a-sound.path"))
    assert (done.returncode, done.stderr) == (0, "")
    assert "2 steps: all warranted; stops short; 1 note." in flat(done.stdout)


def test_a_slip_is_shown_at_its_token(folder: Path) -> None:
    done = run("audit", str(folder / "deep" / "b-slip.path"))
    assert done.returncode == 1
    assert "b-slip.path:3:1 error cell-outside-house (step 1)" in done.stdout
    lines = done.stdout.splitlines()
    at = next(number for number, line in enumerate(lines) if "r2c1 = 3" in line)
    assert lines[at + 1] == "      | ^^^^" and lines[at].index("r2c1") == lines[at + 1].index("^")
    assert "r2c1 is not in box 2; it is in box 1." in done.stdout
    assert max(map(len, lines)) <= 80 or "/" in max(lines, key=len)


def test_a_folder_is_read_in_a_stable_order(folder: Path) -> None:
    done = run("audit", str(folder), "--format", "json")
    report = json.loads(done.stdout)
    jsonschema.validate(report, schema())
    assert [Path(file["file"]).name for file in report["files"]] == ["a-sound.path", "b-slip.path"]
    assert done.returncode == 1
    assert run("audit", str(folder), "--format", "json").stdout == done.stdout


def test_standard_input_and_grid_option() -> None:
    assert run("audit", "-", stdin=SOUND).returncode == 0
    assert run("audit", "-", "--as", "path", stdin=SLIP).returncode == 1
    steps = SOUND.removeprefix(GRID)
    done = run("audit", "-", stdin=steps)
    assert done.returncode == 2 and "no-grid" in done.stdout
    assert run("audit", "-", "--grid", ".23.......4..3.1", stdin=steps).returncode == 0
    assert run("audit", "-", "--grid", "4...............", stdin=SOUND).returncode == 1


def test_grid_from_a_file(tmp_path: Path) -> None:
    steps = SOUND.removeprefix(GRID)
    for text in (".23.\n....\n..4.\n.3.1\n", SOUND):
        (tmp_path / "grid").write_text(text)
        assert run("audit", "-", "--grid", str(tmp_path / "grid"), stdin=steps).returncode == 0
    (tmp_path / "grid").write_text(".23.\n...\n..4.\n.3.1\n")
    done = run("audit", "-", "--grid", str(tmp_path / "grid"), stdin=steps)
    assert done.returncode == 2 and done.stdout == "" and "line 2: This row of the grid has 3 cells" in done.stderr
    assert run("audit", "-", "--grid", "12", stdin=steps).returncode == 2


def test_output_to_a_file(folder: Path) -> None:
    target = folder / "report.json"
    target.write_text("old")
    done = run("audit", str(folder / "a-sound.path"), "--format", "json", "--output", str(target))
    assert (done.returncode, done.stdout) == (0, "")
    assert json.loads(target.read_text())["version"] == 1
    done = run("audit", str(folder / "a-sound.path"), "--output", str(folder / "none" / "report"))
    assert done.returncode == 2 and "No such file or directory" in done.stderr
    assert sorted(path.name for path in folder.iterdir()) == ["a-sound.path", "deep", "notes.txt", "report.json"]


def test_expectations(tmp_path: Path) -> None:
    path = tmp_path / "x.path"
    path.write_text(SLIP.replace("in b2", "in b2  # expect: cell-outside-house stops-short"))
    done = run("audit", str(path), "--expect")
    assert (done.returncode, done.stdout) == (0, "1 file: all as expected.\n")
    path.write_text(SLIP.replace("in b2", "in b2  # expect: misnamed stops-short no-such-code"))
    done = run("audit", str(path), "--expect")
    assert done.returncode == 1
    assert [line.removeprefix(f"{path}:") for line in done.stdout.splitlines()] == [
        "3: expected misnamed, which was not found",
        "3: expected no-such-code, which was not found; there is no such code",
        "3: found cell-outside-house, which was not expected: r2c1 is not in box 2; it is in box 1.",
        "1 file: 3 differences.",
    ]


@pytest.mark.parametrize(
    ("content", "status", "said"),
    [
        (b"", 2, "no-grid"),
        (bytes(range(256)) * 4, 2, "NUL byte on line 1"),
        ("title: Glühlampe\n".encode("latin-1") + GRID.encode(), 2, "byte 0xfc on line 1, column 10"),
        (SOUND.encode("utf-16"), 2, "UTF-16"),
        (b"\xef\xbb\xbf" + SOUND.encode(), 0, "all warranted"),
        (SOUND.replace("\n", "\r\n").encode(), 0, "all warranted"),
        (SOUND.replace("\n", "\r").encode(), 0, "all warranted"),
        ((GRID + "steps:\n" + "r1c1 " * 2_000_000 + "\n").encode(), 1, "10,000,000 characters long"),
        ((GRID + "steps:\n\0\n").encode(), 2, "NUL byte on line 3"),
        (("grid: " + "." * 80 + "\nsteps:\n").encode(), 2, "The grid has 80 cells"),
        (b"grid: 11.. .... .... ....\nsteps:\nr2c1 = 2\n", 1, "clashes with"),
        (b"grid: 12.. ..3. .... ....\nsteps:\n", 1, "no solution"),
        (b"grid: .23. .... .... .3.1\nsteps:\n", 1, "more than one solution"),
        ((GRID + "steps:\nr1c2 = 4 because hidden single in b1\n").encode(), 1, "r1c2 is filled already"),
        ((GRID + "steps:\nr0c1 = 4\n").encode(), 1, "no row 0"),
        ((GRID + "steps:\nr10c1 = 4\n").encode(), 1, "no row 10"),
        ((GRID + "steps:\nr1c1 = 0\n").encode(), 1, "0 is not a digit"),
        ((GRID + "steps:\nr2c1 not 1 because naked pair 1 4 at r1c1 r1c1 in b1\n").encode(), 1, "named twice"),
        ((GRID + "steps:\nr2c1 not 1 because x-wing on 1 in r1 r1 cover c1 c2\n").encode(), 1, "named twice"),
        ((GRID + "steps:\nr2c1 not 1 because xy-chain 1 r1c1 1\n").encode(), 1, "at least 2"),
        ((GRID + "steps:\nr2c1 not 1 because chain r1c1 is 1\n").encode(), 1, "at least 2"),
        ((GRID + "steps:\nr2c1 not 1 because x-chain on 1: r1c1\n").encode(), 1, "at least 4"),
    ],
)
def test_input_that_is_no_walkthrough(tmp_path: Path, content: bytes, status: int, said: str) -> None:
    """One clear finding, or one line on standard error; and the other files are still audited."""
    (tmp_path / "bad.path").write_bytes(content)
    (tmp_path / "good.path").write_text(SOUND)
    done = run("audit", str(tmp_path / "bad.path"), str(tmp_path / "good.path"))
    assert done.returncode == status
    assert said in flat(done.stdout) + done.stderr
    assert len(done.stderr.splitlines()) <= 1
    findings = [line for line in done.stdout.splitlines() if "bad.path:" in line and (" error " in line or " warning " in line)]
    assert len(findings) + len(done.stderr.splitlines()) == (0 if status == 0 else 1)
    assert "good.path: 2 steps: all warranted" in flat(done.stdout)


def test_missing_file_and_empty_folder(tmp_path: Path) -> None:
    (tmp_path / "good.path").write_text(SOUND)
    (tmp_path / "empty").mkdir()
    done = run("audit", str(tmp_path / "none.path"), str(tmp_path / "empty"), str(tmp_path / "good.path"))
    assert done.returncode == 2
    assert len(done.stderr.splitlines()) == 2
    assert "No such file" in done.stderr and "no path files" in done.stderr
    assert "all warranted" in done.stdout


@pytest.mark.parametrize("arguments", [["audit"], ["audit", "--format", "xml", "x"], ["nothing"], ["explain", "misnaned"]])
def test_a_bad_call_is_one_matter(arguments: list[str]) -> None:
    done = run(*arguments)
    assert done.returncode == 2 and done.stdout == ""


def test_100_000_lines() -> None:
    done = run("audit", "-", stdin=SOUND + "r1c1 = 1 because last cell in r1\n" * 100_000)
    assert done.returncode == 1
    assert done.stdout.count(" warning already-done") == 200
    assert "99,799 more findings" in done.stdout


def test_explain() -> None:
    done = run("explain", "effect-refuted")
    assert done.returncode == 0 and done.stdout.startswith("effect-refuted (error)")
    done = run("explain")
    assert done.returncode == 0 and "effect-refuted" in done.stdout
    assert max(map(len, done.stdout.splitlines())) < 130


def test_spell_out(folder: Path) -> None:
    done = run("audit", "-", "--spell-out", stdin=SOUND.replace("r2c1 = 3", "? = 3"))
    assert done.returncode == 0 and "r2c1 = 3 because hidden single in b1\n" in done.stdout
    assert run("audit", str(folder), "--spell-out").returncode == 2


def test_gave_up() -> None:
    hard = "grid: ..281..4...37.4........39..7..6.....4.8.....5..9..5..82.....31...........34.267..\nsteps:\n"
    assert run("audit", "-", "--conflicts", "1", stdin=hard).returncode == 3
    assert run("audit", "-", stdin=hard).returncode == 0


def test_a_closed_pipe_is_no_trouble(folder: Path) -> None:
    for _ in range(3):
        done = subprocess.run(
            ["bash", "-c", f"{COMMAND} audit {folder} --format json | head -c 1 >/dev/null; echo ${{PIPESTATUS[0]}}"],
            capture_output=True,
            text=True,
            timeout=60,
            check=True,
        )
        assert done.stderr == "" and done.stdout.strip() in ("0", "1")


def test_ctrl_c(tmp_path: Path) -> None:
    (tmp_path / "long.path").write_text(SOUND + "r1c1 = 1 because last cell in r1\n" * 400_000)
    child = subprocess.Popen([COMMAND, "audit", str(tmp_path / "long.path")], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    with pytest.raises(subprocess.TimeoutExpired):
        child.wait(1.0)
    child.send_signal(signal.SIGINT)
    out, err = child.communicate(timeout=60)
    assert (child.returncode, out) == (130, b"")
    assert err.decode().strip() == "stepwarrant: interrupted"


def test_colour_only_on_a_terminal_that_wants_it(folder: Path) -> None:
    command = f"{COMMAND} audit {folder / 'deep' / 'b-slip.path'}"
    clean = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
    shown, _ = pexpect.run(command, withexitstatus=True, env={**clean, "TERM": "xterm"})
    assert b"\x1b[" in shown
    shown, _ = pexpect.run(command, withexitstatus=True, env={**clean, "TERM": "xterm", "NO_COLOR": "1"})
    assert b"\x1b[" not in shown
    assert "\x1b[" not in run("audit", str(folder), env={"TERM": "xterm"}).stdout


def test_progress_on_a_terminal_when_there_are_many_files(tmp_path: Path) -> None:
    for number in range(12):
        (tmp_path / f"{number:02}.path").write_text(SOUND)
    shown, status = pexpect.run(f"{COMMAND} audit {tmp_path}", withexitstatus=True, env={**os.environ, "TERM": "xterm"})
    assert status == 0 and b"Auditing" in shown
    assert "Auditing" not in run("audit", str(tmp_path)).stderr


def test_the_library_gives_the_same_document() -> None:
    report = audit(SLIP, name="b.path")
    made = document([report])
    jsonschema.validate(made, schema())
    assert made["files"][0] == report.to_json()
    finding = report.to_json()["findings"][0]
    assert (finding["line"], finding["column"], finding["endColumn"]) == (3, 1, 5)
    with pytest.raises(ValueError, match="grid"):
        audit(SLIP, grid="123")
