"""An audit: read a path, replay it, and put what was found into one frozen report."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from functools import cache
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any, Literal

from ..grammar.line import LineReader
from ..grammar.reader import read_grid, read_path
from ..grammar.statements import Blank, Grid, Path, Problem, Reason, Span, Step, Unread
from ..grammar.vocabulary import Fact
from ..grammar.vocabulary import geometry as usual
from ..grammar.writer import write_time
from ..sat.oracle import BUDGET
from .board import Board
from .catalogue import FORMS
from .findings import Finding, order
from .givens import clash
from .judge import Effected, Judge, Judged
from .puzzle import Puzzle, Standing
from .replay import Replay, Replayed, Trust

if TYPE_CHECKING:
    from ..grammar.reading import Sentences
    from .places import Change
    from .weighing import Advice, Repair

    Advised = Callable[[Puzzle, Sequence[Replayed]], dict[int, Advice]]

Kind = Literal["path", "steps", "narration", "srt", "vtt"]
"""What a text is: a path, JSON lines with one step a line, prose, SubRip or WebVTT captions."""

KINDS: dict[str, Kind] = {".jsonl": "steps", ".txt": "narration", ".md": "narration", ".srt": "srt", ".vtt": "vtt"}
"""What files with these suffixes are; others are paths."""

NO_GRID = "none"
"""Stands for a puzzle that is not known."""


class Unusable(Exception):
    """An input that cannot be audited at all; the text says why, in one line."""


@dataclass(frozen=True)
class StepReport:
    """One counted statement: its place in the count, line and time (seconds), and what became of it.

    ``number``: the one the writer gave it. ``board``: before it, and ``after`` it. ``reading``: with every unsaid part of the
    reason worked out. ``warrant``: all that the reason cites; ``facts``: what the proofs lean on. Words as in the JSON report.
    """

    step: int
    number: int | None
    line: int
    time: float | None
    verdict: str
    technique: str | None
    effects: tuple[Effected, ...]
    facts: tuple[Fact, ...]
    hangs_on: int | None
    board: Board
    reading: Step | None
    after: Board
    warrant: tuple[Fact, ...]

    def to_json(self) -> dict[str, Any]:
        """The step as in the JSON report."""
        document: dict[str, Any] = {
            "step": self.step,
            "number": self.number,
            "line": self.line,
            "time": self.time,
            "verdict": self.verdict,
            "technique": self.technique,
            "effects": [
                {
                    "cell": str(effect.claim.candidate.cell),
                    "is" if effect.claim.holds else "not": effect.claim.candidate.digit,
                    "verdict": effect.verdict,
                }
                for effect in self.effects
            ],
            "facts": [str(fact) for fact in self.facts],
        }
        return document if self.hangs_on is None else {**document, "hangsOn": self.hangs_on}


@dataclass(frozen=True)
class Report:
    """What the audit of one path found.

    ``solutions``: one, many, none, unknown or no-grid. ``ending``: solved, stops-short, contradiction, or None where nothing
    was replayed. ``source``: the file's lines. ``sentences``: of each kind how many, where prose was read.
    """

    file: str
    path: Path
    solutions: str
    ending: str | None
    steps: tuple[StepReport, ...]
    findings: tuple[Finding, ...]
    source: tuple[str, ...]
    sentences: Sentences | None = None

    @property
    def givens(self) -> str | None:
        """The grid, one character a cell, or None."""
        return str(self.path.grid) if self.path.grid else None

    @property
    def worst(self) -> str | None:
        """The gravest severity among the findings."""
        severities = {finding.severity for finding in self.findings}
        return next((severity for severity in ("error", "warning", "note") if severity in severities), None)

    @property
    def exit_status(self) -> int:
        """0 no error and no warning; 1 findings; 2 no grid to audit on; 3 gave up within the limits set."""
        if self.solutions == "no-grid" and not any(finding.code == "deductions-unchecked" for finding in self.findings):
            return 2
        if any(finding.code == "gave-up" for finding in self.findings):
            return 3
        return 1 if self.worst in ("error", "warning") else 0

    def to_json(self) -> dict[str, Any]:
        """This file's part of the JSON report."""
        document: dict[str, Any] = {
            "file": self.file,
            "puzzle": {"givens": self.givens, "solutions": self.solutions},
            "ending": self.ending,
            "steps": [step.to_json() for step in self.steps],
            "findings": [_finding_json(finding) for finding in self.findings],
        }
        return document if self.sentences is None else {**document, "sentences": asdict(self.sentences)}


