"""``stepwarrant mend``: the repairs as a patch, or made in place."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Sequence
from functools import partial
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

import click

from .deliver import complain, deliver
from .inputs import audited, given_grid

if TYPE_CHECKING:
    from .findings import Finding
    from .mending import Choose, Mended
    from .report import Report
    from .weighing import Repair


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
    from .mending import patch
    from .mending import write as put
    from .report import Unusable, decode

    if file == "-":
        raise click.UsageError("mend takes a file: there is nothing to write standard input back to")
    puzzle = given_grid(grid) if grid is not None else None
    try:
        before = FilePath(file).read_bytes()
        text = decode(before, file)
        outcome = mended(text, lambda told: audited(told, file, puzzle), _asking() if ask else None)
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
    """The repair that the user picks. What was left as it stands is not asked about again, nor anything after ``q``."""
    left: list[str] = []
    over = False

    def choose(report: Report, finding: Finding) -> Repair | None:
        nonlocal over
        told = report.source[finding.line - 1] if finding.line <= len(report.source) else ""
        if over or not finding.repairs or finding.severity == "note" or told in left:
            return None
        _show(report, finding, told)
        answer = _answer(len(finding.repairs))
        if answer == "q":
            over = True
        if answer in ("q", "n"):
            left.append(told)
            return None
        return finding.repairs[int(answer) - 1]

    return choose


def _show(report: Report, finding: Finding, told: str) -> None:
    say = partial(click.echo, err=True)
    say(f"\n{report.file}:{finding.line}:{finding.column} {finding.code}")
    say(f"  {told.strip()}")
    say(textwrap.fill(finding.message, 80, initial_indent="  ", subsequent_indent="  "))
    for number, repair in enumerate(finding.repairs, 1):
        say(f"  {number}  {_described(report, repair)}")


def _answer(count: int) -> str:
    """A number of a repair, ``n`` for none or ``q`` for none from here on, which is also what the end of input says."""
    choices = ["1", "y"] if count == 1 else [str(number) for number in range(1, count + 1)]
    which = "1 or y makes it" if count == 1 else f"1 to {count} makes one"
    try:
        picked: str = click.prompt(
            f"  {which}, n leaves the line as it stands, q all that follow",
            type=click.Choice([*choices, "n", "q"], case_sensitive=False),
            default="n",
            show_choices=False,
            err=True,
        )
    except click.Abort:
        click.echo("\n  no answer; it is left as it stands", err=True)
        return "q"
    return "1" if picked == "y" else picked


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
    from .mending import base, remaining

    left, made = remaining(outcome.report), len(outcome.made)
    lines = sorted({change.span.line for repair in outcome.made for change in repair.changes})
    parts = []
    if made:
        verb = "made" if written else "in the patch"
        parts.append(f"{made} repair{'s' if made > 1 else ''} {verb} ({_lines(lines)})")
    elif left:
        parts.append("no repair that can be made without asking")
    if not left:
        parts.append("then the audit finds nothing to mend" if made and not written else "the audit finds nothing to mend")
    else:
        count = f"{len(left)} finding{' is' if len(left) == 1 else 's are'} left"
        where = _lines(sorted({finding.line for finding in left}))
        parts.append(f"{count} ({where}), which `stepwarrant audit` shows")
    if outcome.report.ending == "stops-short":
        parts.append("the path stops short")
    if made and not written and base(file) != FilePath.cwd():
        parts.append(f"the patch is to be applied in {base(file)}")
    return f"{file}: {'; '.join(parts)}."


def _lines(numbers: Sequence[int]) -> str:
    more = f" and {len(numbers) - 8} more" if len(numbers) > 8 else ""
    return f"line{'s' if len(numbers) > 1 else ''} {', '.join(map(str, numbers[:8]))}{more}"
