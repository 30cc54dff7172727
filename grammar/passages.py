"""Running words with the place and time of each: what prose and captions have in common."""

from __future__ import annotations

from typing import NamedTuple

from .statements import Grid, Problem


class Passage(NamedTuple):
    """A stretch of words on one line of a file.

    Passages of one line run on without a gap: what stood between them is markup. ``line``, ``column``: of its first
    character, 1-based. ``time``: seconds, where the source gives one. ``cue``: counted from 1 in the file. ``opens``: a
    paragraph begins here, so that no sentence runs on from the passage before.
    """

    text: str
    line: int
    column: int
    time: float | None = None
    cue: int | None = None
    opens: bool = False


class Transcript(NamedTuple):
    """A source of narration, in its own order. ``grid``: the puzzle of a ``grid:`` block at its top."""

    passages: tuple[Passage, ...]
    problems: tuple[Problem, ...] = ()
    grid: Grid | None = None
