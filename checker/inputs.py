"""What the arguments of a command stand for: files, folders, standard input, and the puzzle of ``--grid``."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from ..grammar.statements import Grid
    from .report import Report

MANY = 8
"""From how many files on a progress bar is worth showing."""


def inputs(name: str) -> Iterator[str]:
    """The files that a name stands for: itself, or every path file below a folder, sorted.

    Raises Unusable for a folder without any.
    """
    from .report import Unusable

    folder = FilePath(name)
    if name == "-" or not folder.is_dir():
        yield name
        return
    found = sorted(str(path) for path in folder.rglob("*.path") if path.is_file())
    if not found:
        raise Unusable(f"{name}: no path files (*.path) in this folder")
    yield from found


def with_progress(names: list[str]) -> Iterator[str]:
    """The names, with a bar on a terminal where there are many."""
    if len(names) < MANY or not sys.stderr.isatty():
        yield from names
        return
    with click.progressbar(names, label="Auditing", file=sys.stderr, width=40) as bar:
        yield from bar


def audited(name: str, grid: Grid | None, conflicts: int | None) -> Report:
    """The audit of one file, or of standard input for ``-``. Raises Unusable for what is no text."""
    from ..sat.oracle import BUDGET
    from .report import audit, decode, read_text

    content = decode(sys.stdin.buffer.read(), "-") if name == "-" else read_text(name)
    return audit(content, grid=grid, name=name, conflicts=BUDGET if conflicts is None else conflicts)


def given_grid(given: str) -> Grid:
    """The puzzle of --grid: a file, or the cells themselves. Raises click.UsageError where it is none."""
    from ..grammar.reader import read_grid
    from ..grammar.statements import Problem
    from .report import Unusable, read_text
    from .wording import message

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
