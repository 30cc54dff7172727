"""The report for a person at a terminal: readable at 80 columns and without colour."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from ..grammar.reading import Sentences
from ..grammar.vocabulary import House
from ..grammar.writer import write_time
from .board import Board
from .findings import Finding
from .report import Report, StepReport

WIDTH = 80
GLUE = "\N{NO-BREAK SPACE}"
"""Stands in for a space where a line must not be broken."""
MOST = 200
"""Findings shown of one file. Nobody reads on from there; the JSON report has them all."""

Paint = Callable[[str, str], str]
"""Text and what it is (``error``, ``warning``, ``note``, ``place``, ``faint``, ``good``) to text that may carry colour."""

COLOURS = {"error": "red", "warning": "yellow", "note": "cyan", "place": "bold", "faint": "dim", "good": "green"}


def plain(text: str, _: str) -> str:
    """No colour."""
    return text


def painted(text: str, role: str) -> str:
    """Colour for a terminal."""
    import click

    colour = COLOURS[role]
    if colour in ("bold", "dim"):
        return click.style(text, bold=colour == "bold" or None, dim=colour == "dim" or None)
    return click.style(text, fg=colour, bold=True)


def render(reports: Sequence[Report], paint: Paint = plain) -> str:
    """All reports, file after file, with a summary line each and one for all where there are several."""
    parts = [part for report in reports for part in _file(report, paint)]
    if len(reports) > 1:
        parts.append(_together(reports, paint))
    return "\n".join(parts) + "\n"


def _file(report: Report, paint: Paint) -> Iterator[str]:
    for finding in report.findings[:MOST]:
        yield finding_text(report, finding, paint) + "\n"
    if len(report.findings) > MOST:
        yield f"{report.file}: {len(report.findings) - MOST:,} more findings; --format json gives them all.\n"
    yield _summary(report, paint)


def finding_text(report: Report, finding: Finding, paint: Paint = plain) -> str:
    """One finding, its line and caret with it; without a line feed at its end."""
    step = report.steps[finding.step - 1] if finding.step else None  # steps count from 1, none is left out
    return "\n".join(_finding(report, finding, step, paint))


def _finding(report: Report, finding: Finding, step: StepReport | None, paint: Paint) -> Iterator[str]:
    place = f"{report.file}:{finding.line}:{finding.column}"
    when = write_time(finding.time).strip()
    told = f"told as {step.number}" if step and step.number not in (None, finding.step) else ""
    which = f" (step {', '.join(filter(None, [str(finding.step), told, when]))})" if finding.step else ""
    yield f"{paint(place, 'place')} {paint(finding.severity, finding.severity)} {finding.code}{which}"
    if finding.severity != "note":
        yield from _source(report, finding, paint)
    yield from _wrapped(finding.message)
    if finding.severity != "note" and step is not None and report.ending is not None:
        yield from _excerpt(finding, step.board)
    for part in finding.advice:
        yield from _wrapped(part)


def _source(report: Report, finding: Finding, paint: Paint) -> Iterator[str]:
    """The line and a caret under the guilty token; of a long line, the part around the token."""
    text = report.source[finding.line - 1] if 0 < finding.line <= len(report.source) else ""
    gutter = f"{finding.line:>5} | "
    room = WIDTH - len(gutter)
    start = 0
    if len(text) > room and finding.column > room - 12:
        start = finding.column - room // 2
    shown = text[start : start + room]
    if start:
        shown = "…" + shown[1:]
    if len(text) > start + room:
        shown = shown[:-1] + "…"
    shown = "".join(letter if letter.isprintable() else " " if letter == "\t" else "�" for letter in shown)
    yield gutter + shown.rstrip()
    before = finding.column - 1 - start
    length = max(1, min(finding.end_column - finding.column, room - before))
    yield " " * 5 + " | " + " " * before + paint("^" * length, finding.severity)


def _wrapped(text: str) -> list[str]:
    indent = "  "
    lines = textwrap.wrap(
        text, WIDTH, initial_indent=indent, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )
    return [line.replace(GLUE, " ") for line in lines]


def _excerpt(finding: Finding, board: Board) -> Iterator[str]:
    """The houses that the message speaks of, as they stood before the step."""
    from .wording import house as house_words

    if finding.problem.details.get("why") == "wrong-kind":
        return
    named = [finding.problem.details.get("house"), *(problem.details.get("house") for problem in finding.also)]
    for house in list(dict.fromkeys(house for house in named if isinstance(house, House)))[:2]:
        yield from _wrapped(f"{house_words(house).capitalize()} before the step: {_house(house, board)}.")


def _house(house: House, board: Board) -> str:
    cells = []
    for cell in board.geometry.cells_of[house]:
        joint = " " if board.geometry.size > 9 else ""
        held = joint.join(map(str, board.candidates(cell))) or "-"
        cells.append(f"{cell}{'=' if cell in board.filled else GLUE}{held}")
    return ", ".join(cells)


def _summary(report: Report, paint: Paint) -> str:
    lines = textwrap.wrap(f"{report.file}: {summary(report)}", WIDTH, break_long_words=False)
    return "\n".join(paint(line, report.worst or "good") for line in lines)


def summary(report: Report) -> str:
    """What became of the steps, how the path ends and what was found, in one sentence."""
    counts = Counter(step.verdict for step in report.steps)
    if report.solutions == "no-grid" and report.steps:
        told = f"{len(report.steps)} step{'s' if len(report.steps) > 1 else ''}, not replayed"
    elif not report.steps:
        told = "no step replayed" if report.ending is None else "no steps"
    else:
        others = [f"{count} {verdict}" for verdict, count in counts.items() if verdict != "warranted"]
        warranted = "all warranted" if not others else f"{counts['warranted']} warranted"
        steps = "1 step" if len(report.steps) == 1 else f"{len(report.steps)} steps"
        told = ", ".join([f"{steps}: {warranted}", *sorted(others)])
    ending = {"solved": "; solved", "stops-short": "; stops short", "contradiction": "; ends in a contradiction", None: ""}
    found = _found(report.findings)
    if report.sentences is not None:
        told = f"{_sentences(report.sentences)}; {told}"
    return f"{told}{ending[report.ending]}; {found}."


def _sentences(sentences: Sentences) -> str:
    parts = [f"{sentences.claims} claims", f"{sentences.talk} talk", f"{sentences.unread} unread"]
    return f"{sentences.total} sentences ({', '.join(parts)})"


def _found(findings: Sequence[Finding]) -> str:
    counts = Counter(finding.severity for finding in findings)
    said = [
        f"{counts[severity]} {severity}{'s' if counts[severity] > 1 else ''}"
        for severity in ("error", "warning", "note")
        if counts[severity]
    ]
    return ", ".join(said) or "nothing to report"


def _together(reports: Sequence[Report], paint: Paint) -> str:
    findings = [finding for report in reports for finding in report.findings]
    clean = sum(report.worst not in ("error", "warning") for report in reports)
    role = "good" if clean == len(reports) else "error"
    return "\n" + paint(f"{len(reports)} files: {clean} without errors or warnings; {_found(findings)} in all.", role)
