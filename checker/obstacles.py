"""What keeps a true step from holding, where a line before it could not be read and may have cleared it away.

Only false candidates are ever supposed to be gone and only true digits to be filled in, so that a pattern which no board of
this puzzle can show is never excused: a naked pair has to take the solution's two digits, a hidden single's house its place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from ..grammar.statements import Mentioned, Placement, Problem, Removal, Step
from ..grammar.vocabulary import Candidate, Cell, Claim
from .catalogue import Parts
from .judge import Judged, judge
from .puzzle import Puzzle, Standing

TRIED = 40
"""Boards on which one step is judged."""

UNREAD_TRIED = 8
"""How many of the unread sentences before it a failing step is tried against."""


def excuse(
    step: Step, first: Judged, standing: Standing, puzzle: Puzzle, unread: bool, told: Sequence[Mentioned]
) -> Judged | None:
    """The step judged without blame, where what it lacks may have been told; None where nothing excuses it.

    ``unread``: something before it was not read. ``told``: what sentences name that nobody took in. A refuted effect is wrong
    whatever they said.
    """
    again = borne_out(step, standing, puzzle, told) if told and first.verdict != "refuted" else None
    if again is not None:
        return again._replace(verdict="fallen", effects=first.effects or again.effects)
    lacking = cleared(step, standing, puzzle, unread)
    if lacking is None:
        return None
    note = Problem("not-shown-before", step.span, {"claims": tuple(sorted(lacking))})
    return first._replace(verdict="fallen" if unread else "unknown", problems=(), also=(), notes=(note,))


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


def borne_out(step: Step, standing: Standing, puzzle: Puzzle, unread: Sequence[Mentioned]) -> Judged | None:
    """The step judged with what sentences that nobody took in may have shown; None where it does not hold even so.

    First the truth about what they name, the latest first, then about all of it; then the truth about what the step itself
    leans on. What was told is not known, and nothing is reported from it but that the step may hang on them.
    """
    own = frozenset(_claimed(step))
    named = [frozenset(_shown(mentioned, puzzle)) - own for mentioned in reversed(unread[-UNREAD_TRIED:])]
    named.append(frozenset().union(*named, *(_filled(mentioned, puzzle) for mentioned in unread[-UNREAD_TRIED:])))
    for claims in dict.fromkeys((*named, frozenset(_shown(_leant_on(step), puzzle)) - own)):
        board = standing.board.after(sorted(claims))
        if board == standing.board:
            continue
        judged = judge(step, Standing(board, (*standing.supposed, *board.lost_since(standing.board))), puzzle, brief=True)
        if judged.clean:
            return judged
    return None


def _claimed(step: Step) -> Iterator[Claim]:
    for effect in step.effects:
        if isinstance(effect, Removal):
            for cell in effect.cells:
                yield from _gone(cell.value, (digit.value for digit in effect.digits))


def _shown(mentioned: Mentioned, puzzle: Puzzle) -> Iterator[Claim]:
    """The false candidates of the cells, and those of the digits in the houses: of all digits or houses where none is named."""
    geometry = puzzle.geometry
    if not any(mentioned):
        return
    for cell in mentioned.cells:
        yield from _false(cell, geometry.digits, puzzle)
    if mentioned.cells and not mentioned.houses:
        return
    for house in mentioned.houses or geometry.houses:
        for cell in geometry.cells_of[house]:
            yield from _false(cell, mentioned.digits or geometry.digits, puzzle)


def _filled(mentioned: Mentioned, puzzle: Puzzle) -> Iterator[Claim]:
    for cell in mentioned.cells:
        digit = puzzle.digit(cell)
        if digit in mentioned.digits:
            yield Claim(Candidate(cell, digit), True)


def _false(cell: Cell, digits: Iterable[int], puzzle: Puzzle) -> Iterator[Claim]:
    true = puzzle.digit(cell)
    if true is not None:
        yield from (Claim(Candidate(cell, digit), False) for digit in digits if digit != true)


def _leant_on(step: Step) -> Mentioned:
    """The cells, the digits and the houses that the reason names; not those that it only takes candidates from."""
    if step.reason is None:
        return Mentioned()
    cells: set[Cell] = set()
    digits: set[int] = set()
    parts = Parts.of(step.reason)
    for word in parts.slots:
        for value in parts.values(word):
            if isinstance(value, Cell):
                cells.add(value)
            elif isinstance(value, int):
                digits.add(value)
            elif isinstance(getattr(value, "cell", None), Cell):
                cells.add(value.cell)
    for effect in step.effects:
        if isinstance(effect, Placement):
            digits |= {effect.digit.value} if effect.digit else set()
            cells |= {effect.cell.value} if effect.cell and step.reason.name.value == "naked single" else set()
    return Mentioned(frozenset(cells), frozenset(parts.values("in")), frozenset(digits))


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
