"""What a narrator may have meant by a line that failed.

The likeliest slips are tried first: one word told wrong, a step told in the wrong place. Where none of them will do: two words,
a step left out before it. Every change is held against the board by the same judge, and the best are replayed with the rest
of the path: a wrong placement whose repair makes the next ten steps sound again is what was meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from ..grammar.line import LONGEST_LINE, LineReader
from ..grammar.slips import Edit, edits, exchanges, pairs
from ..grammar.statements import Path, Reason, Span, Step, Told, Unread
from ..grammar.writer import write_reason, write_statement
from .catalogue import CATALOGUE, Parts
from .judge import Judge, leaves_open
from .openings import PATTERNS, SINGLES, openings
from .places import Change, reordered
from .puzzle import Puzzle
from .replay import Replay, Replayed
from .weighing import AHEAD, LIKELIHOOD, Advice, Candidate, Tried, Weighing, offered

LINES = 10
"""Failed lines of one path that a repair is looked for."""

MOST_PARTS = 3
"""Parts that say what a pattern is; others (fins, a second word for the same house) follow from them."""

NEAR = 12
"""Steps left out before a failed one that are looked for."""

READY = 60
"""Steps ready on the board that are looked at for one left out."""

PAIRS = 400
"""Changes of two words that are tried."""

WHOLE = 1000
"""How far a reason written anew is from what stood there: farther than any change of one word."""

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


class Search(Weighing):
    """Looks for what the failed steps of one replayed path may have meant."""

    def __init__(
        self, path: Path, puzzle: Puzzle, steps: Sequence[Replayed], source: Sequence[str], reader: LineReader
    ) -> None:
        super().__init__(path, puzzle, steps)
        self.source = source
        self.reader = reader

    def advice(self, failed: Replayed) -> Advice:
        """What is known of one of the failed steps."""
        unsaid = isinstance(failed.statement, Step) and any(map(leaves_open, failed.statement.effects))
        open_ = unsaid or _leaves_much_open(failed.statement)
        later = None if open_ else self._later(failed)
        moves = [*self._moves(failed, later), *self._told_twice(failed)]
        likely = [] if open_ else [*self._one_word(failed)]
        left_out = [] if open_ else [*self._left_out(failed, SINGLES)]
        found = self.weighed([*likely, *moves, *left_out], failed)
        if not found and not open_:
            found = self.weighed([*self._two_words(failed), *self._left_out(failed)], failed)
            # There are many ways to change two words; where several will do, none of them says what was meant.
            twos = [other for other in found if other.candidate.kind == "two-words"]
            found = [other for other in found if len(twos) == 1 or other not in twos]
        after = None if later is None else self.steps[later - 1].statement.span.line
        return Advice(tuple(offered(found)), after)

    # Changes of the line itself

    def _one_word(self, failed: Replayed) -> Iterator[Candidate]:
        text = self._text(failed)
        effects = failed.statement.effects if isinstance(failed.statement, Step | Unread) else ()
        size = self.puzzle.geometry.size
        yield from self._sound(failed, [*_suggested(failed), *edits(text, effects, size, self.reader), *exchanges(text)])

    def _two_words(self, failed: Replayed) -> Iterator[Candidate]:
        size = self.puzzle.geometry.size
        yield from self._sound(failed, islice(pairs(self._text(failed), size, self.reader), PAIRS))

    def _sound(self, failed: Replayed, tried: Iterator[Edit] | Sequence[Edit]) -> Iterator[Candidate]:
        """The changes under which the line is sound on the board as it stood before it."""
        yield from self.holding(failed, self._read(failed, tried))

    def _read(self, failed: Replayed, tried: Iterator[Edit] | Sequence[Edit]) -> Iterator[Tried]:
        """The line as it reads with each of the changes."""
        text, line = self._text(failed), failed.statement.span.line
        seen = {text}
        for edit in tried:
            changed = edit.applied(text)
            if changed in seen:
                continue
            seen.add(changed)
            step = self.reader.read(changed, self.puzzle.geometry, line, failed.statement.comment)
            change = Change(Span(line, edit.column, edit.end), text[edit.column - 1 : edit.end - 1], edit.text)
            if isinstance(step, Step):
                yield Tried(edit, change, (step,))

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

    def _moves(self, failed: Replayed, later: int | None) -> Iterator[Candidate]:
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

    def _move(self, kind: str, failed: Replayed, order: Sequence[int], other: int) -> Candidate:
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
        return Candidate(kind, own, start, (*statements, *self.after(end)), rank, beside)

    def _told_twice(self, failed: Replayed) -> Iterator[Candidate]:
        """A line that only says again what the board shows can go."""
        if failed.judged.verdict != "idle" or not failed.judged.problems[0].details.get("by"):
            return
        at, line = self.places[failed.number - 1], failed.statement.span.line
        was = self.source[line - 1]
        change = Change(Span(line, 1, len(was) + 1), was, "")
        yield Candidate("told-twice", (change,), at, self.after(at), (LIKELIHOOD["told-twice"],))

    def _left_out(self, failed: Replayed, names: Sequence[str] = PATTERNS) -> Iterator[Candidate]:
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
                    statements = (opening.step, step, *self.after(at))
                    yield Candidate("left-out", (change,), at, statements, (LIKELIHOOD["left-out"], far))
                if found == NEAR:
                    return

    def _text(self, failed: Replayed) -> str:
        return self.source[failed.statement.span.line - 1].partition("#")[0]

def _leaves_much_open(statement: Told) -> bool:
    """Are two parts of the pattern or more left unsaid? Then every change would be a search of its own, and find too much."""
    reason = statement.reason if isinstance(statement, Step | Unread) else None
    if reason is None or CATALOGUE[reason.name.value].tells_placement:
        return False
    form = CATALOGUE[reason.name.value].form
    said = sum(Parts.of(reason).closed(slot.word) for slot in form.slots)
    return said < min(len(form.slots), MOST_PARTS) - 1


def _suggested(failed: Replayed) -> Iterator[Edit]:
    """What the finding itself suggests: the right spelling, or the right name with its parts."""
    for problem in failed.judged.problems:
        if problem.details.get("instead"):
            yield Edit(problem.span.column, problem.span.end, problem.details["instead"], "name")
        reason = problem.details.get("reason")
        if isinstance(reason, Reason) and isinstance(failed.statement, Step) and failed.statement.reason is not None:
            span = failed.statement.reason.span
            yield Edit(span.column, span.end, write_reason(reason), "name", WHOLE)
