"""A writer's habits: the same statement in one of the ways that the language allows."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from random import Random

from .board import Board, Claim, House
from .shapes import made_of
from .words import (
    Cells,
    Digit,
    Effect,
    Group,
    Link,
    Named,
    Part,
    Place,
    Placement,
    Reason,
    Removal,
    Rest,
    Statement,
    one,
)

GAPS = (" ", ",", "")


@dataclass
class Style:
    """How often a habit shows; every line is written anew."""

    rng: Random
    long: float
    upper: float
    joined: float
    comma: float
    rest: float
    numbers: bool
    times: bool
    comments: float
    says: float

    @classmethod
    def of(cls, rng: Random) -> Style:
        """The habits of some writer."""

        def seldom() -> float:
            return rng.choice((0.0, 0.0, 0.1, 0.5))

        return cls(
            rng,
            long=seldom(),
            upper=seldom(),
            joined=seldom(),
            comma=seldom(),
            rest=0.5,
            numbers=rng.random() < 0.3,
            times=rng.random() < 0.3,
            comments=rng.choice((0.0, 0.05, 0.2)),
            says=rng.choice((0.0, 0.1)),
        )

    def often(self, share: float) -> bool:
        """Yes, in that share of the cases."""
        return self.rng.random() < share

    def statement(self, claims: Collection[Claim], reason: Reason | None, board: Board, everything: bool) -> Statement:
        """The claims in words. ``everything``: may a house's rest be spoken of?"""
        effects: list[Effect] = []
        removed = {(cell, digit) for cell, digit, holds in claims if not holds}
        for cell, digit, holds in claims:
            if holds:
                effects.append(Placement(self._upper(one(cell, board.geometry)), Digit(digit)))
        if reason is not None and everything and removed and self.often(self.rest):
            effects += self._rest(removed, reason, board)
        effects += self._removals(removed, board)
        return Statement(tuple(effects), reason and self.reason(reason, board))

    def _rest(self, removed: set[tuple[int, int]], reason: Reason, board: Board) -> list[Effect]:
        """``rest of`` a house, where all of it is proved; what it says is taken from ``removed``."""
        named = made_of(reason, board)
        choices: list[tuple[House, list[int]]] = []
        for house, cells in board.geometry.cells_of.items():
            rest = {(cell, digit) for cell in cells if cell not in named for digit in board.digits[cell]}
            found = {digit for _, digit in rest & removed}
            whole = [digit for digit in found if all(pair in removed for pair in rest if pair[1] == digit)]
            if whole:
                choices.append((house, sorted(whole)))
        if not choices:
            return []
        house, digits = self.rng.choice(choices)
        rest_cells = set(board.geometry.cells_of[house]) - named
        removed -= {pair for pair in removed if pair[0] in rest_cells and pair[1] in digits}
        return [Rest(self.named(house), self.digits(digits))]

    def _removals(self, removed: Iterable[tuple[int, int]], board: Board) -> list[Effect]:
        """Removals grouped by cell or by digit, and what has equal other halves told as one."""
        by_cell = self.often(0.5)
        halves: dict[int, set[int]] = defaultdict(set)
        for cell, digit in removed:
            halves[cell if by_cell else digit].add(digit if by_cell else cell)
        groups: dict[tuple[int, ...], list[int]] = defaultdict(list)
        for key, values in sorted(halves.items()):
            groups[tuple(sorted(values))].append(key)
        pairs = [(keys, [*values]) if by_cell else ([*values], keys) for values, keys in groups.items()]
        return [Removal(self.cells(cells, board), self.digits(digits)) for cells, digits in pairs]

    def reason(self, reason: Reason, board: Board) -> Reason:
        """The reason's words in this writer's way."""
        return replace(reason, parts=tuple(self._part(part, reason.name, board) for part in reason.parts))

    def _part(self, part: Part, name: str, board: Board) -> Part:
        said = part.said
        if not isinstance(said, Group):
            links = tuple(replace(link, cell=self._upper(link.cell)) for link in said if isinstance(link, Link))
            return replace(part, said=links or tuple(self._cited(word) for word in said if not isinstance(word, Link)))
        if part.word in ("at", "wings", "fins"):
            cells = [cell for word in said.words if isinstance(word, Cells) for cell in word.on(board.geometry)]
            return replace(part, said=self.cells(cells, board))
        words = tuple(self._word(word) for word in said.words)
        gap = said.gap
        if name != "xy-chain":
            gap = self.rng.choice(GAPS) if isinstance(words[0], Digit) else self._gap()
        return replace(part, said=Group(words, gap))

    def _cited(self, said: Cells | Place) -> Cells | Place:
        if isinstance(said, Place):
            return replace(said, named=self.named(said.named.house))
        return self._upper(said)

    def _word(self, word: Cells | Named | Digit) -> Cells | Named | Digit:
        if isinstance(word, Named):
            return self.named(word.house)
        return self._upper(word) if isinstance(word, Cells) else word

    def _upper(self, word: Cells) -> Cells:
        return replace(word, upper=self.often(self.upper))

    def _gap(self) -> str:
        return ", " if self.often(self.comma) else " "

    def named(self, house: House) -> Named:
        """A house, short or long."""
        return Named(*house, long=self.often(self.long))

    def digits(self, values: Iterable[int]) -> Group:
        """Digits, with or without something between them."""
        return Group(tuple(map(Digit, values)), self.rng.choice(GAPS))

    def cells(self, values: Iterable[int], board: Board) -> Group:
        """Cells, those of one row or one column perhaps as one word."""
        words = [one(cell, board.geometry) for cell in values]
        joined: list[Cells] = []
        for word in words:
            last = joined[-1] if joined else None
            if last is not None and self.often(self.joined):
                if last.rows == word.rows and word.columns > last.columns[-1:]:
                    joined[-1] = Cells(last.rows, last.columns + word.columns)
                    continue
                if last.columns == word.columns and word.rows > last.rows[-1:]:
                    joined[-1] = Cells(last.rows + word.rows, last.columns)
                    continue
            joined.append(word)
        return Group(tuple(map(self._upper, joined)), self._gap())
