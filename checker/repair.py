"""What a narrator may have meant by a line that failed: changes of one token under which it is sound.

Every change is held against the board by the same judge, and the best are replayed with the rest of the path: a wrong placement
whose repair makes the next ten steps sound again is what was meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from ..grammar.line import LONGEST_LINE, LineReader
from ..grammar.slips import Edit, edits
from ..grammar.statements import Grid, Path, Reason, Removal, RestOf, Span, Statement, Step, Told, Unread
from ..grammar.writer import write_reason
from .catalogue import CATALOGUE, Parts
from .judge import Judge, Judged
from .puzzle import Puzzle
from .replay import Replay, Replayed

REPLAYED = 12
"""Sound changes of one line that are replayed with the rest of the path."""

SHOWN = 3
"""Repairs that are offered."""

LINES = 10
"""Failed lines of one path that a repair is looked for."""

FARTHEST = 1000
"""Statements into a path past which no repair is looked for: each change has the path before it replayed."""

MOST_PARTS = 3
"""Parts that say what a pattern is; others (fins, a second word for the same house) follow from them."""

AHEAD = 100
"""Statements after a failed one that a change is replayed with."""

WHOLE = 1000
"""How far a reason written anew is from what stood there: farther than any change of one word."""

LIKELIHOOD = {"cell": 0, "swapped": 0, "digit": 0, "house": 0, "house-kind": 1, "name": 1, "dropped": 2}
"""Which change comes first among those that do the same for the path (a guess at how often each slip is made)."""


class Repair(NamedTuple):
    """Put ``text`` in place of the span, where ``was`` stands.

    ``applies``: ``safe`` where it alone, of all single changes, makes the step and all that hung on it sound; else ``ask``.
    """

    span: Span
    was: str
    text: str
    applies: str


class _Sound(NamedTuple):
    edit: Edit
    statement: Step
    rank: tuple[int, ...]


def repairs(
    path: Path, grid: Grid, steps: Sequence[Replayed], source: Sequence[str], reader: LineReader, conflicts: int
) -> dict[int, tuple[Repair, ...]]:
    """For the number of each failed step, the likeliest repairs, best first; none where no single change will do."""
    found: dict[int, tuple[Repair, ...]] = {}
    failed = [step for step in steps[:FARTHEST] if step.judged.problems and isinstance(step.statement, Step | Unread)]
    for step in failed[:LINES]:
        if len(source[step.statement.span.line - 1]) > LONGEST_LINE or _leaves_much_open(step.statement):
            continue
        found[step.number] = tuple(_repairs(path, grid, step, source, reader, conflicts))
    return found


def _leaves_much_open(statement: Told) -> bool:
    """Are two parts of the pattern or more left unsaid? Then every change would be a search of its own, and find too much."""
    reason = statement.reason if isinstance(statement, Step | Unread) else None
    if reason is None or CATALOGUE[reason.name.value].tells_placement:
        return False
    form = CATALOGUE[reason.name.value].form
    said = sum(Parts.of(reason).closed(slot.word) for slot in form.slots)
    return said < min(len(form.slots), MOST_PARTS) - 1


def _repairs(
    path: Path, grid: Grid, failed: Replayed, source: Sequence[str], reader: LineReader, conflicts: int
) -> Iterator[Repair]:
    at = next(place for place, statement in enumerate(path.statements) if statement is failed.statement)
    line = failed.statement.span.line
    text = source[line - 1].partition("#")[0]
    ranked = sorted(_sound(path, grid, failed, at, text, reader, conflicts), key=lambda found: found.rank)
    sound = list({found.statement: found for found in reversed(ranked)}.values())[::-1][:REPLAYED]
    if not sound:
        return
    weighed = []
    for candidate in sound:
        changed = (*path.statements[:at], candidate.statement, *path.statements[at + 1 : at + AHEAD])
        weighed.append((_trouble(path, changed, grid, conflicts), candidate))
    least = min(trouble for trouble, _ in weighed)
    best = [candidate for trouble, candidate in weighed if trouble == least]
    plain = [candidate for candidate in best if candidate.edit.kind != "dropped"]
    # Where anything still fails, what hung on this step may be among it: only a person can tell.
    safe = len(plain or best) == 1 and least == 0
    for trouble, candidate in sorted(weighed, key=lambda pair: (pair[0], pair[1].rank))[:SHOWN]:
        if trouble == least:
            edit = candidate.edit
            applies = "safe" if safe and candidate in (plain or best) else "ask"
            was = text[edit.column - 1 : edit.end - 1]
            yield Repair(Span(line, edit.column, edit.end), was, edit.text, applies)


def _sound(
    path: Path, grid: Grid, failed: Replayed, at: int, text: str, reader: LineReader, conflicts: int
) -> Iterator[_Sound]:
    """The changes under which the line is sound on the board as it stood before it."""
    guilty = [problem.span for problem in failed.judged.problems]
    puzzle = Puzzle(grid, conflicts)
    try:
        replay = Replay(path, puzzle, looks=0)
        for statement in path.statements[:at]:
            replay.tell(statement)
        court = Judge(replay.standing, puzzle, brief=True)
        seen = {text}
        for edit in _all_edits(text, failed, grid.geometry.size, reader):
            changed = edit.applied(text)
            if changed in seen:
                continue
            seen.add(changed)
            statement = reader.read(changed, grid.geometry, failed.statement.span.line, failed.statement.comment)
            if not isinstance(statement, Step):
                continue
            judged = court.step(statement)
            # A name that fits only once parts are worked out is no slip of one word.
            if not judged.clean or _hides(statement, judged) or (edit.kind == "name" and judged.notes):
                continue
            away = all(edit.end <= span.column or span.end <= edit.column for span in guilty)
            yield _Sound(edit, statement, (LIKELIHOOD[edit.kind], int(away), edit.far, edit.column))
    finally:
        puzzle.oracle.close()


def _hides(step: Step, judged: Judged) -> bool:
    """Does the change only hide the slip: behind a cell or digit that was named already, or one there is nothing to say of?"""
    for effect in step.effects:
        cells = effect.cells if isinstance(effect, Removal) else ()
        digits = effect.digits if isinstance(effect, Removal | RestOf) else ()
        if any(len({said.value for said in items}) < len(items) for items in (cells, digits)):
            return True
        shown = {effected.claim.candidate.digit for effected in judged.effects}
        if isinstance(effect, RestOf) and not {digit.value for digit in digits} <= shown:
            return True
    return False


def _all_edits(text: str, failed: Replayed, size: int, reader: LineReader) -> Iterator[Edit]:
    """The slips of one token, and what the finding itself suggests: the right spelling, or the right name with its parts."""
    for problem in failed.judged.problems:
        if problem.details.get("instead"):
            yield Edit(problem.span.column, problem.span.end, problem.details["instead"], "name")
        reason = problem.details.get("reason")
        if isinstance(reason, Reason) and isinstance(failed.statement, Step) and failed.statement.reason is not None:
            span = failed.statement.reason.span
            yield Edit(span.column, span.end, write_reason(reason), "name", WHOLE)
    yield from edits(text, failed.statement.effects if isinstance(failed.statement, Step | Unread) else (), size, reader)


def _trouble(path: Path, statements: Sequence[Statement], grid: Grid, conflicts: int) -> int:
    """How many steps of the path as changed fail, or would if they were not excused for an earlier one."""
    puzzle = Puzzle(grid, conflicts)
    try:
        replay = Replay(replace(path, statements=tuple(statements)), puzzle, looks=0)
        replay.run()
        return sum(bool(step.judged.problems) for step in replay.steps)
    finally:
        puzzle.oracle.close()
