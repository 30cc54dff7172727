"""Every renderer shown the same audits: each tells the same findings at the same places, and reads back as it should."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest
from junitparser import Failure, JUnitXml, Skipped

from stepwarrant.checker import Report, audit, json_report, junit, oneline, sarif, text
from stepwarrant.checker import json_lines as jsonl
from stepwarrant.checker.findings import SEVERITY

COMMAND = str(Path(sys.executable).with_name("stepwarrant"))
GRID = "grid: .23. .... ..4. .3.1\n"
FILES = {
    # A key nobody knows, a step that needs nothing, one with a slip and two that hang on it, a line that stops, and a note.
    "ways & means <é>.path": "titel: ü\n"
    + GRID
    + "steps:\n"
    + "r2c1 r2c2 not 4 because naked pair 1 4 at r1c1 r2c2 in b1\n"
    + "1. [0:05] r2c1 = 3 because hidden single in b2\n"
    + "r1c4 = because naked single  # \x07 and \U0001f4a1\n"
    + "r1c4 = 4\n",
    "deep/no-grid.path": "steps:\nr1c1 = 1\n",
    "deep/sound.path": GRID + "steps:\nr2c1 = 3 because hidden single in b1\nr1c4 = 4 because naked single\n",
    "deep/a:b.path": GRID + "steps:\n\U0001f4a1\U0001f4a1 r1c4 = 4\n",
    "none.path": "",
}
UNUSABLE = ["gone.path: No such file or directory"]


@pytest.fixture(scope="module")
def reports() -> list[Report]:
    return [audit(content, name=name) for name, content in FILES.items()]


@pytest.fixture(scope="module")
def told(reports: list[Report]) -> list[tuple[str, int, int, str]]:
    """File, line, column and code of everything that was found."""
    return [(report.file, found.line, found.column, found.code) for report in reports for found in report.findings]


def test_the_fixture_has_every_kind_of_finding(reports: list[Report], told: list[Any]) -> None:
    findings = [finding for report in reports for finding in report.findings]
    assert {finding.severity for finding in findings} == {"error", "warning", "note"}
    assert {finding.step is None for finding in findings} == {True, False}
    assert any(finding.repairs for finding in findings)
    assert {report.exit_status for report in reports} == {0, 1, 2}
    assert len(set(told)) == len(told) >= 8


def test_oneline(reports: list[Report], told: list[Any]) -> None:
    lines = oneline.render(reports).splitlines()
    assert [re.match(r"(.*):(\d+):(\d+): ([\w-]+) \S", line).groups() for line in lines] == [  # type: ignore[union-attr]
        (file, str(line), str(column), code) for file, line, column, code in told
    ]


def test_text_tells_the_same(reports: list[Report], told: list[Any]) -> None:
    shown = re.findall(r"^(.+):(\d+):(\d+) (?:error|warning|note) ([\w-]+)", text.render(reports), re.M)
    assert shown == [(file, str(line), str(column), code) for file, line, column, code in told]


def test_json_lines_together_are_the_json_report(reports: list[Report], told: list[Any]) -> None:
    files: list[dict[str, Any]] = []
    *lines, last = (json.loads(line) for line in jsonl.render(reports, UNUSABLE).splitlines())
    for line in lines:
        kind, file = line.pop("kind"), line.pop("file")
        if kind == "file":
            files.append({"file": file, **line, "steps": [], "findings": []})
        else:
            assert files[-1]["file"] == file
            files[-1][f"{kind}s"].append(line)
    assert files == json_report.document(reports)["files"]
    assert last == {"kind": "unusable", "message": UNUSABLE[0]}
    assert [(file["file"], f["line"], f["column"], f["code"]) for file in files for f in file["findings"]] == told


def test_junit_reads_back(reports: list[Report]) -> None:
    suites = JUnitXml.fromstring(junit.render(reports, UNUSABLE).encode())
    assert [suite.name for suite in suites] == [*FILES, "inputs that could not be used"]
    for report, suite in zip(reports, suites):
        cases = {case.name: case for case in suite}
        assert len(cases) == suite.tests == len(report.steps) + any(finding.step is None for finding in report.findings)
        failed = [result for case in suite for result in case.result if isinstance(result, Failure)]
        assert bool(failed) == (report.exit_status != 0)
        # One failure a step, of the first thing that is wrong with it; the others and the notes are told in its text.
        grave = {finding.step: finding for finding in reversed(report.findings) if finding.severity != "note"}
        assert sorted(result.type for result in failed) == sorted(finding.code for finding in grave.values())
        whole = "".join(f"{case.system_out} {[result.text for result in case.result]}" for case in suite)
        for finding in report.findings:
            assert f":{finding.line}:{finding.column} {finding.severity} {finding.code}" in whole
    # What else a reader might look at: the sums, and one error for the input that was not there.
    assert (suites.tests, suites.failures, suites.errors) == (11, 7, 1)
    root = ElementTree.fromstring(junit.render(reports, UNUSABLE))
    assert root[-1][0][0].attrib == {"type": "unusable", "message": UNUSABLE[0]}


def test_junit_skips_what_hangs_on_a_failed_step() -> None:
    example = Path(__file__).parent.parent / "example_paths" / "one-slip" / "digit-misread.path"
    report = audit(example.read_text(encoding="utf-8"))
    skipped = [case for suite in JUnitXml.fromstring(junit.render([report]).encode()) for case in suite if case.is_skipped]
    fallen = [step for step in report.steps if step.verdict == "fallen"]
    assert len(fallen) == 2 and [int(case.name.split(":")[0].split()[1]) for case in skipped] == [step.step for step in fallen]
    for case in skipped:
        (result,) = case.result
        assert isinstance(result, Skipped) and result.message == "fallen: hangs on step 4"


def _sarif_schema() -> Any:
    name = "sarif-schema-2.1.0.json"
    root = Path(__file__).parent.parent
    places = [os.environ.get("STEPWARRANT_SHARED"), *(folder / "shared" for folder in root.parents), "/work/shared"]
    for place in places:
        if place and (file := Path(place) / name).is_file():
            return json.loads(file.read_text(encoding="utf-8"))
    pytest.skip(f"{name} is not beside the checkout (../shared), nor in the folder that STEPWARRANT_SHARED names")


def test_sarif_is_valid(reports: list[Report]) -> None:
    schema = _sarif_schema()
    for log in (sarif.document(reports, UNUSABLE), sarif.document([])):
        jsonschema.Draft4Validator(schema, format_checker=jsonschema.FormatChecker()).validate(log)


def test_sarif_tells_the_same(reports: list[Report], told: list[Any]) -> None:
    (run,) = sarif.document(reports, UNUSABLE)["runs"]
    rules = run["tool"]["driver"]["rules"]
    sources = {report.file: report.source for report in reports}
    shown = []
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
        assert result["level"] == rules[result["ruleIndex"]]["defaultConfiguration"]["level"] == SEVERITY[result["ruleId"]]
        place = result["locations"][0]["physicalLocation"]
        file, region = unquote(place["artifactLocation"]["uri"]), place["region"]
        assert place["artifactLocation"]["uriBaseId"] == "%SRCROOT%"
        line = sources[file][region["startLine"] - 1]
        assert region["endLine"] == region["startLine"] and region["endColumn"] <= len(line) + 1
        assert region.get("snippet", {"text": ""})["text"] == line[region["startColumn"] - 1 : region["endColumn"] - 1]
        shown.append((file, region["startLine"], region["startColumn"], result["ruleId"]))
        for fix in result.get("fixes", []):
            for replacement in fix["artifactChanges"][0]["replacements"]:
                deleted, added = replacement["deletedRegion"], replacement["insertedContent"]["text"]
                was = line[deleted["startColumn"] - 1 : deleted["endColumn"] - 1]
                put, left = f"Put `{added}` in place of `{was}`.", f"Leave out `{was.strip(' ,;')}`."
                assert fix["description"]["text"] == (put if added else left)
    assert [(f, line, min(column, len(sources[f][line - 1]) + 1), code) for f, line, column, code in told] == shown
    assert run["columnKind"] == "unicodeCodePoints"
    assert run["invocations"][0]["executionSuccessful"] is False
    assert run["invocations"][0]["toolExecutionNotifications"][0]["message"]["text"] == UNUSABLE[0]
    assert [rule["id"] for rule in rules] == list(SEVERITY) and all(rule["help"]["text"] for rule in rules)


def test_a_colon_in_a_file_name_is_no_scheme(reports: list[Report], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    uris = [file["location"]["uri"] for file in sarif.document(reports)["runs"][0]["artifacts"]]
    assert uris[0] == "ways%20%26%20means%20%3C%C3%A9%3E.path" and uris[3] == "deep/a%3Ab.path"
    outside = audit("", name="/elsewhere/x.path")
    assert sarif.document([outside])["runs"][0]["artifacts"][0]["location"] == {"uri": "file:///elsewhere/x.path"}


def test_fingerprints_do_not_hang_on_the_line(reports: list[Report]) -> None:
    def prints(content: str) -> list[str]:
        results = sarif.document([audit(content, name="x.path")])["runs"][0]["results"]
        return [result["partialFingerprints"]["stepwarrantFinding/v1"] for result in results if result["level"] != "note"]

    slip = "r2c1 = 3 because hidden single in b2"
    first = prints(GRID + f"steps:\n{slip}\n")
    assert first == prints(GRID + "\n\nsteps:\n# moved\n4. [1:02]  R2C1 =  3 because hidden single in b2  # why\n")
    assert first != prints(GRID + "steps:\nr2c1 = 3 because hidden single in c1 c2\n")
    twice = prints(GRID + "steps:\nr9c9 = 1\nr9c9 = 1\n")
    assert len(set(twice)) == 2 and twice[0].split(":")[0] == twice[1].split(":")[0]


def run(*arguments: str | Path, cwd: Path, **more: Any) -> subprocess.CompletedProcess[str]:
    done = subprocess.run([COMMAND, *arguments], cwd=cwd, capture_output=True, text=True, timeout=120, check=False, **more)
    assert "Traceback" not in done.stdout + done.stderr
    return done


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "slip.path").write_text(GRID + "steps:\nr2c1 = 3 because hidden single in b2\n")
    return tmp_path


def test_several_at_once(folder: Path) -> None:
    done = run("audit", "slip.path", "--format", "sarif=a.sarif", "--format", "text", "--format", "junit=b.xml", cwd=folder)
    assert done.returncode == 1 and "cell-outside-house" in done.stdout and done.stderr == ""
    assert json.loads((folder / "a.sarif").read_text())["version"] == "2.1.0"
    assert JUnitXml.fromfile(str(folder / "b.xml")).failures == 1
    done = run("audit", "slip.path", "--format", "sarif=a.sarif", "--format", "json", "--output", "c.json", cwd=folder)
    assert (done.returncode, done.stdout) == (1, "") and json.loads((folder / "c.json").read_text())["version"] == 1


@pytest.mark.parametrize("form", ["text", "oneline", "json", "jsonl", "sarif", "junit"])
@pytest.mark.parametrize(("name", "status"), [("slip.path", 1), ("none.path", 2), ("sound.path", 0)])
def test_the_exit_status_never_depends_on_the_format(folder: Path, form: str, name: str, status: int) -> None:
    (folder / "sound.path").write_text(FILES["deep/sound.path"])
    assert run("audit", name, "--format", form, cwd=folder).returncode == status


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--format", "sarif", "--format", "text"], "all but one name their file"),
        (["--format", "sarif=x", "--output", "y"], "nothing is left for --output"),
        (["--format", "sarif=x", "--format", "json=x"], "the same file"),
        (["--format", "sarif="], "a file was expected"),
        (["--format", "postcard"], "is not one of text, oneline"),
        (["--format", "json", "--expect"], "leave out --format"),
    ],
)
def test_a_call_that_asks_for_what_cannot_be(folder: Path, arguments: list[str], said: str) -> None:
    done = run("audit", "slip.path", *arguments, cwd=folder)
    assert done.returncode == 2 and done.stdout == "" and said in " ".join(done.stderr.split())
    assert [path.name for path in folder.iterdir()] == ["slip.path"]


def _no_room() -> None:
    """From here on this process can write no file longer than a hundred characters, as on a disk that is full."""
    import resource
    import signal

    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))


def test_a_full_disk_leaves_the_old_report(folder: Path) -> None:
    (folder / "good.json").write_text("old")
    before = (folder / "slip.path").read_text()
    done = run("audit", "slip.path", "--format", "json=good.json", "--format", "oneline", cwd=folder, preexec_fn=_no_room)
    assert done.returncode == 2 and done.stderr == "stepwarrant: good.json: File too large\n"
    assert done.stdout.startswith("slip.path:3:1: cell-outside-house ")
    assert {path.name: path.read_text() for path in folder.iterdir()} == {"good.json": "old", "slip.path": before}
    if Path("/dev/full").exists():
        done = run("audit", "slip.path", "--format", "json", "--output", "/dev/full", cwd=folder)
        assert done.returncode == 2 and done.stderr == "stepwarrant: /dev/full: No space left on device\n"
        assert not Path("/dev/full").is_file()


def test_a_report_never_takes_the_place_of_an_input(folder: Path) -> None:
    before = (folder / "slip.path").read_text()
    done = run("audit", "slip.path", "--output", "./slip.path", cwd=folder)
    assert done.returncode == 2 and "would take the place of this input" in done.stderr
    assert (folder / "slip.path").read_text() == before


def test_a_link_stays_a_link(folder: Path) -> None:
    (folder / "real.txt").write_text("old")
    (folder / "link.txt").symlink_to("real.txt")
    assert run("audit", "slip.path", "--output", "link.txt", cwd=folder).returncode == 1
    assert (folder / "link.txt").is_symlink() and "cell-outside-house" in (folder / "real.txt").read_text()
