"""Pointing and claiming: where a box and a line meet, a digit of one lies wholly within the other."""

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.forms import Form, SlotForm
from ...grammar.statements import Problem
from ...grammar.vocabulary import Cell, Fact, PlaceFact
from ..board import Board
from .shape import Parts, Pattern, absent, wrong_kind


class Intersection(Pattern):
    """All the places of a digit in the house after ``in`` lie in the other house.

    Either word, ``along`` or ``within``, is taken for the other house, so that the two patterns can be told apart when one
    is told under the other's name.
    """

    def __init__(self, name: str, word: str, kinds: str, other_kinds: str) -> None:
        other = "within" if word == "along" else "along"
        self.form = Form(
            name, (SlotForm("", "digit"), SlotForm("in", "house"), SlotForm(word, "house"), SlotForm(other, "house"))
        )
        self.word = word
        self.kinds = kinds
        self.other_kinds = other_kinds

    def _other(self, parts: Parts) -> str:
        return next((word for word in ("along", "within") if parts.get(word)), self.word)

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        word = self._other(told)
        if told.get("") and told.get("in") and told.get(word):
            yield told
            return
        geometry = board.geometry
        for house in told.values("in") or [house for house in geometry.houses if house.kind in self.kinds]:
            for digit in told.values("") or geometry.digits:
                places = board.places(digit, house)
                if board.placed(digit, house) or not places:
                    continue
                others = told.values(word) or [
                    other for other in geometry.common_houses(places) if other.kind in self.other_kinds and other != house
                ]
                for other in others:
                    yield told.given(bare=[digit], in_=[house], **{word: [other]})

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        word = self._other(parts)
        (digit,), (house,), (other,) = parts.get("")[:1], parts.get("in")[:1], parts.get(word)[:1]
        for said in (*parts.get("")[1:], *parts.get("in")[1:], *parts.get(word)[1:]):
            yield absent("one-too-many", said.span, named=said.value)
        kinds = [*wrong_kind([house], self.kinds), *wrong_kind([other], self.other_kinds)]
        yield from kinds
        if kinds:
            return
        filled = board.placed(digit.value, house.value)
        if filled:
            yield absent("placed", digit.span, digit=digit.value, house=house.value, cell=filled)
            return
        if not set(board.geometry.cells_of[house.value]) & set(board.geometry.cells_of[other.value]):
            yield absent("apart", other.span, house=other.value, other=house.value)
            return
        places = board.places(digit.value, house.value)
        astray = tuple(place for place in places if place not in board.geometry.cells_of[other.value])
        if astray:
            none = len(astray) == len(places)
            yield absent(
                "other-places", house.span, digit=digit.value, house=house.value, cells=astray, inside=other.value, none=none
            )

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        return tuple(PlaceFact(digit, house) for digit in parts.values("")[:1] for house in parts.values("in")[:1])

    def cells(self, parts: Parts, board: Board) -> frozenset[Cell]:
        houses = (*parts.values("in")[:1], *parts.values(self._other(parts))[:1])
        return frozenset.intersection(*(frozenset(board.geometry.cells_of[house]) for house in houses))


PATTERNS = (Intersection("pointing", "along", "b", "rc"), Intersection("claiming", "within", "rc", "b"))
