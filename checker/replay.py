"""Replay a path on its puzzle, statement by statement, so that one slip makes one finding.

Two boards are kept. The *told* board has every told effect that is true, proved or not, so that a step that failed does not
drag the next ones down. The *strict* board has what was proved, and nothing that a failed step only claimed; the oracle knows
it as fact. Both hold nothing but what is true in every solution. A step that fails on the told board is looked at again where
it might hold: on the strict board (it does not need the failed steps), and with what a failed step may have meant taken as
known (then it *hangs on* that step and is not blamed again).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from typing import NamedTuple

from ..grammar.statements import (
    Blank,
    Marking,
    Mentioned,
    Path,
    Placement,
    Problem,
    Removal,
    Say,
    Span,
    Statement,
    Step,
    Told,
    Unread,
)
from ..grammar.vocabulary import Candidate, Claim
from .board import Board
from .judge import Effected, Judged, judge
from .obstacles import excuse
from .puzzle import Puzzle, Standing
from .supposition import meant

FAILURES_TRIED = 8
"""How many of the failed steps before it a failing step is tried against."""

LOOKS = 3000
"""Boards on which failing steps of one path are looked at again. Past that nothing is searched for what hangs on what: so much
of the path has failed that little can be relied on, and the rest is to cost no more than a sound one."""


class Replayed(NamedTuple):
    """One counted statement and what became of it.

    ``before``: the told board before it; ``strict``: the strict one. ``hangs_on``: the number of the failed step that it falls
    with.
    """

    number: int
    statement: Told
    judged: Judged
    before: Board
    strict: Board
    hangs_on: int | None = None

    @property
    def standing(self) -> Standing:
        """Where the statement was judged."""
        return Standing(self.before, self.before.lost_since(self.strict))


class Ending(NamedTuple):
    """How a path ends: ``solved``, ``stops-short`` or ``contradiction``, the last board, and what is to say of it."""

    kind: str
    board: Board
    problem: Problem | None = None


class _Failure(NamedTuple):
    number: int
    step: Step
    standing: Standing
    unread: bool = False
    mentioned: Mentioned | None = None


Trust = Callable[[Step, Collection[Claim]], bool]  # of a step and true claims that it lacks: may they have been told before?


class Replay:
    """``steps`` and ``ending``, once ``run`` is done.

    ``looks``: how often failing steps may be looked at again in all; once they are used up, steps are judged briefly too.
    ``board``: what the told board shows at the start beyond the puzzle's. ``trusting``: words that the path was read from may
    have told what a step lacks, which is then not held against the narrator.
    """

    def __init__(
        self, path: Path, puzzle: Puzzle, looks: int = LOOKS, board: Board | None = None, trusting: Trust | None = None
    ) -> None:
        self.path = path
        self.puzzle = puzzle
        self.trusting = trusting
        self.board = board or puzzle.start
        self.strict = puzzle.start
        self.steps: list[Replayed] = []
        self._failures: list[_Failure] = []
        self._since: dict[Claim, int] = {}
        self._meant: dict[int, list[frozenset[Claim]]] = {}
        self._over = self.board.solved
        self._said_over = False
        self._looks_left = looks

    def run(self) -> Ending:
        """Replay every statement in turn."""
        for statement in self.path.statements:
            self.tell(statement)
        return self._ending()

    @property
    def standing(self) -> Standing:
        """Where the next step would be judged."""
        return Standing(self.board, self._supposed(self.board))

    def tell(self, statement: Statement) -> None:
        """Replay the next statement."""
        if isinstance(statement, Say | Blank):
            return
        number = len(self.steps) + 1
        before, strict = self.board, self.strict
        if self._over:
            judged, hangs_on = self._after_the_end(statement), None
        elif isinstance(statement, Unread):
            judged, hangs_on = Judged("unread", problems=(statement.problem,)), None
            told = Step(statement.effects, statement.reason, span=statement.span)
            self._failures.append(_Failure(number, told, self.standing, True, statement.mentioned))
            self._take_on_credit(statement)
        elif isinstance(statement, Marking):
            judged, hangs_on = self._marking(statement)
        else:
            judged, hangs_on = self._step(number, statement)
        self.steps.append(Replayed(number, statement, judged, before, strict, hangs_on))
        if self.board is not before:
            self._remember(number, before)

    def _remember(self, number: int, before: Board) -> None:
        """Note since which step the board shows what it shows."""
        for candidate in self.board.lost_since(before):
            self._since.setdefault(Claim(candidate, False), number)
        for cell in self.board.filled - before.filled:
            for digit in self.board.candidates(cell):
                self._since.setdefault(Claim(Candidate(cell, digit), True), number)

    def _after_the_end(self, statement: Told) -> Judged:
        if isinstance(statement, Unread):
            return Judged("unread", problems=(statement.problem,))
        if self._said_over:
            return Judged("idle")
        self._said_over = True
        details = {"solved_by": self._line(max(self._since.values(), default=None))}
        return Judged("idle", problems=(Problem("past-the-end", statement.span, details),))

    def _step(self, number: int, step: Step) -> tuple[Judged, int | None]:
        judged, hangs_on = self.weigh(step)
        said_by = self._said_by_failed(judged)
        if said_by is not None:
            judged, hangs_on = judged._replace(problems=()), said_by
        if not judged.clean:
            judged = judged._replace(problems=tuple(map(self._with_history, judged.problems)))
            self._failures.append(_Failure(number, step, self.standing))
        self._take(judged.effects)
        return judged, hangs_on

    def _said_by_failed(self, judged: Judged) -> int | None:
        """The failed step that says in part what this one says again, and perhaps did not mean to."""
        if not judged.problems or judged.problems[0].code != "not-a-candidate":
            return None
        since = {self._since.get(claim) for claim in judged.problems[0].details["claims"]}
        failed = {failure.number for failure in self._failures}
        return max(number for number in since if number is not None) if since and since <= failed else None

    def weigh(self, step: Step, *, brief: bool = False, missed: Sequence[Mentioned] = ()) -> tuple[Judged, int | None]:
        """What would become of the step if it were told next (``missed``: after such sentences), and what it would hang on."""
        judged = judge(step, self.standing, self.puzzle, brief=brief or not self._looks_left)
        if not judged.clean and (missed or self._worth_a_look(judged)):
            return self._second_look(step, judged, missed)
        return judged, None

    def _worth_a_look(self, judged: Judged) -> bool:
        """Has a step failed before, and is what this one says again not settled whatever that one meant?"""
        if not self._looks_left:
            return False
        if judged.verdict == "idle":
            settled = bool(judged.effects) and all(self.strict.shows(effect.claim) for effect in judged.effects)
            return self.board != self.strict and not settled
        return self.trusting is not None or bool(self._failures) or self.board != self.strict

    def _second_look(self, step: Step, first: Judged, missed: Sequence[Mentioned]) -> tuple[Judged, int | None]:
        """Where the step might hold after all, were it not for an earlier one."""
        again = judge(step, Standing(self.strict), self.puzzle, brief=True)
        if again.clean:
            return again, None
        for number, claims in self._suppositions():
            for board in (self.board.after(claims), self.strict.after(claims)):
                if board not in (self.board, self.strict) and self._looks_left > 0:
                    self._looks_left -= 1
                    again = judge(step, Standing(board, self._supposed(board)), self.puzzle, brief=True)
                    if again.clean:
                        return again._replace(verdict="fallen"), number
        hangs_on = max((failure.number for failure in self._failures if failure.unread), default=None)
        if hangs_on is None and self.trusting is None and not missed:
            return first, None
        told = [*(failure.mentioned for failure in self._failures if failure.mentioned), *missed]
        self._looks_left -= bool(told)
        excused = excuse(step, first, self.standing, self.puzzle, hangs_on is not None, told)
        lacking = [claim for note in excused.notes for claim in note.details.get("claims", ())] if excused else []
        untold = hangs_on is None and not missed and self.trusting and not self.trusting(step, lacking)
        return (first, None) if excused is None or untold else (excused, hangs_on)

    def _suppositions(self) -> Iterator[tuple[int, list[Claim]]]:
        """What failed steps may have meant, the latest first, then all of them together."""
        recent = self._failures[-FAILURES_TRIED:]
        for failure in reversed(recent):
            for claims in self._meaning(failure):
                yield failure.number, sorted(claims)
        if len(recent) > 1:
            together = frozenset[Claim]().union(*(sets[0] for failure in recent if (sets := self._meaning(failure))))
            yield recent[-1].number, sorted(together)

    def _meaning(self, failure: _Failure) -> list[frozenset[Claim]]:
        if failure.number not in self._meant:
            self._meant[failure.number] = meant(failure.step, failure.standing, self.puzzle)
        return self._meant[failure.number]

    def _supposed(self, board: Board) -> tuple[Candidate, ...]:
        return () if board == self.strict else board.lost_since(self.strict)

    def _take(self, effects: Sequence[Effected]) -> None:
        """Take every true effect onto the told board, and onto the strict board those that were proved."""
        true = [effect for effect in effects if effect.verdict == "proved" or self.puzzle.truth(effect.claim).holds]
        proved = [effect.claim for effect in true if effect.verdict == "proved"]
        if not true:
            return
        owing = self.board != self.strict
        strict = self.strict.after(proved)
        self.puzzle.oracle.remove(strict.lost_since(self.strict))
        self.board = strict if not owing and len(proved) == len(true) else self.board.after(e.claim for e in true)
        self.strict = strict
        self._over = self.board.solved

    def _take_on_credit(self, statement: Unread) -> None:
        claims = [claim for effect in statement.effects for claim in plain_claims(effect) if self.puzzle.truth(claim).holds]
        self.board = self.board.after(claims)

    def _marking(self, marking: Marking) -> tuple[Judged, int | None]:
        """A drawing is right if it shows the told board, or what the board may have been meant to be by now.

        What failed steps claimed may be drawn as gone or not: anything between the strict and the told board will do.
        """
        technique = "mark candidates"
        problem = self._compare(marking, self.board)
        if problem is None or _between(marking, self.board, self.strict):
            return Judged("warranted", technique=technique), None
        for number, claims in self._suppositions():
            if _between(marking, self.board.after(claims), self.strict):
                return Judged("fallen", technique=technique), number
        return Judged("refuted" if problem.details["wrong"] else "unproved", problems=(problem,), technique=technique), None

    def _compare(self, marking: Marking, board: Board) -> Problem | None:
        """Cell by cell: drawn digits that are gone (stale), digits not drawn that stand (missing; wrong if the answer)."""
        cells = [said for row in marking.drawn for said in row]
        differences: list[tuple[str, Candidate, Span]] = []
        for cell, drawn in zip(board.geometry.cells, cells):
            stands = set(board.candidates(cell))
            for digit in sorted(drawn.value - stands):
                differences.append(("stale", Candidate(cell, digit), drawn.span))
            for digit in sorted(stands - drawn.value):
                kind = "wrong" if self.puzzle.truth(Claim(Candidate(cell, digit), False)).holds is False else "missing"
                differences.append((kind, Candidate(cell, digit), drawn.span))
        if not differences:
            return None
        wrong = [difference for difference in differences if difference[0] == "wrong"]
        first = (wrong or differences)[0]
        details = {"differences": tuple(differences), "first": first, "wrong": bool(wrong)}
        return Problem("candidates-differ", first[2], details)

    def _with_history(self, problem: Problem) -> Problem:
        """Add which step had done already what this one says again."""
        if problem.code not in ("already-done", "not-a-candidate") or not problem.details["claims"]:
            return problem
        return problem._replace(details={**problem.details, "by": self._line(self._since.get(problem.details["claims"][0]))})

    def _line(self, number: int | None) -> int | None:
        """The line of a step, which a reader finds more easily than its number."""
        return None if number is None else self.steps[number - 1].statement.span.line

    def _ending(self) -> Ending:
        last = self.steps[-1].statement.span if self.steps else self.path.steps_span or Span(1, 1, 2)
        if self.board.solved:
            return Ending("solved", self.board)
        if self.board.dead_end():
            return Ending("contradiction", self.board)
        failed = any(step.judged.verdict in ("unread", "refuted", "idle", "unknown") for step in self.steps)
        opened = sum(cell not in self.board.filled for cell in self.board.geometry.cells)
        problem = Problem("stops-short", last, {"open": opened})
        return Ending("stops-short", self.board, None if failed else problem)


def _between(marking: Marking, least: Board, most: Board) -> bool:
    """Does every drawn cell hold all candidates of the first board, and none that the second has not?"""
    drawn = [said.value for row in marking.drawn for said in row]
    return all(
        set(least.candidates(cell)) <= digits <= set(most.candidates(cell)) for cell, digits in zip(least.geometry.cells, drawn)
    )


def plain_claims(effect: object) -> Iterator[Claim]:
    """The claims of an effect with nothing unsaid."""
    if isinstance(effect, Placement) and effect.cell and effect.digit:
        yield Claim(Candidate(effect.cell.value, effect.digit.value), True)
    elif isinstance(effect, Removal):
        for cell in effect.cells:
            for digit in effect.digits:
                yield Claim(Candidate(cell.value, digit.value), False)
