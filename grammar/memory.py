"""What was named last: the discourse memory that "this cell", "the other one", "the same row" and "both of them" point into."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from .clauses import Clause
from .statements import Said
from .vocabulary import Cell, Geometry, House

KIND_WORDS = {"row": "r", "column": "c", "col": "c", "box": "b", "block": "b", "nonet": "b", "region": "b"}


MEETING = ("LAST_CELL", "ONLY_PLACE", "ONLY", "ENDS")
"""Pieces of a clause that tells a cell by the two lines that meet in it."""


class Memory:
    """The cells, digits and houses named last."""

    def __init__(self, geometry: Geometry) -> None:
        self.geometry = geometry
        self.cells: tuple[Said[Any], ...] = ()
        self.several: tuple[Said[Any], ...] = ()
        self.digits: tuple[Said[Any], ...] = ()
        self.houses: dict[str, Said[Any]] = {}
        self.house: Said[Any] | None = None
        self.of_lines = False
        """Were several lines named since the last cells? Then those are "them"."""
        self.about: House | None = None
        """The house named last, if no cell was named since: what "the fourth cell" is counted in."""
        self.since: dict[str, House] = {}
        """Of each kind, the house named last since a cell was named."""
        self.line: Said[Any] | None = None
        """The row or column that was all that the clause before named."""

    def hear(self, clause: Clause) -> None:
        """Remember what a clause names."""
        self._meet(clause)
        if clause.witness and "BECAUSE" in clause.joints:
            return  # "the 4 has to be in row six, because row four has one": what is spoken of is row six
        for piece in clause.pieces:
            mention = piece.mention
            if mention is None:
                continue
            if mention.kind == "cells":
                self.cells = mention.values
                self.of_lines = False
                self.since = {}
                if self.about is not None and not set(mention.bare) <= set(self.geometry.cells_of[self.about]):
                    self.about = None
                if len(mention.values) > 1:
                    self.several = mention.values
            elif mention.kind == "digits":
                self.digits = mention.values
            else:
                self.of_lines = self.of_lines or len(mention.values) > 1
                for said in mention.values:
                    self.houses[said.value.kind] = said
                    self.house, self.about = said, said.value
                    self.since[said.value.kind] = said.value

    def _meet(self, clause: Clause) -> None:
        """``Column 3 is full but for row 2``, ``Go to column 7. Now down to row 6``: the cell in which two lines meet."""
        lines = [said for mention in clause.named("houses") for said in mention.values if said.value.kind != "b"]
        before, self.line = self.line, None
        if clause.has("CELLS") or not lines:
            return
        if len(lines) == 1 and not clause.has("DIGITS"):
            self.line = lines[0]
            lines = [before, *lines] if before is not None else lines
        elif not clause.has(*MEETING):
            return
        numbers = {said.value.kind: said.value.number for said in lines}
        if len(lines) == len(numbers) == 2:
            self.cells = (Said(Cell(numbers["r"], numbers["c"]), lines[-1].span),)

    @property
    def cell(self) -> Cell | None:
        """The last cell that was named."""
        return self.cells[-1].value if self.cells else None

    @property
    def other(self) -> tuple[Said[Any], ...]:
        """Of two cells named last, the one that was not named since."""
        since = {said.value for said in self.cells} if self.cells != self.several else set()
        rest = tuple(said for said in self.several if said.value not in since)
        return rest if len(rest) == 1 else ()

    def same_house(self, words: str, cells: tuple[Cell, ...] = (), named_in: Collection[Any] | None = None) -> House | None:
        """The house that ``the row`` or ``the same box`` means: that of the cells, else the one named last.

        ``named_in``: what it has to be among, where only this step's own names will do.
        """
        noun = words.split()[-1]
        kinds = "rc" if noun == "line" else KIND_WORDS[noun]
        named = [self.houses[kind] for kind in kinds if kind in self.houses]
        if named_in is not None:
            named = [said for said in named if said.value in named_in]
        for said in named:
            if not cells or all(cell in self.geometry.cells_of[said.value] for cell in cells):
                house: House = said.value
                return house
        common = [house for house in self.geometry.common_houses(cells) if house.kind in kinds] if cells else []
        return common[0] if common else None
