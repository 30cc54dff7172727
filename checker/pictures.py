"""Pictures of single steps: SVG documents, and PNG images by way of resvg."""

from __future__ import annotations

from collections.abc import Iterator
from xml.sax.saxutils import escape

from .drawing import LIGHT, describe, sheet, style
from .legible import legible
from .report import Report, StepReport
from .scenes import given_cells, scene

MARGIN = 6
"""Free space around a picture, in the drawing's own units."""


class NoRenderer(Exception):
    """The library that makes PNG images is not installed."""


def picture(report: Report, step: StepReport, width: int, *, after: bool = False) -> str:
    """The board before a step with all its marks, or the one after it, as an SVG document ``width`` pixels wide."""
    drawing = sheet(step.board.geometry)
    shown = scene(step, [finding for finding in report.findings if finding.step == step.step])
    board, marks = (step.after, shown.after) if after else (step.board, shown.before)
    when = "after" if after else "before"
    title = f"Step {step.step}: the board {when} it"
    words = report.source[step.line - 1].strip() if step.line <= len(report.source) else ""
    givens = given_cells(report)
    pieces = drawing.board(board, givens)
    symbols = drawing.definitions({piece.symbol for piece in (*pieces, *marks)})
    side = drawing.side + 2 * MARGIN
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{-MARGIN} {-MARGIN} {side} {side}" width="{width}" height="{width}" '
        f'role="img" aria-labelledby="title description"><title id="title">{_text(title)}</title>'
        f'<desc id="description">{_text(f"{words} ({step.verdict}). {describe(board)}")}</desc>'
        f"<style>{style(LIGHT)}</style><defs>{symbols}</defs>"
        f'<path class="ground" d="M{-MARGIN} {-MARGIN}h{side}v{side}h{-side}Z"/>'
        f"{drawing.frame(givens)}{drawing.layers(pieces, marks)}</svg>\n"
    )


def drawn(report: Report, step: int | None, width: int, form: str, *, after: bool = False) -> Iterator[tuple[str, str | bytes]]:
    """A name for a file, and the picture, of one step or of every step in turn; ``form``: ``svg`` or ``png``.

    Raises LookupError, with what is to be said, where there is no such step; NoRenderer as ``png`` does.
    """
    count = len(report.steps)
    if not count:
        raise LookupError("no step was replayed, so there is none to draw")
    if step is not None and not 1 <= step <= count:
        raise LookupError(f"there is no step {step}; the steps are counted from 1 to {count}")
    digits = len(str(count))
    for told in report.steps if step is None else [report.steps[step - 1]]:
        svg = picture(report, told, width, after=after)
        yield f"step-{told.step:0{digits}}{'-after' if after else ''}.{form}", png(svg, width) if form == "png" else svg


def png(svg: str, width: int) -> bytes:
    """The picture as a PNG image, ``width`` pixels wide. Raises NoRenderer where resvg-py is not installed."""
    try:
        import resvg_py
    except ImportError as error:
        raise NoRenderer("PNG pictures need resvg-py: pip install 'stepwarrant[pictures]'; SVG ones need nothing") from error
    return bytes(resvg_py.svg_to_bytes(svg_string=svg, width=width, height=width, skip_system_fonts=True))


def _text(text: str) -> str:
    return escape(legible(text))
