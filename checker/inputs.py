"""What the arguments of a command stand for: files, folders, standard input, and the puzzle of ``--grid``."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, NamedTuple

import click

from .deliver import complain

if TYPE_CHECKING:
    from ..grammar.statements import Grid
    from .report import Kind, Report

MANY = 8
"""From how many files on a progress bar is worth showing."""


class Outcome(NamedTuple):
    """What a run has to tell: the reports, and for each input that could not be audited one line that says why."""

    reports: Sequence[Report]
    unusable: Sequence[str] = ()

    @property
    def exit_status(self) -> int:
        """The gravest of all: 2 goes before 3, and 3 before 1."""
        if self.unusable:
            return 2
        statuses = {report.exit_status for report in self.reports}
        return next((status for status in (2, 3, 1) if status in statuses), 0)


def audit_all(
    names: Sequence[str],
    grid: Grid | str | None = None,
    conflicts: int | None = None,
    kind: Kind | None = None,
    *,
    advice: bool = False,
) -> Outcome:
    """Audit files, folders and ``-``, each file once. What cannot be used is complained of and the rest still audited.

    ``kind``: of what comes from standard input.
    """
    from .report import Unusable

    unusable: list[str] = []
    reports: list[Report] = []

    def cannot(error: Unusable) -> None:
        unusable.append(str(error))
        complain(str(error))

    files: list[str] = []
    for name in names:
        try:
            files += _files(name)
        except Unusable as error:
            cannot(error)
    for name in _with_progress(list(dict.fromkeys(files))):
        try:
            reports.append(audited(read_input(name), name, grid, conflicts, kind, advice=advice))
        except Unusable as error:
            cannot(error)
    return Outcome(reports, unusable)


def _files(name: str) -> Iterator[str]:
    """The files that a name stands for: itself, or every path and narration below a folder, sorted.

    Prose is not all narration: of .txt and .md files below a folder, those with a ``grid:`` block at their top are meant.
    Raises Unusable for a folder without any.
    """
    from .report import Unusable

    folder = FilePath(name)
    if name == "-" or not folder.is_dir():
        yield name
        return
    found = sorted(str(path) for path in folder.rglob("*") if path.is_file() and _meant(path))
    if not found:
        kinds = "path files (*.path), captions (*.srt, *.vtt) or narrations with a grid (*.txt, *.md)"
        raise Unusable(f"{name}: no {kinds} in this folder")
    yield from found


def _meant(path: FilePath) -> bool:
    suffix = path.suffix.lower()
    if suffix in (".path", ".srt", ".vtt"):
        return True
    if suffix not in (".txt", ".md"):
        return False
    with path.open("rb") as file:
        top = file.read(2000)
    return any(line.lstrip().lower().startswith(b"grid:") for line in top.splitlines())


def _with_progress(names: list[str]) -> Iterator[str]:
    """The names, with a bar on a terminal where there are many."""
    if len(names) < MANY or not sys.stderr.isatty():
        yield from names
        return
    with click.progressbar(names, label="Auditing", file=sys.stderr, width=40) as bar:
        yield from bar


def read_input(name: str) -> str:
    """The text of a file, or of standard input for ``-``. Raises Unusable for what is no text."""
    from .report import decode, read_text

    return decode(sys.stdin.buffer.read(), "-") if name == "-" else read_text(name)


def audited(
    text: str,
    name: str,
    grid: Grid | str | None,
    conflicts: int | None = None,
    kind: Kind | None = None,
    *,
    advice: bool = False,
) -> Report:
    """The audit of one text, read as its name says; for ``-`` as ``kind`` says, or else its start."""
    from ..sat.oracle import BUDGET
    from .report import audit, kind_of

    if name != "-":
        kind = kind_of(name)
    elif kind is None:
        # No path begins like this, and every stream does.
        kind = "steps" if text.lstrip("\ufeff \t\r\n").startswith("{") else "path"
    limit = BUDGET if conflicts is None else conflicts
    return audit(text, grid=grid, name=name, conflicts=limit, advice=advice, kind=kind)


def given_grid(given: str) -> Grid | str:
    """The puzzle of --grid: a file, the cells themselves, or the word for no puzzle. Raises click.UsageError for no grid."""
    from ..grammar.reader import read_grid
    from ..grammar.statements import Problem
    from .report import NO_GRID, Unusable, read_text
    from .wording import message

    if given == NO_GRID:
        return given
    if FilePath(given).is_file():
        try:
            read = read_grid(read_text(given))
        except Unusable as error:
            raise click.UsageError(str(error)) from error
    else:
        if any(letter.isalpha() and letter not in "abcdefg" for letter in given):
            raise click.UsageError(f"--grid: {given}: no such file")
        read = read_grid(given)
    if isinstance(read, Problem):
        where = f"{given}, line {read.span.line}: " if FilePath(given).is_file() else ""
        raise click.UsageError(f"--grid: {where}{message(read)}")
    return read
