"""For development: the visitors. Many guests write in the keepers' log, each with a way of naming cells and a temper of their own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS, an, listed, opened
from .layout import Laid, Piece, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

GUESTS = 12
"""Habits of naming a cell; ``Matter.manner`` tells which one a narration has, and which of five ways with boxes and lines."""

PLACES = ("top-left", "top-middle", "top-right", "middle-left", "middle", "middle-right", "bottom-left", "bottom-middle", "bottom-right")

SHORT = (0, 1, 9)
"""Guests who write a cell as one word."""


BACKWARD = (" these", " they ", " those", " them", " that ", " both ", " all ", "the former", "the latter", "two ends", "wings", "rest of", "elsewhere")
"""Words that speak of what has been named before."""


class Visitors(Narrator):
    """Whoever came up the stairs that day tells the puzzle in the visitors' log."""

    name = "visitors"
    leaves: ClassVar = {
        "single house": 0.05,
        "its": 0.2,
        "naked house": 0.4,
        "hidden house": 0.08,
        "cover": 0.12,
        "crossing": 0.1,
        "name": 0.5,
        "effects": 0.6,
        "back": 0.5,
        "corners": 0.25,
    }

    # Digits, houses and cells, as the guest of this narration names them.

    def guest(self, m: Matter) -> int:
        return m.manner % GUESTS

    def worded(self, m: Matter) -> bool:
        """Are numbers written as words?"""
        return self.guest(m) in (3, 5) or (m.manner // GUESTS == 4 and self.guest(m) in (6, 7, 10))

    def d(self, m: Matter, digit: int) -> str:
        return NUMBERS[digit] if self.worded(m) else str(digit)

    def a(self, m: Matter, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {self.d(m, digit)}"

    def pl(self, m: Matter, digit: int) -> str:
        return PLURALS[digit] if self.worded(m) else f"{digit}s"

    def ds(self, m: Matter, digits: Sequence[int], last: str = "and") -> str:
        return listed([self.d(m, digit) for digit in digits], last)

    def pls(self, m: Matter, digits: Sequence[int], last: str = "and") -> str:
        return listed([self.pl(m, digit) for digit in digits], last)

    def none(self, m: Matter, digits: Sequence[int]) -> str:
        """``no 2 or 7``; a guest who writes words takes care not to say that there is no one."""
        if self.worded(m) and 1 in digits:
            return f"no place for {self.ds(m, digits, 'or')}"
        return f"no {self.ds(m, digits, 'or')}"

    def any_of(self, m: Matter, digits: Sequence[int]) -> str:
        """``a 2 or a 7``, or ``2 or 7``."""
        return listed([self.a(m, digit) for digit in digits], "or") if m.often(0.5) else self.ds(m, digits, "or")

    def the_ds(self, m: Matter, digits: Sequence[int]) -> str:
        """``the 2 and the 7``, or ``the 2 and 7``."""
        return listed([f"the {self.d(m, digit)}" for digit in digits]) if m.often(0.5) else f"the {self.ds(m, digits)}"

    def kind(self, m: Matter, kind: str) -> str:
        return "block" if kind == "b" and m.manner // GUESTS == 4 else KINDS[kind]

    def line_style(self, m: Matter) -> str:
        guest, way = self.guest(m), m.manner // GUESTS
        if guest == 3:
            return "word"
        if guest == 5 or (guest in (6, 7, 10) and way % 2) or (guest in (2, 4, 8, 11) and way == 3):
            return "ordinal"
        return "word" if self.worded(m) else "number"

    def house(self, m: Matter, house: House) -> str:
        kind, number = self.kind(m, house.kind), house.number
        if house.kind == "b":
            way = m.manner // GUESTS
            if way == 1 or (way == 3 and m.often(0.5)):
                return f"the {'centre' if number == 5 and m.often(0.3) else PLACES[number - 1]} {kind}"
            if way == 2:
                return f"the {ORDINALS[number]} {kind}"
            return f"{kind} {self.d(m, number)}"
        style = self.line_style(m)
        if style == "ordinal":
            return f"the {ORDINALS[number]} {kind}"
        return f"{kind} {NUMBERS[number] if style == 'word' else number}"

    def line(self, m: Matter, kind: str, at: int) -> str:
        return self.house(m, House(kind, at + 1))

    def houses(self, m: Matter, houses: Sequence[House], last: str = "and") -> str:
        kind, style = self.kind(m, houses[0].kind), self.line_style(m)
        numbers = [house.number for house in houses]
        if m.often(0.15):
            return listed([self.house(m, house) for house in houses], last)
        if style == "ordinal":
            return f"the {listed([ORDINALS[number] for number in numbers], last)} {kind}{'s' if last == 'and' else ''}"
        words = [NUMBERS[number] if style == "word" else str(number) for number in numbers]
        return f"{kind}{'s' if last == 'and' else ''} {listed(words, last)}"

    def where(self, m: Matter) -> str:
        if m.plan.back:
            return m.pick(f"the same {self.kind(m, m.house.kind)}", f"that same {self.kind(m, m.house.kind)}")
        return self.house(m, m.house)

    def n(self, m: Matter, at: int) -> str:
        """A row's or column's number, as the cells of this guest have it."""
        return NUMBERS[at + 1] if self.worded(m) else str(at + 1)

    def cell(self, m: Matter, cell: int, style: int | None = None) -> str:
        row, column = divmod(cell, 9)
        style = self.pinned(m) if style is None else style
        if style in (0, 1, 9):
            return (f"r{row + 1}c{column + 1}", f"R{row + 1}C{column + 1}", f"c{column + 1}r{row + 1}")[min(style, 2)]
        if style == 2:
            return f"row {self.n(m, row)}, column {self.n(m, column)}"
        if style == 3:
            return f"row {NUMBERS[row + 1]} column {NUMBERS[column + 1]}"
        if style == 4:
            return f"column {self.n(m, column)}, row {self.n(m, row)}"
        if style == 5:
            return f"the {ORDINALS[row + 1]} row, {ORDINALS[column + 1]} column"
        if style == 6:
            return f"the {ORDINALS[column + 1]} cell of {self.line(m, 'r', row)}"
        if style == 7:
            return f"the cell of {self.line(m, 'r', row)} in {self.line(m, 'c', column)}"
        if style == 8:
            return f"the {_within_box(cell)} cell of {self.house(m, _box(cell))}"
        line = self.line(m, "r", row)
        return f"{line}'s {ORDINALS[column + 1]} cell" if not line.startswith("the") else f"the {ORDINALS[column + 1]} cell in {line}"

    def pinned(self, m: Matter) -> int:
        """The style of a telling; two guests are not of one mind from one mention to the next."""
        guest = self.guest(m)
        if guest == 11:
            return 0 if m.often(0.5) else 2
        return 2 if guest == 8 and m.often(0.25) else guest

    def cells(self, m: Matter, cells: Sequence[int], last: str = "and") -> str:
        cells = [*dict.fromkeys(cells)]
        if len(cells) == 1:
            return self.cell(m, cells[0])
        style, rows, columns = self.pinned(m), sorted({cell // 9 for cell in cells}), sorted({cell % 9 for cell in cells})
        if style in SHORT or (style == 8 and len({_box(cell) for cell in cells}) > 1):
            if style == 0 and len(rows) == 1 and last == "and" and m.often(0.12):
                return f"r{rows[0] + 1}c{''.join(str(column + 1) for column in columns)}"
            return listed([self.cell(m, cell, style) for cell in cells], last)
        if style == 8:
            places = listed([_within_box(cell) for cell in cells], last)
            box, noun = self.house(m, _box(cells[0])), "cells" if last == "and" else "cell"
            return f"{box}'s {places} {noun}" if not box.startswith("the") and m.often(0.4) else f"the {places} {noun} of {box}"
        if len(cells) == 2 and len(rows) == len(columns) == 2:
            return listed([self.cell(m, cell, style) for cell in cells], last)
        if style == 3 and min(len(rows), len(columns)) > 1 and m.often(0.7):
            return listed([self.cell(m, cell, style) for cell in cells], last)
        by_row = len(rows) <= len(columns) if style not in (4,) else len(rows) < len(columns)
        groups = []
        for line in rows if by_row else columns:
            others = sorted(cell % 9 if by_row else cell // 9 for cell in cells if (cell // 9 if by_row else cell % 9) == line)
            groups.append(self.group(m, style, by_row, line, others, last))
        return listed(groups, last) if len(groups) < 3 or style not in (4, 5) else "; ".join(groups[:-1]) + f"; {last} {groups[-1]}"

    def group(self, m: Matter, style: int, by_row: bool, line: int, others: Sequence[int], last: str) -> str:
        """Cells of one row or column in one go."""
        kind, cross = ("row", "column") if by_row else ("column", "row")
        s = "s" if len(others) > 1 and last == "and" else ""
        order = listed([ORDINALS[at + 1] for at in others], last)
        if style == 2:
            return f"{cross}{s} {listed([self.n(m, at) for at in others], last)} of {kind} {self.n(m, line)}"
        if style in (3, 4):
            comma = "," if style == 4 else ""
            return f"{kind} {self.n(m, line)}{comma} {cross}{s} {listed([self.n(m, at) for at in others], last)}"
        if style == 5:
            return f"the {ORDINALS[line + 1]} {kind}, {order} {cross}{s}"
        named = self.line(m, kind[0], line)
        if style == 7:
            houses = [House(cross[0], at + 1) for at in others]
            return f"the cell{s} of {named} in {self.houses(m, houses, last) if len(houses) > 1 else self.house(m, houses[0])}"
        if style == 10 and not named.startswith("the"):
            return f"{named}'s {order} cell{s}"
        return f"the {order} cell{s} of {named}"

    def here(self, m: Matter, cell: int) -> str:
        """A cell of the house that has just been named; most guests need not say it all again."""
        guest = self.guest(m)
        if guest in SHORT or cell not in m.board.geometry.cells_of[m.house] or m.often(0.3):
            return self.cell(m, cell)
        if m.house.kind == "b":
            return f"its {_within_box(cell)} cell" if guest == 8 else self.cell(m, cell)
        at, cross = (cell % 9, "c") if m.house.kind == "r" else (cell // 9, "r")
        return f"the {ORDINALS[at + 1]} cell" if guest in (6, 10) else self.line(m, cross, at)

    def inside(self, m: Matter, cells: Sequence[int]) -> bool:
        return all(cell in m.board.geometry.cells_of[m.house] for cell in cells)

    def heres(self, m: Matter, cells: Sequence[int], last: str = "and") -> str:
        """Cells of the house that has just been named, or is named next."""
        guest = self.guest(m)
        if len(cells) < 2 or not self.inside(m, cells) or guest in SHORT:
            return self.cells(m, cells, last)
        if m.house.kind == "b":
            order = listed([_within_box(cell) for cell in cells], last)
            return f"the {order} cell{'s' if last == 'and' else ''}" if guest == 8 else self.cells(m, cells, last)
        others = sorted(cell % 9 if m.house.kind == "r" else cell // 9 for cell in cells)
        if guest in (6, 10):
            return f"the {listed([ORDINALS[at + 1] for at in others], last)} cell{'s' if last == 'and' else ''}"
        return self.houses(m, [House("c" if m.house.kind == "r" else "r", at + 1) for at in others], last)

    def placed(self, m: Matter, last: str = "and") -> str:
        """The pattern's cells with the house they are in, if that is to be said; not twice where their names show it."""
        if not m.says("house"):
            return self.cells(m, m.cells, last)
        shown = m.house.kind != "b" and self.guest(m) not in (*SHORT, 8, 11) and self.inside(m, m.cells)
        if (shown and not m.plan.back) or (self.guest(m) == 8 and m.house.kind == "b" and self.inside(m, m.cells)):
            return self.cells(m, m.cells, last)
        return f"{self.heres(m, m.cells, last)} in {self.where(m)}"

    # Cells that are filled in.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        x, d, a = self.cell(m, put.cell), self.d(m, put.digit), self.a(m, put.digit)
        others = self.ds(m, [digit for digit in range(1, 10) if digit != put.digit], "or")
        return opened(
            m.pick(
                f"{x} can only be {a}.",
                f"put {a} in {x}, as nothing else is left there.",
                f"what about {x}? Run through the digits and they all fail bar one. This cell is {a}.",
                f"{x} cannot be {others}. So it is {a}.",
                f"take a look at {x}. Everything except the {d} is out already, so that cell has to be {a}.",
                f"{x} has run out of options, and {d} it is.",
                f"naked single: {x} is {a}.",
                f"only one candidate has survived in {x}. It is the {d}, so in it goes.",
                f"so what goes in {x}? {opened(a)}. Every other digit has been knocked out of that cell.",
                f"{x} has been whittled down to {a}, and we can ink it in.",
                f"with all its other candidates gone, {x} is {a}.",
                f"{a} is written into {x}, since no other digit fits there.",
                f"could {x} be anything other than {a}? No, that is the one candidate it still has.",
                f"{x}, {a}. Nothing else survives there.",
                f"the neighbours of {x} have left it no choice: it's {a}.",
                f"I count the candidates of {x} and get just one: {d}. That fills the cell.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        x, d, a, pl = self.cell(m, put.cell), self.d(m, put.digit), self.a(m, put.digit), self.pl(m, put.digit)
        if not m.says("house"):
            return opened(
                m.pick(
                    f"hidden single: {x} is {a}.",
                    f"{x} is a hidden single, {a}.",
                    f"did you spot the hidden single in {x}? It's {a}.",
                    f"{a} goes in {x}, which is a hidden single.",
                )
            )
        kind = self.kind(m, m.house.kind)
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{x} is the only cell in its {kind} where {a} can go.",
                    f"why is {x} {a}? Because no other cell in its {kind} can be.",
                    f"look at {x} and the rest of its {kind}. Nothing else there can take {a}, so this cell does.",
                    f"{a} goes in {x}, the last spot for it in that cell's {kind}.",
                    f"{x} has to be {a}: its {kind} has no other home for the {d}.",
                    f"in its {kind}, {x} is the one cell that still takes {a}. In it goes.",
                )
            )
        where, here = self.where(m), self.here(m, put.cell)
        options = [
            f"in {where}, the {d} can only go in {here}.",
            f"{where} still needs {a}. There's just one cell for it: {x}.",
            f"{x} is {a}, because there is nowhere else for it in {where}.",
            f"where does {where} put its {d}? In {here}; every other cell refuses it.",
            f"scan {where} for {pl} and you'll find a single spot, {here}. That one's settled.",
            f"{a} goes in {x}. No other cell of {where} can have that digit.",
            f"hidden single in {where}: {x} is {a}.",
            f"if {x} weren't {a}, {where} would have no {d} at all. So {a} it is.",
            f"the {d} of {where} is forced into {here}.",
            f"every cell of {where} but one says no to {a}. The one that doesn't is {x}, so that's where it goes.",
            f"I was hunting for the {d} in {where}. It turns out there's only one place for it, {x}.",
            f"{where} must have {a} somewhere, and all its cells but one have lost that candidate. The one is {x}, which is therefore {a}.",
            f"{x} may look as though it had choices, but it's the only cell in {where} that can be {a}, so it is.",
            f"{a} can be placed in {x}, being shut out of all the other cells in {where}.",
        ]
        rest = [cell for cell in m.board.gaps(m.house) if cell != put.cell]
        if 1 <= len(rest) <= 4:
            nots = ", ".join(f"not in {self.here(m, cell)}" for cell in rest)
            goes = self.here(m, put.cell)
            options += [
                f"where can the {d} go in {where}? {opened(nots)}, so it goes in {goes}.",
                f"where can the {d} go in {where}? {opened(nots)}, so {self.cell(m, put.cell)} is {a}.",
                f"now {where}, which still wants its {d}. {opened(self.heres(m, rest))} can't take it. So {x} does.",
            ]
        return opened(m.rng.choice(options))

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        x, d, a = self.cell(m, put.cell), self.d(m, put.digit), self.a(m, put.digit)
        kind = self.kind(m, m.house.kind)
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{x} is the last empty cell of its {kind}. It's {a}.",
                    f"everything else in its {kind} is filled, so {x} is {a}.",
                    f"fill {x} with {a}, the only digit its {kind} is missing.",
                    f"which digit completes the {kind} of {x}? It is the {d}, so that is what this cell is.",
                    f"{x} is {a}, because its {kind} has every other digit already.",
                    f"{a} goes in {x}, and with that its {kind} is full.",
                )
            )
        where, here = self.where(m), self.here(m, put.cell)
        return opened(
            m.pick(
                f"{where} has one gap left, {here}, and only the {d} is missing. In it goes.",
                f"eight down, one to go in {where}: {x} is {a}.",
                f"{x} is {a}. That completes {where}.",
                f"what is {where} still missing? Just the {d}, so {here} gets it.",
                f"{where} is all but done. Its last empty cell is {x}, which must be {a}.",
                f"since {where} has everything but {a}, that's what {x} is.",
                f"{a} fills the last hole in {where}, at {x}.",
                f"go through {where}: only the {d} hasn't turned up yet, and only {here} is open. So {x} is {a}.",
                f"{where} can be closed now. Put {a} in {x}.",
                f"{x} is all that remains to be filled in {where}, and it's filled with {a}.",
                f"there's no puzzle left in {where}: the empty cell is {x}, and the digit is {d}.",
                f"why {a} in {x}? The other eight cells of {where} are full, and that digit is the one they lack.",
            )
        )

    # Patterns that take candidates away.

    def locked(self, m: Matter) -> str:
        digit, where = m.digits[0], self.where(m)
        d, a, pl = self.d(m, digit), self.a(m, digit), self.pl(m, digit)
        assert m.crossing is not None
        kind, line = self.kind(m, m.crossing.kind), self.house(m, m.crossing)
        places = [*m.board.places(digit, m.house)]
        listable = m.says("crossing") and len(places) > 1 and set(places) <= set(m.board.geometry.cells_of[m.crossing])
        rest = m.pick(f"the other cells of {line}", f"the rest of {line}") if m.says("crossing") else f"the rest of that {kind}"
        if not m.says("crossing"):
            said = m.pick(
                f"every {d} in {where} sits in the same {kind}",
                f"the candidates for {d} in {where} all share one {kind}",
                f"whichever way {where} gets its {d}, it's in one and the same {kind}",
            )
            return self.conclude(m, said, rest)
        if m.says("name"):
            if m.name == "claiming" and m.often(0.3):
                return self.conclude(m, f"this is claiming: {where} takes its {d} from {line}", rest, whole=True)
            if m.name == "pointing":
                said = m.pick(
                    f"the {pl} of {where} point along {line}",
                    f"we have pointing {pl} in {where}, aimed along {line}",
                    f"there's a pointing set of {pl} in {where}, lined up on {line}",
                )
            else:
                said = m.pick(
                    f"{where} claims the {d} of {line}",
                    f"{where} takes its {d} from {line}, a case of claiming",
                    f"the {d} in {line} has been claimed by {where}",
                )
            return self.conclude(m, said, rest)
        if m.often(0.3):
            story = m.pick(
                f"where is the {d} of {where}? We can't say yet. But we do know it's in {line}",
                f"{where} needs {a} somewhere. Wherever that turns out to be, it is also a cell of {line}",
                f"look for {pl} in {where}. You'll find them only where it overlaps {line}",
                f"suppose some other cell of {line} were {a}. Then {where} would have nowhere left for its own",
                f"I can't tell you which cell of {where} is {a}. All I know is that it's one of those in {line}, and that's enough",
            )
            return self.conclude(m, story, rest, whole=True)
        options = [
            f"the {d} of {where} has to be somewhere in {line}",
            f"{where} can have its {d} only inside {line}",
            f"all the {pl} in {where} are confined to {line}",
            f"no cell of {where} outside {line} can be {a}",
            f"the only spots for {a} in {where} lie in {line}",
        ]
        if listable:
            these = self.heres(m, places)
            both = "both" if len(places) == 2 else "all"
            options = [
                f"in {where} the {d} is limited to {these}, {both} of which are in {line}",
                f"{these} are the only cells for {a} in {where}, and they {both} belong to {line}",
                f"one of {self.cells(m, places)} is the {d} of {where}, and they're {both} in {line}",
                *options[:3],
            ]
        return self.conclude(m, m.rng.choice(options), rest)

    def naked(self, m: Matter) -> str:
        place = f" in {self.where(m)}" if m.says("house") else ""
        cells, here = self.placed(m), self.heres(m, m.cells) if place else self.cells(m, m.cells)
        digits, ors = self.ds(m, m.digits), self.ds(m, m.digits, "or")
        size, count = m.name.split()[1], NUMBERS[len(m.cells)]
        both = "both of them" if len(m.cells) == 2 else f"all {count} of them"
        kinds = " and ".join(f"that {self.kind(m, kind)}" for kind in m.plan.kinds)
        shared = " and the ".join(self.kind(m, kind) for kind in m.plan.kinds)
        rest = m.pick(
            f"the rest of {kinds}", f"the cells that see {both}", f"the other cells of {kinds}", f"the rest of the {shared} they share"
        )
        start = opened(place.strip() + ", " if place else "")
        apart = all(set(m.board.digits[cell]) <= set(m.digits) and cell not in m.board.filled for cell in m.cells)
        has = [self.ds(m, m.board.digits[cell]) for cell in m.cells]
        each = joined([f"{self.cell(m, cell)} has {'only ' if ' ' not in its else ''}{its}" for cell, its in zip(m.cells, has, strict=True)])
        if m.says("name"):
            pattern = m.pick(
                f"{cells} make a naked {size} of {digits}",
                f"there's a naked {size} on {digits}{place}, made by {here}",
                f"{cells} form a naked {size}, the digits being {digits}",
                f"we've got a naked {size} of {self.pls(m, m.digits)}{place}, in {here}",
                f"{digits} are a naked {size} in {cells}",
                f"{cells} hold nothing but {digits}, which is what we call a naked {size}",
            )
            if apart and m.often(0.3):
                return self.conclude(m, f"{each}. Together that's a naked {size} of {digits}{place}", rest, whole=True)
            if m.often(0.2):
                pattern = f"{pattern}. {opened(both)} must come out of the same digits, so those are spoken for"
                return self.conclude(m, pattern, rest, whole=True)
            return self.conclude(m, pattern, rest)
        if len(m.cells) == 2 and len(m.digits) == 2 and m.often(0.45):
            x, y = (self.cell(m, cell) for cell in m.cells)
            p, q = (self.a(m, digit) for digit in m.digits)
            story = m.pick(
                f"{cells} can only be {ors}. If the first is {p}, the second is {q}, and the other way round. They use up both digits",
                f"{start}either {x} is {p} or it is {q}. In the first case {y} is {q}, in the second it's {p}",
                f"which of {cells} is {p}, and which is {q}? I can't tell you yet, but there is nothing else for these two to be",
                f"{x} can only be {ors}. The same goes for {y}. So {place.strip() + ' ' if place else ''}these two share both digits out between them",
            )
            return self.conclude(m, story, rest, whole=True)
        if apart and m.often(0.3):
            story = f"{each}. That's {count} cells{place} for {NUMBERS[len(m.digits)]} digits, {digits}"
            return self.conclude(m, story, rest, whole=True)
        said = m.pick(
            f"{cells} can only be {ors}",
            f"{cells} have nothing in them but {self.pls(m, m.digits)}",
            f"{cells} use up {digits} between them",
            f"{digits} are all that {cells} can take",
            f"no candidates other than {digits} are left in {cells}",
            f"{cells} are going to be {digits} in some order",
            f"{cells} must share out {digits}",
            f"{place.strip() + ', ' if place else ''}{here} are limited to {digits}",
        )
        return self.conclude(m, said, rest)

    def hidden(self, m: Matter) -> str:
        place = f" in {self.where(m)}" if m.says("house") else ""
        cells, here = self.placed(m), self.heres(m, m.cells) if place else self.cells(m, m.cells)
        among = self.heres(m, m.cells, "or") if place else self.cells(m, m.cells, "or")
        digits, pls = self.ds(m, m.digits), self.pls(m, m.digits)
        size, count = m.name.split()[1], NUMBERS[len(m.digits)]
        start = opened(place.strip() + ", " if place else "")
        if m.says("name"):
            said = m.pick(
                f"{digits} form a hidden {size}{place}, in {here}",
                f"there's a hidden {size} of {digits}{place}, tucked away in {here}",
                f"{cells} contain a hidden {size} of {pls}",
                f"a hidden {size} on {digits} sits in {cells}",
                f"the {pls}{place} turn up only in {here}, so they're a hidden {size}",
                f"it's a hidden {size}{place}, made of {digits} and found in {here}",
                f"{cells} look busy, but they conceal a hidden {size}, namely {digits}",
            )
            if m.often(0.2):
                said = f"{said}. These digits fill those cells completely, whatever the order"
                return self.conclude(m, said, "", whole=True)
            return self.conclude(m, said, "")
        if m.often(0.35):
            story = m.pick(
                f"where can {digits} go{place}? Only in {here}",
                f"{start}{digits} have to go somewhere. Try them all over, and you'll end up in {among} every time",
                f"ask yourself where {digits} could be{place}. There's only {here}",
                f"take {digits}. The only cells{place} open to them are {here}. That's {count} digits for {NUMBERS[len(m.cells)]} cells",
            )
            return self.conclude(m, story, "", whole=True)
        said = m.pick(
            f"{digits} fit only in {here}{place}" if not m.plan.back else f"{digits} fit only in {here} of {self.where(m)}",
            f"only {cells} can take {digits}" if not place else f"{place.strip()} only {here} can take {digits}",
            f"{here} are the only cells{place} left for {digits}",
            f"{digits} have nowhere to go{place} except {here}",
            f"{place.strip() + ', ' if place else ''}{here} have to be {digits} in some order, because no other cells will have them",
            f"{place.strip() + ', ' if place else ''}there are no {self.pls(m, m.digits, 'or')} outside {here}",
            f"{place.strip() + ', ' if place else ''}{pls} are found only in {here}",
        )
        return self.conclude(m, said, "")

    def fish(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m, m.houses), self.houses(m, m.cover)
        d, a, pl = self.d(m, digit), self.a(m, digit), self.pl(m, digit)
        lines, cross = KINDS[m.houses[0].kind], KINDS[m.cover[0].kind]
        shown, count = _shown(m.name), NUMBERS[len(m.houses)]
        what = an(shown)
        named = m.says("cover") and not m.plan.corners and m.often(0.5)
        rest = f"the rest of {cover}" if named else m.pick(f"the rest of those {cross}s", f"the other cells of those {cross}s")
        inside = {cell for house in m.cover for cell in m.board.geometry.cells_of[house]}
        found = [m.board.places(digit, house) for house in m.houses]
        if m.plan.corners:
            corners = self.cells(m, [cell for cell in range(81) if _crossed(cell, m)])
            return self.conclude(
                m,
                m.pick(
                    f"there's an X-wing of {pl} by {lines}s with its corners at {corners}",
                    f"{corners} are the corners of an X-wing on {d}, going by {lines}s",
                    f"by {lines}s, the {pl} make an X-wing, with the four corners {corners}",
                ),
                rest,
            )
        if not m.says("cover"):
            return self.conclude(
                m, m.pick(f"the {pl} in {base} make {what}", f"there's {what} on {d} in {base}", f"{base} have {what} of {pl}"), rest
            )
        whole = m.often(0.35)
        if whole and all(set(places) <= inside and len(places) > 1 for places in found) and m.often(0.5):
            each = [
                f"{'in ' if at == 0 else ''}{self.house(m, house)} {'the only places for ' + a + ' are' if at == 0 else 'has them only in'} "
                f"{self.houses(m, [House(m.cover[0].kind, (cell % 9 if lines == 'row' else cell // 9) + 1) for cell in places])}"
                for at, (house, places) in enumerate(zip(m.houses, found, strict=True))
            ]
            said = f"{joined(each)}. " + (
                f"That makes {what} with {cover}" if m.says("name") else f"So the {count} {pl} take up {cover}"
            )
        elif whole:
            said = m.pick(
                f"each of {base} needs {a}. Where can it be? Only in {cover}",
                f"take {base} together. The {pl} in them are only to be found in {cover}. So {count} {lines}s share {count} {cross}s",
                f"look at the {pl} in {base}. They all fall in {cover}",
                f"each of {base} has its {d} in one of {cover}. No two of them can share {'a ' + cross}, so each of "
                f"{cover} gets its {d} there",
                f"if you had {a} somewhere else in {cover}, {base} would run out of room for theirs. For these {lines}s can only put "
                f"{a} in those same {cross}s",
            )
            said += m.pick(f", so it's {what}", f". That's {what}", f". This is {what}, in other words") if m.says("name") else ""
        elif m.says("name"):
            said = m.pick(
                f"there's {what} on {d} in {base}, with {cover} as the cover",
                f"the {pl} in {base} are all in {cover}, which is {what}",
                f"{base} and {cover} make {what} of {pl}, going by {lines}s",
                f"{what} of {pl} runs from {base} into {cover}",
                f"{base} have room for {a} only in {cover}, and that gives us {what}",
                f"we can build {what} on the {d}, base {base}, cover {cover}",
            )
        else:
            said = m.pick(
                f"in {base} the {d} can only go in {cover}",
                f"{base} can't have {a} anywhere but in {cover}",
                f"the {pl} of {base} are restricted to {cover}",
                f"the {count} {pl} in {base} have to occupy {cover}, one each",
                f"nothing in {base} outside {cover} can be {a}",
            )
        return self.conclude(m, said, rest, whole=whole)

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m, m.houses), self.houses(m, m.cover)
        d, a, pl = self.d(m, digit), self.a(m, digit), self.pl(m, digit)
        full = _shown(m.name)
        bare = full.removeprefix("finned ")
        fins, any_fin = self.cells(m, m.fins), self.cells(m, m.fins, "or")
        many = len(m.fins) > 1
        fin, are = ("fins", "are") if many else ("fin", "is")
        cross = KINDS[m.cover[0].kind]
        lines = m.pick(cover, f"those {cross}s")
        sees = ("all of the fins", "every fin") if many else ("the fin",)
        rest = f"the other cells of {lines} that see {m.rng.choice(sees)}"
        if m.often(0.45):
            story = m.pick(
                f"the {pl} in {base} nearly make {an(bare)} in {cover}. What's in the way? The {fin}: {fins}. So this {bare} is finned, "
                f"and it can only bite where the {fin} can see",
                f"either {any_fin} is {a}, or {'none of them' if len(m.fins) > 2 else 'neither of them' if many else 'it'} is{'' if many else ' not'}. In the second case {base} have a plain {bare} of {pl} in {cover}. "
                f"So we have a {full}, with {'these cells' if many else 'this cell'} as {fin}",
                f"here's a {full} on {d}. Its base is {base}, its cover is {cover}, and the {fin} {are} {fins}",
                f"look at the {pl} in {base}. Apart from {fins}, they all lie in {cover}. That's a {full}, and the {'cells' if many else 'cell'} left over "
                f"{are} the {fin}",
                f"suppose there is no {d} in the {fin}, {fins}. Then the {pl} of {base} form {an(bare)} with {cover}. That's the idea of a {full}",
            )
            return self.conclude(m, story, rest, whole=True)
        said = m.pick(
            f"there's a {full} of {pl} in {base} and {cover}, with {'fins' if many else 'a fin'} at {fins}",
            f"{base} make a {full} on {d}, with {cover} as the cover and {fins} as the {fin}",
            f"the {pl} in {base} would be {an(bare)} in {cover} but for the {fin} at {fins}",
            f"{fins} {are} the {fin} of a {full} on {d}, which has {base} as base and {cover} as cover",
            f"{base} have all their {pl} in {cover} except for the {fin} at {fins}, which makes it a {full}",
            f"a {full} on the {d}, from {base} to {cover}, is finned at {fins}",
        )
        return self.conclude(m, said, rest)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        pivot, wings = self.cell(m, m.pivot), self.cells(m, m.cells)
        x, y = (self.cell(m, cell) for cell in m.cells)
        p, q, z = m.plan.shared
        ap, aq, az = (self.a(m, digit) for digit in (p, q, z))
        if m.says("name"):
            rest = m.pick("every cell that sees both wings", "all cells seen by both wings")
            whole = m.often(0.4)
            if whole:
                said = m.pick(
                    f"here's an XY-wing. The pivot is {pivot}, and its wings are {wings}",
                    f"start from {pivot}, which is the pivot of an XY-wing. The wings are {wings}. One of them has to be {az}",
                    f"do you see the XY-wing? Its pivot is {pivot}, and {wings} are the wings",
                )
            else:
                said = m.pick(
                    f"{pivot} is the pivot of an XY-wing with {wings} as its wings",
                    f"{pivot} (the pivot) and {wings} (the wings) make an XY-wing",
                    f"there's an XY-wing that hinges on its pivot, {pivot}, and has {wings} for wings",
                    f"{wings} are the wings of an XY-wing whose pivot is {pivot}",
                )
            return self.conclude(m, said, rest, z, whole=whole)
        rest = m.pick("every cell that sees both of them", "any cell that sees both of those", "all cells seen by both")
        story = m.pick(
            f"either {pivot} is {ap} or it is {aq}. In the first case {x} is {az}; in the second {y} is. So one of these two is {az}",
            f"what can {pivot} be? {opened(ap)}, and then {x} is {az}. Or {aq}, and then {y} is {az}",
            f"{pivot} is {ap} or {aq}. If it's {ap}, then {x} must be {az}. If it's {aq}, then {y} must be {az}. One way or the other there's {az} in one of these two cells",
            f"suppose {x} is not {az}. Then it is {ap}, so {pivot} is {aq}, and that makes {y} {az}. So {x} or {y} is {az}",
            f"{pivot} has just {self.ds(m, sorted((p, q)))} in it. {opened(ap)} would turn {x} into {az}, and {aq} would turn {y} into {az}",
            f"at least one of {wings} is {az}. For {pivot} is either {ap}, which forces {az} into {x}, or {aq}, which forces {az} into {y}",
        )
        return self.conclude(m, story, rest, z, whole=True)

    def xy_chain(self, m: Matter) -> str:
        end = m.digits[0]
        d, a = self.d(m, end), self.a(m, end)
        cells = [self.cell(m, cell) for cell in m.cells]
        first, last = self.cell(m, m.cells[0]), self.cell(m, m.cells[-1])
        pairs = [*zip(m.digits, m.digits[1:], strict=False)]
        if not m.says("name"):
            becomes = [self.a(m, digit) for digit in m.digits[1:]]
            rest = m.pick("every cell that sees both of them", "any cell that sees both of these")
            turns = [f"{cell} is {digit}" for cell, digit in zip(cells[1:], becomes[1:], strict=True)]
            way = m.rng.randrange(4)
            if way == 0:
                story = f"suppose {first} isn't {a}. Then it's {becomes[0]}, so {', so '.join(turns)}. So either {first} or {last} is {a}"
            elif way == 1:
                story = f"{first} is either {a} or {becomes[0]}. If it's {becomes[0]}, then {', then '.join(turns)}. Either way one of {first} and {last} is {a}"
            elif way == 2:
                story = f"what if {first} is not {a}? It is {becomes[0]} then. {'. '.join(opened(f'so {turn}') for turn in turns)}. In other words, {first} or {last} is {a}"
            else:
                story = f"if {first} isn't {a} but {becomes[0]}, {'; then '.join(turns)}. So {a} turns up at one end or the other, in {first} or {last}"
            return self.conclude(m, story, rest, end, whole=True)
        rest = m.pick("every cell that sees both ends", "all cells seen by both ends", "whatever sees the two ends")
        told = [f"{cell} ({self.ds(m, pair) if self.worded(m) else '/'.join(map(str, pair))})" for cell, pair in zip(cells, pairs, strict=True)]
        walked = "; ".join(f"{cell} has {self.ds(m, pair)}" for cell, pair in zip(cells, pairs, strict=True))
        said = m.pick(
            f"there's an XY-chain on {d} from {first} to {last}: {', '.join(told)}",
            f"{listed(told)} make an XY-chain with {a} at both ends",
            f"an XY-chain runs through {listed(told)}, and it starts and ends on {d}",
            f"going from {' to '.join(told)} we get an XY-chain on the {d}",
        )
        if m.often(0.35):
            story = m.pick(
                f"follow this XY-chain on {d}: {walked}. One of its two ends has to be {a}",
                f"here's an XY-chain. It goes {', '.join(told)}. If the first of these isn't {a}, the last one is",
                f"{walked}. Linked up like that, they're an XY-chain, with {a} at one end or the other",
            )
            return self.conclude(m, story, rest, end, whole=True)
        return self.conclude(m, said, rest, end, whole=": " in said)

    def x_chain(self, m: Matter) -> str:
        digit = m.digits[0]
        d, a, pl = self.d(m, digit), self.a(m, digit), self.pl(m, digit)
        cells = [self.cell(m, cell) for cell in m.cells]
        first, last = self.cell(m, m.cells[0]), self.cell(m, m.cells[-1])
        if m.says("name"):
            rest = m.pick("every cell that sees both ends", "all cells seen by both ends", "whatever sees the two ends")
            said = m.pick(
                f"there's an X-chain on {d} through {listed(cells)}",
                f"{listed(cells)} make an X-chain of {pl}",
                f"the {pl} in {listed(cells)} are linked up as an X-chain",
                f"an X-chain of {pl} leads from {cells[0]} to {', then to '.join(cells[1:])}",
            )
            if m.often(0.35):
                story = m.pick(
                    f"follow the {pl} from {cells[0]} to {', then to '.join(cells[1:])}. That's an X-chain, and one end of it must be {a}",
                    f"here's an X-chain on {d}. It goes from {' to '.join(cells)}. If the first of these isn't {a}, the last one is",
                    f"can you see the X-chain of {pl}? It runs through {listed(cells)}",
                )
                return self.conclude(m, story, rest, whole=True)
            return self.conclude(m, said, rest)
        rest = m.pick("every cell that sees both of them", "any cell that sees both of these")
        links = [*zip(cells[::2], cells[1::2], m.plan.ways, strict=True)]
        way = m.rng.randrange(4)
        if way == 0:
            turns = [f"{cell} is{'' if at % 2 else ' not'} {a}" for at, cell in enumerate(cells)]
            story = f"suppose {turns[0]}. Then {', so '.join(turns[1:])}. So {first} or {last} is {a}"
        elif way == 1:
            only = [f"{x} and {y} are the only places for {a} in their {self.kind(m, kind)}" for x, y, kind in links]
            hinge = [f"{x} and {y} can't both be {a}" for x, y in zip(cells[1::2], cells[2::2], strict=False)]
            story = f"{joined(only)}. {opened(joined(hinge))}. So at least one of {first} and {last} is {a}"
        elif way == 2:
            turns = [f"{cell} is{'' if at % 2 else ' not'} {a}" for at, cell in enumerate(cells)]
            steps = ". ".join(opened(f"then {turn}") for turn in turns[1:])
            story = f"either {first} is {a} or it isn't. Say it isn't. {steps}. So one of the two ends, {first} or {last}, is {a}"
        else:
            turns = [f"{cell} {'is' if at % 2 else 'cannot be'} {a}" for at, cell in enumerate(cells)][1:]
            story = f"if {first} isn't {a}, {', which means '.join(turns)}. Either way {first} or {last} is {a}"
        return self.conclude(m, story, rest, whole=True)

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        start, final = self.cell(m, first), self.cell(m, last)
        begins = f"{start} {'is' if supposed else 'is not'} {self.a(m, digit)}"
        turns = []
        for (before, *_), (cell, so, other) in zip(m.links, m.links[1:], strict=False):
            verb = m.pick("is", "must be", "has to be") if so else m.pick("is not", "can't be", "cannot be")
            subject = m.pick("it", "it", "this cell") if cell == before else self.cell(m, cell)
            turns.append(f"{subject} {verb} {self.a(m, other)}")
        way = m.rng.randrange(6)
        if way == 0:
            text = f"suppose {begins}. Then {', so '.join(turns)}"
        elif way == 1:
            text = f"what happens if {begins}? Well, {turns[0]}. {'. '.join(opened(f'so {turn}') for turn in turns[1:])}"
        elif way == 2:
            text = f"if {begins}, then {'; then '.join(turns)}"
        elif way == 3:
            text = f"let's assume {begins}. {'. '.join(opened(m.pick('then ', 'that means ', 'so ') + turn) for turn in turns)}"
        elif way == 4:
            text = f"let's try it out: say {begins}. It follows that {', which means that '.join(turns)}"
        else:
            text = f"imagine that {begins}. In that case {', and so '.join(turns)}"
        if (first, digit) == (last, end) and holds != supposed:
            text += m.pick(", which contradicts our assumption", ", and that's a contradiction", ". But that's the opposite of what we started from", ". That can't be")
            if m.plan.natural:
                fact = f"{self.cell(m, first)} {'is not' if supposed else 'is'} {self.a(m, digit)}"
                return opened(text) + m.pick(f". So {fact} after all.", f". Therefore {fact}.", f". So {fact}.", f". We conclude that {fact}.")
        elif digit == end and holds and not supposed and first != last:
            ends = f"{self.cell(m, first)} or {self.cell(m, last)} is {self.a(m, digit)}"
            text += m.pick(f". So {ends}", f". Either way {ends}", f". In other words, {ends}")
        else:
            one = f"{start} is {'not ' if supposed else ''}{self.a(m, digit)}"
            text += m.pick(
                f". So either {one} or {final} is {'' if holds else 'not '}{self.a(m, end)}",
                f". Either {one}, then, or {final} is {'' if holds else 'not '}{self.a(m, end)}",
            )
        return self.conclude(m, text, m.pick("every cell that sees both of them", "any cell that sees both of these"), digit, whole=True)

    def facts(self, m: Matter) -> str:
        cites, shows = [], []
        for what in m.cited:
            if isinstance(what, int):
                cites.append(f"the candidates of {self.cell(m, what)}")
                shows.append(f"{self.cell(m, what)} can only be {self.ds(m, m.board.digits[what], 'or')}")
            else:
                digit, house = what
                cites.append(f"the places for {self.a(m, digit)} in {self.house(m, house)}")
                among = self.cells(m, m.board.places(digit, house), "or")
                shows.append(f"the {self.d(m, digit)} of {self.house(m, house)} is in {among}")
        words, eff = listed(cites, comma=True), self.effects(m)
        spots = [what for what in m.cited if isinstance(what, int)]
        places = [what for what in m.cited if not isinstance(what, int)]
        if len(spots) > 1 and not places and m.often(0.7):
            words = f"the candidates of {self.cells(m, spots)}"
        if len(places) > 1 and not spots and len({house for _, house in places}) == 1:
            words = f"the places for {self.ds(m, [digit for digit, _ in places])} in {self.house(m, places[0][1])}"
        open_to = all(isinstance(what, int) for what in m.cited) or not any(isinstance(effect, Clear) for effect in m.effects)
        if open_to and m.often(0.35):
            said = joined(shows)
            return opened(
                m.pick(f"{said}. So {eff}.", f"here's what we know: {said}. It follows that {eff}.", f"{said}, and from that alone {eff}.")
            )
        it = "them" if len(cites) > 1 or len(m.cited) == 1 else "it"
        return opened(
            m.pick(
                f"look at {words}. From {it} it follows that {eff}.",
                f"{eff}. How come? Just look at {words}.",
                f"{words} tell us that {eff}.",
                f"given {words}, {eff}.",
                f"check {words}, and you'll see that {eff}.",
                f"why is it that {eff}? Because of {words}.",
                f"all we need is {words}. {opened(self.commands(m))}.",
            )
        )

    def bare(self, m: Matter) -> str:
        eff, cmd = self.effects(m), self.commands(m)
        return opened(
            m.pick(
                f"{eff}.",
                f"{cmd}.",
                f"take my word for it: {eff}.",
                f"next, {cmd}.",
                f"I won't go into why, but {eff}.",
                f"I also found that {eff}.",
                f"you can work out for yourself that {eff}.",
            )
        )

    # What follows from a pattern.

    def conclude(self, m: Matter, said: str, rest: str, digit: int | None = None, whole: bool = False) -> str:
        """The argument and its effects, in some order. ``whole``: the argument takes several sentences."""
        natural = m.plan.natural
        eff = self.hint(m, rest, digit) if natural else self.effects(m, m.often(0.3))
        cmd = self.hinted_command(m, rest, digit) if natural else self.commands(m)
        several = not natural and len(m.effects) > 1
        # What is said of "that row" or "both of them" needs the argument before it.
        first = not any(word in f" {eff} {cmd}" for word in BACKWARD)
        ways = [
            f"{said}. So {eff}.",
            f"{said}. That means {eff}." if not eff.startswith("that ") else f"{said}. {opened(eff)}.",
            f"{said}. {opened(cmd)}.",
            f"{said}. So we can {cmd}.",
            f"{said}. What does that give us? {opened(eff)}.",
            f"{said}. As a result, {eff}.",
        ]
        if several and not whole:
            one, *more = [self.effect(m, effect) for effect in m.effects]
            if not any(word in f" {one}" for word in BACKWARD):
                ways += [f"{one}, because {said}. For the same reason {joined(more)}.", f"{one}. The reason is that {said}. It also means that {joined(more)}."]
            ways += [f"{said}, so {one}. We can also {'; and '.join(self.command(m, effect) for effect in m.effects[1:])}."]
        if several:
            ways += [f"{said}. That does quite a lot: {eff}.", f"{said}. Several things follow. {opened(eff)}."]
        if not whole:
            ways += [f"{said}, so {eff}.", f"{said}, which means that {eff}.", f"because {said}, {eff}.", f"{said}; {cmd}."]
            if not said.startswith(("there", "this", "it's", "we", "no ", "nothing")):
                ways.append(f"see how {said}? So {eff}.")
            if first and not several:
                ways += [f"{eff}, because {said}.", f"how do we know that {eff}? Because {said}.", f"{cmd}, since {said}."]
            if first:
                ways += [f"{eff}. Why? Because {said}.", f"{eff}. The reason: {said}."]
        elif first:
            ways += [f"{eff}. Why? {opened(said)}.", f"I say that {eff}. {opened(said)}.", f"we can {cmd}. Here is the argument. {opened(said)}."]
            if not several:
                ways.append(f"{eff}, and here's why. {opened(said)}.")
        if m.put and not natural:
            x, a = self.cell(m, m.put.cell), self.a(m, m.put.digit)
            ways += [f"{said}. That leaves only {a} for {x}.", f"{said}. What's left for {x}? Only {a}."]
        stays = [] if natural else self.stays(m)
        if stays and m.often(0.5):
            left = joined(stays)
            ways = [f"{said}. {opened(left)}.", f"{said}. So {left}.", f"{said}. After that, {left}."]
            if not whole:
                ways += [f"{said}, and so {left}.", f"since {said}, {left}."]
        return opened(m.rng.choice(ways))

    def stays(self, m: Matter) -> list[str]:
        """The effects by what the cells have left; none where that would not be the very same thing."""
        gone = self.struck(m)
        if not gone or len(gone) > 3:
            return []
        said = []
        for cell, digits in gone.items():
            left = [digit for digit in m.board.digits[cell] if digit not in digits]
            if not set(digits) <= set(m.board.digits[cell]) or not 1 < len(left) < 5 or cell in m.board.filled:
                return []
            x, rest = self.cell(m, cell), self.ds(m, left)
            said.append(m.pick(f"{x} is left with just {rest}", f"only {rest} remain in {x}", f"{x} is down to {rest}", f"{x} keeps nothing but {rest}"))
        return said

    def struck(self, m: Matter) -> dict[int, list[int]]:
        """Every cell's digits that go, if nothing but single candidates goes."""
        gone: dict[int, list[int]] = {}
        for effect in m.effects:
            if not isinstance(effect, Strike):
                return {}
            for cell in effect.cells:
                gone[cell] = sorted({*gone.get(cell, []), *effect.digits})
        return gone

    def hint(self, m: Matter, rest: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            count = NUMBERS[len(m.cells)]
            return m.pick(
                f"nothing else can be in {'either' if len(m.cells) == 2 else 'any'} of those cells",
                f"those {count} cells can't be anything else",
                f"all the other candidates in {'both' if len(m.cells) == 2 else f'those {count}'} cells are gone",
                f"every other digit is ruled out of those {count} cells",
                f"that leaves nothing but {self.ds(m, m.digits)} in those cells",
                f"those {count} cells are left with nothing but {self.ds(m, m.digits)}",
                f"{'both' if len(m.cells) == 2 else f'all {count}'} cells lose everything else",
            )
        digits = [digit] if digit else m.digits
        pls, either = self.pls(m, digits), self.any_of(m, digits)
        options = [
            f"{self.ds(m, digits)} can be ruled out in {rest}",
            f"there can't be {either} in {rest}",
            f"{pls} are out in {rest}",
            f"{rest} can't have {either}",
            f"the {pls} go from {rest}",
        ]
        if rest.startswith(("the rest of ", "the other cells of ")) and " that see " not in rest:
            house = rest.removeprefix("the rest of ").removeprefix("the other cells of ")
            options += [f"no other cell of {house} can be {either}", f"{pls} are impossible elsewhere in {house}"]
        return m.rng.choice(options)

    def hinted_command(self, m: Matter, rest: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            count = NUMBERS[len(m.cells)]
            return m.pick(
                f"clear everything else out of those {count} cells",
                "cross out all the other candidates in those cells",
                f"remove whatever else is pencilled into those {count} cells",
            )
        pls = self.pls(m, [digit] if digit else m.digits)
        return m.pick(f"cross out the {pls} in {rest}", f"take the {pls} out of {rest}", f"rub out any {pls} in {rest}", f"eliminate {pls} from {rest}")

    def effects(self, m: Matter, pronouns: bool = False) -> str:
        """All the effects as clauses: as they come, cell by cell, or digit by digit."""
        gone = self.struck(m)
        pronouns = pronouns and set(gone) <= {*m.cells}
        said = [self.effect(m, effect, pronouns) for effect in self.regrouped(m)]
        way = m.rng.randrange(4)
        if len(said) == 1:
            return said[0]
        if way == 0 and len(said) < 4:
            return f"{said[0]}. {' '.join(opened(m.pick('also, ', 'and ', 'likewise, ') + clause) + '.' for clause in said[1:])}".removesuffix(".")
        return joined(said) if way == 1 and len(said) < 4 else "; ".join(said[:-1]) + m.pick("; and ", "; also, ", "; and finally ") + said[-1]

    def regrouped(self, m: Matter) -> list[Put | Strike | Clear]:
        gone = self.struck(m)
        if len(gone) < 2 or m.often(0.5):
            return m.effects
        if m.often(0.5) and len(gone) < 5:
            return [Strike((cell,), tuple(digits)) for cell, digits in gone.items()]
        digits = sorted({digit for each in gone.values() for digit in each})
        return [Strike(tuple(cell for cell in gone if digit in gone[cell]), (digit,)) for digit in digits]

    def commands(self, m: Matter) -> str:
        said = [self.command(m, effect) for effect in self.regrouped(m)]
        return said[0] if len(said) == 1 else "; ".join(said[:-1]) + m.pick("; and ", "; then ") + said[-1]

    def subject(self, m: Matter, cell: int, pronouns: bool) -> str:
        """The cell, or a word that stands for one of the pattern's two."""
        pair = (m.name == "hidden pair" or (m.name == "naked pair" and m.put is not None)) and m.cells == sorted(m.cells)
        if pronouns and pair and len(m.cells) == 2 and cell in m.cells and m.often(0.6):
            return m.pick("the first of these", "the former") if cell == m.cells[0] else m.pick("the second of these", "the latter")
        return self.cell(m, cell)

    def effect(self, m: Matter, effect: Put | Strike | Clear, pronouns: bool = False) -> str:
        if isinstance(effect, Put):
            x, a = self.subject(m, effect.cell, pronouns), self.a(m, effect.digit)
            return m.pick(f"{x} is {a}", f"{x} must be {a}", f"{x} has to be {a}", f"{a} goes in {x}", f"{x} can only be {a}")
        digits = effect.digits
        several = len(digits) > 1
        pls, either, the = self.pls(m, digits), self.any_of(m, digits), self.the_ds(m, digits)
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(
                f"no other cell of {house} can be {either}",
                f"{house} can't have {either} anywhere else",
                f"{pls} are out for the rest of {house}",
                f"the rest of {house} loses its {pls}",
                f"{self.ds(m, digits)} {'are' if several else 'is'} ruled out everywhere else in {house}",
                f"there is {self.none(m, digits)} in the other cells of {house}",
            )
        if len(effect.cells) == 1:
            x = self.subject(m, effect.cells[0], pronouns)
            return m.pick(
                f"{x} can't be {either}",
                f"{x} is not {either}",
                f"{x} loses {the}",
                f"{the} {'go' if several else 'goes'} from {x}",
                f"{the} can be struck from {x}",
                f"there is {self.none(m, digits)} in {x}",
                f"{x} has to give up {the}",
                f"neither {self.ds(m, digits, 'nor')} can go in {x}" if len(digits) == 2 else f"{'none of ' + self.ds(m, digits) + ' can' if several else either + ' cannot'} go in {x}",
            )
        cells, among = self.cells(m, effect.cells), self.cells(m, effect.cells, "or")
        options = [
            f"{cells} can't be {either}",
            f"{cells} lose their {pls}",
            f"{pls} are eliminated from {cells}",
            f"there's {self.none(m, digits)} in {among}",
            f"we can't have {either} in {among}",
            f"{pls} can be crossed out in {cells}",
        ]
        if len(effect.cells) < 4:
            one, *others = [self.cell(m, cell) for cell in effect.cells]
            isnt = f"{one} is not {either}"
            options += [f"{isnt}, and neither is {others[0]}" if len(others) == 1 else f"{isnt}, nor is {', nor is '.join(others)}"]
        return m.rng.choice(options)

    def command(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            x, a = self.cell(m, effect.cell), self.a(m, effect.digit)
            return m.pick(f"put {a} in {x}", f"write {a} into {x}", f"fill {x} with {a}")
        pls, the = self.pls(m, effect.digits), self.the_ds(m, effect.digits)
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(f"cross out the {pls} everywhere else in {house}", f"clear {pls} from the rest of {house}", f"get rid of all other {pls} in {house}")
        cells = self.cells(m, effect.cells)
        return m.pick(f"cross out {the} in {cells}", f"take {the} out of {cells}", f"strike {the} from {cells}", f"rub out {the} in {cells}", f"eliminate {pls} from {cells}")

    # Talk.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        greeting = (
            "We came over with the noon ferry, climbed all the stairs, and found the Lamp Room puzzle lying half finished on the sill. This is how we finished it.",
            "Third visit to the light, first entry in this log. The keeper told us to leave our reasoning and not just the solution, so here goes.",
            "Fog all afternoon and nothing to photograph. I sat down with the keepers' puzzle instead.",
            "My daughter bet me an ice cream that I couldn't solve the Lamp Room puzzle before the last boat. Here is my evidence.",
            "Thank you for the tea and for the tour! In return, a full solution to the puzzle on your wall.",
        )
        yield Piece(rng.choice(greeting), opens=True)
        if rng.random() < 0.5:
            yield Piece(rng.choice(("Rows run from top to bottom, columns from left to right, and boxes in reading order.", "I use a soft pencil and plenty of small marks.")))

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.12:
            remark = (
                "The gulls are loud up here.",
                "I had to sharpen my pencil at this point.",
                "Still with me?",
                "This one took me ages.",
                "My wife thinks that was a lucky guess, but it wasn't.",
                "Somebody has just rung the bell downstairs.",
                "Don't rush, there's time until the boat leaves.",
                "Now it gets interesting.",
                "If you're new to this, read the next bit twice.",
                "Nothing fancy here.",
                "The sun has come out, by the way.",
                "I very nearly missed what comes next.",
                "Good, we're getting somewhere.",
                "I love this kind of move.",
                "Deep breath.",
            )
            yield Piece(rng.choice(remark), opens=rng.random() < 0.5)

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.35

    def closing(self, rng: Random) -> Iterator[Piece]:
        farewell = (
            "And that's the lot. Thanks for having us!",
            "Done, with ten minutes to spare before the ferry. We'll be back in spring.",
            "There you are. Ice cream for me.",
            "Finished. Lovely view, lovely puzzle.",
        )
        yield Piece(rng.choice(farewell), opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        def heads() -> Iterator[str]:
            while True:
                yield ""

        head = rng.choice(("", "# From the visitors' log of the Lamp Room", "# The Lamp Room\n\n## A visitor writes"))
        return "narration", prose(pieces, rng.choice((None, 72, 100)), heads(), head)


def joined(clauses: Sequence[str]) -> str:
    """Clauses with a comma before the last one, even of two."""
    return f"{', '.join(clauses[:-1])}, and {clauses[-1]}" if len(clauses) > 1 else "".join(clauses)


def _box(cell: int) -> House:
    return House("b", cell // 27 * 3 + cell % 9 // 3 + 1)


def _within_box(cell: int) -> str:
    return PLACES[cell // 9 % 3 * 3 + cell % 3]


def _shown(name: str) -> str:
    return name.replace("x-wing", "X-wing")


def _crossed(cell: int, m: Matter) -> bool:
    lines = {*m.houses, *m.cover}
    return House("r", cell // 9 + 1) in lines and House("c", cell % 9 + 1) in lines
