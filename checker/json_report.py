"""The JSON report, for programs: one document for all files."""

from __future__ import annotations

import json
from collections.abc import Sequence
from importlib.resources import files
from typing import Any

from .report import Report

FORMAT, VERSION = "stepwarrant-report", 1


def document(reports: Sequence[Report]) -> dict[str, Any]:
    """The report as plain data; valid against ``schema()``."""
    return {"format": FORMAT, "version": VERSION, "files": [report.to_json() for report in reports]}


def render(reports: Sequence[Report]) -> str:
    """The report as text, ended by a line feed."""
    return json.dumps(document(reports), ensure_ascii=False, indent=1) + "\n"


def schema() -> dict[str, Any]:
    """The report's JSON Schema (draft 2020-12), as shipped with the package."""
    text = files("stepwarrant.checker").joinpath("report.schema.json").read_text(encoding="utf-8")
    loaded: dict[str, Any] = json.loads(text)
    return loaded
