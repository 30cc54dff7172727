"""The command line. Results go to standard output, trouble to standard error."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from ..grammar.statements import Grid
    from .report import Report

FINDINGS, UNUSABLE, GAVE_UP, BUG, INTERRUPTED = 1, 2, 3, 4, 130
MANY = 8
"""From how many files on a progress bar is worth showing."""


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(package_name="stepwarrant", message="stepwarrant %(version)s")
def cli() -> None:
    """Replay and prove written step-by-step puzzle solutions.

    The tool advises. In a contest its own rules and judges decide.
    """


@cli.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option(
    "--grid", metavar="GRID", help="The puzzle: a file, its cells row by row, or `none`. It wins over one in the path."
)
@click.option("--as", "kind", type=click.Choice(["path"]), help="What standard input is; a path, unless said.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("--output", metavar="FILE", help="Write the report there instead of to standard output.")
@click.option("--expect", is_flag=True, help="Report where findings and `# expect:` comments differ.")
@click.option("--spell-out", is_flag=True, help="Write the path with all it leaves unsaid filled in, instead of a report.")
@click.option(
    "--conflicts", type=click.IntRange(min=1), metavar="N", help="Give up a question to the solver after N conflicts."
)
def audit(
    files: Sequence[str],
    grid: str | None,
    kind: str | None,
    form: str,
    output: str | None,
    expect: bool,
    spell_out: bool,
    conflicts: int | None,
) -> None:
    """Audit walkthroughs: path files, folders of them, or `-` for standard input.

    Exit status: 0 no error and no warning, 1 findings, 2 an input could not be used, 3 gave up within the limits, 4 two
    independent checks disagreed (a bug here).
    """
    del kind  # paths are the only kind so far; the option keeps scripts that name it working
    from .report import Unusable

    trouble = False
    puzzle = _grid(grid) if grid is not None else None
    names: list[str] = []
    for name in files:
        try:
            names += _inputs(name)
        except Unusable as error:
            trouble = True
            _complain(str(error))
    reports: list[Report] = []
    for name in _with_progress(list(dict.fromkeys(names))):
        try:
            reports.append(_audited(name, puzzle, conflicts))
        except Unusable as error:
            trouble = True
            _complain(str(error))
    if expect:
        from . import expect as expectations

        rendered = expectations.render(reports)
    elif spell_out:
        from .spelling import spelt_out

        if len(names) != 1:
            raise click.UsageError("--spell-out takes one path at a time")
        rendered = "".join(map(spelt_out, reports))
    elif form == "json":
        from . import json_report

        rendered = json_report.render(reports)
    else:
        from . import text

        rendered = text.render(reports, text.painted if _colour(output) else text.plain) if reports else ""
    _deliver(rendered, output)
    if trouble:
        sys.exit(UNUSABLE)
    if expect:
        sys.exit(FINDINGS if any(any(expectations.differences(report)) for report in reports) else 0)
    statuses = {report.exit_status for report in reports}
    sys.exit(next((status for status in (UNUSABLE, GAVE_UP, FINDINGS) if status in statuses), 0))


@cli.command()
@click.argument("file")
@click.option("--format", "form", type=click.Choice(["prose", "srt", "vtt"]), default="prose", show_default=True)
@click.option("--rate", type=click.IntRange(30, 600), metavar="N", help="Words a minute, for captions; 150 unless said.")
@click.option("--output", metavar="FILE", help="Write the words there instead of to standard output.")
def tell(file: str, form: str, rate: int | None, output: str | None) -> None:
    """Tell the path in FILE (`-` for standard input) in words: as prose, or as captions at the pace of speech.

    A line that cannot be read as a statement is told as it stands. Exit status: 0, 1 if there was such a line, 2 if the input
    could not be used.
    """
    from ..grammar.statements import Unread
    from .report import Unusable, read_only
    from .telling import RATE
    from .telling import tell as told

    try:
        path = read_only(_content(file))
    except Unusable as error:
        _complain(str(error))
        sys.exit(UNUSABLE)
    _deliver(told(path, form, RATE if rate is None else rate), output)
    unread = [statement.span.line for statement in path.statements if isinstance(statement, Unread)]
    if unread:
        lines = f"line {unread[0]}" if len(unread) == 1 else f"{len(unread)} lines, the first of them line {unread[0]},"
        _complain(f"{file}: {lines} could not be read and stands as it was; `stepwarrant audit` says why")
        sys.exit(FINDINGS)


@cli.command()
@click.argument("code", required=False)
def explain(code: str | None) -> None:
    """Print the page of a finding's CODE, or the list of all codes."""
    import textwrap

    from .pages import pages

    book = pages()
    if code is None:
        width = max(map(len, book)) + 11
        for page in book.values():
            start = f"{page.code:<{width - 9}}{page.severity:<7}  "
            _deliver(textwrap.fill(page.title, 80, initial_indent=start, subsequent_indent=" " * width) + "\n", None)
        return
    if code not in book:
        import difflib

        near = difflib.get_close_matches(code, book, n=1)
        hint = f"; perhaps {near[0]} was meant" if near else "; `stepwarrant explain` lists them all"
        _complain(f"there is no finding with the code {code}{hint}")
        sys.exit(UNUSABLE)
    _deliver(book[code].text, None)


