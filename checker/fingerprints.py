"""What a finding is known by from one run to the next: its code, what its line says, and the file; not where the line is."""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path as FilePath
from typing import NamedTuple

from .findings import Finding
from .report import Report

HEAD = re.compile(r"\s*(\d+[.)]\s*|[\[(]\d[\d:.]*[\])]\s*)*")
"""A step's number and time, which change when a step is added before it."""


class Known(NamedTuple):
    """A finding with its fingerprint. ``occurrence``: from 1, among those of one file that have the same one."""

    fingerprint: str
    occurrence: int
    file: str
    said: str
    finding: Finding


def fingerprints(report: Report) -> Iterator[Known]:
    """Every finding of the report, in its order."""
    file = project_path(report.file)
    seen: Counter[str] = Counter()
    for finding in report.findings:
        said = _said(report.source[finding.line - 1] if finding.line <= len(report.source) else "")
        fingerprint = hashlib.sha256("\0".join((finding.code, said, file)).encode("utf-8", "replace")).hexdigest()[:32]
        seen[fingerprint] += 1
        yield Known(fingerprint, seen[fingerprint], file, said, finding)


def project_path(file: str) -> str:
    """The file as seen from the working folder, with forward slashes; the whole way to it where it lies elsewhere."""
    if file == "-":
        return file
    whole, here = FilePath(file).resolve(), FilePath.cwd()
    return (whole.relative_to(here) if whole.is_relative_to(here) else whole).as_posix()


def _said(line: str) -> str:
    """The line without number, time, comment, and what is free in its writing: case and spaces."""
    said = line.partition("#")[0]
    head = HEAD.match(said)
    return " ".join(said[head.end() if head else 0 :].lower().split())
