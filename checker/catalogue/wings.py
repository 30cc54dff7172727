"""XY-wing: a pivot of two candidates, and two wings that it sees; whichever digit the pivot is, one wing is the third digit."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from ...grammar.forms import Form, SlotForm
from ...grammar.statements import Problem
from ...grammar.vocabulary import CellFact, Fact
from ..board import Board
from .shape import Parts, Pattern, absent, repeated


class XYWing(Pattern):
    """Pivot {a, b}, wings {a, c} and {b, c}."""

    form = Form("xy-wing", (SlotForm("pivot", "cell"), SlotForm("wings", "cell")))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        wings = told.values("wings")
        if told.closed("wings") and (told.closed("pivot") or len(wings) != 2):
            yield told
            return
        pairs = [cell for cell in board.geometry.cells if len(board.candidates(cell)) == 2]
        for pivot in told.values("pivot") or pairs:
            near = [cell for cell in pairs if cell in board.geometry.peers[pivot]]
            for one, other in combinations(near, 2):
                if set(wings) <= {one, other}:
                    reading = told.given(pivot=[pivot], wings=[one, other])
                    if not any(self.misfits(reading, board)):
                        yield reading

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        pivots, wings = parts.get("pivot"), parts.get("wings")
        twice = [*repeated((*pivots, *wings))]
        yield from twice
        if twice:
            return
        if len(pivots) != 1 or len(wings) != 2:
            group, what, wanted = (pivots, "pivots", 1) if len(pivots) != 1 else (wings, "wings", 2)
            yield absent("wrong-count", group[-1].span if group else parts.span, what=what, found=len(group), wanted=wanted)
            return
        pivot = pivots[0]
        bad = False
        for cell in (pivot, *wings):
            if cell.value in board.filled:
                bad = True
                yield absent("filled", cell.span, cell=cell.value, digit=board.digit(cell.value))
            elif len(board.candidates(cell.value)) != 2:
                bad = True
                yield absent("not-two", cell.span, cell=cell.value, digits=board.candidates(cell.value))
        for wing in wings:
            if wing.value not in board.geometry.peers[pivot.value]:
                bad = True
                yield absent("unseen", wing.span, cell=wing.value, other=pivot.value)
        if bad:
            return
        first, second = (board.union([wing.value]) for wing in wings)
        hinge = board.union([pivot.value])
        for wing, digits in zip(wings, (first, second)):
            if len(digits & hinge) != 1:
                bad = True
                yield absent("wing-digits", wing.span, cell=wing.value, digits=sorted(digits), pivot=sorted(hinge))
        if not bad and (first & hinge == second & hinge or first - hinge != second - hinge):
            wing = wings[1]
            yield absent(
                "wing-pair", wing.span, cell=wing.value, digits=sorted(second), pivot=sorted(hinge), first=sorted(first)
            )

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        return tuple(map(CellFact, dict.fromkeys((*parts.values("pivot"), *parts.values("wings")))))


PATTERNS = (XYWing(),)
