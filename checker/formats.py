"""Which report is written how, and where to: what stands behind ``--format`` and ``--output``."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any, NamedTuple

import click
from click.shell_completion import CompletionItem

from .deliver import complain, deliver, wants_colour

if TYPE_CHECKING:
    from .inputs import Outcome

TEXT = "text"


class Target(NamedTuple):
    """A format and the file that it is written to; None is standard output."""

    form: str
    output: str | None


# Each renderer is imported only where it is used.


def _text(outcome: Outcome, colour: bool) -> str:
    from . import text

    return text.render(outcome.reports, text.painted if colour else text.plain) if outcome.reports else ""


def _json(outcome: Outcome, _: bool) -> str:
    from . import json_report

    return json_report.render(outcome.reports)


def _jsonl(outcome: Outcome, _: bool) -> str:
    from . import json_lines

    return json_lines.render(outcome.reports, outcome.unusable)


def _sarif(outcome: Outcome, _: bool) -> str:
    from . import sarif

    return sarif.render(outcome.reports, outcome.unusable)


def _junit(outcome: Outcome, _: bool) -> str:
    from . import junit

    return junit.render(outcome.reports, outcome.unusable)


def _oneline(outcome: Outcome, _: bool) -> str:
    from . import oneline

    return oneline.render(outcome.reports)


def _html(outcome: Outcome, _: bool) -> str:
    from . import html_report

    return html_report.render(outcome.reports)


RENDERERS: dict[str, Callable[[Outcome, bool], str]] = {
    TEXT: _text,
    "oneline": _oneline,
    "json": _json,
    "jsonl": _jsonl,
    "sarif": _sarif,
    "junit": _junit,
    "html": _html,
}
"""Every format by its name on the command line; the second argument says whether colour is wanted."""


class FormatOption(click.ParamType):  # type: ignore[type-arg]  # not generic in older versions of click
    """``NAME``, or ``NAME=FILE`` for a report with a file of its own."""

    name = "format"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Target:
        if isinstance(value, Target):
            return value
        form, equals, output = value.partition("=")
        if form not in RENDERERS:
            self.fail(f"{form!r} is not one of {', '.join(RENDERERS)}.", param, ctx)
        if equals and not output:
            self.fail(f"{value!r}: a file was expected after the equals sign.", param, ctx)
        return Target(form, output or None)

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        return [CompletionItem(name) for name in RENDERERS if name.startswith(incomplete)]


def targets(formats: Sequence[Target], output: str | None) -> list[Target]:
    """Every report that is asked for. The one whose format names no file goes to ``output``, or to standard output.

    Raises click.UsageError where two would go to the same place, or none to ``output``.
    """
    asked = list(formats) or [Target(TEXT, None)]
    loose = [target.form for target in asked if target.output is None]
    if len(loose) > 1:
        raise click.UsageError(
            f"of several formats, all but one name their file: `--format {loose[0]}=FILE --format {loose[1]}`, for example"
        )
    if output is not None and not loose:
        raise click.UsageError("every --format names its file already, so nothing is left for --output")
    asked = [Target(form, own or output) for form, own in asked]
    files = [target.output for target in asked]
    if len(set(files)) < len(files):
        raise click.UsageError("two reports cannot go to the same file")
    return asked


def deliver_all(outcome: Outcome, asked: Sequence[Target]) -> bool:
    """Write every report, none before all are made; False where one could not be written, which is then complained of."""
    made = [(RENDERERS[form](outcome, wants_colour(output)), output) for form, output in asked]
    whole = True
    for text, output in made:
        try:
            if output is not None and any(_same(output, report.file) for report in outcome.reports):
                raise OSError(0, "a report would take the place of this input", output)
            deliver(text, output)
        except OSError as error:
            whole = False
            complain(f"{error.filename or 'output'}: {error.strerror or error}")
    return whole


def _same(output: str, file: str) -> bool:
    return FilePath(output).exists() and FilePath(file).exists() and FilePath(output).samefile(file)
