"""A baseline hides what is known and nothing else, wherever its line has moved; what is no longer found is told."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

COMMAND = str(Path(sys.executable).with_name("stepwarrant"))
HEAD = "grid: .23. .... ..4. .3.1\nsteps:\n"
SLIP = "r2c1 = 3 because hidden single in b2\n"
OTHER = "r1c4 = 4 because hidden single in b4\n"


def run(folder: Path, *arguments: str) -> tuple[int, str, list[str]]:
    """Status, what was found (one line each, without its message), and what was said on standard error."""
    command = [COMMAND, "audit", *arguments, "--format", "oneline"]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=60, check=False)
    assert "Traceback" not in done.stderr
    found = " ".join(line.split()[0] + line.split()[1] for line in done.stdout.splitlines())
    return done.returncode, found, [line.removeprefix("stepwarrant: ") for line in done.stderr.splitlines()]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "a.path").write_text(HEAD + SLIP)
    (tmp_path / "b.path").write_text(HEAD + SLIP)
    assert run(tmp_path, ".", "--write-baseline", "known") == (0, "", ["known: written; it knows of 4 findings"])
    return tmp_path


def test_what_is_known_is_left_out_wherever_it_stands(folder: Path) -> None:
    assert run(folder, ".", "--baseline", "known") == (0, "", ["known: 4 known findings left out"])
    (folder / "a.path").write_text(HEAD + "\n\n# moved\n7. [0:10] " + SLIP.upper().replace(" ", "  ", 1))
    assert run(folder, ".", "--baseline", "known") == (0, "", ["known: 4 known findings left out"])
    assert run(folder, ".")[0] == 1


def test_what_is_new_is_reported(folder: Path) -> None:
    (folder / "a.path").write_text(HEAD + OTHER + SLIP)
    status, found, _ = run(folder, "a.path", "--baseline", "known")
    assert (status, found) == (1, "a.path:3:1:cell-outside-house")
    # The same slip a second time is one more than is known, and in another file it is not known at all.
    (folder / "a.path").write_text(HEAD + SLIP)
    (folder / "c.path").write_text(HEAD + SLIP)
    status, found, _ = run(folder, "c.path", "--baseline", "known")
    assert (status, found) == (1, "c.path:3:1:cell-outside-house c.path:3:1:stops-short")
    (folder / "a.path").write_text(HEAD + "r9c9 = 1\nr9c9 = 1\n")
    run(folder, "a.path", "--write-baseline", "two")
    (folder / "a.path").write_text(HEAD + "r9c9 = 1\n" * 3)
    assert run(folder, "a.path", "--baseline", "two")[:2] == (1, "a.path:5:1:no-such-cell")


def test_what_is_no_longer_found_is_told(folder: Path) -> None:
    (folder / "a.path").write_text(HEAD + SLIP.replace("b2", "b1"))
    (folder / "b.path").unlink()
    status, found, said = run(folder, "a.path", "--baseline", "known")
    # The note that the path stops stands on a line that says something else now, so that it is new and the old one is gone.
    assert (status, found) == (0, "a.path:3:1:stops-short")
    assert said == [
        "known: no longer found: a.path: cell-outside-house at `r2c1 = 3 because hidden single in b2`",
        "known: no longer found: a.path: stops-short at `r2c1 = 3 because hidden single in b2`",
        "known: no longer found: b.path: cell-outside-house at `r2c1 = 3 because hidden single in b2`",
        "known: no longer found: b.path: stops-short at `r2c1 = 3 because hidden single in b2`",
        "known: `--write-baseline known` takes out what is no longer found",
    ]
    assert run(folder, "a.path", "--write-baseline", "known")[0] == 0
    assert run(folder, "a.path", "--baseline", "known") == (0, "", ["known: 1 known finding left out"])


def test_files_that_were_not_audited_keep_their_entries(folder: Path) -> None:
    (folder / "a.path").write_text(HEAD + SLIP.replace("b2", "b1"))
    assert run(folder, "b.path", "--baseline", "known") == (0, "", ["known: 2 known findings left out"])
    run(folder, "a.path", "--write-baseline", "known")
    assert run(folder, "b.path", "--baseline", "known") == (0, "", ["known: 2 known findings left out"])


def test_the_same_fingerprints_as_in_sarif(folder: Path) -> None:
    command = [COMMAND, "audit", "a.path", "--format", "sarif"]
    log = json.loads(subprocess.run(command, cwd=folder, capture_output=True, timeout=60, check=False).stdout)
    shown = {r["partialFingerprints"]["stepwarrantFinding/v1"].split(":")[0] for r in log["runs"][0]["results"]}
    known = json.loads((folder / "known").read_text())["findings"]
    assert shown == {entry["fingerprint"] for entry in known if entry["file"] == "a.path"}


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("", "not a baseline"),
        ("[1]", 'no member "format"'),
        ("[" * 100_000, "not a baseline"),
        ('{"format": "stepwarrant-baseline", "version": 2}', "version 1 was expected"),
        ('{"format": "stepwarrant-baseline", "version": 1}', '"findings" is not a list'),
        ('{"format": "stepwarrant-baseline", "version": 1, "findings": [{"file": "a.path"}]}', "entry 1 is no entry"),
    ],
)
@pytest.mark.parametrize("option", ["--baseline", "--write-baseline"])
def test_what_is_no_baseline_is_refused_and_kept(folder: Path, content: str, said: str, option: str) -> None:
    (folder / "known").write_text(content)
    status, found, errors = run(folder, ".", option, "known")
    assert (status, found) == (2, "") and len(errors) == 1 and said in errors[0]
    assert (folder / "known").read_text() == content


def test_a_baseline_that_is_not_there(folder: Path) -> None:
    assert run(folder, ".", "--baseline", "gone")[::2] == (2, ["gone: No such file or directory"])
    assert run(folder, ".", "--write-baseline", "gone/known")[::2] == (2, ["gone/known: No such file or directory"])
    assert run(folder, ".", "--write-baseline", "x", "--baseline", "known")[0] == 2
