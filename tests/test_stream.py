"""JSON lines, one step a line: read like the path language, with places in the JSON text; and a small solver put to it."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_solver import BUGS, Solver
from strategies import cases, steps

from stepwarrant.checker import Report, audit, audit_file
from stepwarrant.checker.catalogue import FORMS
from stepwarrant.grammar.line import LineReader
from stepwarrant.grammar.reader import read_path
from stepwarrant.grammar.statements import Say, Step
from stepwarrant.grammar.stream import PARTS, read_stream, schema
from stepwarrant.grammar.vocabulary import geometry
from stepwarrant.grammar.writer import write_effect, write_reason, write_statement

ROOT = Path(__file__).parent.parent
COMMAND = str(Path(sys.executable).with_name("stepwarrant"))
READER = LineReader(FORMS)
SCHEMA = jsonschema.Draft202012Validator(schema())
GRID = '{"grid": ".23.......4..3.1"}\n'
SOUND = GRID + '{"effects": ["r2c1 = 3"], "reason": "hidden single in b1"}\n'
GIVENS = {path.stem: audit_file(path).givens or "" for path in sorted((ROOT / "example_paths" / "sound").glob("*.path"))}
LARGE = {name: givens for name, givens in GIVENS.items() if len(givens) == 81}


def stream(text: str, **more: Any) -> Report:
    return audit(text, kind="steps", **more)


def marked(report: Report) -> list[tuple[str, int, str]]:
    """Code and line of each finding but the notes, and the text it points at."""
    return [
        (finding.code, finding.line, report.source[finding.line - 1][finding.column - 1 : finding.end_column - 1])
        for finding in report.findings
        if finding.severity != "note"
    ]


# What a line may hold


def as_json(step: Step, parts: bool) -> dict[str, Any]:
    """The step as a program would write it: the reason in the path language, or by its parts."""
    line: dict[str, Any] = {"number": step.number, "time": step.time}
    if step.reason is not None and not parts:
        line["reason"] = write_reason(step.reason)
    elif step.reason is not None:
        line["pattern"] = step.reason.name.value
        names = {word: name for name, word in PARTS.items()}
        line["parts"] = {
            names[slot.word]: [_plain(said.value) for said in slot.values] for slot in reversed(step.reason.slots)
        }
    # Members in any order: here the reason stands before what it is for.
    return {**line, "effects": [write_effect(effect) for effect in step.effects]}


def _plain(value: Any) -> str | int:
    return "?" if value is None else value if isinstance(value, int) else str(value)


@cases(120)
@given(st.sampled_from([4, 9, 16]).flatmap(lambda size: st.tuples(st.just(size), steps(geometry(size)))), st.booleans())
def test_a_line_reads_as_its_statement(case: tuple[int, Step], parts: bool) -> None:
    """Whatever can be said in the path language is read alike from a line of JSON, however that is written."""
    size, step = case
    grid = "." * size * size
    line = as_json(step, parts)
    SCHEMA.validate(line)
    expected = read_path("\n".join([f"grid: {grid}", "steps:", *write_statement(step)]) + "\n", READER)
    wide = json.dumps(line)
    for text in (wide, json.dumps(line, separators=(",", ":")), wide.replace("c", "\\u0063")):
        path = read_stream(f'{{"grid": "{grid}"}}\n{text}\n', READER)
        assert path.statements == expected.statements == (step,)
        assert path.grid == expected.grid and not path.problems


def test_effects_as_objects_and_facts_by_themselves() -> None:
    lines = [
        {"effects": {"cell": "r2c1", "is": 3}, "facts": ["3 in b1"]},
        {"effects": [{"not": [1, 2], "cell": ["r1c1", "r1c2"]}, "r1c4 = 4"], "facts": "r1c4"},
        {"effects": "...", "pattern": "chain", "parts": {"of": ["r1c1 is 1", "r1c2 is not 1"]}, "say": "one,\n two"},
        {"say": "and done", "time": 4},
    ]
    for line in lines:
        SCHEMA.validate(line)
    path = read_stream("\n".join(map(json.dumps, lines)), READER)
    told = """steps:
        r2c1 = 3 because facts 3 in b1
        r1c1 r1c2 not 1 2; r1c4 = 4 because facts r1c4
        ... because chain r1c1 is 1 then r1c2 not 1
        say: one, two
        [0:04] say: and done
    """
    assert path.statements == read_path(told, READER).statements[:5] and isinstance(path.statements[-1], Say)


# Where a finding points


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ('{"effects": ["r2c1 = 3"], "reason": "hidden single in b2"}', ("cell-outside-house", "r2c1")),
        ('{"reason": "hidden single in b2", "effects": [{"is": 3, "cell": "r2c1"}]}', ("cell-outside-house", "r2c1")),
        ('{"effects": "r2c1 = 3", "reason": "hidden single in b\\u0039"}', ("no-such-house", "b\\u0039")),
        ('{"effects": "r1c4 = 4", "pattern": "naked singel"}', ("unknown-word", "singel")),
        ('{"effects": {"cell": "r1c4", "is": 7}, "pattern": "naked single"}', ("no-such-digit", "7")),
        ('{"effects": "r1c4 = 4", "pattern": "naked single", "parts": {"pivot": "r1c4"}}', ("unreadable-line", '"pivot"')),
        ('{"effects": "r1c4 = 4", "pattern": "naked single", "colour": "red"}', ("unknown-key", '"colour"')),
        ('{"effects": {"cell": "r1c4", "is": 4, "why": ""}, "pattern": "naked single"}', ("unknown-key", '"why"')),
        ('{"effects": "r1c4 = 4", "pattern": "naked single", "parts": {"house": "r1"}}', ("unknown-key", '"house"')),
        ('{"effects": "r1c4 = 4", "reason": "naked single", "facts": ["r1c4"]}', ("unreadable-line", '"facts"')),
        ('{"effects": "r1c4 = 4", "effects": "r2c1 = 3"}', ("unreadable-line", '"effects"')),
        ('{"effects": "r1c4 = 4", "parts": {"in": "r1"}}', ("unreadable-line", '"parts"')),
        ('{"effects": []}', ("unreadable-line", "[]")),
        ('{"effects": null}', ("unreadable-line", "null")),
        ('{"effects": [["r1c4 = 4"]]}', ("unreadable-line", '["r1c4 = 4"]')),
        ('{"effects": {"cell": "r1c4"}}', ("unreadable-line", '{"cell": "r1c4"}')),
        ('{"effects": {"cell": "r1c4", "is": 4.0}}', ("unreadable-line", "4.0")),
        ('{"effects": "r1c4 = 4", "number": -1}', ("unreadable-line", "-1")),
        ('{"effects": "r1c4 = 4", "time": 1e999}', ("unreadable-line", "1e999")),
        ('{"effects": "r1c4 = 4", "say": true}', ("unreadable-line", "true")),
        ('{"reason": "naked single"}', ("unreadable-line", "}")),
        ("{}", ("unreadable-line", "}")),
        ("[1]", ("unreadable-line", "[")),
        ("r1c4 = 4 because naked single", ("unreadable-line", "r1c4")),
        ('{"effects": "r1c4 = 4",}', ("unreadable-line", "}")),
        ('{"effects": "r1c4 = 4"} {}', ("unreadable-line", "{")),
        ('{"effects": "r1c4 = 4"', ("unreadable-line", "")),
        ('{"effects": "r1c4 = 4', ("unreadable-line", '"')),
        ('{"effects": "r1c4 = \\x4"}', ("unreadable-line", '"')),
        ("{'effects': 'r1c4 = 4'}", ("unreadable-line", "'")),
        ('{"effects": "r1c4 = 4", "number": ' + "9" * 9000 + "}", ("unreadable-line", "9" * 9000)),
        ('{"effects": ' + "[" * 7000 + "]" * 7000 + "}", ("unreadable-line", "[" * 6999 + "]" * 6999)),
        ('{"effects": "' + "r1c4 " * 4000 + '"}', ("unreadable-line", "{")),
        ('{"effects": "r1c4 = \\ud800"}', ("unreadable-line", "\\ud800")),
        ('{"grid": "4..............."}', ("grid-malformed", '"4..............."')),
        ('{"grid": 5}', ("grid-malformed", "5")),
    ],
)
def test_one_finding_at_the_value_and_the_next_line_is_still_checked(line: str, found: tuple[str, str]) -> None:
    code, text = found
    report = stream(GRID + line + '\n{"effects": "r3c4 = 3", "reason": "hidden single in c1"}\n')
    assert marked(report) == [(code, 2, text), ("cell-outside-house", 3, "r3c4")]
    assert all(finding.message for finding in report.findings)


def test_a_step_with_a_reason_that_cannot_be_read_still_counts_for_the_next_ones() -> None:
    report = stream(GRID + '{"effects": "r2c1 = 3", "facts": [true]}\n{"effects": "r1c1 not 3", "reason": "naked single"}\n')
    assert marked(report) == [("unreadable-line", 2, "true"), ("already-done", 3, "r1c1")]


def test_the_puzzle() -> None:
    """On any line, once; the same one again is no matter, and --grid wins over it."""
    assert stream(SOUND + GRID).findings[0].code == "stops-short"
    assert marked(stream(SOUND + '{"grid": "1..............."}')) == [("grid-malformed", 3, '"1..............."')]
    assert stream(SOUND.removeprefix(GRID)).exit_status == 2
    assert stream(SOUND.removeprefix(GRID), grid=".23.......4..3.1").exit_status == 0
    assert marked(stream('{"grid": ".2x.......4..3.1"}')) == [("grid-malformed", 1, "x")]
    assert marked(stream('{"grid": "\\u002e22....2..4..3.1"}\n')) == [("givens-clash", 1, "2")]


@cases(25)
@given(st.recursive(st.none() | st.booleans() | st.integers() | st.floats() | st.text(), st.lists, max_leaves=4))
def test_any_values_give_a_report(value: Any) -> None:
    for name in ("effects", "reason", "pattern", "parts", "facts", "number", "time", "say", "grid", "other"):
        line = json.dumps({"effects": "r2c1 = 3", name: value})
        for text in (line, line[:-1], json.dumps({"effects": "r2c1 = 3", "pattern": "chain", "parts": {name: value}})):
            report = stream(GRID + text)
            assert json.dumps(report.to_json()).encode("utf-8")
            assert all(finding.line in (1, 2) and finding.message.encode("utf-8") for finding in report.findings)


# On the command line


def run(*arguments: str, stdin: str) -> subprocess.CompletedProcess[str]:
    command = [COMMAND, "audit", *arguments]
    done = subprocess.run(command, input=stdin, capture_output=True, text=True, timeout=60, check=False)
    assert "Traceback" not in done.stderr
    return done


def test_standard_input_tells_by_its_first_character(tmp_path: Path) -> None:
    assert run("-", stdin="\n  " + SOUND).returncode == 0
    assert run("-", "--as", "steps", stdin=SOUND).returncode == 0
    assert run("-", "--as", "path", stdin=SOUND).returncode == 2
    assert run("-", "--as", "steps", stdin="x\n" + SOUND).returncode == 1
    (tmp_path / "told.jsonl").write_text(SOUND)
    assert run(str(tmp_path / "told.jsonl"), stdin="").returncode == 0
    assert audit_file(tmp_path / "told.jsonl").steps[0].verdict == "warranted"
    done = run("-", "--spell-out", stdin=SOUND)
    assert done.stdout == "grid:\n  .2 3.\n  .. ..\n  .. 4.\n  .3 .1\nsteps:\nr2c1 = 3 because hidden single in b1\n"


# A solver


@pytest.mark.parametrize("name", sorted(LARGE))
def test_every_step_of_a_small_solver_is_warranted(name: str) -> None:
    lines = [{"grid": LARGE[name]}, *Solver(LARGE[name]).lines()]
    for line in lines:
        SCHEMA.validate(line)
    report = stream("\n".join(map(json.dumps, lines)))
    assert len(report.steps) == len(lines) - 1 >= 10
    assert {step.verdict for step in report.steps} == {"warranted"} and report.worst in (None, "note")


def test_the_small_solver_uses_all_it_knows() -> None:
    told = [line.get("pattern") or line.get("reason", "facts") for givens in LARGE.values() for line in Solver(givens).lines()]
    assert {word.split(" in ")[0] for word in told} == {"hidden single", "naked single", "pointing", "facts"}


@pytest.mark.parametrize("bug", BUGS)
def test_a_bug_planted_in_it_is_found_at_the_step_where_it_happens(bug: str) -> None:
    caught = 0
    for givens in LARGE.values():
        solver = Solver(givens, bug)
        lines = [{"grid": givens}]
        for line in solver.lines():
            lines.append(line)
            if solver.planted and len(lines) > solver.planted + 5:
                break  # what it makes of its own mistake is of no use to anyone
        report = stream("\n".join(map(json.dumps, lines)))
        grave = [finding.step for finding in report.findings if finding.severity != "note"]
        assert (grave[0] if grave else None) == solver.planted
        caught += bool(grave)
    assert caught >= 8


def test_the_solver_as_another_program() -> None:
    for bug, status in ((None, 0), (BUGS[0], 1)):
        command = [sys.executable, str(ROOT / "tests" / "small_solver.py"), LARGE["lamp-room-10"], *([bug] if bug else [])]
        told = subprocess.run(command, capture_output=True, text=True, timeout=60, check=True).stdout
        done = run("-", "--format", "oneline", stdin=told)
        assert done.returncode == status
        assert not bug or done.stdout.startswith("-:13:55: pattern-absent 3 has another place in box 1")


# The specification


def test_the_specification_and_the_schema_agree() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())
    block = (ROOT / "grammar" / "language.md").read_text(encoding="utf-8").partition("```jsonl\n")[2].partition("```")[0]
    for line in block.splitlines():
        SCHEMA.validate(json.loads(line))
    report = stream(block)
    assert len(report.steps) == 4 and {step.verdict for step in report.steps} == {"warranted"}
    assert set(PARTS) == set(schema()["properties"]["parts"]["properties"])
    for line in ({"effect": "r1c1 = 1"}, {"effects": []}, {"effects": "...", "reason": "x", "facts": ["r1c1"]}, {"effects": 3}):
        assert not SCHEMA.is_valid(line)
        assert stream(GRID + json.dumps(line)).worst in ("error", "warning")
