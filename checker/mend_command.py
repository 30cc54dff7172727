"""``stepwarrant mend``: the repairs as a patch, or made in place."""

from __future__ import annotations

import sys
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

import click

from .deliver import complain, deliver
from .inputs import audited, given_grid

if TYPE_CHECKING:
    from ..grammar.statements import Problem
    from .findings import Finding
    from .mending import Choose, Mended
    from .repair import Repair
    from .report import Report


@click.command()
@click.argument("file", metavar="FILE", type=click.Path())
@click.option("--grid", metavar="GRID", type=click.Path(), help="The puzzle, as for audit.")
@click.option("--write", is_flag=True, help="Make the repairs in FILE, instead of printing a patch.")
@click.option("--all", "ask", is_flag=True, help="Ask about each finding that has repairs but none that is safe.")
def mend(file: str, grid: str | None, write: bool, ask: bool) -> None:
    """Repair a walkthrough: print a patch that `git apply` takes, or make the repairs in place.

    Only safe repairs are made unasked: those that alone, of all small changes, make a step and all that hung on it sound.
    After mending, the file is audited again.

    Exit status: 0 nothing is left to mend, 1 findings are left, 2 the file could not be used; nothing was written then.
    """
    from .mending import mend as mended
    from .mending import patch, safe
    from .mending import write as put
    from .report import Unusable, decode

    if file == "-":
        raise click.UsageError("mend takes a file: there is nothing to write standard input back to")
    puzzle = given_grid(grid) if grid is not None else None
    try:
        before = FilePath(file).read_bytes()
        text = decode(before, file)
        outcome = mended(text, lambda told: audited(told, file, puzzle), _asking() if ask else safe)
        if write and outcome.made:
            put(file, before, outcome.text.encode("utf-8"))
    except Unusable as error:
        complain(str(error))
        sys.exit(2)
    if not write:
        deliver(patch(file, text, outcome.text))
    click.echo(_outcome(file, outcome, write), err=True)
    sys.exit(outcome.report.exit_status)


def _asking() -> Choose:
    """Safe repairs unasked; of others, the one that the user picks. What was left as it stands is not asked about again."""
    from .mending import safe

    left: list[Problem] = []

    def choose(report: Report, finding: Finding) -> Repair | None:
        unasked = safe(report, finding)
        if unasked or not finding.repairs or finding.problem in left:
            return unasked
        click.echo(f"\n{report.file}:{finding.line}:{finding.column} {finding.code}: {finding.message}", err=True)
        for number, repair in enumerate(finding.repairs, 1):
            click.echo(f"  {number}  {_described(report, repair)}", err=True)
        click.echo("  0  leave it as it stands", err=True)
        try:
            picked = click.prompt("Which", type=click.IntRange(0, len(finding.repairs)), default=0, err=True)
        except click.Abort:
            click.echo("no answer; it is left as it stands", err=True)
            picked = 0
        if picked:
            return finding.repairs[picked - 1]
        left.append(finding.problem)
        return None

    return choose


def _described(report: Report, repair: Repair) -> str:
    from .mending import applied

    lines = applied("\n".join(report.source), repair.changes).split("\n")
    changed = [(change.span.line, lines[change.span.line - 1].strip()) for change in repair.changes]
    if repair.text.endswith("\n"):
        return f"before line {repair.span.line}, put: {lines[repair.span.line - 1].strip()}"
    if not repair.text and repair.span.column == 1:
        return f"leave out line {repair.span.line}"
    return "\n     ".join(f"line {number}: {line}" for number, line in sorted(changed))


def _outcome(file: str, outcome: Mended, written: bool) -> str:
    from .mending import remaining

    made = len(outcome.made)
    lines = sorted({repair.span.line for repair in outcome.made})
    where = f"line{'s' if len(lines) > 1 else ''} {', '.join(map(str, lines))}"
    verb = "made" if written else "in the patch"
    done = f"{made} repair{'s' if made > 1 else ''} {verb} ({where})" if made else "no repair that can be made without asking"
    left = remaining(outcome.report)
    if not left:
        return f"{file}: {done}; {'with it, ' if made and not written else ''}the audit finds nothing to mend."
    lines_left = sorted({finding.line for finding in left})
    more = f", and {len(lines_left) - 8} more" if len(lines_left) > 8 else ""
    left_at = f"line{'s' if len(lines_left) > 1 else ''} {', '.join(map(str, lines_left[:8]))}{more}"
    count = f"{len(left)} finding{' is' if len(left) == 1 else 's are'} left ({left_at})"
    return f"{file}: {done}; {count}; `stepwarrant audit` shows {'it' if len(left) == 1 else 'them'}."
