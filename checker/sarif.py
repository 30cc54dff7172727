"""SARIF 2.1.0 (the OASIS standard for reports of checkers), which code hosts and editors show in place."""

from __future__ import annotations

import json
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from ..grammar.statements import Span
from .findings import SEVERITY
from .fingerprints import Known, fingerprints, project_path
from .pages import Page, pages
from .report import Report

if TYPE_CHECKING:
    from .places import Change
    from .weighing import Repair

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FINGERPRINT = "stepwarrantFinding/v1"
ROOT = "%SRCROOT%"
"""What the addresses of files are relative to: wherever the reader of the report has the project."""


def document(reports: Sequence[Report], unusable: Sequence[str] = ()) -> dict[str, Any]:
    """The log as plain data: one run, a result a finding."""
    notifications = [{"level": "error", "message": {"text": message}} for message in unusable]
    driver = {"name": "stepwarrant", "version": version("stepwarrant"), "rules": [_rule(page) for page in pages().values()]}
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "invocations": [{"executionSuccessful": not unusable, "toolExecutionNotifications": notifications}],
        "artifacts": [{"location": _location(report.file)} for report in reports],
        "results": [_result(report, known) for report in reports for known in fingerprints(report)],
    }
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def render(reports: Sequence[Report], unusable: Sequence[str] = ()) -> str:
    """The log as text, ended by a line feed."""
    return json.dumps(document(reports, unusable), ensure_ascii=False, indent=1) + "\n"


def _rule(page: Page) -> dict[str, Any]:
    return {
        "id": page.code,
        "shortDescription": {"text": page.title},
        "help": {"text": page.text},
        "defaultConfiguration": {"level": page.severity},
    }


def _result(report: Report, known: Known) -> dict[str, Any]:
    finding = known.finding
    region = _region(finding.span, report)
    result: dict[str, Any] = {
        "ruleId": finding.code,
        "ruleIndex": list(SEVERITY).index(finding.code),
        "level": finding.severity,
        "message": {"text": " ".join([finding.message, *finding.advice])},
        "locations": [{"physicalLocation": {"artifactLocation": _location(report.file), "region": region}}],
        "partialFingerprints": {FINGERPRINT: f"{known.fingerprint}:{known.occurrence}"},
    }
    if finding.repairs:
        result["fixes"] = [_fix(repair, report) for repair in finding.repairs]
    return result


def _fix(repair: Repair, report: Report) -> dict[str, Any]:
    replacements = [
        {"deletedRegion": _region(change.span, report), "insertedContent": {"text": change.text}} for change in repair.changes
    ]
    return {
        "description": {"text": " ".join(map(_described, repair.changes))},
        "artifactChanges": [{"artifactLocation": _location(report.file), "replacements": replacements}],
    }


def _described(change: Change) -> str:
    was, text = change.was.strip(" ,;"), change.text.strip()
    if not text:
        return f"Leave out `{was}`."
    return f"Put `{text}` in place of `{was}`." if was else f"Put in `{text}`."


def _region(span: Span, report: Report) -> dict[str, Any]:
    """In full, and inside the line: a place just past its end, where something is missing, is empty."""
    text = report.source[span.line - 1] if span.line <= len(report.source) else ""
    column, end = (min(place, len(text) + 1) for place in (span.column, span.end))
    region = {"startLine": span.line, "startColumn": column, "endLine": span.line, "endColumn": end}
    return {**region, "snippet": {"text": text[column - 1 : end - 1]}} if end > column else region


def _location(file: str) -> dict[str, str]:
    path = project_path(file)
    if FilePath(path).is_absolute():
        return {"uri": FilePath(path).as_uri()}
    # A colon in the first part of a relative address would read as a scheme.
    return {"uri": quote(path), "uriBaseId": ROOT}
