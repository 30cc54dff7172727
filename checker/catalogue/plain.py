"""``facts``: no pattern named, only what the proof may lean on."""

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.forms import Form, SlotForm
from ...grammar.statements import Problem
from ...grammar.vocabulary import Cell, CellFact, Fact
from ..board import Board
from .shape import Parts, Pattern, repeated


class Facts(Pattern):
    """The facts that are cited, whatever they are called."""

    form = Form("facts", (SlotForm("", "fact"),))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        yield told

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        yield from repeated(parts.get(""))

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        return tuple(dict.fromkeys(parts.values("")))

    def cells(self, parts: Parts, board: Board) -> frozenset[Cell]:
        return frozenset(fact.cell for fact in parts.values("") if isinstance(fact, CellFact))


PATTERNS = (Facts(),)
