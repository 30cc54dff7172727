"""The JSON report line by line, for programs that read a stream: of each file one line, then one a step and one a finding.

Every line is an object with ``kind`` and ``file``; besides, it has the members that it has in the JSON report. What could not
be audited is a line of the kind ``unusable`` with a ``message`` alone.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

from .report import Report


def lines(report: Report) -> Iterator[dict[str, Any]]:
    """The lines of one file, as plain data."""
    document = report.to_json()
    steps, findings = document.pop("steps"), document.pop("findings")
    yield {"kind": "file", **document}
    for kind, items in (("step", steps), ("finding", findings)):
        for item in items:
            yield {"kind": kind, "file": report.file, **item}


def render(reports: Sequence[Report], unusable: Sequence[str] = ()) -> str:
    """All files, each line ended by a line feed."""
    told = [line for report in reports for line in lines(report)]
    told += [{"kind": "unusable", "message": message} for message in unusable]
    return "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in told)
