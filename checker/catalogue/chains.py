"""XY-chain, x-chain, and chains told link by link."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import islice, pairwise
from typing import Any

from ...grammar.forms import Form, SlotForm
from ...grammar.statements import Link, Problem, Span
from ...grammar.vocabulary import Candidate, Cell, CellFact, Fact, House, PlaceFact, fact_order
from ..board import Board
from .shape import Parts, Pattern, absent, repeated

LONGEST = 8
"""Cells of the longest chain that is looked for where its cells are left unsaid."""

MOST_CHAINS = 2000
"""Chains of one length that are made longer."""


def broken(why: str, link: int, span: Span, **details: object) -> Problem:
    """Link number ``link`` (from 1) does not hold."""
    return Problem("broken-link", span, {"why": why, "link": link, **details})


class XYChain(Pattern):
    """Digit, cell, digit, cell, ... digit: each cell holds just the digits before and after it and sees the next cell.

    If the first cell is not the first digit it is the next one, and so on: the first or the last cell is the digit of both
    ends.
    """

    form = Form("xy-chain", (SlotForm("", "turns"),))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        cells = [value for value in told.values("") if isinstance(value, Cell)]
        said = told.slots.get("", ())
        turns = [said.value for said in said]
        regular = len(turns) % 2 == 1 and all(isinstance(turn, Cell) == bool(at % 2) for at, turn in enumerate(turns))
        if None not in turns and regular:
            yield told
            return
        if not cells or None in turns:
            yield from self._searched([turn for turn in turns if turn is not None], told, board)
            return
        for first in board.candidates(cells[0]):
            digits = [first]
            for cell in cells:
                rest = [digit for digit in board.candidates(cell) if digit != digits[-1]]
                if len(rest) != 1 or not board.has(cell, digits[-1]):
                    break
                digits.append(rest[0])
            else:
                full: list[int | Cell] = [digits[0]]
                for cell, digit in zip(cells, digits[1:]):
                    full += [cell, digit]
                wanted = [turn for turn in turns if turn is not None]
                if digits[0] == digits[-1] and _within(wanted, full):
                    yield told.given(bare=full)

    def _searched(self, wanted: Sequence[object], told: Parts, board: Board) -> Iterator[Parts]:
        """Every chain with the wanted digits and cells in it, in their order; the short ones first."""
        pairs = [cell for cell in board.geometry.cells if len(board.candidates(cell)) == 2 and cell not in board.filled]
        for length in range(2, LONGEST + 1):
            for first in pairs:
                for digit in board.candidates(first):
                    start = (digit, first, _other(board, first, digit))
                    for turns in islice(self._longer(start, length, pairs, board), MOST_CHAINS // 10):
                        # A chain told from its other end is the same chain.
                        if turns[0] == turns[-1] and (turns[1] < turns[-2] or wanted) and _within(wanted, turns):
                            yield told.given(bare=turns)

    def _longer(
        self, turns: tuple[Any, ...], length: int, pairs: Sequence[Cell], board: Board
    ) -> Iterator[tuple[Any, ...]]:
        if len(turns) == 2 * length + 1:
            yield turns
            return
        for cell in pairs:
            if cell in board.geometry.peers[turns[-2]] and cell not in turns[1::2] and board.has(cell, turns[-1]):
                yield from self._longer((*turns, cell, _other(board, cell, turns[-1])), length, pairs, board)

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        turns = parts.get("")
        for at, turn in enumerate(turns):
            if isinstance(turn.value, Cell) != bool(at % 2):
                yield absent("not-by-turns", turn.span, named=turn.value, wanted="cell" if at % 2 else "digit")
                return
        cells, digits = turns[1::2], turns[::2]
        if len(turns) % 2 == 0 or len(cells) < 2:
            yield absent("too-short", turns[-1].span if turns else parts.span, found=len(cells), wanted=2)
            return
        yield from repeated(cells)
        for number, cell in enumerate(cells):
            before, after = digits[number], digits[number + 1]
            candidates = board.candidates(cell.value)
            if set(candidates) != {before.value, after.value} or before.value == after.value or cell.value in board.filled:
                guilty = cell
                if len(candidates) == 2 and cell.value not in board.filled:
                    wrong = [digit for digit in (after, before) if digit.value not in candidates]
                    guilty = wrong[0] if wrong else after
                yield broken(
                    "wrong-digits",
                    number + 1,
                    guilty.span,
                    cell=cell.value,
                    digits=candidates,
                    told=(before.value, after.value),
                    filled=cell.value in board.filled,
                )
            if number and cell.value not in board.geometry.peers[cells[number - 1].value]:
                yield broken("unseen", number + 1, cell.span, cell=cell.value, other=cells[number - 1].value)
        if digits[0].value != digits[-1].value:
            yield absent("ends-differ", digits[-1].span, first=digits[0].value, last=digits[-1].value)

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        return tuple(CellFact(value) for value in dict.fromkeys(parts.values("")) if isinstance(value, Cell))


class XChain(Pattern):
    """Cells by turns: one of the two is the digit (the only two places of a house), not both (they see each other), ..."""

    form = Form("x-chain", (SlotForm("on", "digit"), SlotForm(":", "cell")))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        if told.get("on") and told.closed(":"):
            yield told
            return
        for digit in told.values("on") or board.geometry.digits:
            if not told.closed(":"):
                yield from self._searched(digit, told, board)
                continue
            reading = told.given(on=[digit])
            if not any(self.misfits(reading, board)):
                yield reading

    @staticmethod
    def _searched(digit: int, told: Parts, board: Board) -> Iterator[Parts]:
        """Every chain of the digit with the told cells in it, in their order; the short ones first."""
        strong: dict[Cell, set[Cell]] = {}
        for house in board.geometry.houses:
            places = board.places(digit, house)
            if len(places) == 2:
                strong.setdefault(places[0], set()).add(places[1])
                strong.setdefault(places[1], set()).add(places[0])
        chains: list[tuple[Cell, ...]] = [(one, other) for one in sorted(strong) for other in sorted(strong[one])]
        for _ in range(4, LONGEST + 1, 2):
            chains = [
                (*chain, one, other)
                for chain in chains[:MOST_CHAINS]
                for one in sorted(strong)
                if one not in chain and one in board.geometry.peers[chain[-1]]
                for other in sorted(strong[one])
                if other not in chain
            ]
            for chain in chains:
                if (chain <= chain[::-1] or told.get(":")) and _within(told.values(":"), chain):
                    yield told.given(on=[digit], colon=chain)

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        (digit,), cells = parts.get("on")[:1], parts.get(":")
        for said in parts.get("on")[1:]:
            yield absent("one-too-many", said.span, named=said.value)
        if len(cells) < 4 or len(cells) % 2:
            span = cells[-1].span if cells else parts.span
            yield absent("too-short" if len(cells) < 4 else "odd-chain", span, found=len(cells), wanted=4)
            return
        yield from repeated(cells)
        for number, (one, other) in enumerate(pairwise(cells), 1):
            for cell in (one, other) if number % 2 else ():
                if not board.has(cell.value, digit.value) or cell.value in board.filled:
                    yield absent("no-candidate", cell.span, cell=cell.value, digit=digit.value)
            if other.value not in board.geometry.peers[one.value]:
                yield broken("unseen", number, other.span, cell=other.value, other=one.value)
            elif number % 2 and self._house(digit.value, one.value, other.value, board) is None:
                house = board.geometry.common_houses([one.value, other.value])[0]
                others = tuple(c for c in board.places(digit.value, house) if c not in (one.value, other.value))
                yield broken(
                    "other-places",
                    number,
                    other.span,
                    digit=digit.value,
                    house=house,
                    cells=others,
                    cell=one.value,
                    other=other.value,
                )

    @staticmethod
    def _house(digit: int, one: Cell, other: Cell, board: Board) -> House | None:
        for house in board.geometry.common_houses([one, other]):
            if set(board.places(digit, house)) == {one, other}:
                return house
        return None

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        digit, cells = parts.values("on")[0], parts.values(":")
        houses = (self._house(digit, one, other, board) for one, other in zip(cells[::2], cells[1::2]))
        return tuple(PlaceFact(digit, house) for house in houses if house is not None)


class ToldChain(Pattern):
    """``r2c3 not 4 then r2c8 is 4 then ...``: each link follows from the one before by the rules and at most one fact."""

    form = Form("chain", (SlotForm("", "link"),))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        yield told

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        links = parts.get("")
        if len(links) < 2:
            yield absent("too-short", links[-1].span if links else parts.span, found=len(links), wanted=2, links=True)
            return
        for number, (before, after) in enumerate(pairwise(links), 1):
            if link_fact(before.value, after.value, board) is None:
                left, house = board.candidates(after.value.cell), None
                if before.value.digit == after.value.digit and not before.value.holds:
                    house = next(iter(board.geometry.common_houses([before.value.cell, after.value.cell])), None)
                places = board.places(after.value.digit, house) if house else ()
                others = tuple(cell for cell in places if cell not in (before.value.cell, after.value.cell))
                yield broken(
                    "does-not-follow",
                    number,
                    after.span,
                    before=before.value,
                    after=after.value,
                    digits=left,
                    house=house,
                    cells=others,
                )

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        links = parts.values("")
        found = (link_fact(before, after, board) for before, after in pairwise(links))
        return tuple(dict.fromkeys(fact for facts in found for fact in facts or ()))

    def cells(self, parts: Parts, board: Board) -> frozenset[Cell]:
        return frozenset(link.cell for link in parts.values(""))


def link_fact(before: Link, after: Link, board: Board) -> tuple[Fact, ...] | None:
    """The fact, if it takes one, by which ``after`` follows from ``before``; None if no single fact will do.

    Which fact a told link means is not said, so those that touch its two cells are tried, the nearest first. Whatever is
    chosen, the effects are proved from it by the oracle.
    """
    opposite = Link(after.cell, after.digit, not after.holds)
    if before == after or (Candidate(after.cell, after.digit) in _kills(before, board) and not after.holds):
        return ()
    # Suppose the first and not the second: the fact that is left without a candidate is the one the link leans on. A fact that
    # the first alone leaves without one shows that the first is false, not that the second follows.
    killed, opposed = _kills(before, board), _kills(opposite, board)
    for fact in _nearby(before, after, opposed, board):
        if _leans_on(fact, killed, opposed, board):
            return (fact,)
    return None


def _leans_on(fact: Fact, killed: Collection[Candidate], opposed: Collection[Candidate], board: Board) -> bool:
    """Has the fact candidates left without the killed ones, and none without the opposed ones too?"""
    left = False
    for candidate in board.geometry.scope(fact):
        if candidate not in killed and board.has(*candidate):
            if candidate not in opposed:
                return False
            left = True
    return left


def _nearby(before: Link, after: Link, opposed: Iterable[Candidate], board: Board) -> Iterator[Fact]:
    houses_of = board.geometry.houses_of
    yield CellFact(after.cell)
    yield from (PlaceFact(after.digit, house) for house in houses_of[after.cell])
    yield CellFact(before.cell)
    yield from (PlaceFact(before.digit, house) for house in houses_of[before.cell])
    if not after.holds:
        # A link may also pass through places that go unsaid: nine in box 3 is then in the cells left there, so not here.
        # That a cell does hold a digit leans on a fact that the two are in, and those were all.
        near: set[Fact] = {CellFact(cell) for cell, _ in opposed}
        near |= {PlaceFact(digit, house) for cell, digit in opposed for house in houses_of[cell]}
        yield from sorted(near, key=fact_order)  # of all others nothing is taken away by the opposite


def _kills(link: Link, board: Board) -> set[Candidate]:
    """The candidates that cannot be true if the link is, by the rules alone."""
    if not link.holds:
        return {Candidate(link.cell, link.digit)}
    own = {Candidate(link.cell, digit) for digit in board.geometry.digits if digit != link.digit}
    return own | {Candidate(peer, link.digit) for peer in board.geometry.peers[link.cell]}


def _other(board: Board, cell: Cell, digit: int) -> int:
    """The other candidate of a cell that has two."""
    one, other = board.candidates(cell)
    return one if digit == other else other


def _within(wanted: Iterable[object], full: Iterable[object]) -> bool:
    """Are the wanted items in ``full``, in that order?"""
    rest = iter(full)
    return all(item in rest for item in wanted)


PATTERNS = (XYChain(), XChain(), ToldChain())
