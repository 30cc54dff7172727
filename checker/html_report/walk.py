"""One audited walkthrough as the page's template and script want it: texts as they are shown, drawings as pieces."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Any, NamedTuple

from markupsafe import Markup

from ...grammar.statements import HeaderEntry, Marking, Say, Span
from ...grammar.writer import write_statement, write_time
from ..board import Board
from ..drawing import Piece, Sheet, over, sheet
from ..findings import Finding
from ..legible import legible
from ..report import Report, StepReport
from ..scenes import Scene, given_cells, scene, verdict
from ..text import summary
from ..weighing import Repair
from ..wording import claims

MOST = 5000
"""Findings shown of one file. The JSON report has them all."""


class Part(NamedTuple):
    """A stretch of text, and whether a finding points at it."""

    text: str
    guilty: bool


class Change(NamedTuple):
    """A line as a repair would have it: what stays before and after, what goes and what comes."""

    line: int
    before: str
    was: str
    text: str
    after: str
    safe: bool


class Shown(NamedTuple):
    """A finding on the page. ``id``: what a link to it says. ``source``: the line it is about."""

    id: str
    finding: Finding
    time: str
    source: tuple[Part, ...]
    changes: tuple[Change, ...]


class Row(NamedTuple):
    """A step in the list of steps."""

    step: int
    time: str
    verdict: str
    words: str


class Walk:
    """What the page shows of one report. ``prefix``: of the names of its parts, so that several can stand on one page."""

    def __init__(self, report: Report, prefix: str) -> None:
        self.report = report
        self.prefix = prefix
        self.file = legible(report.file)
        self.title = legible(_header(report, "title") or report.file)
        self.summary = legible(summary(report))
        self.sheet: Sheet | None = sheet(report.steps[0].board.geometry) if report.steps else None
        self.large = self.sheet is not None and self.sheet.geometry.size > 9
        self.givens = given_cells(report)
        self.hidden_findings = max(0, len(report.findings) - MOST)
        self._on: dict[int, list[Finding]] = defaultdict(list)
        for finding in report.findings:
            if finding.step is not None:
                self._on[finding.step].append(finding)

    @cached_property
    def findings(self) -> list[Shown]:
        """The findings, in their order."""
        return [
            Shown(
                f"{self.prefix}finding-{at}",
                finding,
                _time(finding.time),
                tuple(self._parts(finding.line, [finding.span])),
                tuple(change for repair in finding.repairs for change in self._changes(repair)),
            )
            for at, finding in enumerate(self.report.findings[:MOST], 1)
        ]

    @cached_property
    def rows(self) -> list[Row]:
        """The steps, as they are listed."""
        return [Row(step.step, _time(step.time), step.verdict, self._line(step.line).strip()) for step in self.report.steps]

    @cached_property
    def troubled(self) -> str:
        """Path data: a stroke at every step that is not warranted, on a line one unit a step."""
        return "".join(f"M{step.step - 0.5} 0V1" for step in self.report.steps if step.verdict != "warranted")

    @cached_property
    def prologue(self) -> list[str]:
        """What the narrator says before the first step."""
        return [legible(text) for text in self._said.get(0, [])]

    def board(self) -> Markup:
        """The boards of all steps in one, as SVG: every piece says in which cell it is (from 0, in reading order), from which
        board on it is there and from which on no longer. Board 0 is the one before the first step, board n that after the
        n-th; the first is the one to be seen.
        """
        assert self.sheet is not None
        drawn = []
        for piece, first, end in sorted(self._lives(), key=lambda life: (life[0].place, life[1])):
            life = f' data-cell="{self.sheet.cell_of(piece)}" data-from="{first}" data-to="{end}"'
            drawn.append(self.sheet.use(piece, life + (' class="off"' if first else "")))
        return Markup(f"{self.sheet.frame(self.givens)}<g></g><g>{''.join(drawn)}</g><g></g>")

    def counters(self) -> list[Markup]:
        """Every filling that refutes something, once, as SVG."""
        assert self.sheet is not None
        return [
            Markup(
                f"{self.sheet.frame(self.givens)}<g></g>"
                f"<g>{''.join(map(self.sheet.use, self.sheet.board(board, self.givens)))}</g><g></g>"
            )
            for board in self._fillings
        ]

    @cached_property
    def data(self) -> dict[str, Any]:
        """What the page's script needs: the symbols and places of the drawing, and the steps."""
        assert self.sheet is not None
        names: dict[str, int] = {}
        steps = [self._step(step, self._scenes[step.step], names) for step in self.report.steps]
        return {
            "prefix": self.sheet.prefix,
            "size": self.sheet.geometry.size,
            "places": [coordinate for place in self.sheet.places for coordinate in place],
            "symbols": [[name, int(over(name))] for name in names],
            "steps": steps,
        }

    def _step(self, step: StepReport, shown: Scene, names: dict[str, int]) -> dict[str, Any]:
        """A step; parts that have nothing to say are left out."""
        worked_out = step.reading if any(finding.code == "worked-out" for finding in self._on[step.step]) else None
        document = {
            "words": [[part.text, int(part.guilty)] for part in self._told(step)],
            "say": [legible(text) for text in self._said.get(step.step, [])],
            "number": step.number if step.number != step.step else None,
            "time": _time(step.time),
            "verdict": step.verdict,
            "hangs": step.hangs_on,
            "spelt": write_statement(replace(worked_out, comment=None))[0] if worked_out else None,
            "effects": [[str(effect.claim), verdict(step, effect)] for effect in step.effects],
            "facts": [[group.letter, "; ".join(map(str, group.facts))] for group in shown.named if not group.lacking],
            "lacking": [[group.letter, "; ".join(map(str, group.facts))] for group in shown.named if group.lacking],
            "before": _coded(shown.before, names),
            "after": _coded(shown.after, names),
            "counters": [
                [self._fillings[counter.board], claims(counter.claims), _coded(counter.marks, names)]
                for counter in shown.counters
            ],
            "findings": self._places.get(step.step),
        }
        return {key: value for key, value in document.items() if value}

    @cached_property
    def _scenes(self) -> dict[int, Scene]:
        return {step.step: scene(step, self._on[step.step]) for step in self.report.steps}

    @cached_property
    def _fillings(self) -> dict[Board, int]:
        boards = dict.fromkeys(counter.board for shown in self._scenes.values() for counter in shown.counters)
        return {board: at for at, board in enumerate(boards)}

    @cached_property
    def _places(self) -> dict[int, list[int]]:
        """For each step, where its findings stand in the list."""
        places: dict[int, list[int]] = defaultdict(list)
        for at, finding in enumerate(self.report.findings[:MOST]):
            if finding.step is not None:
                places[finding.step].append(at)
        return places

    @cached_property
    def _statements(self) -> dict[int, Any]:
        return {statement.span.line: statement for statement in self.report.path.statements}

    @cached_property
    def _said(self) -> dict[int, list[str]]:
        """The narrator's words, by the step they belong to."""
        said: dict[int, list[str]] = defaultdict(list)
        numbers = {step.line: step.step for step in self.report.steps}
        current = 0
        for line, statement in self._statements.items():
            current = numbers.get(line, current)
            if isinstance(statement, Say):
                said[current].append(f"{write_time(statement.time)}{statement.text}")
        return said

    def _told(self, step: StepReport) -> Iterator[Part]:
        """The step as it is written: its line, and the rows of a drawn board."""
        statement = self._statements.get(step.line)
        last = step.line
        if isinstance(statement, Marking):
            last = max([last, *(said.span.line for row in statement.drawn for said in row)])
        spans = [finding.span for finding in self._on[step.step] if finding.severity != "note"]
        for line in range(step.line, last + 1):
            if line > step.line:
                yield Part("\n", False)
            yield from self._parts(line, [span for span in spans if span.line == line])

    def _parts(self, line: int, spans: Sequence[Span]) -> Iterator[Part]:
        """A line, cut where the spans begin and end."""
        text = self._line(line)
        at = 0
        for span in sorted(spans):
            start, end = max(at, span.column - 1), min(len(text), span.end - 1)
            if start < end:
                yield Part(text[at:start], False)
                yield Part(text[start:end], True)
                at = end
        yield Part(text[at:].rstrip(), False)

    def _line(self, line: int) -> str:
        source = self.report.source
        return legible(source[line - 1]) if 0 < line <= len(source) else ""

    def _changes(self, repair: Repair) -> Iterator[Change]:
        for (line, column, end), was, new in repair.changes:
            text = self._line(line)
            yield Change(line, text[: column - 1], was, new, text[end - 1 :], repair.applies == "safe")

    def _lives(self) -> Iterator[tuple[Piece, int, int]]:
        """Every piece of the board with the first board that has it and the first that has it no longer."""
        assert self.sheet is not None
        boards = [self.report.steps[0].board, *(step.after for step in self.report.steps)]
        here: dict[Piece, int] = {}
        last: Board | None = None
        for at, board in enumerate(boards):
            if board == last:
                continue
            last = board
            pieces = set(self.sheet.board(board, self.givens))
            for piece in here.keys() - pieces:
                yield piece, here.pop(piece), at
            for piece in pieces - here.keys():
                here[piece] = at
        yield from ((piece, first, len(boards)) for piece, first in here.items())


def _time(seconds: float | None) -> str:
    """A moment, as a narrator writes it, without brackets."""
    return write_time(seconds).strip(" []")


def _coded(pieces: Sequence[Piece], names: dict[str, int]) -> list[int]:
    """The pieces as the number of a symbol and the number of a place, by turns."""
    return [number for piece in pieces for number in (names.setdefault(piece.symbol, len(names)), piece.place)]


def _header(report: Report, key: str) -> str | None:
    values = [entry.value for entry in report.path.header if isinstance(entry, HeaderEntry) and entry.key == key]
    return next((value for value in values if isinstance(value, str) and value), None)
