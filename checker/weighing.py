"""What changes of a failed step are worth: judged where it stood, replayed with the rest, the likeliest offered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from ..grammar.slips import Edit
from ..grammar.statements import Path, Removal, RestOf, Span, Statement, Step
from .judge import Judge, Judged
from .places import Change, told
from .puzzle import Puzzle
from .replay import Replay, Replayed
from .sight import unclaimed

REPLAYED = 12
"""Sound changes of one line that are replayed with the rest of the path."""

SHOWN = 3
"""Repairs that are offered."""

AHEAD = 100
"""Statements after a failed one that a change is replayed with, and that it is tried after."""

LIKELIHOOD = {
    "cell": 0,
    "swapped": 0,
    "digit": 0,
    "house": 0,
    "house-kind": 1,
    "name": 1,
    "dropped": 2,
    "exchanged": 2,
    "told-early": 1,
    "told-late": 1,
    "steps-exchanged": 1,
    "two-words": 3,
    "left-out": 4,
    "told-twice": 5,
}
"""Which change comes first among those that do the same for the path (a guess at how often each slip is made)."""


REORDERED = ("told-early", "told-late", "steps-exchanged")
ADDED = (*REORDERED, "left-out", "told-twice")
"""Changes of the story, not of a line: offered only where no step fails for them that did not fail before."""


class Repair(NamedTuple):
    """Put ``text`` in place of the span, where ``was`` stands; ``also``: what else has to change with it, on other lines.

    ``applies``: ``safe`` where it alone, of all single changes, makes the step and all that hung on it sound; else ``ask``.
    ``kind``: of the slip that it takes back, one of those in ``LIKELIHOOD``. ``other``: the line of the other step, where steps
    change places.
    """

    span: Span
    was: str
    text: str
    applies: str
    kind: str
    also: tuple[Change, ...] = ()
    other: int | None = None

    @property
    def changes(self) -> tuple[Change, ...]:
        """All that changes, on the failed line first."""
        return (Change(self.span, self.was, self.text), *self.also)


class Advice(NamedTuple):
    """What is known of a failed line: the likeliest repairs, best first, and the line after which it holds as told."""

    repairs: tuple[Repair, ...] = ()
    holds_after: int | None = None


class Candidate(NamedTuple):
    """A change, and the statements as they are with it: ``statements`` from the place ``start`` of the path on."""

    kind: str
    changes: tuple[Change, ...]
    start: int
    statements: tuple[Statement, ...]
    rank: tuple[int, ...]
    other: int | None = None


class Tried(NamedTuple):
    """A change of the words, and the step that they then stand for, in every reading, the most literal first."""

    edit: Edit
    change: Change
    readings: tuple[Step, ...]


class Weighed(NamedTuple):
    """A candidate, how many steps still fail with it, and whether all of those have a slip of their own."""

    candidate: Candidate
    trouble: int
    alone: bool


class Weighing:
    """Holds changes of one replayed path against the board."""

    def __init__(self, path: Path, puzzle: Puzzle, steps: Sequence[Replayed]) -> None:
        self.path = path
        self.puzzle = puzzle
        self.steps = steps
        self.places = [place for place, statement in enumerate(path.statements) if told(statement)]
        """For each counted statement, from 0, its place among all statements."""

    def holding(self, failed: Replayed, tried: Iterable[Tried]) -> Iterator[Candidate]:
        """The changes under which the step is sound on the board as it stood before it."""
        guilty = [problem.span for problem in failed.judged.problems]
        at = self.places[failed.number - 1]
        with self.puzzle.at(failed.strict) as later:
            court = Judge(failed.standing, later, brief=True)
            said: set[Step] = set()
            for edit, change, readings in tried:
                for step in readings:
                    if step in said:
                        break
                    judged = court.step(step)
                    # A name that fits only once parts are worked out is no slip of one word.
                    if not judged.clean or hides(step, judged) or (edit.kind == "name" and judged.notes):
                        continue
                    said.add(step)
                    away = all(edit.end <= span.column or span.end <= edit.column for span in guilty)
                    # What is told without the word is all that follows: the word is one too many, and not another one misread.
                    claims = {effect.claim for effect in judged.effects}
                    whole = edit.kind == "dropped" and not unclaimed(judged.warrant, claims, court.standing, later)
                    rank = (0, -1) if whole else (LIKELIHOOD[edit.kind], int(away), edit.far, edit.column)
                    yield Candidate(edit.kind, (change,), at, (step, *self.after(at)), rank)
                    break

    def weighed(self, candidates: Sequence[Candidate], failed: Replayed) -> list[Weighed]:
        """The candidates that leave least trouble, likeliest first; of those that change the order, the first."""
        ranked = sorted(candidates, key=lambda candidate: candidate.rank)[:REPLAYED]
        weighed: list[Weighed] = []
        for candidate in ranked:
            failing = self._failing(candidate, failed, weighed[-1].trouble if weighed else None)
            alone = failing is not None and failing <= self._others(failed)
            if failing is not None and (alone or candidate.kind not in ADDED):
                weighed.append(Weighed(candidate, len(failing), alone))
        least = [found for found in weighed if found.trouble == weighed[-1].trouble]
        moved = [found for found in least if found.candidate.kind in REORDERED]
        return [found for found in least if found not in moved[1:]]

    def _others(self, failed: Replayed) -> set[int]:
        """The statements that fail whatever this one meant."""
        return {id(step.statement) for step in self.steps if step.judged.problems and step is not failed}

    def _failing(self, candidate: Candidate, failed: Replayed, limit: int | None) -> set[int] | None:
        """The statements of the path as changed that fail, or would if they were not excused for an earlier one, without those
        between the change and the failed one that fail as it is; None if more than ``limit``."""
        first = self.places.index(candidate.start)
        begin = self.steps[first]
        known = {id(step.statement) for step in self.steps[first : failed.number - 1] if step.judged.problems}
        failing: set[int] = set()
        with self.puzzle.at(begin.strict) as later:
            replay = Replay(self.path, later, looks=0, board=begin.before)
            for statement in candidate.statements:
                before = len(replay.steps)
                replay.tell(statement)
                if len(replay.steps) > before and replay.steps[-1].judged.problems and id(statement) not in known:
                    failing.add(id(statement))
                    if limit is not None and len(failing) > limit:
                        return None
        return failing

    def after(self, place: int) -> tuple[Statement, ...]:
        return self.path.statements[place + 1 : place + AHEAD]


def offered(found: Sequence[Weighed]) -> Iterator[Repair]:
    """The first of what was weighed, and whether each can be made unasked."""
    plain = [candidate for candidate, *_ in found if candidate.rank[0] < LIKELIHOOD["dropped"]]
    left_out = any(candidate.kind == "left-out" for candidate, *_ in found)
    unique = plain or [candidate for candidate, *_ in found if candidate.kind != "told-twice"]
    for candidate, _, alone in found[:SHOWN]:
        # Two words changed, or a step left out, are the writer's to tell; and where a step may have been left out, the names
        # and the order may be right.
        doubtful = ("left-out", "two-words", *(("name", *REORDERED) if left_out else ()))
        safe = len(unique) == 1 and alone and candidate in unique and candidate.kind not in doubtful
        change, *also = candidate.changes
        yield Repair(*change, "safe" if safe else "ask", candidate.kind, tuple(also), candidate.other)


def hides(step: Step, judged: Judged) -> bool:
    """Does the change only hide the slip: behind something said twice, or a digit there is nothing to say of?"""
    claims = [effected.claim for effected in judged.effects]
    if len(set(claims)) < len(claims):
        return True
    for effect in step.effects:
        cells = effect.cells if isinstance(effect, Removal) else ()
        digits = effect.digits if isinstance(effect, Removal | RestOf) else ()
        if any(len({said.value for said in items}) < len(items) for items in (cells, digits)):
            return True
        shown = {effected.claim.candidate.digit for effected in judged.effects if effected.span == effect.span}
        if isinstance(effect, RestOf) and not {digit.value for digit in digits} <= shown:
            return True
    return False
