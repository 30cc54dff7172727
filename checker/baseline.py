"""A baseline: findings that a team knows of and starts with, in a file of fingerprints. Only what is new is then reported.

A finding is known by its code, what its line says and its file (``fingerprints``), so that lines may move. The file has one
line an entry, sorted, so that it compares well from one version to the next.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path as FilePath
from typing import Any, NamedTuple

from .deliver import complain, deliver
from .findings import Finding
from .fingerprints import fingerprints, project_path
from .report import Report, Unusable, read_text

FORMAT, VERSION = "stepwarrant-baseline", 1
STALE_SHOWN = 20
"""Entries that are named when nothing is found for them any more; the rest are counted."""


class Entry(NamedTuple):
    """Findings that one fingerprint stands for: how many times, and for a reader their file, code and what their line says."""

    file: str
    code: str
    said: str
    fingerprint: str
    times: int

    def __str__(self) -> str:
        often = f", {self.times} times" if self.times > 1 else ""
        return f"{self.file}: {self.code} at `{self.said}`{often}"


class Compared(NamedTuple):
    """The reports with what is new in them, how many findings were known, and the entries nothing was found for."""

    reports: tuple[Report, ...]
    known: int
    stale: tuple[Entry, ...]


def compare(reports: Sequence[Report], entries: Sequence[Entry]) -> Compared:
    """Take known findings out of the reports.

    An entry is stale where its file was audited and has fewer such findings (it is given with as many as are missing), or
    where its file is gone.
    """
    left = Counter({entry.fingerprint: entry.times for entry in entries})
    shown = []
    for report in reports:
        new: list[Finding] = []
        for found in fingerprints(report):
            if left[found.fingerprint] > 0:
                left[found.fingerprint] -= 1
            else:
                new.append(found.finding)
        shown.append(replace(report, findings=tuple(new)))
    unmet = [entry._replace(times=count) for entry in entries if (count := left[entry.fingerprint])]
    audited = {project_path(report.file) for report in reports}
    known = sum(len(report.findings) for report in reports) - sum(len(report.findings) for report in shown)
    return Compared(tuple(shown), known, tuple(e for e in unmet if e.file in audited or not _there(e.file)))


def merged(old: Sequence[Entry], reports: Sequence[Report]) -> list[Entry]:
    """What a baseline becomes: the audited files' entries are made anew, those of other files that are still there stay."""
    counts: Counter[tuple[str, str, str, str]] = Counter()
    for report in reports:
        for known in fingerprints(report):
            counts[known.file, known.finding.code, known.said, known.fingerprint] += 1
    audited = {project_path(report.file) for report in reports}
    kept = [entry for entry in old if entry.file not in audited and _there(entry.file)]
    return sorted([*kept, *(Entry(*key, count) for key, count in counts.items())])


def _there(file: str) -> bool:
    return file == "-" or FilePath(file).exists()


class Baseline(NamedTuple):
    """A baseline file and its entries; what is done with it is told on standard error."""

    file: str
    entries: tuple[Entry, ...] = ()

    @classmethod
    def read(cls, file: str) -> Baseline:
        """Raises Unusable, with the reason in one line, for what is no baseline."""
        try:
            document = json.loads(read_text(file))
        except (json.JSONDecodeError, RecursionError) as error:
            raise Unusable(f"{file}: not a baseline: it is not JSON") from error
        if not isinstance(document, dict) or document.get("format") != FORMAT:
            raise Unusable(f"{file}: not a baseline: it has no member \"format\" that is \"{FORMAT}\"")
        if document.get("version") != VERSION:
            raise Unusable(f"{file}: a baseline of version {document.get('version')}; version {VERSION} was expected")
        findings = document.get("findings")
        if not isinstance(findings, list):
            raise Unusable(f"{file}: not a baseline: its member \"findings\" is not a list")
        return cls(file, tuple(_entry(file, number, item) for number, item in enumerate(findings, 1)))

    def renewed(self, reports: Sequence[Report]) -> tuple[Report, ...]:
        """Write the file with all findings of the reports in it; the reports without them. Raises OSError."""
        entries = merged(self.entries, reports)
        lines = ",\n".join(f"  {json.dumps(entry._asdict(), ensure_ascii=False)}" for entry in entries)
        deliver(f'{{"format": "{FORMAT}", "version": {VERSION}, "findings": [\n{lines}\n]}}\n', self.file)
        count = sum(entry.times for entry in entries)
        complain(f"{self.file}: written; it knows of {count} {'finding' if count == 1 else 'findings'}")
        return compare(reports, entries).reports

    def only_new(self, reports: Sequence[Report]) -> tuple[Report, ...]:
        """The reports without the findings that are known; how many those were is told, and which entries are stale."""
        compared = compare(reports, self.entries)
        if compared.known:
            noun = "finding" if compared.known == 1 else "findings"
            complain(f"{self.file}: {compared.known} known {noun} left out")
        for entry in compared.stale[:STALE_SHOWN]:
            complain(f"{self.file}: no longer found: {entry}")
        if compared.stale:
            more = len(compared.stale) - STALE_SHOWN
            also = f"so it is with {more} more; " if more > 0 else ""
            complain(f"{self.file}: {also}`--write-baseline {self.file}` takes out what is no longer found")
        return compared.reports


def _entry(file: str, number: int, item: Any) -> Entry:
    kinds = {"file": str, "code": str, "said": str, "fingerprint": str, "times": int}
    if not isinstance(item, dict) or any(not isinstance(item.get(name), kind) for name, kind in kinds.items()):
        raise Unusable(f"{file}: entry {number} is no entry of a baseline; it needs {', '.join(kinds)}")
    return Entry(*(item[name] for name in kinds))
