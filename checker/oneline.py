"""One line a finding, ``file:line:column: code message``, for editors and for whatever reads lines."""

from __future__ import annotations

from collections.abc import Sequence

from .report import Report


def render(reports: Sequence[Report]) -> str:
    """Nothing at all where nothing was found."""
    return "".join(
        f"{report.file}:{finding.line}:{finding.column}: {finding.code} {finding.message}\n"
        for report in reports
        for finding in report.findings
    )
