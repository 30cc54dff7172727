"""``--expect``: a file says on its own lines which findings stand there; report where that and the audit differ."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from ..grammar.reader import expectations
from .findings import SEVERITY
from .report import Report

NARRATED = (".txt", ".md", ".srt", ".vtt")


def differences(report: Report) -> Iterator[str]:
    """One line of text a difference, in the order of the file's lines; nothing if all is as expected."""
    expected = _expected(report)
    found: dict[int, Counter[str]] = {}
    for finding in report.findings:
        found.setdefault(finding.line, Counter())[finding.code] += 1
    for number in sorted(expected.keys() | found.keys()):
        wanted, there = expected.get(number, Counter()), found.get(number, Counter())
        for code in sorted((wanted - there).elements()):
            known = "" if code in SEVERITY else "; there is no such code"
            yield f"{report.file}:{number}: expected {code}, which was not found{known}"
        for finding in report.findings:
            if finding.line == number and there[finding.code] > wanted[finding.code]:
                yield f"{report.file}:{number}: found {finding.code}, which was not expected: {finding.message}"


def expects(report: Report) -> bool:
    """Does the file say on any line what is to be found there?"""
    return bool(_expected(report))


def _expected(report: Report) -> dict[int, Counter[str]]:
    expected: dict[int, Counter[str]] = {}
    for number, comment in _comments(report):
        codes = expectations(comment)
        if codes:
            expected.setdefault(number, Counter()).update(codes)
    return expected


def _comments(report: Report) -> Iterator[tuple[int, str]]:
    """The line that each comment is about, and its text: what follows ``#`` in a path, an HTML comment in prose, a NOTE of
    WebVTT, which is about the first line of words after it."""
    waiting: list[str] = []
    for number, line in enumerate(report.source, 1):
        if report.sentences is None and not report.file.endswith(NARRATED):
            if "#" in line:
                yield number, line.partition("#")[2]
            continue
        for comment in re.findall(r"<!--(.*?)-->", line):
            yield number, comment
        if line.startswith("NOTE"):
            waiting.append(line)
        elif waiting and line.strip() and "-->" not in line and not line.strip().isdigit():
            yield from ((number, comment) for comment in waiting)
            waiting.clear()


def render(reports: Sequence[Report]) -> str:
    """All differences, and a line that sums up."""
    lines = [line for report in reports for line in differences(report)]
    files = "1 file" if len(reports) == 1 else f"{len(reports)} files"
    count = len(lines)
    verdict = "all as expected" if not count else "1 difference" if count == 1 else f"{count} differences"
    return "\n".join([*lines, f"{files}: {verdict}."]) + "\n"
