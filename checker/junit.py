"""JUnit XML, which test dashboards read: a suite a file, a case a step, and one more case for what belongs to no step."""

from __future__ import annotations

import re
from collections.abc import Sequence
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from .findings import Finding
from .report import Report, StepReport
from .text import finding_text

WHOLE = "header and puzzle"
"""The case of the findings that belong to no step."""

NOT_XML = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that XML 1.0 cannot hold in any writing (W3C, section 2.2)."""


def render(reports: Sequence[Report], unusable: Sequence[str] = ()) -> str:
    """The whole document. A case fails where an error or a warning stands, so as the exit status counts them."""
    root = Element("testsuites", name="stepwarrant")
    for report in reports:
        _suite(root, report)
    if unusable:
        suite = SubElement(root, "testsuite", name="inputs that could not be used")
        for message in unusable:
            case = SubElement(suite, "testcase", name=_clean(message), classname="stepwarrant")
            SubElement(case, "error", type="unusable", message=_clean(message))
    for suite in [*root]:
        _count(suite)
    for name in ("tests", "failures", "errors", "skipped"):
        root.set(name, str(sum(int(suite.get(name, 0)) for suite in root)))
    ElementTree.indent(root, " ")
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(root, encoding="unicode") + "\n"


def _suite(root: Element, report: Report) -> None:
    suite = SubElement(root, "testsuite", name=_clean(report.file))
    by_step: dict[int | None, list[Finding]] = {}
    for finding in report.findings:
        by_step.setdefault(finding.step, []).append(finding)
    if by_step.get(None):
        case = SubElement(suite, "testcase", name=WHOLE, classname=_clean(report.file))
        _findings(case, report, by_step[None])
    for step in report.steps:
        said = " ".join(report.source[step.line - 1].partition("#")[0].split())
        name = _clean(f"step {step.step}: {said}")
        case = SubElement(suite, "testcase", name=name, classname=_clean(report.file))
        found = by_step.get(step.step, [])
        if not any(finding.severity != "note" for finding in found) and step.verdict != "warranted":
            SubElement(case, "skipped", message=_why_skipped(step))
        _findings(case, report, found)


def _why_skipped(step: StepReport) -> str:
    return f"{step.verdict}: hangs on step {step.hangs_on}" if step.hangs_on else f"{step.verdict}: nothing is reported here"


def _findings(case: Element, report: Report, findings: Sequence[Finding]) -> None:
    """One failure with all that is wrong, since many readers take one a case; notes as output of the case."""
    grave = [finding for finding in findings if finding.severity != "note"]
    notes = [finding for finding in findings if finding.severity == "note"]
    if grave:
        failure = SubElement(case, "failure", type=grave[0].code, message=_clean(grave[0].message))
        failure.text = _clean("\n\n".join(finding_text(report, finding) for finding in grave))
    if notes:
        SubElement(case, "system-out").text = _clean("\n\n".join(finding_text(report, finding) for finding in notes))


def _count(suite: Element) -> None:
    suite.set("tests", str(len(suite)))
    for name, tag in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        suite.set(name, str(len(suite.findall(f"testcase/{tag}"))))


def _clean(text: str) -> str:
    return NOT_XML.sub("\N{REPLACEMENT CHARACTER}", text)