def _finding_json(finding: Finding) -> dict[str, Any]:
    document: dict[str, Any] = {
        "code": finding.code,
        "severity": finding.severity,
        "step": finding.step,
        "line": finding.line,
        "column": finding.column,
        "endColumn": finding.end_column,
        "time": finding.time,
        "message": finding.message,
        "help": finding.help,
        "dependants": [step for step, _ in finding.dependants],
        "holdsAfter": finding.holds_after,
        "repairs": [_repair_json(repair) for repair in finding.repairs],
    }
    return document if finding.cue is None else {**document, "cue": finding.cue}


def _repair_json(repair: Repair) -> dict[str, Any]:
    first, *others = map(_change_json, repair.changes)
    return {**first, "applies": repair.applies, "also": others}


def _change_json(change: Change) -> dict[str, Any]:
    return {"line": change.span.line, "column": change.span.column, "endColumn": change.span.end, "text": change.text}


def audit(
    text: str,
    *,
    grid: str | Grid | None = None,
    name: str = "-",
    conflicts: int = BUDGET,
    advice: bool = False,
    kind: Kind = "path",
) -> Report:
    """Audit a text, which is of the ``kind``.

    ``grid``: the puzzle, for a text without one or instead of its own; cells row by row. With ``"none"``, no puzzle is used:
    the steps are only held against each other. ``conflicts``: what one question to the solver may cost. ``advice``: note where
    an easier step was open. Raises ValueError for a ``grid`` that is none. Whatever the text says becomes findings.
    """
    alone = grid == NO_GRID
    if alone:
        grid = None
    if isinstance(grid, str):
        read = read_grid(grid)
        if isinstance(read, Problem):
            raise ValueError("grid: not a board of 16, 36, 81 or 256 cells")
        grid = read
    source = _lines(text)
    if kind in ("narration", "srt", "vtt"):
        return _narrated(text, kind, grid, name, conflicts, alone=alone)
    path = _read(text, kind, grid)
    if alone:
        return held_together(path, name, source, conflicts)
    findings = [Finding(problem) for problem in (*path.problems, *_out_of_order(path))]
    board = path.grid
    if board is None:
        if not any(problem.code == "grid-malformed" for problem in path.problems):
            findings.append(Finding(Problem("no-grid", Span(1, 1, 2))))
        return Report(name, path, "no-grid", None, (), _sorted(findings), source)
    clashing = clash(board)
    if clashing is not None:
        return Report(name, path, "none", None, (), _sorted([*findings, Finding(clashing)]), source)
    report = Report(name, path, "unknown", None, (), tuple(findings), source)

    def advised(puzzle: Puzzle, steps: Sequence[Replayed]) -> dict[int, Advice]:
        from .repair import advise

        return advise(path, puzzle, steps, source, _reader())

    return _replayed(report, board, conflicts, easier=advice, advised=advised if kind == "path" else None)


def _out_of_order(path: Path) -> Iterator[Problem]:
    """Numbers and times that are not after the one before them."""
    number: int | None = None
    time: float | None = None
    for statement in path.statements:
        if isinstance(statement, Blank):
            continue
        if statement.number is not None:
            if number is not None and statement.number <= number:
                yield Problem("out-of-order", statement.span, {"told": f"{statement.number}.", "before": f"{number}."})
            number = statement.number
        if statement.time is not None:
            if time is not None and statement.time < time:
                told, before = write_time(statement.time).strip(), write_time(time).strip()
                yield Problem("out-of-order", statement.span, {"told": told, "before": before})
            time = statement.time


def held_together(path: Path, name: str, source: tuple[str, ...], conflicts: int = BUDGET, *, plainly: bool = False) -> Report:
    """The steps of a path held against each other, without any puzzle; one in the path only says how large the board is.

    ``plainly``: only what their effects spell out.
    """
    from .agreement import agree, claimed

    geometry = path.grid.geometry if path.grid else usual(9)
    header = tuple(entry for entry in path.header if getattr(entry, "key", None) != "grid")
    problems = tuple(problem for problem in path.problems if problem.code != "grid-malformed")
    path = replace(path, header=header, problems=problems)
    findings = [*map(Finding, problems), *agree(path, geometry, conflicts, plainly=plainly)]
    board = Board.of(geometry, ())
    steps = []
    for told in claimed(path, geometry, plainly=plainly):
        effects = tuple(
            Effected(claim, span, span, "unknown") for claim, span in told.claims.items() if claim not in told.implied
        )
        judged = Judged("unread" if isinstance(told.statement, Unread) else "unknown", effects=effects)
        steps.append(_step_report(Replayed(told.number, told.statement, judged, board, board), board))
    return Report(name, path, "no-grid", None, tuple(steps), _sorted(findings), source)


