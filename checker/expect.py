"""``--expect``: a file says on its own lines which findings stand there; report where that and the audit differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from ..grammar.reader import expectations
from .findings import SEVERITY
from .report import Report


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
    for number, line in enumerate(report.source, 1):
        codes = expectations(line.partition("#")[2] if "#" in line else None)
        if codes:
            expected[number] = Counter(codes)
    return expected


def render(reports: Sequence[Report]) -> str:
    """All differences, and a line that sums up."""
    lines = [line for report in reports for line in differences(report)]
    files = "1 file" if len(reports) == 1 else f"{len(reports)} files"
    count = len(lines)
    verdict = "all as expected" if not count else "1 difference" if count == 1 else f"{count} differences"
    return "\n".join([*lines, f"{files}: {verdict}."]) + "\n"
