"""What keeps a true step from holding, where a line before it could not be read and may have cleared it away.

Only false candidates are ever supposed to be gone and only true digits to be filled in, so that a pattern which no board of
this puzzle can show is never excused: a naked pair has to take the solution's two digits, a hidden single's house its place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..grammar.statements import Problem, Step
from ..grammar.vocabulary import Candidate, Cell, Claim
from .judge import judge
from .puzzle import Puzzle, Standing

TRIED = 40
"""Boards on which one step is judged."""


def cleared(step: Step, standing: Standing, puzzle: Puzzle, unproved: bool) -> frozenset[Claim] | None:
    """True claims which, once known, let the step hold as told; None where no such claims are found.

    ``unproved``: may they also be what its proof lacks, where its pattern is there?
    """
    todo: list[frozenset[Claim]] = [frozenset()]
    seen: set[frozenset[Claim]] = set()
    while todo and len(seen) < TRIED:
        claims = todo.pop()
        if claims in seen:
            continue
        seen.add(claims)
        board = standing.board.after(sorted(claims))
        judged = judge(step, Standing(board, (*standing.supposed, *board.lost_since(standing.board))), puzzle, brief=True)
        if judged.clean:
            return claims or None
        if judged.verdict in ("refuted", "idle", "unknown"):
            continue
        ways = [*_ways_out(judged.problems[0], puzzle)]
        if unproved and judged.problems[0].code == "effect-unproved":
            scope = (candidate for fact in judged.warrant for candidate in puzzle.geometry.scope(fact))
            live = (Claim(candidate, False) for candidate in scope if board.has(*candidate))
            ways.append(frozenset(claim for claim in live if puzzle.truth(claim).holds) - claims)
        for more in ways:
            if more and all(puzzle.truth(claim).holds for claim in more):
                todo.append(claims | more)
    return None


def _ways_out(problem: Problem, puzzle: Puzzle) -> Iterator[frozenset[Claim]]:
    """Claims without which the misfit stands, each set a way by itself."""
    details, why = problem.details, problem.details.get("why")
    if problem.code not in ("pattern-absent", "broken-link"):
        return
    if why in ("extra-candidates", "other-places", "open-cells", "does-not-follow"):
        yield frozenset(_told_in_the_way(problem, puzzle))
    elif why == "not-one":
        yield _gone(details["cell"], (digit for digit in details["digits"] if digit != puzzle.digit(details["cell"])))
    elif why == "not-two":
        # Which of them goes is not said: each that is false is tried.
        yield from (_gone(details["cell"], [digit]) for digit in details["digits"])
    elif why == "wrong-digits" and not details["filled"]:
        yield _gone(details["cell"], (digit for digit in details["digits"] if digit not in details["told"]))


def _told_in_the_way(problem: Problem, puzzle: Puzzle) -> Iterator[Claim]:
    details, why = problem.details, problem.details["why"]
    if why == "extra-candidates":
        yield from _gone(details["cell"], details["digits"])
    elif why == "open-cells":
        for cell in details["cells"]:
            digit = puzzle.digit(cell)
            if digit is not None:
                yield Claim(Candidate(cell, digit), True)
    elif why == "does-not-follow":
        before, after = details["before"], details["after"]
        yield from (Claim(Candidate(cell, after.digit), False) for cell in details["cells"])
        if not details["cells"] and before.cell == after.cell:
            yield from _gone(after.cell, (digit for digit in details["digits"] if digit not in (before.digit, after.digit)))
    else:
        yield from (Claim(Candidate(cell, details["digit"]), False) for cell in details["cells"])


def _gone(cell: Cell, digits: Iterable[int]) -> frozenset[Claim]:
    return frozenset(Claim(Candidate(cell, digit), False) for digit in digits)