def _lines(text: str) -> tuple[str, ...]:
    return tuple(text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n"))


def _narrated(text: str, kind: Kind, grid: Grid | None, name: str, conflicts: int, *, alone: bool) -> Report:
    """Audit a narration: its words become a path, which is audited as any other."""
    from . import narrated

    transcript = narrated.read_source(text, kind)
    board = grid or transcript.grid
    findings = [Finding(problem) for problem in transcript.problems if grid is None or problem.code != "grid-malformed"]
    empty = Report(name, Path((), ()), "no-grid", None, (), (), _lines(text))
    if alone:
        path, sentences = narrated.literal(transcript, board.geometry if board else usual(9))
        report = held_together(path, name, empty.source, conflicts, plainly=True)
        report = replace(report, findings=(*findings, *report.findings), sentences=sentences)
        return narrated.told_as_narration(report, transcript)
    if board is None:
        if not any(problem.code == "grid-malformed" for problem in transcript.problems):
            findings.append(Finding(Problem("no-grid", Span(1, 1, 2))))
        return replace(empty, findings=_sorted(findings))
    clashing = clash(board)
    if clashing is not None:
        return replace(empty, solutions="none", findings=_sorted([*findings, Finding(clashing)]))
    told = narrated.resolved(transcript, board, conflicts)
    report = replace(empty, path=told.path, findings=tuple(findings), sentences=told.sentences)

    def advised(puzzle: Puzzle, steps: Sequence[Replayed]) -> dict[int, Advice]:
        from .retelling import Retelling

        return Retelling(told.path, puzzle, steps, transcript, told.readings).advise()

    return narrated.told_as_narration(
        _replayed(report, board, conflicts, easier=False, advised=advised, trusting=told.may_have_told),
        transcript,
        told.readings,
    )


def audit_file(path: str | os.PathLike[str], *, grid: str | Grid | None = None) -> Report:
    """Audit a file, by its suffix. Raises Unusable for one that cannot be read or is no UTF-8 text."""
    return audit(read_text(path), grid=grid, name=os.fspath(path), kind=kind_of(os.fspath(path)))


def kind_of(name: str) -> Kind:
    """What a file is, by its suffix."""
    return KINDS.get(FilePath(name).suffix.lower(), "path")


def _read(text: str, kind: Kind, grid: Grid | None) -> Path:
    if kind == "steps":
        from ..grammar.stream import read_stream

        return read_stream(text, _reader(), grid)
    return read_path(text, _reader(), grid)


def read_text(path: str | os.PathLike[str]) -> str:
    """A file's text. Raises Unusable, with the reason in one line."""
    try:
        content = FilePath(path).read_bytes()
    except OSError as error:
        raise Unusable(f"{os.fspath(path)}: {error.strerror or error}") from error
    return decode(content, os.fspath(path))


def decode(content: bytes, name: str) -> str:
    """Bytes as UTF-8 text. Raises Unusable, naming the first place that is none."""
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise Unusable(f"{name}: not UTF-8 text (it looks like UTF-16); save it as UTF-8")
    if b"\0" in content:
        line = content.count(b"\n", 0, content.index(b"\0")) + 1
        raise Unusable(f"{name}: not a text file: a NUL byte on line {line}")
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        before = content[: error.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        byte = content[error.start]
        where = f"byte 0x{byte:02x} on line {line}, column {column}"
        raise Unusable(f"{name}: not UTF-8 text: {where}; save it as UTF-8") from error


def read_only(text: str) -> Path:
    """A path with all its statements, not replayed."""
    return read_path(text, _reader())


@cache
def _reader() -> LineReader:
    return LineReader(FORMS)


def _replayed(
    report: Report, grid: Grid, conflicts: int, *, easier: bool, advised: Advised | None, trusting: Trust | None = None
) -> Report:
    """``easier``: note where an easier step was open. ``advised``: looks for repairs of the failed steps. ``trusting``: see
    ``Replay``.
    """
    puzzle = Puzzle(grid, conflicts)
    try:
        findings = [*report.findings, *map(Finding, _about_puzzle(puzzle, grid, report.path))]
        replay = Replay(report.path, puzzle, trusting=trusting)
        ending = replay.run()
    finally:
        puzzle.oracle.close()
    steps = replay.steps
    if puzzle.status in ("none", "many"):
        steps = _up_to_first(steps, "contradictory-warrant" if puzzle.status == "none" else "effect-refuted")
    if puzzle.status == "one" and any(note.code == "no-reason" for step in steps for note in step.judged.notes):
        from .warrants import with_warrants

        steps = with_warrants(steps, puzzle)
    if easier and puzzle.status == "one":
        from .openings import with_easier

        steps = with_easier(steps, puzzle)
    dependants: dict[int, list[tuple[int, int]]] = {}
    for step in steps:
        if step.hangs_on is not None:
            dependants.setdefault(step.hangs_on, []).append((step.number, step.statement.span.line))
    advice: dict[int, Advice] = {}
    if advised and puzzle.status == "one" and any(step.judged.problems for step in steps):
        advice = advised(puzzle, steps)
    for step in steps:
        findings += _findings_of(step, tuple(dependants.get(step.number, ())), advice.get(step.number))
    if ending.problem is not None and puzzle.solutions:
        problem = ending.problem._replace(details={**ending.problem.details, "next": _next(puzzle, replay.standing)})
        findings.append(Finding(problem, steps[-1].number if steps else None))
    afters = [*(step.before for step in steps[1:]), ending.board]
    reports = tuple(map(_step_report, steps, afters))
    return replace(report, solutions=puzzle.status, ending=ending.kind, steps=reports, findings=_sorted(findings))


def _next(puzzle: Puzzle, standing: Standing) -> Step | None:
    """An easy step that the board has ready where a path stops short."""
    from .openings import openings

    if puzzle.status != "one":
        return None
    with puzzle.at(standing.board) as there:
        return next((opening.step for opening in openings(Judge(Standing(standing.board), there, brief=True))), None)


def _about_puzzle(puzzle: Puzzle, grid: Grid, path: Path) -> list[Problem]:
    span = next((entry.span for entry in path.header if getattr(entry, "value", None) is grid), Span(1, 1, 2))
    span = span if span.line else Span(1, 1, 2)
    if puzzle.status == "none":
        return [Problem("no-solution", span)]
    if puzzle.status == "unknown":
        return [Problem("gave-up", span, {"claim": None})]
    if puzzle.status == "many":
        one, other = (dict(solution) for solution in puzzle.solutions)
        differ = [cell for cell in grid.geometry.cells if one[cell] != other[cell]]
        cell = differ[0]
        details = {"cell": cell, "digits": (one[cell], other[cell]), "differ": len(differ)}
        return [Problem("several-solutions", span, details)]
    return []


def _up_to_first(steps: Sequence[Replayed], code: str) -> list[Replayed]:
    """On a puzzle without one solution, only the first place where that shows is worth showing.

    Without a solution that is a warrant that contradicts itself, and nothing can be held against the truth before it. With
    several, it is an effect that holds in some of them only, and what is told after it leans on it.
    """
    shown: list[Replayed] = []
    found = False
    for step in steps:
        here = any(problem.code == code for problem in step.judged.problems)
        sound = step.judged.verdict in ("warranted", "unread")
        keep = not found and (here or code == "effect-refuted")
        found = found or here
        if not (keep or sound):
            verdict = "unknown" if code == "contradictory-warrant" else step.judged.verdict
            step = step._replace(judged=step.judged._replace(verdict=verdict, problems=(), also=(), notes=()))
        shown.append(step)
    return shown


def _findings_of(step: Replayed, dependants: tuple[tuple[int, int], ...], advice: Advice | None) -> list[Finding]:
    judged, time = step.judged, step.statement.time
    found = [Finding(problem, step.number, time) for problem in judged.problems]
    if found:
        known = (advice.repairs, advice.holds_after) if advice else ()
        found[0] = Finding(judged.problems[0], step.number, time, judged.also, dependants, *known)
    return found + [Finding(note, step.number, time) for note in judged.notes]


def _step_report(step: Replayed, after: Board) -> StepReport:
    statement, judged = step.statement, step.judged
    return StepReport(
        step.number,
        statement.number,
        statement.span.line,
        statement.time,
        judged.verdict,
        judged.technique or _technique(getattr(statement, "reason", None)),
        judged.effects,
        judged.facts,
        step.hangs_on,
        step.before,
        judged.reading,
        after,
        judged.warrant,
    )


def _technique(reason: Reason | None) -> str | None:
    return reason.name.value if reason else None


def _sorted(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=order))