def run() -> None:
    """The console script: every way to end that is not a result ends in one line, never in a traceback."""
    import gc

    # A run makes many small objects that live to its end: looking for cycles among them, and taking them down one by one at
    # the end, is a tenth of a short run each.
    gc.set_threshold(50_000, 20, 20)
    status = _status()
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except BrokenPipeError:
        _close_quietly()
    os._exit(status)


def _status() -> int:
    from ..sat.oracle import Disagreement

    try:
        cli.main(standalone_mode=False)
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else 0
    except click.ClickException as error:
        error.show()
        return UNUSABLE
    except (click.Abort, KeyboardInterrupt):
        _complain("interrupted")
        return INTERRUPTED
    except Disagreement as error:
        _complain(f"two independent checks disagreed, which is a bug here: {error}")
        return BUG
    except BrokenPipeError:
        _close_quietly()
    except OSError as error:
        _complain(f"{error.filename or 'output'}: {error.strerror or error}")
        return UNUSABLE
    except Exception as error:
        import traceback

        place = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{FilePath(place.filename).name}, line {place.lineno}"
        _complain(f"stopped by a bug here ({type(error).__name__}: {error}; {where}); please report it")
        return BUG
    return 0


def _complain(message: str) -> None:
    click.echo(f"stepwarrant: {message}", err=True)


def _inputs(name: str) -> Iterator[str]:
    """The files that a name stands for: itself, or every path file below a folder, sorted."""
    from .report import Unusable

    folder = FilePath(name)
    if name == "-" or not folder.is_dir():
        yield name
        return
    found = sorted(str(path) for path in folder.rglob("*.path") if path.is_file())
    if not found:
        raise Unusable(f"{name}: no path files (*.path) in this folder")
    yield from found


def _with_progress(names: list[str]) -> Iterator[str]:
    if len(names) < MANY or not sys.stderr.isatty():
        yield from names
        return
    with click.progressbar(names, label="Auditing", file=sys.stderr, width=40) as bar:
        yield from bar


def _audited(name: str, grid: Grid | str | None, conflicts: int | None) -> Report:
    from ..sat.oracle import BUDGET
    from .report import audit as audit_text

    return audit_text(_content(name), grid=grid, name=name, conflicts=BUDGET if conflicts is None else conflicts)


def _content(name: str) -> str:
    """The text of a file, or of standard input. Raises Unusable."""
    from .report import decode, read_text

    return decode(sys.stdin.buffer.read(), "-") if name == "-" else read_text(name)


def _grid(given: str) -> Grid | str:
    """The puzzle of --grid, or the word for no puzzle. Raises click.UsageError where it is none."""
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


def _colour(output: str | None) -> bool:
    return output is None and sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _deliver(text: str, output: str | None) -> None:
    """Write the result whole: to a file by way of a neighbour that takes its place, so that no half of it is ever there."""
    if output is None:
        sys.stdout.reconfigure(encoding="utf-8", newline="\n")  # type: ignore[union-attr]
        try:
            sys.stdout.write(text)
            sys.stdout.flush()
        except BrokenPipeError:
            _close_quietly()
        return
    import tempfile

    target = FilePath(output)
    try:
        with tempfile.NamedTemporaryFile("w", encoding="utf-8", newline="\n", dir=target.parent, delete=False) as beside:
            beside.write(text)
        umask = os.umask(0)
        os.umask(umask)
        FilePath(beside.name).chmod(0o666 & ~umask)
        FilePath(beside.name).replace(target)
    except OSError as error:
        _complain(f"{output}: {error.strerror or error}")
        sys.exit(UNUSABLE)


def _close_quietly() -> None:
    """The reader went away: say nothing more, also not when Python flushes at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
