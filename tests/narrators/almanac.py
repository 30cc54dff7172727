"""For development: the editor of a yearly almanac's puzzle pages. Worked solutions in which everything is counted by ordinals."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS, an, listed, opened
from .layout import Laid, Piece, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

BOXES = (
    "",
    "top-left",
    "top-middle",
    "top-right",
    "middle-left",
    "centre",
    "middle-right",
    "bottom-left",
    "bottom-middle",
    "bottom-right",
)
"""Boxes by where they lie."""

TURNS: tuple[tuple[int, ...], ...] = ((0, 1, 1, 2), (0, 0, 4, 6), (1, 3, 3, 0), (2, 2, 0, 5), (7, 0, 1, 2))
"""Ways of naming a cell that one year's editor favours."""

SHORT_TURNS = (0, 0, 1, 1, 2, 2, 4)
"""Those that bear being said again and again in one step."""


class Almanac(Narrator):
    """Prints worked solutions, a year after the puzzle, and is never in a hurry."""

    name = "almanac"
    leaves: ClassVar = {
        "single house": 0.06,
        "its": 0.18,
        "naked house": 0.4,
        "hidden house": 0.08,
        "cover": 0.1,
        "crossing": 0.1,
        "name": 0.5,
        "effects": 0.55,
        "back": 0.4,
        "corners": 0.5,
        "recap": 0.05,
    }

    # Names of cells, houses and digits.

    def turn(self, m: Matter) -> int:
        turns: list[int] = [*TURNS[m.manner % len(TURNS)], *range(8)]
        return m.rng.choice(turns)

    def short_turn(self, m: Matter) -> int:
        return m.rng.choice(SHORT_TURNS)

    def cell(self, m: Matter, cell: int, turn: int | None = None) -> str:
        down, across = ORDINALS[cell // 9 + 1], ORDINALS[cell % 9 + 1]
        row, column = self.line(m, "r", cell // 9 + 1), self.line(m, "c", cell % 9 + 1)
        return (
            f"the {across} cell of {row}",
            f"the cell in {row} and {column.removeprefix('the ')}",
            f"the {down} cell of {column}",
            f"the cell at {across} column, {down} row",
            f"{row}'s {across} cell",
            f"the {across} cell from the left in {row}",
            f"the cell in {row} and in {column}",
            f"the {down} cell from the top in {column}",
        )[self.turn(m) if turn is None else turn]

    def bare_cell(self, m: Matter, cell: int) -> str:
        """As at the head of an entry."""
        down, across = ORDINALS[cell // 9 + 1], ORDINALS[cell % 9 + 1]
        return m.pick(
            f"{across} column, {down} row",
            f"{down} row, {across} column",
            f"{down} row, {across} cell",
            f"row the {down}, column the {across}",
        )

    def line(self, m: Matter, kind: str, number: int) -> str:
        """A house by its number; a box as readily by where it lies."""
        chance = m.rng.random()
        if kind == "b" and chance < 0.45:
            return f"the {BOXES[number]} box"
        ends = {("r", 1): "top", ("r", 9): "bottom", ("c", 1): "leftmost", ("c", 9): "rightmost"}
        return f"the {ends.get((kind, number), ORDINALS[number]) if chance > 0.93 else ORDINALS[number]} {KINDS[kind]}"

    def house(self, m: Matter, house: House) -> str:
        return self.line(m, house.kind, house.number)

    def houses(self, m: Matter, houses: Sequence[House], last: str = "and") -> str:
        """``the second, fifth and sixth rows`` or ``the second row, the fifth and the sixth``."""
        kind, order = KINDS[houses[0].kind], [ORDINALS[house.number] for house in houses]
        several = len(houses) > 1 and last == "and"
        if len(houses) == 1 or m.often(0.7):
            return f"the {listed(order, last)} {kind}{'s' if several else ''}"
        return listed([f"the {order[0]} {kind}", *(f"the {number}" for number in order[1:])], last)

    def where(self, m: Matter) -> str:
        if m.plan.back:
            return f"{m.pick('the same', 'that very', 'this same')} {KINDS[m.house.kind]}"
        return self.house(m, m.house)

    def lies(self, m: Matter, cell: int) -> str | None:
        """The ordinal of a cell within the row or column just spoken of, if it does lie there."""
        row, column = divmod(cell, 9)
        if m.house.kind == "r" and row + 1 == m.house.number:
            return ORDINALS[column + 1]
        if m.house.kind == "c" and column + 1 == m.house.number:
            return ORDINALS[row + 1]
        return None

    def here(self, m: Matter, cell: int, own: str = "the") -> str:
        """A cell of the house just spoken of; ``own``: ``its`` where the house is what the sentence is about."""
        order, full, short = self.lies(m, cell), self.cell(m, cell), m.often(0.95)
        return f"{own} {order} cell" if order and short else full

    def cells(self, m: Matter, cells: Sequence[int], last: str = "and", by: str = "") -> str:
        """Cells counted off row by row or column by column. ``by``: ``r`` or ``c``, if it is to be so."""
        if len(cells) == 1:
            return self.cell(m, cells[0])
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        by = by or ("r" if len(rows) < len(columns) or (len(rows) == len(columns) and m.manner % 3 != 1) else "c")
        way, cut = m.rng.random(), m.rng.random() < 0.35
        groups: list[str] = []
        for line in sorted(rows if by == "r" else columns):
            within = sorted(
                cell % 9 if by == "r" else cell // 9 for cell in cells if (cell // 9 if by == "r" else cell % 9) == line
            )
            order = listed([ORDINALS[at + 1] for at in within], last)
            noun, house = "cells" if len(within) > 1 and last == "and" else "cell", self.line(m, by, line + 1)
            if groups and len(within) == 1 and cut:
                groups.append(f"the {order} of {house}")
            elif way < 0.15 and not cut:
                cross = KINDS["c" if by == "r" else "r"] + ("s" if noun == "cells" else "")
                groups.append(f"the {noun} in the {order} {cross} of {house}")
            else:
                groups.append(f"the {order} {noun} of {house}")
        if len(groups) == 2 and len(cells) > 2:
            return f"{groups[0]} {'together with' if last == 'and' and m.often(0.3) else last} {groups[1]}"
        return listed(groups, last, comma=True)

    def within(self, m: Matter, place: str, last: str = "and") -> str:
        """The cells of a pattern; only their ordinals where ``place`` tells the row or column."""
        full = self.cells(m, m.cells, last)
        orders = [self.lies(m, cell) for cell in sorted(m.cells)] if place else [None]
        counted = [order for order in orders if order]
        if len(counted) < len(orders):
            return full
        return f"the {listed(counted, last)} cell{'s' if last == 'and' else ''}"

    def some(self, m: Matter, digits: Sequence[int], last: str = "and") -> str:
        """Digits in a list, which in some years are set as figures."""
        return listed([str(digit) if m.manner % 3 == 0 else NUMBERS[digit] for digit in digits], last)

    def each(self, digits: Sequence[int], last: str = "or") -> str:
        return listed([one_of(digit) for digit in digits], last)

    def many(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([PLURALS[digit] for digit in digits], last)

    def those(self, digits: Sequence[int]) -> str:
        return listed([f"the {NUMBERS[digit]}" for digit in digits])

    # Cells that are filled in.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, head = self.cell(m, put.cell), self.bare_cell(m, put.cell)
        word, one = NUMBERS[put.digit], one_of(put.digit)
        return opened(
            m.pick(
                f"{head}: this cell has no candidate but {word}, and {word} is what we print there.",
                f"count what is left to {cell}. The count stops at one digit, which is the {word}.",
                f"every digit but the {word} has been struck off in {cell}, so {one} is what it holds.",
                f"{cell} offers no choice. It is {one}.",
                f"we can now fill {cell}: only the {word} is still allowed there.",
                f"eight digits are barred from {cell}, and the ninth, the {word}, is therefore its answer.",
                f"{one_of(put.digit)} must be entered in {cell}, where all else has been excluded.",
                f"turn to {cell}. All its candidates have fallen, except for the {word}, and that settles it.",
                f"{cell} is a naked single; the digit is {word}.",
                f"{head}: {word}, the only digit that has survived there.",
                f"what does {cell} hold? It can hold only {one}.",
                f"the only candidate that still stands in {cell} is the {word}, and with that the cell is decided.",
                f"since {cell} has been stripped of everything except its {word}, that is the digit to write.",
                f"{cell} now reads {word}, because no other digit may enter it.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, head = self.cell(m, put.cell), self.bare_cell(m, put.cell)
        word, one, many = NUMBERS[put.digit], one_of(put.digit), PLURALS[put.digit]
        if not m.says("house"):
            return opened(
                m.pick(
                    f"{head}: {word}, as a hidden single.",
                    f"a hidden single awaits us in {cell}, which is {one}.",
                    f"{one} can be entered in {cell}; it is a hidden single.",
                    f"the {word} of {cell} is a hidden single, and we enter it.",
                    f"{cell} yields to a hidden single. It is {one}.",
                )
            )
        if not m.says("its"):
            return self.its_single(m, cell, put.digit)
        where, here, own = self.where(m), self.here(m, put.cell), self.here(m, put.cell, "its")
        return opened(
            m.pick(
                f"{where} can place its {word} only in {own}.",
                f"ask where {where} may have its {word}, and a single answer comes back: {here}.",
                f"{head}: {word}, there being no other cell for it in {where}.",
                f"every cell of {where} but {here} has been closed to the {word}. That forces {one} into {here}.",
                f"{one} is still missing from {where}. The only cell that admits it is {here}, and there we write it.",
                f"{cell} must be {one}; in {where}, no other cell is open to that digit.",
                f"{where} still owes us {one}, and can pay it in {own} alone.",
                f"look along {where} for {one}. It fits in {here} and nowhere else."
                if m.house.kind != "b"
                else f"search {where} for {one}. It fits in {here} and nowhere else.",
                f"a hidden single: the {word} of {where} falls to {here}.",
                f"write {one} in {here}, for {where} has only this one cell in which {one} is possible.",
                f"the {word} in {where} is pinned to {here}, which is thereby solved.",
                f"if {where} is to have {one} at all, it must be in {here}; and so we enter it there.",
                f"{here} receives the {word} of {where}, since {many} are excluded from all its other cells."
                if self.lies(m, put.cell) is None
                else f"{here} of {where} receives the {word}, since {many} are excluded from all the others."
                if here.startswith("the ") and " of " not in here and " in " not in here and " at " not in here
                else f"{cell} receives the {word} of {where}, since {many} are excluded from all the others.",
            )
        )

    def its_single(self, m: Matter, cell: str, digit: int) -> str:
        word, one, many, kind = NUMBERS[digit], one_of(digit), PLURALS[digit], KINDS[m.house.kind]
        return opened(
            m.pick(
                f"{cell} is the one place left for {one} in its {kind}, and so it is filled.",
                f"in {cell} we enter {one}, which can go in no other cell of the {kind}.",
                f"{cell} is {one}: all the other cells of its {kind} have been closed to {many}.",
                f"no cell but this one can be {one} in its {kind}: {cell}.",
                f"the {kind} of {cell} has its {word} there or not at all. There it is, then.",
                f"nothing else in its {kind} can be {one}, so {cell} must.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, head = self.cell(m, put.cell), self.bare_cell(m, put.cell)
        word, one, kind = NUMBERS[put.digit], one_of(put.digit), KINDS[m.house.kind]
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{head}: {word}, which completes the {kind}.",
                    f"{cell} is the one cell of its {kind} not yet filled, and must be {one}.",
                    f"we complete a {kind} by writing {one} in {cell}.",
                    f"with all its {kind} filled but itself, {cell} can only be {one}.",
                    f"{one} goes into {cell}, the last empty cell of its {kind}.",
                )
            )
        where, here, own = self.where(m), self.here(m, put.cell), self.here(m, put.cell, "its")
        return opened(
            m.pick(
                f"{where} has but one cell empty, {own}, and but one digit wanting, the {word}.",
                f"{where} may now be completed with {one} in {own}.",
                f"eight digits stand in {where}. The ninth is {one}, and its place is {here}.",
                f"{head}: {word}, the last digit of {where}.",
                f"all of {where} is filled except {here}, which makes that cell {one}.",
                f"the {word} is the one digit that {where} has not used, and {here} the one cell it has not filled. The two belong together.",
                f"nothing remains to be done in {where} except to write {one} in {here}.",
                f"{cell} was the last blank of {where}; it becomes {one}.",
                f"as {where} is short of {one} only, we enter it in {here}.",
                f"we come to the end of {where}: {one} in {here}.",
            )
        )

    # Patterns that take candidates away.

    def locked(self, m: Matter) -> str:
        digit, where = m.digits[0], self.where(m)
        word, one, many = NUMBERS[digit], one_of(digit), PLURALS[digit]
        assert m.crossing is not None
        kind, line = KINDS[m.crossing.kind], self.house(m, m.crossing)
        if not m.says("crossing"):
            said = m.pick(
                f"{where} keeps all its {many} within one {kind}",
                f"the cells of {where} which can be {one} all lie in a single {kind}",
                f"every {word} still possible in {where} falls in the same {kind}",
                f"the {many} of {where} are found in one {kind} only",
            )
        elif m.says("name"):
            pointing = (
                f"{where} has pointing {many}, and it is {line} that they point along",
                f"the {many} of {where} are a pointing set, and it lies in {line}",
                f"in {where} the {many} point down {line}"
                if m.crossing.kind == "c"
                else f"in {where} the {many} point across {line}",
                f"a pointing set of {many} in {where} reaches along {line}",
            )
            claiming = (
                f"{where} claims the {word} of {line}",
                f"the {word} of {line} is claimed by {where}",
                f"by claiming, {where} reserves for itself the {word} of {line}",
                f"{where} has a claim on the {many} of {line}",
            )
            said = m.pick(*(pointing if m.name == "pointing" else claiming))
        else:
            said = m.pick(
                f"{where} can place its {word} only where it meets {line}",
                f"all the {many} of {where} lie in {line}",
                f"the {word} of {where} is bound to fall in {line}",
                f"outside {line}, {where} has no cell that can be {one}",
                f"whichever cell of {where} turns out to be {one}, it will be a cell of {line}",
                f"the {word} that {where} still wants must come from the cells it shares with {line}",
                f"{where} and {line} overlap, and no cell of {where} beyond the overlap can be {one}",
            )
        again = m.pick(line, f"that {kind}") if m.says("crossing") else f"that {kind}"
        return self.conclude(m, said, m.pick(f"the other cells of {again}", f"the remaining cells of {again}"))

    def naked(self, m: Matter) -> str:
        place = f" in {self.where(m)}" if m.says("house") else ""
        size, count = m.name.split()[1], NUMBERS[m.count]
        cells, digits = self.within(m, place), self.some(m, m.digits)
        if m.says("name"):
            said = m.pick(
                f"{cells}{place} make up a naked {size}, whose digits are {digits}",
                f"there is a naked {size}{place}: {cells} hold only {digits}",
                f"the digits {digits} form a naked {size}{place}, which occupies {cells}",
                f"a naked {size} of {self.many(m.digits)} stands{place} in {cells}",
                f"consider {cells}{place}. They are a naked {size} on {digits}",
            )
        else:
            said = m.pick(
                f"look at {cells}{place}. These {count} cells share {digits}",
                f"{cells}{place} share {digits} between them, and have room for nothing else",
                f"the only digits left to {cells}{place} are {digits}",
                f"{cells}{place} have no more than {count} candidates among the {count} of them, namely {digits}",
                f"between them, {cells}{place} must take {digits}",
                f"the digits {digits} are spoken for by {cells}{place}, which have no other candidates",
                f"whichever way round it may be, {cells}{place} will use up {digits}"
                if m.count == 2
                else f"in whatever order it may be, {cells}{place} will use up {digits}",
            )
            if m.count == 2 and m.often(0.25):
                one, other = m.digits
                said += f"; the one is {one_of(one)} and the other {one_of(other)}, though we cannot yet say which is which"
        kinds = " and of that ".join(KINDS[kind] for kind in m.plan.kinds)
        both = "both of them" if m.count == 2 else f"all {count} of them"
        return self.conclude(
            m,
            said,
            m.pick(f"the other cells of that {kinds}", f"the cells which see {both}", f"the remaining cells of that {kinds}"),
        )

    def hidden(self, m: Matter) -> str:
        place = f" in {self.where(m)}" if m.says("house") else ""
        size, count = m.name.split()[1], NUMBERS[m.count]
        cells, digits = self.within(m, place), self.some(m, m.digits)
        if m.says("name"):
            said = m.pick(
                f"{cells}{place} contain a hidden {size}, and its digits are {digits}",
                f"the digits {digits} form a hidden {size}{place}, which lies in {cells}",
                f"there is a hidden {size}{place}: {digits} can go only in {cells}",
                f"we uncover a hidden {size} of {self.many(m.digits)}{place}, in {cells}",
                f"hidden{place} is the {size} of {digits}, and {cells} are its cells"
                if place
                else f"{cells} are the cells of a hidden {size}, made of {digits}",
            )
        else:
            among = self.within(m, place, "or")
            said = m.pick(
                f"there are only {count} cells{place} for the {count} digits {digits}, and these are {cells}",
                f"the {self.many(m.digits)}{place} are confined to {cells}",
                f"the digits {digits} must all find their places{place} in {cells}",
                f"ask which cells{place} can be {self.each(m.digits)}. The answer is {cells}, and no more",
                f"apart from {cells}, nothing{place} can be {self.each(m.digits)}",
                f"wherever we look{place}, {self.each(m.digits)} can be only in {among}",
                f"{cells}{place} are all that is left for {digits}, and so each of the {count} must be one of these",
            )
        return self.conclude(m, said, "")

    def fish(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m, m.houses), self.houses(m, m.cover)
        word, many = NUMBERS[digit], PLURALS[digit]
        lines, cross = f"{KINDS[m.houses[0].kind]}s", f"{KINDS[m.cover[0].kind]}s"
        shown, count = m.name.replace("x-", "X-"), NUMBERS[m.count]
        several = "both" if m.count == 2 else f"all {count}"
        if m.plan.corners:
            said = self.corners(m, lines)
        elif not m.says("name"):
            first, others = self.house(m, m.houses[0]), self.houses(m, m.houses[1:])
            either = self.houses(m, m.cover, "or")
            said = m.pick(
                f"{first} can have its {word} only in {either}. The same is true of {others}",
                f"in {first}, the {word} is confined to {cover}. So it is in {others}",
                f"the {many} of {base} all stand in {cover}",
                f"{base} must draw their {many} from {cover}, and from nowhere else",
                f"take {base} together. {several.capitalize()} of them have their {word} in {either}",
                f"outside {cover} there is {none_of([digit])} in {base}",
                f"{base} need {count} {many} among them, and can find them only in {cover}"
                if m.count > 2
                else f"{base} need two {many} between them, and can find them only in {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(
                f"{base} carry {an(shown)} of {many}",
                f"there is {an(shown)} on the {word}, based on {base}",
                f"the {many} in {base} form {an(shown)}",
                f"the {word} makes {an(shown)} of {base}",
            )
        else:
            first, others = self.house(m, m.houses[0]), self.houses(m, m.houses[1:])
            said = m.pick(
                f"the {many} of {base} lie in {cover} only, which is {an(shown)}",
                f"{first} has its {many} in {cover}, and so {'has' if m.count == 2 else 'have'} {others}. This is {an(shown)}",
                f"{an(shown)} of {many} rests on {base}, and {cover} are its cover",
                f"{base} and {cover} enclose {an(shown)} of {many}; the {lines} are its base",
                f"there is {an(shown)} on the {word}: {base} confine it to {cover}",
                f"we meet {an(shown)} of {many}, which {base} build upon {cover}",
            )
        named = m.says("cover") and not m.plan.corners and m.often(0.5)
        return self.conclude(m, said, f"the other cells of {cover if named else f'those {cross}'}")

    def corners(self, m: Matter, lines: str) -> str:
        """An X-wing told by its four cells, line by line or all at once."""
        digit = m.digits[0]
        word, one, many = NUMBERS[digit], one_of(digit), PLURALS[digit]
        crossings = [
            cell
            for cell in range(81)
            if House("r", cell // 9 + 1) in (*m.houses, *m.cover) and House("c", cell % 9 + 1) in (*m.houses, *m.cover)
        ]
        corners = self.cells(m, crossings, by=m.houses[0].kind)
        first, second = (self.house(m, house) for house in m.houses)
        order, either = (listed([ORDINALS[house.number] for house in m.cover], last) for last in ("and", "or"))
        return m.pick(
            f"{first} can have its {word} in the {order} cells only, and {second} likewise in its {order} cells. These four are the corners of an X-wing",
            f"four cells, {corners}, are the corners of an X-wing of {many}, whose {lines} have {none_of([digit])} elsewhere",
            f"in {first} {one} fits only in the {either} cell; in {second} too it fits only in the {either}. That is an X-wing",
            f"an X-wing of {many} by {lines} has its four corners in {corners}",
        )

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m, m.houses), self.houses(m, m.cover)
        word, many = NUMBERS[digit], PLURALS[digit]
        shown, lone = m.name.replace("x-", "X-"), len(m.fins) == 1
        bare, fins, among = shown.removeprefix("finned "), self.cells(m, m.fins), self.cells(m, m.fins, "or")
        said = m.pick(
            f"{base} have their {many} in {cover}, but for {fins}. That makes a {shown}, with {'that cell as its fin' if lone else 'those cells as its fins'}",
            f"we find a {shown} of {many}: its base is {base}, its cover {cover}, and its {'fin' if lone else 'fins'} {fins}",
            f"if it were not for {fins}, the {many} of {base} would lie in {cover} alone. This is a {shown}",
            f"a {shown} on the {word} is built by {base} upon {cover}, and {fins} {'is the fin' if lone else 'are the fins'}",
            f"the {word} of {base} makes {an(bare)} with {cover}, unless it is to be found in the {'fin' if lone else 'fins'}, {among}",
            f"{fins} {'is the fin' if lone else 'are the fins'} of a {shown} of {many}, which has {base} for its base and {cover} for its cover",
            f"suppose first that no fin is {one_of(digit)}, the {'only fin' if lone else 'fins'} being {fins}. Then {base} have their {many} in {cover}, as {an(bare)}; and if {'the fin' if lone else 'a fin'} is {one_of(digit)}, the cells it sees are not. So we have a {shown}",
        )
        sees = "the fin" if lone else "all the fins"
        again = m.pick(cover, f"those {KINDS[m.cover[0].kind]}s")
        return self.conclude(m, said, f"the other cells of {again} which see {sees}")

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        turn = self.short_turn(m)
        pivot, wings = self.cell(m, m.pivot, turn), self.cells(m, m.cells)
        first, second = (self.cell(m, cell, turn) for cell in m.cells)
        one, other, both = m.plan.shared
        held, word = one_of(both), NUMBERS[both]
        cases = m.pick(
            f"there are two cases for {pivot}. If it is {one_of(one)}, then {first} must be {held}. If it is {one_of(other)}, then {second} must be",
            f"suppose {pivot} is {one_of(one)}; that makes {first} {held}. Suppose instead that it is {one_of(other)}; that makes {second} {held}",
            f"{pivot} holds {self.some(m, (one, other), 'or')}. In the first case {first} is {held}, in the second {second} is {held}",
            f"let {pivot} be {one_of(one)}. Then {first}, which sees it, is {held}. Let it be {one_of(other)}, and the {word} goes to {second} instead",
            f"should {pivot} prove to be {one_of(one)}, {first} is left with {held}; should it prove to be {one_of(other)}, {second} is left with {held}",
            f"{pivot} is either {one_of(one)}, which forces {held} into {first}, or {one_of(other)}, which forces {held} into {second}",
        )
        if m.says("name"):
            named = m.pick(
                f"{pivot} is the pivot of an XY-wing, and {wings} are its wings",
                f"we come upon an XY-wing. Its pivot is {pivot}, and its wings are {wings}",
                f"an XY-wing has {pivot} for its pivot and {wings} for its wings",
                f"{pivot} and its two wings, {wings}, form an XY-wing on the {word}",
                f"{cases}. This is an XY-wing, and {pivot} is its pivot",
                f"here is an XY-wing. {opened(cases)}",
            )
            return self.conclude(m, named, m.pick("the cells which see both wings", "the cells seen by both wings"), both)
        if m.often(0.5):
            cases += m.pick(
                f". Either way one of the two is {held}",
                f". In both cases one of these two cells has the {word}",
                f". There is {held} in the one or in the other, whichever it is",
            )
        return self.conclude(
            m, cases, m.pick("the cells which see both of these two", "the cells which both of them see"), both
        )

    # Chains, link by link.

    def xy_chain(self, m: Matter) -> str:
        end, turn = m.digits[0], self.short_turn(m)
        word, held = NUMBERS[end], one_of(end)
        names = self.names(m, m.cells, turn)
        first, last = self.cell(m, m.cells[0], turn), self.cell(m, m.cells[-1], turn)
        links = [("it", True, m.digits[1])]
        links += [(name, True, digit) for name, digit in zip(names[1:], m.digits[2:], strict=True)]
        if not m.says("name"):
            said = self.walk(m, (names[0], False, end), links) + self.one_end(m, first, last, end)
            return self.conclude(m, said, m.pick("the cells which see both of them", "the cells which see both ends"), end)
        pairs = [self.some(m, pair) for pair in zip(m.digits, m.digits[1:], strict=False)]
        told = listed([f"{name} (with {pair})" for name, pair in zip(names, pairs, strict=True)], comma=True)
        route = "; ".join(
            f"from it by the {NUMBERS[digit]} to {name}" for name, digit in zip(names[1:], m.digits[1:], strict=False)
        )
        said = m.pick(
            f"{self.walk(m, (names[0], False, end), links)}. This XY-chain has {held} at the one end or the other",
            f"the following cells form an XY-chain: {told}. The {word} is common to its ends",
            f"an XY-chain begins at {names[0]} with {held}. We go {route}, and there {one_of(m.digits[-1])} is left",
            f"an XY-chain on the {word} can be followed through {told}",
            f"we follow an XY-chain from {first} to {last}. {opened(self.walk(m, (names[0], False, end), links))}",
        )
        return self.conclude(m, said, m.pick("the cells which see both ends", "the cells seen from both its ends"), end)

    def x_chain(self, m: Matter) -> str:
        digit, turn = m.digits[0], self.short_turn(m)
        word, one, many = NUMBERS[digit], one_of(digit), PLURALS[digit]
        names = self.names(m, m.cells, turn)
        first, last = self.cell(m, m.cells[0], turn), self.cell(m, m.cells[-1], turn)
        links = [(name, bool(at % 2), digit) for at, name in enumerate(names)][1:]
        rest = m.pick("the cells which see both ends", "the cells which see the first and the last of them")
        if m.says("name"):
            said = m.pick(
                f"the {many} in {listed(names, comma=True)} make an X-chain",
                f"an X-chain on the {word} sets out from {names[0]}; it passes {listed(names[1:-1])}, and it ends at {names[-1]}",
                f"we trace an X-chain of {many}. Its cells, in order, are {listed(names, comma=True)}",
                f"{self.walk(m, (names[0], False, digit), links)}. That is an X-chain on the {word}",
                f"there is an X-chain of {many} from {first} to {last}. {opened(self.walk(m, (names[0], False, digit), links))}",
            )
            return self.conclude(m, said, rest)
        shares = [
            m.pick(
                f"{x} or {y} is {one}, for their {KINDS[way]} has no other cell for it",
                f"the {KINDS[way]} shared by {x} and {y} has its {word} in one of these two",
            )
            for x, y, way in zip(names[::2], names[1::2], m.plan.ways, strict=True)
        ]
        sees = [f"{x} and {y} see each other and are not both {one}" for x, y in zip(names[1:-1:2], names[2::2], strict=True)]
        strung = ". ".join(opened(part) for pair in zip(shares, [*sees, ""], strict=True) for part in pair if part)
        walked = self.walk(m, (names[0], False, digit), links)
        said = m.pick(strung, walked, walked) + self.one_end(m, first, last, digit)
        return self.conclude(m, said, rest)

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        turn = self.short_turn(m)
        names = self.names(m, [cell for cell, *_ in m.links], turn)
        links = [
            ("it" if before[0] == cell else name, so, other)
            for before, (cell, so, other), name in zip(m.links, m.links[1:], names[1:], strict=False)
        ]
        said = self.walk(m, (names[0], supposed, digit), links)
        start, final = self.cell(m, first, turn), self.cell(m, last, turn)
        if (first, digit) == (last, end) and holds != supposed:
            said += m.pick(
                ", which is the opposite of what we supposed",
                ". That contradicts our supposition",
                ", and the supposition has refuted itself",
                ". We supposed the contrary",
            )
            if m.plan.natural:
                return (
                    opened(said)
                    + m.pick(". Hence ", ". We conclude that ", ". It is therefore certain that ")
                    + f"{start} {is_or_not(not supposed)} {one_of(digit)}."
                )
        elif digit == end and holds and not supposed and first != last:
            said += self.one_end(m, start, final, digit)
        else:
            said += m.pick(
                f". Therefore {start} {is_or_not(not supposed)} {one_of(digit)}, or else {final} {is_or_not(holds)} {one_of(end)}",
                f". One of two things is true, then: {start} {is_or_not(not supposed)} {one_of(digit)}, or {final} {is_or_not(holds)} {one_of(end)}",
            )
        return self.conclude(m, said, m.pick("the cells which see both of them", "the cells which see both ends"), digit)

    def one_end(self, m: Matter, first: str, last: str, digit: int) -> str:
        """What a chain shows of its ends; without a full stop."""
        one = one_of(digit)
        return m.pick(
            f". So {first} or {last} is {one}",
            f". At least one of the two, {first} or {last}, is therefore {one}",
            f". We have shown that if {first} is not {one}, {last} is",
            f". Whichever is the case, there is {one} in {first} or in {last}",
        )

    def names(self, m: Matter, cells: Sequence[int], turn: int) -> list[str]:
        """Cells in order; where the row or column stays the same it is now and then not said again."""
        said = [self.cell(m, cells[0], turn)]
        for before, cell in pairwise(cells):
            full, short = self.cell(m, cell, turn), m.often(0.4)
            if before != cell and short and turn in (0, 4) and before // 9 == cell // 9:
                said.append(f"the {ORDINALS[cell % 9 + 1]} cell of that row")
            elif before != cell and short and turn == 2 and before % 9 == cell % 9:
                said.append(f"the {ORDINALS[cell // 9 + 1]} cell of that column")
            else:
                said.append(full)
        return said

    def walk(self, m: Matter, start: tuple[str, bool, int], links: Sequence[tuple[str, bool, int]]) -> str:
        """A supposition and what it leads to, over as many sentences as it takes; without the last full stop."""
        name, holds, digit = start
        begin = f"{name} {is_or_not(holds)} {one_of(digit)}"
        text, fresh = (
            m.pick(
                f"if {begin},",
                f"suppose that {begin}.",
                f"let us see what follows if {begin}.",
                f"imagine that {begin}.",
                f"when {begin},",
            ),
            True,
        )
        for at, (cell, so, other) in enumerate(links):
            one, word = one_of(other), NUMBERS[other]
            them = "that cell" if cell == "it" else cell
            if at == 0 and text.endswith(","):
                text += " " + (
                    m.pick(f"then {cell} must be {one}", f"{cell} is {one}", f"{one} must go in {them}")
                    if so
                    else m.pick(f"then {cell} cannot be {one}", f"{cell} is not {one}", f"the {word} is barred from {them}")
                )
                fresh = True
            elif at and fresh and m.often(0.55):
                text += (
                    m.pick(
                        f", which makes {cell} {one}",
                        f", so that {cell} is {one}",
                        f", and so {cell} must be {one}",
                        f", which forces {one} into {them}",
                    )
                    if so
                    else m.pick(
                        f", so that {cell} is not {one}",
                        f", and so {cell} cannot be {one}",
                        f", which takes the {word} from {them}",
                        f", which excludes {one} from {them}",
                    )
                )
                fresh = False
            else:
                text += (
                    ("" if text.endswith(".") else ".")
                    + " "
                    + opened(
                        m.pick(
                            f"that makes {cell} {one}",
                            f"that forces {one} into {them}",
                            f"then {cell} is {one}",
                            f"in its turn {cell} must then be {one}" if at and cell != "it" else f"so {cell} has to be {one}",
                            f"consequently {cell} is {one}",
                        )
                        if so
                        else m.pick(
                            f"then {cell} cannot be {one}",
                            f"that denies {one} to {them}",
                            f"that takes the {word} from {them}",
                            f"consequently {cell} is not {one}",
                        )
                    )
                )
                fresh = True
        return text

    # Steps told by what they rest on, or by nothing.

    def facts(self, m: Matter) -> str:
        turn = self.short_turn(m)
        cited = []
        for before, what in zip([None, *m.cited], m.cited, strict=False):
            if isinstance(what, int):
                cited.append(f"{'' if isinstance(before, int) else 'the candidates '}of {self.cell(m, what, turn)}")
            else:
                cited.append(f"the cells for {one_of(what[0])} in {self.house(m, what[1])}")
        words = listed(cited, comma=True)
        eff, cmd = self.effects(m), self.commands(m)
        together = "" if len(m.cited) == 1 else " together"
        return opened(
            m.pick(
                f"go through {words}{together}. Whichever it may be, {eff}.",
                f"{words}{together} are enough to establish this: {eff}.",
                f"{eff}. To be convinced of it, try {words} one after another.",
                f"by {words} alone we see that {eff}.",
                f"study {words}{together}, and then {cmd}.",
                f"{words}{together} allow us to {cmd}.",
                f"from {words} the reader may deduce that {eff}.",
            )
        )

    def bare(self, m: Matter) -> str:
        eff, cmd = self.effects(m), self.commands(m)
        return opened(
            m.pick(
                f"{eff}.",
                f"{cmd}.",
                f"we leave it to the reader to show that {eff}.",
                f"space does not permit the proof, but {eff}.",
                f"next, {cmd}.",
                f"let it be stated here that {eff}.",
                f"at this stage we may {cmd}.",
            )
        )

    # What follows.

    def conclude(self, m: Matter, said: str, rest: str, digit: int | None = None) -> str:
        """The reason and the effects, in either order. Reasons of several sentences are not put into a clause."""
        natural = m.plan.natural
        eff = self.hint(m, rest, digit) if natural else self.effects(m)
        cmd = self.hinted_command(m, rest, digit) if natural else self.commands(m)
        tale = any(stop in said for stop in (". ", "? ", ": ")) or said.startswith(
            ("let ", "suppose ", "look ", "consider ", "ask ", "take ", "if ", "when ", "imagine ", "should ", "hidden ")
        )
        ways = [
            f"{said}. Accordingly {eff}.",
            f"{said}. {opened(cmd)}.",
            f"{said}. This being so, {eff}.",
            f"{said}. The consequence is that {eff}.",
            f"{said}. The reader may therefore {cmd}.",
            f"{said}. We conclude that {eff}.",
            f"{said}. Hence {eff}.",
        ]
        if not tale:
            ways += [
                f"{said}, with the result that {eff}.",
                f"as {said}, {eff}." if ";" not in said else f"{said}. Thus {eff}.",
                f"{said}; it follows that {eff}.",
                f"now {said}, which means that {eff}.",
                f"since {said}, we may {cmd}." if ";" not in said else f"{said}. Thus we may {cmd}.",
            ]
        if not natural:
            ways.append(f"{eff}. Here is the reason. {opened(said)}.")
            ways.append(f"we may {cmd}. The proof is short. {opened(said)}.")
            if not tale and len(m.effects) == 1:
                ways += [
                    f"{eff}, for {said}.",
                    f"that {eff} is due to this: {said}.",
                    f"{cmd}, seeing that {said}.",
                    f"{eff}; the reason is that {said}.",
                ]
            if m.put:
                ways.append(f"{said}. This leaves {self.cell(m, m.put.cell)} with {one_of(m.put.digit)} and nothing else.")
        return opened(m.rng.choice(ways))

    def hint(self, m: Matter, rest: str, digit: int | None) -> str:
        count = "two" if m.name.endswith("pair") else "three" if m.name.endswith("triple") else "four"
        if m.name.startswith("hidden"):
            return m.pick(
                f"those {count} cells can be nothing else",
                f"nothing else can remain in those {count} cells",
                f"all the other candidates of those {count} cells are void",
                f"those {count} cells give up whatever else they held",
            )
        digits = [digit] if digit else m.digits
        many, either = self.many(digits), self.each(digits)
        return m.pick(
            f"{rest} can no longer be {either}",
            f"{rest} give up their {many}",
            f"we lose the {many} from {rest}",
            f"{either} is excluded from {rest}",
            f"{rest} have no further use for {many}",
            f"there can be {none_of(digits)} in {rest}",
        )

    def hinted_command(self, m: Matter, rest: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                "delete every other candidate from those cells",
                "remove whatever else those cells may hold",
                f"reduce {'both cells' if m.count == 2 else f'all {NUMBERS[m.count]} cells'} to these digits",
            )
        many = self.many([digit] if digit else m.digits)
        return m.pick(
            f"delete the {many} from {rest}",
            f"remove {many} from {rest}",
            f"strike off the {many} in {rest}",
            f"exclude {many} from {rest}",
        )

    def effects(self, m: Matter) -> str:
        """All the effects as clauses."""
        said = [self.effect(m, effect) for effect in m.effects]
        if len(said) == 1:
            return said[0]
        return "; ".join(said[:-1]) + m.pick("; and ", "; likewise, ", "; finally, ", ", and lastly ") + said[-1]

    def commands(self, m: Matter) -> str:
        """All the effects as things to do."""
        said = [self.command(m, effect) for effect in m.effects]
        return said[0] if len(said) == 1 else "; ".join(said[:-1]) + m.pick("; and ", "; also ", ", and ") + said[-1]

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, one = self.cell(m, effect.cell), one_of(effect.digit)
            return m.pick(
                f"{cell} is {one}",
                f"{cell} can only be {one}",
                f"{one} belongs in {cell}",
                f"{cell} is solved as {one}",
                f"the {NUMBERS[effect.digit]} falls to {cell}",
                f"{cell} has to be {one}",
            )
        digits, lone = effect.digits, len(effect.digits) == 1
        many, either, the = self.many(digits), self.each(digits), self.those(digits)
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(
                f"the rest of {house} can have {none_of(digits)}",
                f"no other cell in {house} may be {either}",
                f"{many} are excluded from the other cells of {house}",
                f"everywhere else in {house} {the} {'is' if lone else 'are'} ruled out",
                f"the remaining cells of {house} give up their {many}",
            )
        cells, among, single = self.cells(m, effect.cells), self.cells(m, effect.cells, "or"), len(effect.cells) == 1
        return m.pick(
            f"{cells} cannot be {either}",
            f"{cells} {'gives up its ' + self.some_words(digits) if single else 'give up their ' + many}",
            f"{either} is impossible in {among}",
            f"{the} {'is' if lone else 'are'} ruled out of {cells}",
            f"there is {none_of(digits)} in {among}",
            f"{cells} {'is' if single else 'are'} denied {the}",
            f"we lose {the} from {cells}",
            f"{cells} {'is' if single else 'are'} relieved of {the if single else many}",
        )

    def some_words(self, digits: Sequence[int]) -> str:
        return listed([NUMBERS[digit] for digit in digits])

    def command(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            return f"{m.pick('write', 'enter', 'print', 'place')} {one_of(effect.digit)} in {self.cell(m, effect.cell)}"
        many, the = self.many(effect.digits), self.those(effect.digits)
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(
                f"delete {many} from the rest of {house}",
                f"exclude {many} from the other cells of {house}",
                f"rid the remaining cells of {house} of {many}",
            )
        cells = self.cells(m, effect.cells)
        return m.pick(
            f"delete {the} from {cells}",
            f"remove {the} from {cells}",
            f"exclude {many} from {cells}",
            f"strike off {the} in {cells}",
            f"rid {cells} of {the}",
        )

    # Talk.

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        cell, one = self.cell(m, m.put.cell), one_of(m.put.digit)
        return opened(
            m.pick(
                f"to sum up, {cell} is {one}.", f"{cell} is thus {one}, as announced.", f"we have now printed {one} in {cell}."
            )
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        first = (
            "Readers of last year's volume will remember the puzzle of the Lamp Room, which we printed without its answer. Here is the answer.",
            "The keepers of the Lamp Room ask every autumn for a full solution, and every autumn we find the room for one.",
            "Between the tables of the moon and the list of fairs, the printer has left us some pages. We give them to the puzzle.",
            "We are often asked how the puzzle on the calendar sheet is to be solved without guessing. It is solved as follows.",
        )
        yield Piece(rng.choice(first), opens=True)
        if rng.random() < 0.7:
            yield Piece(
                rng.choice(
                    (
                        "Rows are counted from the top, columns from the left, and boxes from the top left, row of boxes by row of boxes.",
                        "As always in these pages, the first row is the top one, the first column the leftmost, and the ninth box the one at the bottom right.",
                        "Let the reader take a pencil, and count rows downwards and columns from left to right.",
                    )
                )
            )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.13:
            remark = (
                "A word of comfort: this is the hardest part.",
                "Nothing so far has been guessed, and nothing will be.",
                "Some readers wrote to us about this place last year; we hope that this makes it plain.",
                "The next step is one for the long evenings.",
                "Let us take stock before we go on.",
                "So far we have done no more than count.",
                "The engraver's apprentice found this one, and would like it to be known.",
                "We now come to a step which rewards a second reading.",
                "It is worth sharpening the pencil here.",
                "What has been gained by this will be seen directly.",
                "The impatient may skip to the tide tables; we shall be here when they return.",
                "There is a longer way round, which we spare the reader.",
                "With this the greater part of the work is behind us, or so our proof-reader says.",
                "A small step, but it opens a large door.",
            )
            yield Piece(rng.choice(remark), opens=rng.random() < 0.4)

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.25

    def closing(self, rng: Random) -> Iterator[Piece]:
        last = (
            "The rest we leave to the reader, and wish all who keep a light a calm year.",
            "Here our space ends. Corrections, as ever, to the editor.",
            "So the puzzle is answered, and the next one will be found facing the almanac's last page.",
        )
        yield Piece(rng.choice(last), opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        def heads() -> Iterator[str]:
            while True:
                yield ""

        head = rng.choice(
            ("", "# The Lamp Room Almanac\n\n## The puzzle worked out", "# Puzzle pages: the solution, step by step")
        )
        return "narration", prose(pieces, rng.choice((None, 72, 88)), heads(), head)


def one_of(digit: int) -> str:
    """``a five``, ``an eight``."""
    return f"{'an' if digit == 8 else 'a'} {NUMBERS[digit]}"


def none_of(digits: Sequence[int]) -> str:
    """``no five or six``; never ``no one``, which would be nobody."""
    if 1 in digits:
        return f"no place for {listed([one_of(digit) for digit in digits], 'or')}"
    return f"no {listed([NUMBERS[digit] for digit in digits], 'or')}"


def is_or_not(holds: bool) -> str:
    return "is" if holds else "is not"
