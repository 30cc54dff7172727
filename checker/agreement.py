"""Without a puzzle: do the statements of a walkthrough agree with each other?

What a step says of the filled grid is held against all the other steps: its effects, and what its reason says of cells and
digits by itself. No deduction is checked; that needs the puzzle.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from ..grammar.statements import Blank, Path, Placement, Problem, Reason, Removal, RestOf, Say, Span, Step, Told, Unread
from ..grammar.vocabulary import Candidate, Cell, Claim, Geometry, House
from ..sat.agreement import Agreement, Conflict
from ..sat.oracle import BUDGET, OutOfBudget
from .board import Board
from .catalogue import CATALOGUE, Parts
from .findings import Finding

MOST = 20
"""Contradictions reported of one file: who tells more than that has mixed up two puzzles."""

SINGLES = ("naked single", "hidden single", "last cell")


@dataclass
class Claimed:
    """A counted statement and what it says of the filled grid: each claim with its place. ``implied``: said by its reason."""

    number: int
    statement: Told
    claims: dict[Claim, Span] = field(default_factory=dict)
    implied: frozenset[Claim] = frozenset()

    @property
    def line(self) -> int:
        """1-based."""
        return self.statement.span.line

    def finding(self, code: str, span: Span, **details: object) -> Finding:
        """A finding of this statement."""
        return Finding(Problem(code, span, details), self.number, self.statement.time)


def claimed(path: Path, geometry: Geometry, *, plainly: bool = False) -> list[Claimed]:
    """Every counted statement of the path with its claims, in order. ``plainly``: only those that its effects spell out."""
    counted = [statement for statement in path.statements if not isinstance(statement, Say | Blank)]
    return [_claimed(number, statement, geometry, plainly=plainly) for number, statement in enumerate(counted, 1)]


def agree(path: Path, geometry: Geometry, conflicts: int = BUDGET, *, plainly: bool = False) -> list[Finding]:
    """What is wrong with the statements of a path by themselves, and a note that no more than that was looked at.

    ``conflicts``: what one question to the solver may cost. ``plainly``: hold only what the effects spell out, where reasons
    were read from running words and no board tells how far they reach.
    """
    findings: list[Finding] = []
    told: dict[Claim, Claimed] = {}
    held: list[Claimed] = []
    for step in claimed(path, geometry, plainly=plainly):
        if isinstance(step.statement, Unread):
            problem = step.statement.problem
            findings.append(Finding(problem, step.number, step.statement.time))
            continue
        findings += _single(step, told, geometry)
        effects = [claim for claim in step.claims if claim not in step.implied]
        if effects and all(claim in told for claim in effects):
            by = told[effects[0]].line
            findings.append(step.finding("already-done", step.claims[effects[0]], why="told", claims=tuple(effects), by=by))
        else:
            held.append(step)
        for claim in effects:
            told.setdefault(claim, step)
    found = 0
    doubted: set[int] = set()
    agreement = Agreement(geometry, [tuple(step.claims) for step in held], conflicts)
    try:
        for conflict in agreement.conflicts(MOST):
            found += 1
            # One sentence taken amiss disagrees with much that follows: that is told once.
            if not plainly or doubted.isdisjoint(conflict.statements):
                findings.append(_disagreement(conflict, held, geometry))
            doubted |= set(conflict.statements)
    except OutOfBudget:
        findings.append(Finding(Problem("gave-up", Span(1, 1, 2), {"claim": None, "agreement": True})))
    finally:
        agreement.close()
    findings.append(Finding(Problem("deductions-unchecked", Span(1, 1, 2), {"most": MOST if found == MOST else None})))
    return findings


def _claimed(number: int, statement: Told, geometry: Geometry, *, plainly: bool) -> Claimed:
    if not isinstance(statement, Step):
        return Claimed(number, statement)
    claims: dict[Claim, Span] = {}
    for effect in statement.effects:
        if isinstance(effect, Placement) and effect.cell and effect.digit:
            claims.setdefault(Claim(Candidate(effect.cell.value, effect.digit.value), True), effect.cell.span)
        elif isinstance(effect, Removal):
            for cell in effect.cells:
                for digit in effect.digits:
                    claims.setdefault(Claim(Candidate(cell.value, digit.value), False), cell.span)
        elif isinstance(effect, RestOf) and effect.house and statement.reason and not plainly:
            for other in _rest(effect.house.value, statement.reason, geometry):
                for digit in effect.digits:
                    claims.setdefault(Claim(Candidate(other, digit.value), False), effect.span)
    reason = None if plainly else statement.reason
    implied = frozenset(_implied(reason, geometry) if reason else ()) - claims.keys()
    for claim in sorted(implied):
        claims[claim] = statement.reason.span if statement.reason else statement.span
    return Claimed(number, statement, claims, implied)


def _rest(house: House, reason: Reason, geometry: Geometry) -> list[Cell]:
    """The cells of the house that the reason does not name; none where it leaves some of its own unsaid.

    On an empty board a pattern may reach further than on the real one, never less far: no claim is made up.
    """
    pattern = CATALOGUE[reason.name.value]
    parts = Parts.of(reason)
    cells = {slot.word for slot in pattern.form.slots if slot.kind not in ("digit", "house")}
    if not parts.slots or not all(map(parts.closed, cells | parts.slots.keys())):
        return []
    if not cells and not any(isinstance(value, House) for word in parts.slots for value in parts.values(word)):
        return []
    named = pattern.cells(parts, Board.of(geometry, ()))
    return [cell for cell in geometry.cells_of[house] if cell not in named] if named else []


def _implied(reason: Reason, geometry: Geometry) -> Iterator[Claim]:
    """What a reason says of the filled grid: the cells of a subset hold its digits; an intersection holds its digit."""
    parts = Parts.of(reason)
    first, _, last = reason.name.value.partition(" ")
    if last in ("pair", "triple", "quad") and parts.closed("") and parts.closed("at"):
        cells, digits = set(parts.values("at")), set(parts.values(""))
        if len(cells) == len(digits):
            for cell in cells:
                yield from (Claim(Candidate(cell, digit), False) for digit in geometry.digits if digit not in digits)
    if first in ("pointing", "claiming"):
        house, line = parts.one("in"), parts.one("along") or parts.one("within")
        if house is not None and line is not None:
            for cell in set(geometry.cells_of[house.value]) - set(geometry.cells_of[line.value]):
                yield from (Claim(Candidate(cell, digit), False) for digit in parts.values(""))


def _single(step: Claimed, told: dict[Claim, Claimed], geometry: Geometry) -> Iterator[Finding]:
    """A single outside the house it is told of, or in a house where its digit was placed before.

    One that says its cell is left to the solver, which names the two placements.
    """
    statement = step.statement
    if not isinstance(statement, Step) or statement.reason is None or statement.reason.name.value not in SINGLES:
        return
    house = Parts.of(statement.reason).one("in")
    placements = [effect for effect in statement.effects if isinstance(effect, Placement)]
    if house is None or len(placements) != 1:
        return
    (effect,) = placements
    if effect.cell is not None:
        if effect.cell.value not in geometry.cells_of[house.value]:
            yield step.finding("cell-outside-house", house.span, cell=effect.cell.value, house=house.value)
        return
    for cell in geometry.cells_of[house.value] if effect.digit else ():
        earlier = told.get(Claim(Candidate(cell, effect.digit.value), True)) if effect.digit else None
        if effect.digit and earlier is not None:
            details = {"digit": effect.digit.value, "inside": house.value, "cell": cell, "by": earlier.line}
            yield step.finding("statements-disagree", effect.digit.span, why="placed", **details)


def _disagreement(conflict: Conflict, held: list[Claimed], geometry: Geometry) -> Finding:
    """At the last of the statements, naming what each of them contributes."""
    last = held[conflict.statements[-1]]
    own = [claim for at, claim in conflict.claims if held[at] is last]
    others = [(held[at].line, claim, claim in held[at].implied) for at, claim in conflict.claims if held[at] is not last]
    span = last.claims[own[0]] if own else last.statement.span
    why, inside = "together", None
    if len(own) == len(others) == 1:
        why, inside = _pair(own[0], others[0][1], geometry)
    told = [claim for claim in own if claim not in last.implied]
    implied = [claim for claim in own if claim in last.implied]
    return last.finding("statements-disagree", span, why=why, own=told, implied=implied, others=others, inside=inside)


def _pair(one: Claim, other: Claim, geometry: Geometry) -> tuple[str, House | None]:
    """How two claims disagree."""
    if not (one.holds and other.holds):
        return "denied", None
    if one.candidate.cell == other.candidate.cell:
        return "two-digits", None
    return "twice", geometry.common_houses([one.candidate.cell, other.candidate.cell])[0]
