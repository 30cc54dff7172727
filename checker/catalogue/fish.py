"""X-wing, swordfish and jellyfish, with and without fins.

In as many base lines as cover lines, a digit's places lie in the covers (plain), or in the covers and in fins, all of one box.
A fin may empty a cover: the base cells that the cover would have sit in the fins' box.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.forms import Form, SlotForm
from ...grammar.statements import Problem, Said
from ...grammar.vocabulary import Cell, Fact, House, PlaceFact
from ..board import Board
from .shape import Parts, Pattern, absent, repeated, supersets, wrong_kind

NAMES = {2: "x-wing", 3: "swordfish", 4: "jellyfish"}
CROSS = {"r": "c", "c": "r"}


class Fish(Pattern):
    """``size`` base lines of one kind, ``size`` cover lines of the other, and where ``finned`` the fins."""

    def __init__(self, size: int, finned: bool) -> None:
        slots = (SlotForm("on", "digit"), SlotForm("in", "house"), SlotForm("cover", "house"))
        fins = (SlotForm("fins", "cell"),) if finned else ()
        self.form = Form(("finned " if finned else "") + NAMES[size], slots + fins)
        self.size = size
        self.finned = finned

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        lists = ("in", "cover", "fins") if self.finned else ("in", "cover")
        wrong_count = any(told.closed(word) and len(told.get(word)) != self.size for word in ("in", "cover"))
        astray = any(house.kind not in CROSS for house in (*told.values("in"), *told.values("cover")))
        if astray or wrong_count or (told.closed("on") and all(map(told.closed, lists))):
            yield told
            return
        base, cover = told.values("in"), told.values("cover")
        kinds = {house.kind for house in base} or {CROSS[house.kind] for house in cover if house.kind in CROSS} or set("rc")
        for kind in sorted(kinds & set(CROSS), reverse=True):
            for digit in told.values("on") or board.geometry.digits:
                lines = [h for h in board.geometry.houses if h.kind == kind and not board.placed(digit, h)]
                for chosen in [base] if told.closed("in") else supersets(base, lines, self.size):
                    yield from self._covered(told, board, digit, chosen)

    def _covered(self, told: Parts, board: Board, digit: int, base: tuple[House, ...]) -> Iterator[Parts]:
        """The choices of covers, and of fins where there are any, that the base lines leave."""
        cells_of = board.geometry.cells_of
        places = [cell for house in base for cell in board.places(digit, house)]
        lines = [house for house in cells_of if house.kind == CROSS[base[0].kind]]
        used = [house for house in lines if any(cell in cells_of[house] for cell in places)]
        if len(used) > self.size and not self.finned and not told.closed("cover"):
            return
        cover = told.values("cover")
        # A cover may be one that a fin empties, so with fins the lines without a place come after those with one.
        pool = [*used, *(house for house in lines if house not in used)] if self.finned else used
        for chosen in [cover] if told.closed("cover") else supersets(cover, pool, self.size):
            covered = {cell for house in chosen for cell in cells_of[house]}
            fins = [cell for cell in places if cell not in covered]
            if not self.finned:
                yield told.given(on=[digit], in_=base, cover=sorted(chosen))
            elif told.closed("fins"):
                if set(fins) == set(told.values("fins")) or told.closed("cover"):
                    yield told.given(on=[digit], in_=base, cover=sorted(chosen))
            elif set(told.values("fins")) <= set(fins) and len({_box(board, cell) for cell in fins}) <= 1:
                yield told.given(on=[digit], in_=base, cover=sorted(chosen), fins=sorted(fins))

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        digits, base, cover = parts.get("on"), parts.get("in"), parts.get("cover")
        structural = [*repeated(base, cover, parts.get("fins"))]
        if not structural:
            kinds = [house.value.kind for house in base] or [CROSS.get(house.value.kind, "r") for house in cover]
            kind = max("rc", key=kinds.count)
            structural = [*wrong_kind(base, kind), *wrong_kind(cover, CROSS[kind])]
        yield from structural
        if structural:
            return
        for group, what, wanted in ((digits, "digits", 1), (base, "base lines", self.size), (cover, "covers", self.size)):
            if len(group) != wanted:
                span = group[-1].span if group else parts.span
                yield absent("wrong-count", span, what=what, found=len(group), wanted=wanted)
                return
        digit = digits[0].value
        for house in base:
            filled = board.placed(digit, house.value)
            if filled:
                yield absent("placed", house.span, digit=digit, house=house.value, cell=filled)
        yield from self._fins(parts, board, digit)

    def _fins(self, parts: Parts, board: Board, digit: int) -> Iterator[Problem]:
        fins, base, cover = parts.get("fins"), parts.get("in"), parts.get("cover")
        covered = {cell for house in cover for cell in board.geometry.cells_of[house.value]}
        for house in base:
            astray = tuple(
                cell for cell in board.places(digit, house.value) if cell not in covered and cell not in parts.values("fins")
            )
            if astray:
                yield absent(
                    "other-places", house.span, digit=digit, house=house.value, cells=astray, covers=parts.values("cover")
                )
        if not self.finned:
            return
        if not fins:
            yield absent("no-fin", parts.span)
            return
        for fin in fins:
            if not any(fin.value in board.geometry.cells_of[house.value] for house in base):
                yield absent("fin-astray", fin.span, cell=fin.value, houses=parts.values("in"))
            elif fin.value in covered:
                yield absent("fin-covered", fin.span, cell=fin.value)
            elif not board.has(fin.value, digit):
                yield absent("no-candidate", fin.span, cell=fin.value, digit=digit)
        boxes = {_box(board, fin.value) for fin in fins}
        if len(boxes) > 1:
            yield absent("fins-apart", fins[-1].span, cells=parts.values("fins"))
            return
        yield from self._idle_covers(base, cover, board, digit, boxes.pop())

    def _idle_covers(
        self, base: tuple[Said[House], ...], cover: tuple[Said[House], ...], board: Board, digit: int, box: House
    ) -> Iterator[Problem]:
        """A cover has to hold a place of the digit in the base, or to meet the base in the fins' box."""
        cells_of = board.geometry.cells_of
        base_cells = [cell for house in base for cell in cells_of[house.value]]
        for house in cover:
            crossings = [cell for cell in cells_of[house.value] if cell in base_cells]
            if not any(board.has(cell, digit) or cell in cells_of[box] for cell in crossings):
                yield absent("idle-cover", house.span, house=house.value, digit=digit)

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        return tuple(PlaceFact(digit, house) for digit in parts.values("on")[:1] for house in dict.fromkeys(parts.values("in")))

    def cells(self, parts: Parts, board: Board) -> frozenset[Cell]:
        return frozenset(cell for house in parts.values("in") for cell in board.geometry.cells_of[house])


def _box(board: Board, cell: Cell) -> House:
    return next(house for house in board.geometry.houses_of[cell] if house.kind == "b")


PATTERNS = tuple(Fish(size, finned) for size in NAMES for finned in (False, True))
