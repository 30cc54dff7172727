"""The pytest plugin: path files as tests, one a file.

A project opts in with ``--stepwarrant``, which takes every ``*.path`` that pytest comes by, or with globs in its pytest
configuration (``stepwarrant_files``). pytest imports this in every run, so nothing else of stepwarrant is imported here until
a path file is run.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fnmatch import fnmatch
from pathlib import Path
from typing import Any

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """``--stepwarrant`` and the ini value ``stepwarrant_files``."""
    group = parser.getgroup("stepwarrant", "walkthroughs (stepwarrant)")
    group.addoption("--stepwarrant", action="store_true", help="audit every path file (*.path) as a test")
    parser.addini(
        "stepwarrant_files",
        "files to audit as tests: globs below the root folder; * also stands for folders",
        type="args",
        default=[],
    )


def pytest_collect_file(file_path: Path, parent: pytest.Collector) -> pytest.Collector | None:
    """A file that the project wants audited."""
    return PathFile.from_parent(parent, path=file_path) if _wanted(file_path, parent.config) else None


def _wanted(path: Path, config: pytest.Config) -> bool:
    if config.getoption("--stepwarrant") and path.suffix == ".path":
        return True
    globs = config.getini("stepwarrant_files")
    return bool(globs) and any(fnmatch(_seen_from(config.rootpath, path), glob) for glob in globs)


def _seen_from(folder: Path, path: Path) -> str:
    return (path.relative_to(folder) if path.is_relative_to(folder) else path).as_posix()


class PathFile(pytest.File):
    """A path file: one test, its audit."""

    def collect(self) -> Iterator[pytest.Item]:
        yield Audit.from_parent(self, name="audit")


class Unsound(Exception):
    """What there is to say against the file, as text."""


class Audit(pytest.Item):
    """Fails on an error or a warning; in a file with ``# expect:`` comments, on every difference from them."""

    @property
    def shown(self) -> str:
        """The file as seen from the folder that pytest was called in, which is how an editor's terminal finds it."""
        return _seen_from(self.config.invocation_params.dir, self.path)

    def runtest(self) -> None:
        """Raises Unsound."""
        from .expect import differences, expects
        from .report import Unusable, audit_file
        from .text import render

        try:
            report = replace(audit_file(self.path), file=self.shown)
        except Unusable as error:
            raise Unsound(str(error)) from error
        if expects(report):
            complaint = "\n".join(differences(report))
        else:
            graver = [finding for finding in report.findings if finding.severity != "note"]
            # pytest's summary shows the first line, which is to be of what made the item fail.
            notes = [finding for finding in report.findings if finding.severity == "note"]
            complaint = render([replace(report, findings=(*graver, *notes))]) if graver else ""
        if complaint:
            raise Unsound(complaint)

    def repr_failure(self, excinfo: pytest.ExceptionInfo[BaseException], *args: Any, **kwargs: Any) -> Any:
        """Our own text for what is said against the file; a traceback for a bug."""
        return str(excinfo.value) if isinstance(excinfo.value, Unsound) else super().repr_failure(excinfo, *args, **kwargs)

    def reportinfo(self) -> tuple[Path, int | None, str]:
        """The file, no line (the findings have theirs), and how the test is headed."""
        return self.path, None, self.shown
