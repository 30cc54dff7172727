"""What helps while a path is written: an audit on every save, completion in the shell, and the versions for a bug report."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pexpect
import pytest

COMMAND = str(Path(sys.executable).with_name("stepwarrant"))
GRID = "grid: .23. .... ..4. .3.1\n"
SLIP = GRID + "steps:\nr2c1 = 3 because hidden single in b2\n"


def test_watch_audits_again_on_every_save(tmp_path: Path) -> None:
    path = tmp_path / "x.path"
    path.write_text(SLIP)
    watch = pexpect.spawn(COMMAND, ["watch", "x.path"], cwd=str(tmp_path), env={**os.environ, "NO_COLOR": "1"}, timeout=60)
    watch.expect_exact("r2c1 is not in box 2")
    watch.expect_exact("Waiting for x.path to be saved")
    path.write_text(SLIP.replace("b2", "b1"))
    watch.expect_exact("all warranted")
    watch.expect_exact("Waiting for x.path to be saved")
    # As many editors save: a new file takes the old one's place; and one that is no text is no reason to stop.
    (tmp_path / "x.tmp").write_bytes(b"\xff\xfe")
    (tmp_path / "x.tmp").replace(path)
    watch.expect_exact("not UTF-8")
    path.unlink()
    path.write_text(SLIP)
    watch.expect_exact("r2c1 is not in box 2")
    watch.sendintr()
    watch.expect(pexpect.EOF)
    watch.close()
    assert watch.exitstatus == 0


def test_watch_without_its_library_says_how_to_get_it(tmp_path: Path) -> None:
    (tmp_path / "x.path").write_text(SLIP)
    (tmp_path / "watchfiles.py").write_text("raise ImportError")
    hidden = {**os.environ, "PYTHONPATH": str(tmp_path)}
    done = subprocess.run([COMMAND, "watch", "x.path"], cwd=tmp_path, env=hidden, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "stepwarrant: watching needs the [watch] extra: pip install 'stepwarrant[watch]'\n"


def test_watch_of_nothing(tmp_path: Path) -> None:
    done = subprocess.run([COMMAND, "watch", "x.path"], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (2, "stepwarrant: x.path: no such file\n")


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (["au"], ["plain,audit"]),
        (["audit", "--format", "js"], ["plain,json", "plain,jsonl"]),
        (["audit", "ex"], ["file,ex"]),
        (["explain", "effect-"], ["plain,effect-refuted", "plain,effect-unproved"]),
    ],
)
def test_completion_in_the_shell(words: list[str], offered: list[str]) -> None:
    asked = {"COMP_WORDS": " ".join(["stepwarrant", *words]), "COMP_CWORD": str(len(words))}
    environment = {**os.environ, **asked, "_STEPWARRANT_COMPLETE": "bash_complete"}
    done = subprocess.run([COMMAND], env=environment, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout.splitlines(), done.stderr) == (0, offered, "")


def test_completion_is_set_up_by_one_line() -> None:
    for shell, word in (("bash", "complete -o nosort -F"), ("zsh", "compdef"), ("fish", "complete --no-files")):
        environment = {**os.environ, "_STEPWARRANT_COMPLETE": f"{shell}_source"}
        done = subprocess.run([COMMAND], env=environment, capture_output=True, text=True, check=False)
        assert done.returncode == 0 and word in done.stdout


def test_versions() -> None:
    done = subprocess.run([COMMAND, "--version"], capture_output=True, text=True, check=True)
    names = ["stepwarrant", "python", "python-sat", "lark", "click", "jinja2"]
    assert [line.split()[0] for line in done.stdout.splitlines()] == names
    assert f"lark {version('lark')}" in done.stdout and "python 3." in done.stdout
