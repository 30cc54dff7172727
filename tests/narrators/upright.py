"""For development: a keeper who thinks in columns: the column comes first, the row after it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, PLURALS, listed, opened
from .layout import Captioned, Laid, Piece, captions, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator


class _Voice:
    """How one step is said: numbers of lines and digits as words or numerals, and the way to say a cell."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        spelled = m.often(0.45)
        # Two numerals side by side are hard on the ear, so that digits are seldom spelled with the lines or not at all.
        self.lines_spelled = spelled
        self.digits_spelled = m.often(0.3 if spelled else 0.35)
        self.way = m.rng.randrange(5)
        self.stacks = m.often(0.3)
        self.joins = m.rng.randrange(3)

    def no(self, number: int) -> str:
        """The number of a line or box."""
        return NUMBERS[number] if self.lines_spelled else str(number)

    def n(self, digit: int) -> str:
        return NUMBERS[digit] if self.digits_spelled and digit > 1 else str(digit)

    def a(self, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {NUMBERS[digit] if self.digits_spelled else digit}"

    def the(self, digit: int) -> str:
        return f"the {NUMBERS[digit] if self.digits_spelled else digit}"

    def s(self, digit: int) -> str:
        return PLURALS[digit] if self.digits_spelled else f"{digit}s"

    def ns(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([self.n(digit) for digit in digits], last)

    def house(self, house: House) -> str:
        if house.kind == "b" and self.stacks:
            band, stack = divmod(house.number - 1, 3)
            return f"the {('top', 'middle', 'bottom')[band]} box of the {('left', 'middle', 'right')[stack]} stack"
        return f"{KINDS[house.kind]} {self.no(house.number)}"

    def where(self) -> str:
        return f"the same {KINDS[self.m.house.kind]}" if self.m.plan.back else self.house(self.m.house)

    def houses(self, houses: Sequence[House], last: str = "and") -> str:
        kind = KINDS[houses[0].kind]
        several = len(houses) > 1 and last == "and"
        return f"{kind}{'s' if several else ''} {listed([self.no(house.number) for house in houses], last)}"

    def cell(self, cell: int) -> str:
        """A cell on its own."""
        row, column = self.no(cell // 9 + 1), self.no(cell % 9 + 1)
        return (
            f"column {column}, row {row}",
            f"column {column} row {row}",
            f"row {row} of column {column}",
            f"the cell in column {column}, row {row}",
            f"column {column}, row {row}",
        )[self.way]

    def spot(self, cell: int) -> str:
        """A cell among others, where a comma would stand in the way."""
        row, column = self.no(cell // 9 + 1), self.no(cell % 9 + 1)
        return f"row {row} of column {column}" if self.way == 2 else f"column {column} row {row}"

    def cells(self, cells: Sequence[int], last: str = "and") -> str:
        if len(cells) == 1:
            return self.cell(cells[0])
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        if len(columns) == 1 and self.joins:
            column = self.no(min(columns) + 1)
            those = listed([self.no(cell // 9 + 1) for cell in cells], last)
            if last == "or":
                return f"row {those} of column {column}"
            return f"column {column}, rows {those}" if self.joins == 1 else f"rows {those} of column {column}"
        if len(rows) == 1 and self.joins:
            those = listed([self.no(cell % 9 + 1) for cell in cells], last)
            row = self.no(min(rows) + 1)
            if last == "or":
                return f"column {those} of row {row}"
            return f"columns {those} in row {row}" if self.joins == 1 else f"columns {those} of row {row}"
        return listed([self.spot(cell) for cell in cells], last)

    def inner(self, cells: Sequence[int], house: House, last: str = "and") -> str:
        """Cells of a house that has just been named."""
        if house.kind == "c" and all(cell % 9 + 1 == house.number for cell in cells):
            return f"row{'s' if len(cells) > 1 else ''} {listed([self.no(cell // 9 + 1) for cell in cells], last)}"
        if house.kind == "r" and all(cell // 9 + 1 == house.number for cell in cells):
            return f"column{'s' if len(cells) > 1 else ''} {listed([self.no(cell % 9 + 1) for cell in cells], last)}"
        return self.cells(cells, last)


class Upright(Narrator):
    """Reads the grid from top to bottom, one column after another."""

    name = "upright"
    leaves: ClassVar = {
        "single house": 0.05,
        "its": 0.1,
        "naked house": 0.4,
        "hidden house": 0.06,
        "cover": 0.1,
        "crossing": 0.1,
        "name": 0.4,
        "effects": 0.6,
        "back": 0.3,
        "corners": 0.2,
    }

    def naked_single(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        cell, n, a = v.cell(put.cell), v.n(put.digit), v.a(put.digit)
        column, row = v.no(put.cell % 9 + 1), v.no(put.cell // 9 + 1)
        return opened(
            m.pick(
                f"{cell} is {a}; it can't be anything else.",
                f"in column {column}, row {row} has just one candidate, and that's {n}.",
                f"{opened(cell)}. Only {a} fits. In it goes.",
                f"{cell} has run out of choices and has to be {n}.",
                f"go down column {column} to row {row}. The only candidate there is {n}.",
                f"there's nothing but {a} for {cell}.",
                f"{cell} is a naked single, {n}.",
                f"all that {cell} has left is {a}, so write it in.",
                f"column {column}, and down to row {row}, where only {a} is possible.",
                f"put {a} in {cell}. Every other digit has gone from there.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        cell, n, a, the = v.cell(put.cell), v.n(put.digit), v.a(put.digit), v.the(put.digit)
        column = v.no(put.cell % 9 + 1)
        if not m.says("house"):
            return opened(
                m.pick(
                    f"{cell} is {a}, a hidden single.",
                    f"hidden single: {n} in {cell}.",
                    f"hidden single, and it's {a}, in {cell}.",
                    f"there's a hidden single in {cell}: {n}.",
                )
            )
        kind = KINDS[m.house.kind]
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{cell} is the only home for {a} in its {kind}.",
                    f"{a} in {cell}, because the rest of its {kind} won't take one.",
                    f"no other cell in the {kind} of {cell} can be {n}, so {n} goes there.",
                    f"its {kind} has just one place for {a}, so {cell} is {n}.",
                )
            )
        house, inner = v.where(), v.inner([put.cell], m.house)
        if m.house.kind == "c" and not m.plan.back and m.often(0.4):
            return opened(
                m.pick(
                    f"in {house} {the} sits in {inner}.",
                    f"go down {house}: the only row that can take {a} is {inner}."
                    if inner.startswith("row ") and " of " not in inner
                    else f"go down {house}: the only place for {a} is {inner}.",
                    f"{house} has one place for its {n}, and it's {inner}.",
                )
            )
        if m.house.kind == "r" and m.often(0.4):
            return opened(
                m.pick(
                    f"which column gives {house} its {n}? Only column {column} can, so {cell} is {n}.",
                    f"column {column} is the only column that has room for {the} of {house}. That's {cell}.",
                    f"the other columns are closed to {the} of {house}, so it goes in {inner}.",
                )
            )
        return opened(
            m.pick(
                f"in {house} {the} can only go in {inner}.",
                f"{house} needs {a}. The one place for it is {inner}.",
                f"{cell} has to be {n}, as it's the last chance for {a} in {house}.",
                f"{house} keeps its {n} in {inner}, there being no other place.",
                f"nothing in {house} takes {a} except {inner}.",
                f"put {a} in {cell}, because in {house} it fits nowhere else.",
                f"hidden single in {house}. It's {n}, in {inner}.",
                f"only {inner} of all the cells in {house} can hold {a}.",
                f"{n} for {house}: {inner}, and nowhere else.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        cell, n, a = v.cell(put.cell), v.n(put.digit), v.a(put.digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return opened(
                m.pick(
                    f"{cell} is the last open cell of its {kind}. It's {n}.",
                    f"{cell} fills up its {kind} with {a}.",
                    f"the {kind} of {cell} has no other gap, so that's {a}.",
                    f"{a} in {cell}, and its {kind} is complete.",
                )
            )
        house, inner = v.where(), v.inner([put.cell], m.house)
        return opened(
            m.pick(
                f"{house} has only {inner} open, and only {n} missing.",
                f"{a} in {cell} and {house} is done.",
                f"one cell to go in {house}. {opened(inner)} is {n}.",
                f"{house} is short of {a}, and the gap is {inner}.",
                f"to finish {house}, put {a} in {inner}.",
                f"{cell} is the last gap in {house}, so it's {n}.",
                f"what's missing from {house}? Just {a}, in {inner}.",
                f"everything in {house} is filled except {inner}. That makes it {a}.",
            )
        )

    def locked(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        assert m.crossing is not None
        house, line, kind = v.where(), v.house(m.crossing), KINDS[m.crossing.kind]
        n, a, the, s = v.n(digit), v.a(digit), v.the(digit), v.s(digit)
        if not m.says("crossing"):
            said = m.pick(
                f"in {house} the {s} are all in one {kind}",
                f"{house} has its {s} in a single {kind}",
                f"the {s} of {house} share a {kind}",
                f"every {n} left in {house} is in the same {kind}",
            )
            return self.so(m, v, said, f"the rest of that {kind}", digit)
        if m.says("name") and m.often(0.35):
            if m.name == "pointing":
                said = m.pick(
                    f"the {s} in {house} point {'down' if m.crossing.kind == 'c' else 'along'} {line}",
                    f"{house} has pointing {s} in {line}",
                    f"pointing {s}: {house} has them only in {line}",
                )
            else:
                said = m.pick(
                    f"{house} claims {the} of {line}",
                    f"claiming: {house} has its {s} only in {line}",
                    f"{house} claims its {n} in {line}",
                )
        else:
            said = m.pick(
                f"in {house} the {s} are all in {line}",
                f"{house} has no {n} outside {line}",
                f"{house} can put its {n} only in {line}",
                f"look at the {s} in {house}: they're all in {line}",
                f"{the} of {house} must be somewhere in {line}",
                f"{line} holds every {n} that {house} has left",
                f"the places for {a} in {house} all lie in {line}",
            )
        return self.so(m, v, said, m.pick(f"the rest of {line}", f"the rest of that {kind}"), digit)

    def naked(self, m: Matter) -> str:
        v = _Voice(m)
        held = m.says("house")
        lead = f"in {v.where()} " if held else ""
        cells = v.inner(m.cells, m.house) if held else v.cells(m.cells)
        digits, either = v.ns(m.digits), v.ns(m.digits, "or")
        size = m.name.split()[1]
        both = "both" if len(m.cells) == 2 else "all"
        if not m.says("name"):
            said = m.pick(
                f"{lead}{cells} are down to {digits}",
                f"{lead}{cells} have only {digits} left between them",
                f"{lead}{cells} can't be anything but {either}",
                f"{lead}{cells} share out {digits} among themselves, having nothing else",
                f"{lead}there's nothing but {digits} in {cells}",
            )
        else:
            said = m.pick(
                f"{lead}{cells} are a naked {size}, {digits}",
                f"{lead}there's a naked {size} in {cells}, made of {digits}",
                f"{lead}{cells} hold {digits} and nothing more, a naked {size}",
                f"{lead}the digits {digits} form a naked {size} in {cells}",
                f"{lead}we have a naked {size} of {digits}, in {cells}",
            )
        kinds = [KINDS[kind] for kind in m.plan.kinds]
        rest = "the rest of the " + " and the ".join(kinds)
        return self.so(m, v, said, m.pick(rest, rest, f"the cells that see {both} of them"))

    def hidden(self, m: Matter) -> str:
        v = _Voice(m)
        held = m.says("house")
        lead = f"in {v.where()} " if held else ""
        cells = v.inner(m.cells, m.house) if held else v.cells(m.cells)
        digits, either = v.ns(m.digits), v.ns(m.digits, "or")
        size = m.name.split()[1]
        if not m.says("name"):
            said = m.pick(
                f"{lead}the digits {digits} fit only in {cells}",
                f"{lead}nothing but {cells} can be {either}",
                f"{lead}the places for {digits} are {cells} and no others",
                f"{lead}the digits {digits} need {cells}, as they have no other places",
                f"{lead}only {cells} have room for {digits}",
            )
        else:
            said = m.pick(
                f"{lead}the digits {digits} are a hidden {size} in {cells}",
                f"{lead}there's a hidden {size} in {cells}, made of {digits}",
                f"{lead}{cells} hide a {size}, namely {digits}",
                f"{lead}we have a hidden {size} of {digits}, in {cells}",
                f"{lead}{cells} hold a hidden {size}, {digits}",
            )
        return self.so(m, v, said, "")

    def fish(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        base, cover = v.houses(m.houses), v.houses(m.cover)
        one_of = v.houses(m.cover, "or")
        kind, cross = KINDS[m.houses[0].kind], KINDS[m.cover[0].kind]
        n, the, s = v.n(digit), v.the(digit), v.s(digit)
        shown = _fish(m.name)
        fish = f"{'an' if shown.startswith('X') else 'a'} {shown}"
        if m.plan.corners:
            corners = [cell for column in range(9) for cell in range(column, 81, 9) if _crosses(cell, m)]
            told = listed([v.spot(cell) for cell in corners])
            said = m.pick(
                f"the {s} make {fish} in the {kind}s, with corners at {told}",
                f"there's {fish} of {s} in the {kind}s. Its corners are {told}",
            )
            return self.so(m, v, said, f"the rest of both {cross}s", digit)
        each = [f"in {v.house(house)} {the} is in {one_of}" for house in m.houses]
        if not m.says("name"):
            said = m.pick(
                f"{base} have their {s} only in {cover}",
                f"{listed(each)}",
                f"in {base} there's no {n} outside {cover}",
                f"{base} put their {s} in {cover} and nowhere else",
                f"{cover} have to take the {s} of {base}",
            )
        elif not m.says("cover"):
            said = m.pick(
                f"{base} make {fish} of {s}",
                f"there's {fish} on {n} in {base}",
                f"{shown} on {n}, in {base}",
                f"the {s} in {base} line up as {fish}",
            )
        else:
            said = m.pick(
                f"{'; '.join(each)}. That's {fish}",
                f"{base} have their {s} only in {cover}, and that's {fish}",
                f"{shown} on {n}, in {base}, covered by {cover}",
                f"there's {fish} of {s} in {base}, and it takes up {cover}",
                f"the {s} of {base} make {fish} in {cover}",
                f"take the {s} of {base}. They all lie in {cover}, so we have {fish}",
            )
        rest = f"the rest of {cover}" if m.says("cover") and m.often(0.5) else f"the rest of those {cross}s"
        return self.so(m, v, said, rest, digit)

    def finned(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        base, cover, fins = v.houses(m.houses), v.houses(m.cover), listed([v.spot(fin) for fin in m.fins])
        n, s = v.n(digit), v.s(digit)
        several = len(m.fins) > 1
        fin, is_ = ("fins", "are") if several else ("fin", "is")
        plain = _fish(m.name).removeprefix("finned ")
        fish = f"{'an' if plain.startswith('X') else 'a'} {plain}"
        said = m.pick(
            f"{base} have their {s} in {cover}, apart from {fins}. That's a finned {plain}, and {fins} {is_} the {fin}",
            f"there's a finned {plain} on {n} in {base}, covered by {cover}, with the {fin} at {fins}",
            f"the {s} of {base} are almost {fish} in {cover}. Only the {fin}, {fins}, {'spoil' if several else 'spoils'} it",
            f"take away the {fin} at {fins}, and the {s} in {base} are {fish} in {cover}",
            f"finned {plain} of {s}: {base} against {cover}, {fin} at {fins}",
            f"if {'none of ' if len(m.fins) > 2 else 'neither of ' if several else ''}{fins} is "
            f"{'' if several else 'not '}{n}, {base} have {fish} of {s} in {cover}. So it's a finned {plain}",
        )
        hint = m.pick(
            f"the cells of {cover} that see {'all the fins' if several else 'the fin'}",
            f"those cells of {cover} that the {fin} {'see' if several else 'sees'}",
        )
        return self.so(m, v, said, hint, digit)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        v = _Voice(m)
        pivot, (first, second) = v.spot(m.pivot), map(v.spot, m.cells)
        one, other, both = map(v.n, m.plan.shared)
        if not m.says("name"):
            said = m.pick(
                f"{pivot} is {one} or {other}. If it's {one}, {first} is {both}. If it's {other}, {second} is {both}",
                f"suppose neither {first} nor {second} is {both}. Then {first} is {one} and {second} is {other}, "
                f"and nothing is left for {pivot}",
                f"{pivot} has {one} and {other}, {first} has {one} and {both}, and {second} has {other} and "
                f"{both}. Whatever goes in {pivot}, one of the other two is {both}",
                f"with {one} in {pivot}, {first} becomes {both}; with {other} in {pivot}, {second} becomes {both}",
            )
            where = m.pick("any cell that sees both of them", f"the cells that see both {first} and {second}")
        else:
            said = m.pick(
                f"XY-wing. The pivot is {pivot}, the wings are {first} and {second}",
                f"{pivot} is the pivot of an XY-wing, with {first} and {second} for wings",
                f"there's an XY-wing on {both}. Its wings are {first} and {second}, and they meet in {pivot}, the pivot",
                f"take {pivot} as the pivot and {first} and {second} as the wings, and you have an XY-wing",
            )
            where = m.pick("any cell that sees both wings", "the cells that both wings see")
        return self.so(m, v, said, where, m.plan.shared[2], after=True)

    def xy_chain(self, m: Matter) -> str:
        v = _Voice(m)
        cells, digits = [v.spot(cell) for cell in m.cells], [v.n(digit) for digit in m.digits]
        end, first, last = digits[0], cells[0], cells[-1]
        named = m.says("name")
        way = m.rng.randrange(5)
        if way == 0:
            becomes = [f"{cell} {m.pick('is', 'becomes')} {digit}" for cell, digit in zip(cells[1:], digits[2:], strict=True)]
            said = f"start at {first}. If it's not {end}, it's {digits[1]}. Then {listed(becomes)}"
            said += f". Either way, {first} or {last} is {end}"
            said += ", by this XY-chain" if named else ""
        elif way == 1:
            pairs = [f"{cell}, {one} or {other}" for cell, one, other in zip(cells, digits, digits[1:], strict=False)]
            said = f"{'XY-chain on ' + end if named else 'here is a chain'}: {'; then '.join(pairs)}"
            said += f". One of the two ends is {end}"
        elif way == 2:
            pairs = [f"{cell} is {one} or {other}" for cell, one, other in zip(cells, digits, digits[1:], strict=False)]
            said = f"{listed(pairs)}. Read it as {'an XY-chain' if named else 'a chain'}: if {first} isn't {end}, {last} is"
        elif way == 3:
            becomes = [f"{cell} becomes {digit}" for cell, digit in zip(cells[1:], digits[2:], strict=True)]
            said = f"either {first} is {end} or it's {digits[1]}, and then {listed(becomes)}"
            said += ". That's an XY-chain" if named else f". So {first} or {last} is {end}"
        else:
            back = [f"{cell} is {digit}" for cell, digit in zip(cells[-2::-1], digits[-3::-1], strict=True)]
            said = (
                f"{'here is an XY-chain, read from its far end: ' if named else ''}if {last} isn't {digits[-1]}, "
                f"it's {digits[-2]}"
            )
            said += m.pick(", so ", ", then ") + m.pick(", so ", ", then ").join(back)
            said += f". One of {first} and {last} is {end}"
        return self.so(
            m, v, said, m.pick("any cell that sees both ends", "the cells that see both ends"), m.digits[0], after=True
        )

    def x_chain(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        n, a, the, s = v.n(digit), v.a(digit), v.the(digit), v.s(digit)
        cells = [v.spot(cell) for cell in m.cells]
        first, last = cells[0], cells[-1]
        named = m.says("name")
        way = m.rng.randrange(5)
        if way == 0 or (way == 4 and len(cells) > 4):
            links = []
            for at, kind in enumerate(m.plan.ways):
                pair = m.cells[2 * at : 2 * at + 2]
                house = m.board.geometry.houses_of[pair[0]][kind]
                one, other = (v.inner([cell], house) if kind != "b" else v.spot(cell) for cell in pair)
                links.append(
                    m.pick(
                        f"in {v.house(house)} {the} is in {one} or {other}",
                        f"{v.house(house)} has two places for {a}, {one} and {other}",
                    )
                )
            said = "; ".join(links) + f". Put together, {first} or {last} is {n}"
        elif way == 1:
            said = f"if {first} isn't {n}, {cells[1]} is"
            for one, other in zip(cells[2::2], cells[3::2], strict=True):
                said += f", so {one} isn't, so {other} is"
            said += m.pick("", f". That makes {first} or {last} {a}")
        elif way == 2:
            said = f"no {n} in {first}? Then it's in {cells[1]}"
            for one, other in zip(cells[2::2], cells[3::2], strict=True):
                said += f", not in {one}, and so in {other}"
            said += f". One end or the other is {n}"
        elif way == 3:
            if named:
                said = m.pick(
                    f"X-chain on {n}: {', then '.join(cells)}",
                    f"the {s} make an X-chain: {listed(cells)}",
                    f"there's an X-chain of {s} from {first} by way of {listed(cells[1:-1])} to {last}",
                )
            else:
                said = f"follow the {s} from {first} to {cells[1]}"
                said += "".join(f", on to {one} and then {other}" for one, other in zip(cells[2::2], cells[3::2], strict=True))
                said += f". The first or the last of them is {n}"
        else:
            said = (
                f"suppose neither {first} nor {last} is {n}. Then {cells[1]} and {cells[2]} both are, and those "
                "two see each other"
            )
        if named and way != 3:
            said += m.pick(". That's an X-chain", f". We have an X-chain on {n}")
        return self.so(m, v, said, m.pick("any cell that sees both ends", "the cells that see both ends"), digit, after=True)

    def chain(self, m: Matter) -> str:
        v = _Voice(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        absurd = (first, digit) == (last, end) and holds != supposed
        told = [f"{v.spot(first)} {'is' if supposed else 'isn' + chr(39) + 't'} {v.n(digit)}"]
        for (before, _, _), (cell, is_, other) in pairwise(m.links):
            name = "it" if cell == before else v.spot(cell)
            told.append(f"{name} {'is' if is_ else 'is not'} {v.n(other)}")
        start = v.spot(first)
        opposite = f"{start} is{' not' if supposed else ''} {v.n(digit)}"
        way = m.rng.randrange(5)
        if way == 0:
            glue = m.pick(", so ", ", then ", ", which means ")
            said = f"if {told[0]}, {told[1]}{glue}{glue.join(told[2:])}"
        elif way == 1:
            said = f"try {v.n(digit)} in {start}" if supposed else f"take {v.n(digit)} out of {start}"
            said += ". " + ". ".join(f"{m.pick('Then', 'Then', 'So')} {link}" for link in told[1:])
        elif way == 2:
            said = f"what if {told[0]}? Then {', then '.join(told[1:-1])}, and finally {told[-1]}"
        elif way == 3:
            said = f"either {opposite}, or else {told[1]}, then {', then '.join(told[2:-1])}, and at the end {told[-1]}"
            if told[1].startswith("it "):
                said = f"either {opposite}, or, if not, {told[1]}, then {', then '.join(told[2:-1])}, and at the end {told[-1]}"
        else:
            bare = [f"{'' if is_ else 'no '}{v.n(other)} in {v.spot(cell)}" for cell, is_, other in m.links]
            said = f"{m.pick('here is a chain', 'a chain', 'link by link')}: {', then '.join(bare)}"
        if absurd:
            said += m.pick("", ". That can't be", ", and we have a contradiction", ", against what we started with")
            if m.plan.natural:
                return opened(said) + m.pick(
                    f". So {opposite}.", f". Which shows that {opposite}.", f". That leaves one thing: {opposite}."
                )
        elif m.often(0.5):
            said += f". One or the other holds: {start} is {v.n(digit)}, or {v.spot(last)} is {v.n(end)}"
        return self.so(m, v, said, m.pick("any cell that sees both ends", "the cells that see both of them"), digit, after=True)

    def facts(self, m: Matter) -> str:
        v = _Voice(m)
        style = m.rng.randrange(3)
        said = []
        for what in m.cited:
            if isinstance(what, int):
                cell = v.spot(what)
                said.append(
                    (f"the candidates in {cell}", f"what's left for {cell}", f"whichever candidate {cell} takes")[style]
                )
            else:
                digit, house = what
                a, the, name = v.a(digit), v.the(digit), v.house(house)
                lines = {"c": "rows", "r": "columns", "b": "cells"}[house.kind]
                each = {"c": "row", "r": "column", "b": "cell"}[house.kind]
                said.append(
                    (
                        f"the {lines} where {name} can have {a}",
                        f"the {lines} open to {the} of {name}",
                        f"in whichever {each} {name} has its {v.n(digit)}",
                    )[style]
                )
        words = listed(said)
        tail = self.effects(m, v, False)
        if style == 2:
            return opened(m.pick(f"{words}, {tail}.", f"{words}, the result is the same: {tail}."))
        return opened(
            m.pick(
                f"look at {words}: {tail}.",
                f"{words} {'settle' if len(said) > 1 or words.startswith('the ') else 'settles'} it: {tail}.",
                f"{tail}. All it takes is {words}.",
                f"take {words}. It follows that {tail}.",
                f"work through {words} and you'll see that {tail}.",
            )
        )

    def bare(self, m: Matter) -> str:
        v = _Voice(m)
        tail = self.effects(m, v, True)
        return opened(
            m.pick(
                f"{tail}.",
                f"{tail}, and I won't say why.",
                f"let me just say that {self.effects(m, v, False)}.",
                f"{tail}. Check it if you like.",
                f"no reason given here, but {self.effects(m, v, False)}.",
            )
        )

    def so(self, m: Matter, v: _Voice, said: str, where: str, digit: int | None = None, after: bool = False) -> str:
        """The pattern and its effects, in one order or the other. ``after``: the effects have to come last."""
        opener = said.split(" ", 1)[0]
        heads = opener in (
            "take",
            "look",
            "try",
            "pointing",
            "claiming:",
            "X-wing",
            "swordfish",
            "jellyfish",
            "finned",
            "pointing",
        )
        after = after or heads or any(mark in said for mark in (". ", ": ", "; ", "? "))
        bold = m.often(0.5)
        tail = self.hinted(m, v, where, digit) if m.plan.natural else self.effects(m, v, bold)
        order = m.rng.randrange(10)
        # What is only hinted at leans on the pattern, which must have been told by then.
        if m.plan.natural:
            order %= 6
        if after:
            order %= 5
        if m.plan.natural or bold:
            order = {4: 1}.get(order, order)
        if order in (2, 3) and ". " in said:
            order = 1
        return opened(
            (
                f"{said}, so {tail}." if ". " not in said else f"{said}, and so {tail}.",
                f"{said}. {opened(tail)}.",
                f"{said}, and that's why {tail}.",
                f"{said}; {tail}.",
                f"{said}. {m.pick('This means', 'Which means', 'So we know')} that {tail}.",
                f"as {said}, {tail}.",
                f"{tail}, as {said}.",
                f"{tail}. That's because {said}.",
                f"{tail}. How do I know? {opened(said)}.",
                f"{tail}, since {said}.",
            )[order]
        )

    def hinted(self, m: Matter, v: _Voice, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            these = f"those {NUMBERS[len(m.cells)]}"
            return m.pick(
                f"{these} lose everything else",
                f"anything else in {these} cells goes",
                f"{these} cells can't keep any other digit",
                f"whatever else is in {these} can be struck out",
            )
        digits = [digit] if digit else m.digits
        if len(digits) > 1:
            those = m.pick("those digits", v.ns(digits), f"the {NUMBERS[len(digits)]} digits")
            return m.pick(
                f"{those} go from {where}",
                f"strike {v.ns(digits)} from {where}",
                f"there's no {v.ns(digits, 'or')} in {where}",
                f"{those} can be struck out in {where}",
            )
        n, the, s = v.n(digits[0]), v.the(digits[0]), v.s(digits[0])
        others = where.removeprefix("the rest of ")
        if others != where and m.often(0.4):
            return m.pick(
                f"the others of {others} lose it",
                f"no other cell of {others} can be {n}"
                if not others.startswith(("those", "both")) and "s " not in others
                else f"the other cells of {others} can't be {n}",
                f"{the} is gone from everywhere else in {others}",
            )
        return m.pick(
            f"{n} goes from {where}",
            f"the {s} go from {where}",
            f"strike {n} from {where}",
            f"there's no {n} in {where}",
            f"{n} can be struck out in {where}",
        )

    def effects(self, m: Matter, v: _Voice, bold: bool) -> str:
        """``bold``: some of it may be an order to the reader."""
        said = [self.effect(m, v, effect, bold) for effect in m.effects]
        return "; ".join(said) if len(said) > 2 else m.pick("; ", ", and ").join(said)

    def effect(self, m: Matter, v: _Voice, effect: Put | Strike | Clear, bold: bool) -> str:
        if isinstance(effect, Put):
            cell, n, a = v.cell(effect.cell), v.n(effect.digit), v.a(effect.digit)
            column, row = v.no(effect.cell % 9 + 1), v.no(effect.cell // 9 + 1)
            return m.pick(
                f"{cell} is {n}",
                f"{cell} has to be {n}",
                f"{a} goes in {cell}",
                f"in column {column} {v.the(effect.digit)} sits in row {row}",
            )
        digits, either = v.ns(effect.digits), v.ns(effect.digits, "or")
        several = len(effect.digits) > 1
        the = digits if several else v.the(effect.digits[0])
        if isinstance(effect, Clear):
            house = v.house(effect.house)
            parts = {"c": "rows", "r": "columns", "b": "cells"}[effect.house.kind]
            return m.pick(
                f"the other {parts} of {house} lose {digits}",
                f"{house} has no {either} anywhere else",
                f"{the} {'go' if several else 'goes'} from the rest of {house}",
                f"nothing else in {house} can be {either}",
                f"strike {digits} from the rest of {house}" if bold else f"{digits} can be struck out elsewhere in {house}",
            )
        these = len(effect.cells) > 1
        cells, any_cell = v.cells(effect.cells), v.cells(effect.cells, "or")
        line = v.no(effect.cells[0] % 9 + 1)
        upright = not these and m.often(0.35)
        if upright:
            row = v.no(effect.cells[0] // 9 + 1)
            return m.pick(
                f"in column {line}, row {row} can't be {either}",
                f"column {line} can't have {v.a(effect.digits[0]) if not several else either} in row {row}",
                f"in column {line} there's no {either} in row {row}",
            )
        return m.pick(
            f"{cells} can't be {either}",
            f"{cells} {'lose' if these else 'loses'} {digits}",
            f"{the} go{'' if several else 'es'} from {cells}",
            f"there's no {either} in {any_cell}",
            f"{cells} {'are' if these else 'is'} not {either}",
            f"strike {digits} from {cells}" if bold else f"{digits} can be struck from {cells}",
            f"{digits} {'are' if several else 'is'} out of the question in {any_cell}",
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Welcome up the stairs. We'll take this grid the way we take the tower, straight up and down.",
                    "Evening, keepers. I always begin with the columns, so bear with me.",
                    "Right, the lamp's lit and the grid's on the table.",
                    "Hello again. This one stood up to me for a whole watch.",
                )
            ),
            opens=True,
        )
        if rng.random() < 0.4:
            yield Piece(
                rng.choice(("I name the column first, then the row.", "Have your pencil ready.", "Let's see what gives."))
            )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.08:
            yield Piece(
                rng.choice(
                    (
                        "Nice.",
                        "So far, so good.",
                        "I had to go down for more oil before I saw the next one.",
                        "Still with me?",
                        "That was the hard part, or so I thought.",
                        "The wind's getting up.",
                        "I like this one.",
                        "On we go.",
                    )
                ),
                opens=rng.random() < 0.4,
            )

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.25

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "And that's all nine columns full.",
                    "There we are. Mind your head on the way down.",
                    "Done, and the ships never noticed.",
                )
            ),
            opens=True,
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        if rng.random() < 0.25:
            vtt = rng.random() < 0.5
            return "vtt" if vtt else "srt", captions(pieces, Captioned(vtt, width=rng.choice((34, 42))), rng)

        def heads() -> Iterator[str]:
            while True:
                yield ""

        head = rng.choice(
            ("", f"# Straight up, straight down: the Lamp Room {walk.seed}", f"The Lamp Room\nGrid {walk.seed}, by columns")
        )
        return "narration", prose(pieces, rng.choice((None, 70, 96)), heads(), head)


def _fish(name: str) -> str:
    return name.replace("x-wing", "X-wing")


def _crosses(cell: int, m: Matter) -> bool:
    houses = m.board.geometry.houses_of[cell].values()
    return any(house in m.houses for house in houses) and any(house in m.cover for house in houses)
