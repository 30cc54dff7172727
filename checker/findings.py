"""Findings as data: a stable code, a severity, one place, and the facts that the wording needs."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from ..grammar.statements import Problem, Span

if TYPE_CHECKING:
    from .weighing import Repair

Severity = Literal["error", "warning", "note"]

SEVERITY: dict[str, Severity] = {
    # reading
    "unreadable-line": "error",
    "unknown-word": "error",
    "no-such-cell": "error",
    "no-such-house": "error",
    "no-such-digit": "error",
    "drawing-malformed": "error",
    "unknown-key": "warning",
    "no-steps-line": "warning",
    # captions
    "captions-are-html": "error",
    "no-webvtt-line": "warning",
    "cue-time-malformed": "warning",
    "cue-ends-early": "warning",
    "cue-out-of-order": "warning",
    "cue-unseparated": "warning",
    "text-outside-cue": "warning",
    "cue-number": "note",
    "cue-setting": "note",
    "cues-overlap": "note",
    # the puzzle
    "no-grid": "error",
    "grid-malformed": "error",
    "givens-clash": "error",
    "no-solution": "error",
    "several-solutions": "error",
    # the narration
    "other-grid": "error",
    "no-claims": "warning",
    "cited-amiss": "error",
    "unread-sentence": "note",
    "taken-by-sound": "note",
    # the step
    "cell-filled": "error",
    "cell-outside-house": "error",
    "named-twice": "error",
    "pattern-absent": "error",
    "broken-link": "error",
    "misnamed": "error",
    "effect-refuted": "error",
    "effect-unproved": "error",
    "contradictory-warrant": "error",
    "candidates-differ": "error",
    "already-done": "warning",
    "not-a-candidate": "warning",
    "several-readings": "warning",
    "gave-up": "warning",
    "no-reason": "note",
    "worked-out": "note",
    "out-of-order": "note",
    "not-shown-before": "note",
    "more-follows": "note",
    "easier-step": "note",
    # without a puzzle
    "statements-disagree": "error",
    "deductions-unchecked": "note",
    # the path
    "past-the-end": "warning",
    "stops-short": "note",
}
"""Every code, in the order of the pages, with its severity. A code is never renamed."""


@dataclass(frozen=True)
class Finding:
    """One thing to say. Lines and columns are 1-based; ``end_column`` is one past the last; ``time`` is in seconds.

    ``step``: the number of the counted statement, if it belongs to one. ``also``: smaller matters that belong to it.
    ``dependants``: the numbers and lines of the steps that hang on this one. ``repairs``: what may have been meant, best first.
    ``holds_after``: the line after which the step would hold as told.
    ``cue``: its number, in captions. ``doubted``: it was read from words that may have meant something else, so that it is no
    more than a note.
    """

    problem: Problem
    step: int | None = None
    time: float | None = None
    also: tuple[Problem, ...] = ()
    dependants: tuple[tuple[int, int], ...] = field(default=())
    repairs: tuple[Repair, ...] = field(default=())
    holds_after: int | None = None
    cue: int | None = None
    doubted: bool = False

    @property
    def code(self) -> str:
        """The stable name of this kind of finding."""
        return self.problem.code

    @property
    def severity(self) -> Severity:
        """``error``, ``warning`` or ``note``."""
        return "note" if self.doubted else SEVERITY[self.problem.code]

    @property
    def span(self) -> Span:
        """The guilty token."""
        return self.problem.span

    @property
    def line(self) -> int:
        """1-based."""
        return self.span.line

    @property
    def column(self) -> int:
        """1-based, in characters."""
        return self.span.column

    @property
    def end_column(self) -> int:
        """One past the last character."""
        return self.span.end

    @property
    def message(self) -> str:
        """What stands there and what was expected, in one or two sentences."""
        from .wording import message

        return message(self.problem)

    @property
    def advice(self) -> tuple[str, ...]:
        """The next move, what else is the matter, and what hangs on it, a text each."""
        from .wording import help_for

        return help_for(self)

    @property
    def help(self) -> str | None:
        """The advice in one text, if there is any."""
        return " ".join(self.advice) or None


def order(finding: Finding) -> tuple[int, bool, int, int, str]:
    """The documented order of findings in a file: by line, notes last in it, then by column, end and code."""
    return (finding.line, finding.severity == "note", finding.column, finding.end_column, finding.code)
