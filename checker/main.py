"""The command line. Results go to standard output, trouble to standard error."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

import click

from .deliver import close_quietly, complain, deliver
from .formats import RENDERERS, FormatOption, Target, deliver_all, targets
from .inputs import audit_all, given_grid
from .mend_command import mend
from .tell_command import tell
from .versions import show as show_versions

if TYPE_CHECKING:
    from .baseline import Baseline
    from .report import Kind

FINDINGS, UNUSABLE, BUG, INTERRUPTED = 1, 2, 4, 130


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.option(
    "--version", is_flag=True, is_eager=True, expose_value=False, callback=show_versions, help="Show the versions and exit."
)
def cli() -> None:
    """Replay and prove written step-by-step puzzle solutions.

    The tool advises. In a contest its own rules and judges decide.
    """


@cli.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...", type=click.Path())
@click.option(
    "--grid",
    metavar="GRID",
    type=click.Path(),
    help="The puzzle: a file, its cells row by row, or `none`. It wins over one in the path.",
)
@click.option(
    "--as",
    "kind",
    type=click.Choice(["path", "steps", "narration", "srt", "vtt"]),
    help="What standard input is, if its start does not tell.",
)
@click.option(
    "--format",
    "formats",
    type=FormatOption(),
    multiple=True,
    metavar="NAME[=FILE]",
    help=f"How to write the report: {', '.join(RENDERERS)}. May be repeated; all but one then name their file.",
)
@click.option("--output", metavar="FILE", type=click.Path(), help="Write the report there instead of to standard output.")
@click.option("--baseline", metavar="FILE", type=click.Path(), help="Leave out the findings that this file knows of.")
@click.option(
    "--write-baseline", metavar="FILE", type=click.Path(), help="Put all findings there, to be given as --baseline later."
)
@click.option("--expect", is_flag=True, help="Report where findings and `# expect:` comments differ.")
@click.option("--spell-out", is_flag=True, help="Write the path with all it leaves unsaid filled in, instead of a report.")
@click.option("--advice", is_flag=True, help="Note where an easier step was open than the one told.")
@click.option(
    "--conflicts", type=click.IntRange(min=1), metavar="N", help="Give up a question to the solver after N conflicts."
)
def audit(
    files: Sequence[str],
    grid: str | None,
    kind: Kind | None,
    formats: Sequence[Target],
    output: str | None,
    baseline: str | None,
    write_baseline: str | None,
    expect: bool,
    spell_out: bool,
    advice: bool,
    conflicts: int | None,
) -> None:
    """Audit walkthroughs: paths, narrations (.txt, .md), captions (.srt, .vtt), folders of them, or `-` for standard input.

    Standard input and *.jsonl files may be JSON lines too, one step a line.

    Exit status: 0 no error and no warning, 1 findings, 2 an input could not be used, 3 gave up within the limits, 4 two
    independent checks disagreed (a bug here).
    """
    if formats and (expect or spell_out):
        raise click.UsageError(f"{'--expect' if expect else '--spell-out'} takes the place of the report; leave out --format")
    asked = targets(formats, output)
    known = _known(baseline, write_baseline)
    outcome = audit_all(files, given_grid(grid) if grid is not None else None, conflicts, kind, advice=advice)
    if known is not None:
        new = known.renewed(outcome.reports) if write_baseline else known.only_new(outcome.reports)
        outcome = outcome._replace(reports=new)
    status = outcome.exit_status
    if expect:
        from . import expect as expectations

        deliver(expectations.render(outcome.reports), output)
        differ = any(any(expectations.differences(report)) for report in outcome.reports)
        status = UNUSABLE if outcome.unusable else FINDINGS if differ else 0
    elif spell_out:
        from .spelling import spelt_out

        if len(outcome.reports) + len(outcome.unusable) != 1:
            raise click.UsageError("--spell-out takes one path at a time")
        deliver("".join(map(spelt_out, outcome.reports)), output)
    else:
        status = status if deliver_all(outcome, asked) else UNUSABLE
    sys.exit(status)


def _known(baseline: str | None, write_baseline: str | None) -> Baseline | None:
    """The baseline of either option, read before anything is audited."""
    from .baseline import Baseline
    from .report import Unusable

    if baseline and write_baseline:
        raise click.UsageError("--baseline and --write-baseline: one at a time")
    try:
        if write_baseline:
            return Baseline.read(write_baseline) if FilePath(write_baseline).exists() else Baseline(write_baseline)
        return Baseline.read(baseline) if baseline else None
    except Unusable as error:
        complain(str(error))
        sys.exit(UNUSABLE)


@cli.command()
@click.argument("file", type=click.Path())
@click.option("--grid", metavar="GRID", type=click.Path(), help="The puzzle, as for audit.")
def watch(file: str, grid: str | None) -> None:
    """Audit FILE now and again whenever it is saved, until Ctrl-C.

    Needs the [watch] extra.
    """
    import time

    from .watching import NotInstalled, saves

    if not FilePath(file).is_file():
        complain(f"{file}: no such file")
        sys.exit(UNUSABLE)
    puzzle = given_grid(grid) if grid is not None else None
    try:
        for _ in saves(file):
            click.clear()  # on a terminal only
            deliver_all(audit_all([file], puzzle), targets((), None))
            deliver(f"\n{time.strftime('%H:%M:%S')}  Waiting for {file} to be saved; Ctrl-C ends.\n")
    except NotInstalled as error:
        complain(str(error))
        sys.exit(UNUSABLE)
    except KeyboardInterrupt:
        sys.exit(0)  # how a watch is meant to end


@cli.command()
@click.argument("file", type=click.Path())
@click.option("--step", type=int, metavar="N", help="The step to draw, as steps are counted; without it, every step.")
@click.option("--after", is_flag=True, help="Draw the board as the step leaves it, instead of the one it begins with.")
@click.option("--size", type=click.IntRange(64, 8192), default=720, show_default=True, metavar="N", help="Pixels across.")
@click.option("--format", "form", type=click.Choice(["svg", "png"]), help="As the output's name ends, or svg, unless said.")
@click.option("--output", metavar="FILE", type=click.Path(), help="Where to put the picture; for every step, a folder.")
@click.option("--grid", metavar="GRID", type=click.Path(), help="The puzzle, as for audit.")
def picture(
    file: str, step: int | None, after: bool, size: int, form: str | None, output: str | None, grid: str | None
) -> None:
    """Draw a step of the walkthrough in FILE, or every step.

    PNG needs the [pictures] extra.
    """
    from .pictures import NoRenderer, drawn

    outcome = audit_all([file], given_grid(grid) if grid is not None else None, None)
    if outcome.unusable:
        sys.exit(UNUSABLE)
    if len(outcome.reports) != 1:
        raise click.UsageError("pictures are drawn of one path at a time")
    suffix = FilePath(output or "").suffix.lower()
    if form is None and suffix not in ("", ".svg", ".png") and not FilePath(output or "").is_dir():
        raise click.UsageError(f"{output}: pictures are .svg or .png; --format says which, if the name does not")
    form = form or ("png" if (output or "").lower().endswith(".png") else "svg")
    into_folder = output is not None and FilePath(output).is_dir()
    if step is None and not into_folder:
        raise click.UsageError("pictures of all steps go into a folder that is there: --output FOLDER; or draw one: --step N")
    if form == "png" and output is None and sys.stdout.isatty():
        raise click.UsageError("a PNG picture is no text for a terminal: --output FILE")
    try:
        for name, image in drawn(outcome.reports[0], step, size, form, after=after):
            deliver(image, str(FilePath(output) / name) if output is not None and into_folder else output)
    except (NoRenderer, LookupError) as error:
        complain(f"{file}: {error.args[0]}" if isinstance(error, LookupError) else str(error))
        sys.exit(UNUSABLE)


def _codes(_: click.Context, __: click.Parameter, incomplete: str) -> list[str]:
    from .findings import SEVERITY

    return [code for code in SEVERITY if code.startswith(incomplete)]


@cli.command()
@click.argument("code", required=False, shell_complete=_codes)
def explain(code: str | None) -> None:
    """Print the page of a finding's CODE, or the list of all codes."""
    import textwrap

    from .pages import pages

    book = pages()
    if code is None:
        width = max(map(len, book)) + 11
        for page in book.values():
            start = f"{page.code:<{width - 9}}{page.severity:<7}  "
            deliver(textwrap.fill(page.title, 80, initial_indent=start, subsequent_indent=" " * width) + "\n")
        return
    if code not in book:
        import difflib

        near = difflib.get_close_matches(code, book, n=1)
        hint = f"; perhaps {near[0]} was meant" if near else "; `stepwarrant explain` lists them all"
        complain(f"there is no finding with the code {code}{hint}")
        sys.exit(UNUSABLE)
    deliver(book[code].text)


cli.add_command(mend)
cli.add_command(tell)


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
        close_quietly()
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
        complain("interrupted")
        return INTERRUPTED
    except Disagreement as error:
        complain(f"two independent checks disagreed, which is a bug here: {error}")
        return BUG
    except BrokenPipeError:
        close_quietly()
    except OSError as error:
        complain(f"{error.filename or 'output'}: {error.strerror or error}")
        return UNUSABLE
    except Exception as error:
        import traceback

        place = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{FilePath(place.filename).name}, line {place.lineno}"
        complain(f"stopped by a bug here ({type(error).__name__}: {error}; {where}); please report it")
        return BUG
    return 0
