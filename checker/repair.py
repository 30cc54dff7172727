"""What a narrator may have meant by a line that failed.

The likeliest slips are tried first: one word told wrong, a step told in the wrong place. Where none of them will do: two words,
a step left out before it. Every change is held against the board by the same judge, and the best are replayed with the rest
of the path: a wrong placement whose repair makes the next ten steps sound again is what was meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from ..grammar.line import LONGEST_LINE, LineReader
from ..grammar.slips import Edit, edits, exchanges, pairs
from ..grammar.statements import Path, Reason, Removal, RestOf, Span, Statement, Step, Told, Unread
from ..grammar.writer import write_reason, write_statement
from .catalogue import CATALOGUE, Parts
from .judge import Judge, Judged, leaves_open
from .openings import PATTERNS, SINGLES, openings
from .places import Change, reordered, told
from .puzzle import Puzzle
from .replay import Replay, Replayed
from .sight import unclaimed

REPLAYED = 12
"""Sound changes of one line that are replayed with the rest of the path."""

SHOWN = 3
"""Repairs that are offered."""

LINES = 10
"""Failed lines of one path that a repair is looked for."""

MOST_PARTS = 3
"""Parts that say what a pattern is; others (fins, a second word for the same house) follow from them."""

AHEAD = 100
"""Statements after a failed one that a change is replayed with, and that it is tried after."""

NEAR = 12
"""Steps left out before a failed one that are looked for."""

READY = 60
"""Steps ready on the board that are looked at for one left out."""

PAIRS = 400
"""Changes of two words that are tried."""

WHOLE = 1000
"""How far a reason written anew is from what stood there: farther than any change of one word."""

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


class _Candidate(NamedTuple):
    """A change, and the statements as they are with it: ``statements`` from the place ``start`` of the path on."""

    kind: str
    changes: tuple[Change, ...]
    start: int
    statements: tuple[Statement, ...]
    rank: tuple[int, ...]
    other: int | None = None


class _Weighed(NamedTuple):
    """A candidate, how many steps still fail with it, and whether all of those have a slip of their own."""

    candidate: _Candidate
    trouble: int
    alone: bool


def advise(
    path: Path, puzzle: Puzzle, steps: Sequence[Replayed], source: Sequence[str], reader: LineReader
) -> dict[int, Advice]:
    """For the number of each failed step, what may have been meant; nothing where no small change will do."""
    failed = [step for step in steps if step.judged.problems and isinstance(step.statement, Step | Unread)]
    search = Search(path, puzzle, steps, source, reader)
    return {
        step.number: search.advice(step)
        for step in failed[:LINES]
        if len(source[step.statement.span.line - 1]) <= LONGEST_LINE
    }


class Search:
    """Looks for what the failed steps of one replayed path may have meant."""

    def __init__(
        self, path: Path, puzzle: Puzzle, steps: Sequence[Replayed], source: Sequence[str], reader: LineReader
    ) -> None:
        self.path = path
        self.puzzle = puzzle
        self.steps = steps
        self.source = source
        self.reader = reader
        self.places = [place for place, statement in enumerate(path.statements) if told(statement)]
        """For each counted statement, from 0, its place among all statements."""

    def advice(self, failed: Replayed) -> Advice:
        """What is known of one of the failed steps."""
        unsaid = isinstance(failed.statement, Step) and any(map(leaves_open, failed.statement.effects))
        open_ = unsaid or _leaves_much_open(failed.statement)
        later = None if open_ else self._later(failed)
        moves = [*self._moves(failed, later), *self._told_twice(failed)]
        likely = [] if open_ else [*self._one_word(failed)]
        left_out = [] if open_ else [*self._left_out(failed, SINGLES)]
        found = self._weighed([*likely, *moves, *left_out], failed)
        if not found and not open_:
            found = self._weighed([*self._two_words(failed), *self._left_out(failed)], failed)
            # There are many ways to change two words; where several will do, none of them says what was meant.
            twos = [other for other in found if other.candidate.kind == "two-words"]
            found = [other for other in found if len(twos) == 1 or other not in twos]
        after = None if later is None else self.steps[later - 1].statement.span.line
        return Advice(tuple(_offered(found)), after)

    # Changes of the line itself

    def _one_word(self, failed: Replayed) -> Iterator[_Candidate]:
        text = self._text(failed)
        effects = failed.statement.effects if isinstance(failed.statement, Step | Unread) else ()
        size = self.puzzle.geometry.size
        yield from self._sound(failed, [*_suggested(failed), *edits(text, effects, size, self.reader), *exchanges(text)])

    def _two_words(self, failed: Replayed) -> Iterator[_Candidate]:
        size = self.puzzle.geometry.size
        yield from self._sound(failed, islice(pairs(self._text(failed), size, self.reader), PAIRS))

    def _sound(self, failed: Replayed, tried: Iterator[Edit] | Sequence[Edit]) -> Iterator[_Candidate]:
        """The changes under which the line is sound on the board as it stood before it."""
        text, line = self._text(failed), failed.statement.span.line
        guilty = [problem.span for problem in failed.judged.problems]
        at = self.places[failed.number - 1]
        with self.puzzle.at(failed.strict) as later:
            court = Judge(failed.standing, later, brief=True)
            seen = {text}
            said: set[Step] = set()
            for edit in tried:
                changed = edit.applied(text)
                if changed in seen:
                    continue
                seen.add(changed)
                step = self.reader.read(changed, self.puzzle.geometry, line, failed.statement.comment)
                if not isinstance(step, Step) or step in said:
                    continue
                judged = court.step(step)
                # A name that fits only once parts are worked out is no slip of one word.
                if not judged.clean or _hides(step, judged) or (edit.kind == "name" and judged.notes):
                    continue
                said.add(step)
                away = all(edit.end <= span.column or span.end <= edit.column for span in guilty)
                change = Change(Span(line, edit.column, edit.end), text[edit.column - 1 : edit.end - 1], edit.text)
                # What is told without the word is all that follows: the word is one too many, and not another one misread.
                claims = {effect.claim for effect in judged.effects}
                whole = edit.kind == "dropped" and not unclaimed(judged.warrant, claims, court.standing, later)
                rank = (0, -1) if whole else (LIKELIHOOD[edit.kind], int(away), edit.far, edit.column)
                yield _Candidate(edit.kind, (change,), at, (step, *self._after(at)), rank)

    # Changes of the order

    def _later(self, failed: Replayed) -> int | None:
        """The number of the step after which this one, as told, holds and still says something."""
        step = failed.statement
        if not isinstance(step, Step) or failed.judged.verdict in ("refuted", "idle", "unknown"):
            return None
        with self.puzzle.at(failed.strict) as later:
            replay = Replay(self.path, later, looks=0, board=failed.before)
            for after in self.steps[failed.number : failed.number + AHEAD]:
                replay.tell(after.statement)
                if replay.steps[-1].judged.effects and Judge(replay.standing, later, brief=True).step(step).clean:
                    return after.number
        return None

    def _moves(self, failed: Replayed, later: int | None) -> Iterator[_Candidate]:
        """Told too early: put after the step that it needs, or that step before it. Told too late: put before the step that
        says as much."""
        here = failed.number
        if later is not None:
            between = list(range(here, later + 1))
            yield self._move("told-early", failed, [*between[1:], here], later)
            if later - here > 1:
                yield self._move("told-late", failed, [later, *between[:-1]], later)
                yield self._move("steps-exchanged", failed, [later, *between[1:-1], here], later)
        by = failed.judged.problems[0].details.get("by") if failed.judged.problems[0].code == "already-done" else None
        earlier = next((step for step in self.steps[:here] if step.statement.span.line == by), None)
        if earlier is not None and isinstance(failed.statement, Step) and failed.statement != earlier.statement:
            with self.puzzle.at(earlier.strict) as there:
                holds = Judge(earlier.standing, there, brief=True).step(failed.statement).clean
            if holds:
                yield self._move("told-late", failed, [here, *range(earlier.number, here)], earlier.number)

    def _move(self, kind: str, failed: Replayed, order: Sequence[int], other: int) -> _Candidate:
        """The steps of these numbers, told in this order."""
        places = [self.places[number - 1] for number in order]
        start, end = min(places), max(places)
        statements = list(self.path.statements[start : end + 1])
        for place, moved in zip(sorted(places), places):
            statements[place - start] = self.path.statements[moved]
        changes = reordered(self.path, self.source, places)
        line = failed.statement.span.line
        own = tuple(sorted(changes, key=lambda change: change.span.line != line))
        # A step that is not there as told and is there after the next one: that is no accident.
        rank = (0, -1) if len(order) == 2 else (LIKELIHOOD[kind], len(order))
        beside = self.steps[other - 1].statement.span.line
        return _Candidate(kind, own, start, (*statements, *self._after(end)), rank, beside)

    def _told_twice(self, failed: Replayed) -> Iterator[_Candidate]:
        """A line that only says again what the board shows can go."""
        if failed.judged.verdict != "idle" or not failed.judged.problems[0].details.get("by"):
            return
        at, line = self.places[failed.number - 1], failed.statement.span.line
        was = self.source[line - 1]
        change = Change(Span(line, 1, len(was) + 1), was, "")
        yield _Candidate("told-twice", (change,), at, self._after(at), (LIKELIHOOD["told-twice"],))

    def _left_out(self, failed: Replayed, names: Sequence[str] = PATTERNS) -> Iterator[_Candidate]:
        """An easy step that was ready before this one and that it needs."""
        step, at, line = failed.statement, self.places[failed.number - 1], failed.statement.span.line
        if not isinstance(step, Step) or failed.judged.verdict in ("refuted", "idle"):
            return
        with self.puzzle.at(failed.strict) as later:
            found = 0
            for far, opening in enumerate(islice(openings(Judge(failed.standing, later, brief=True), names), READY)):
                effects = Judge(failed.standing, later, brief=True).step(opening.step).effects
                board = failed.before.after(effect.claim for effect in effects)
                standing = failed.standing._replace(board=board, supposed=board.lost_since(failed.strict))
                if Judge(standing, later, brief=True).step(step).clean:
                    found += 1
                    change = Change(Span(line, 1, 1), "", "".join(write_statement(opening.step)) + "\n")
                    statements = (opening.step, step, *self._after(at))
                    yield _Candidate("left-out", (change,), at, statements, (LIKELIHOOD["left-out"], far))
                if found == NEAR:
                    return

    # Weighing

    def _weighed(self, candidates: Sequence[_Candidate], failed: Replayed) -> list[_Weighed]:
        """The candidates that leave least trouble, likeliest first; of those that change the order, the first."""
        ranked = sorted(candidates, key=lambda candidate: candidate.rank)[:REPLAYED]
        weighed: list[_Weighed] = []
        for candidate in ranked:
            failing = self._failing(candidate, failed, weighed[-1].trouble if weighed else None)
            alone = failing is not None and failing <= self._others(failed)
            if failing is not None and (alone or candidate.kind not in ADDED):
                weighed.append(_Weighed(candidate, len(failing), alone))
        least = [found for found in weighed if found.trouble == weighed[-1].trouble]
        moved = [found for found in least if found.candidate.kind in REORDERED]
        return [found for found in least if found not in moved[1:]]

    def _others(self, failed: Replayed) -> set[int]:
        """The statements that fail whatever this one meant."""
        return {id(step.statement) for step in self.steps if step.judged.problems and step is not failed}

    def _failing(self, candidate: _Candidate, failed: Replayed, limit: int | None) -> set[int] | None:
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

    def _text(self, failed: Replayed) -> str:
        return self.source[failed.statement.span.line - 1].partition("#")[0]

    def _after(self, place: int) -> tuple[Statement, ...]:
        return self.path.statements[place + 1 : place + AHEAD]


def _offered(found: Sequence[_Weighed]) -> Iterator[Repair]:
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


def _leaves_much_open(statement: Told) -> bool:
    """Are two parts of the pattern or more left unsaid? Then every change would be a search of its own, and find too much."""
    reason = statement.reason if isinstance(statement, Step | Unread) else None
    if reason is None or CATALOGUE[reason.name.value].tells_placement:
        return False
    form = CATALOGUE[reason.name.value].form
    said = sum(Parts.of(reason).closed(slot.word) for slot in form.slots)
    return said < min(len(form.slots), MOST_PARTS) - 1


def _hides(step: Step, judged: Judged) -> bool:
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


def _suggested(failed: Replayed) -> Iterator[Edit]:
    """What the finding itself suggests: the right spelling, or the right name with its parts."""
    for problem in failed.judged.problems:
        if problem.details.get("instead"):
            yield Edit(problem.span.column, problem.span.end, problem.details["instead"], "name")
        reason = problem.details.get("reason")
        if isinstance(reason, Reason) and isinstance(failed.statement, Step) and failed.statement.reason is not None:
            span = failed.statement.reason.span
            yield Edit(span.column, span.end, write_reason(reason), "name", WHOLE)
