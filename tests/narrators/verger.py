"""For development: a brisk verger who counts everything. WebVTT or timed prose: fifth row, second column; the third box's 7."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from random import Random
from typing import ClassVar, Literal

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS, an, listed, opened
from .layout import Captioned, Laid, Piece, captions, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

SUFFIXES = {1: "st", 2: "nd", 3: "rd"}
CROSSING = {"r": "column", "c": "row"}

Mood = Literal["do", "be"]
"""Whether an effect is an order or a fact."""


class _Tongue:
    """How one step names its cells, lines, boxes and digits. Every place is an ordinal."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        self.worded = m.often(0.35)
        self.short = m.often(0.75 if m.manner % 3 == 0 else 0.12)

    def nth(self, number: int) -> str:
        return f"{number}{SUFFIXES.get(number, 'th')}" if self.short else ORDINALS[number]

    def nths(self, numbers: Sequence[int]) -> str:
        return listed(map(self.nth, numbers))

    # Digits. A 1 or a 2 is never spelt out: "the one in the ninth row" is a cell.

    def d(self, digit: int) -> str:
        return NUMBERS[digit] if self.worded and digit > 2 else str(digit)

    def a(self, digit: int) -> str:
        return an(self.d(digit))

    def many(self, digit: int) -> str:
        return PLURALS[digit] if self.worded and digit > 2 else f"{digit}s"

    def the(self, digits: Sequence[int]) -> str:
        """``the 4``, ``4 and 7`` or ``the 4 and the 7``."""
        article = "the " if len(digits) == 1 or self.m.often(0.4) else ""
        return listed(article + digit for digit in self.alike(digits))

    def plain(self, digits: Sequence[int], last: str = "and") -> str:
        return listed(self.alike(digits), last)

    def alike(self, digits: Sequence[int]) -> list[str]:
        """Either all spelt out or none."""
        return [self.d(digit) if min(digits) > 2 else str(digit) for digit in digits]

    def either(self, digits: Sequence[int]) -> str:
        """``4 or 7``, or ``a 4 or a 7``."""
        words = self.alike(digits)
        return listed(map(an, words) if self.m.often(0.4) else words, "or")

    # Houses.

    def house(self, house: House) -> str:
        return f"the {self.nth(house.number)} {KINDS[house.kind]}"

    def houses(self, houses: Sequence[House]) -> str:
        kind, numbers = KINDS[houses[0].kind], [house.number for house in houses]
        if len(houses) == 2 and self.m.often(0.3):
            return f"the {self.nth(numbers[0])} {kind} and the {self.nth(numbers[1])}"
        return f"the {self.nths(numbers)} {kind}s"

    def where(self) -> str:
        """The house of the pattern."""
        house = self.m.house
        return f"{self.m.pick('the', 'that')} same {KINDS[house.kind]}" if self.m.plan.back else self.house(house)

    # Cells.

    def cell(self, cell: int, commas: bool = True) -> str:
        row, column = self.nth(_row(cell)), self.nth(_column(cell))
        whole = (
            f"the {row} row's {column} cell",
            f"the {column} column's {row} cell",
            f"the {column} cell of the {row} row",
            f"the {row} cell in the {column} column",
            f"the cell in the {row} row and the {column} column",
        )
        return self.m.pick(*whole, *((f"{row} row, {column} column",) * 3 + (f"{column} column, {row} row",) if commas else ()))

    def path(self, cells: Sequence[int], commas: bool = False) -> list[str]:
        """Cells one after the other, the next one at times as one more of the same line."""
        said = [self.cell(cells[0], commas)]
        full = True
        for before, cell in pairwise(cells):
            kind = "r" if before // 9 == cell // 9 else "c" if before % 9 == cell % 9 else ""
            full = not (full and kind and before != cell and self.m.often(0.35))
            number = _column(cell) if kind == "r" else _row(cell)
            said.append(self.cell(cell, commas) if full else f"the same {KINDS[kind]}'s {self.nth(number)} cell")
        return said

    def cells(self, cells: Sequence[int]) -> str:
        """Cells in any order, line by line."""
        if len(cells) == 1:
            return self.cell(cells[0])
        rows, columns = ({number(cell) for cell in cells} for number in (_row, _column))
        by_row = len(rows) < len(columns) or (len(rows) == len(columns) and self.m.often(0.5))
        kind, along, across = ("row", _row, _column) if by_row else ("column", _column, _row)
        lines: dict[int, list[int]] = {}
        for cell in sorted(cells):
            lines.setdefault(along(cell), []).append(across(cell))
        groups = [*lines.items()]
        if len(groups) == 1:
            (number, members) = groups[0]
            line, those = f"the {self.nth(number)} {kind}", self.nths(members)
            other = "columns" if by_row else "rows"
            return self.m.pick(
                f"{line}'s {those} cells", f"the {those} cells of {line}", f"{line}'s cells in the {those} {other}"
            )
        clipped = max(map(len, lines.values())) == 1 and self.m.often(0.6)
        parts = []
        for at, (number, members) in enumerate(groups):
            word = "" if clipped and at else " cell" if len(members) == 1 else " cells"
            parts.append(f"the {self.nth(number)} {kind}'s {self.nths(members)}{word}")
        return listed(parts)

    def inside(self, cells: Sequence[int], house: House, own: str = "its", called: str = "one") -> str:
        """Cells of a house that has just been named; in full where it is a box, or where they are not all in it."""
        if house.kind == "b" or not all(_in(cell, house) for cell in cells):
            return self.cells(cells)
        those = self.nths([_column(cell) if house.kind == "r" else _row(cell) for cell in cells])
        s = "s" if len(cells) > 1 else ""
        across = f"in the {those} {CROSSING[house.kind]}{s}"
        return self.m.pick(f"{own} {those} cell{s}", f"the {called}{s} {across}", f"the cell{s} {across}")


class Verger(Narrator):
    """Counts pews, and cells."""

    name = "verger"
    leaves: ClassVar = {
        "single house": 0.07,
        "its": 0.12,
        "naked house": 0.3,
        "hidden house": 0.1,
        "cover": 0.12,
        "crossing": 0.1,
        "name": 0.4,
        "effects": 0.5,
        "back": 0.3,
        "corners": 0.3,
        "recap": 0.05,
    }

    def naked_single(self, m: Matter) -> str:
        assert m.put is not None
        t = _Tongue(m)
        cell, d, a = t.cell(m.put.cell), t.d(m.put.digit), t.a(m.put.digit)
        return opened(
            m.pick(
                f"{cell} can only be {a}.",
                f"look at {cell}. It's {d} or nothing.",
                f"what's left for {cell}? Just the {d}.",
                f"only {d} survives in {cell}, so write it in.",
                f"{cell} has run out of choices. It's {a}.",
                f"check {cell}. Everything's gone but the {d}. Put it in.",
                f"that's a naked single in {cell}: {d}.",
                f"there's one candidate left for {cell}, and it's {d}.",
                f"{a} goes in {cell}. Nothing else can.",
                f"put {a} in {cell}; that's all it's got.",
                f"{cell} won't take anything but {a}.",
                f"count what {cell} sees. Eight digits are out, {d} isn't, so {d} it is.",
                f"no choice left in {cell}. Write {d}.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        assert m.put is not None
        t = _Tongue(m)
        cell, d, a = t.cell(m.put.cell), t.d(m.put.digit), t.a(m.put.digit)
        kind = KINDS[m.house.kind]
        if not m.says("house"):
            return opened(
                m.pick(
                    f"{cell} is a hidden single. It's {d}.",
                    f"there's a hidden single in {cell}: {d}.",
                    f"write {d} in {cell}. Hidden single.",
                )
            )
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{cell} is the only one in its {kind} that can be {a}.",
                    f"nothing else in its {kind} takes {a}, so {cell} does.",
                    f"{cell} is {d}. There's no other place for it in that {kind}.",
                    f"put {a} in {cell}. The rest of its {kind} won't have it.",
                    f"look at {cell}. Nowhere else in this cell's {kind} can {d} go.",
                )
            )
        house, seat = t.where(), t.inside([m.put.cell], m.house)
        return opened(
            m.pick(
                f"where's {house}'s {d}? It has to be {seat}.",
                f"{house}'s {d} can only go in {seat}.",
                f"look at {house}. The only place for {a} is {seat}.",
                f"nothing else in {house} can be {a}, so {cell} is.",
                f"{house} wants {a}, and {cell} is the last spot that'll take it.",
                f"put {house}'s {d} in {seat}. It won't go anywhere else.",
                f"{cell} is {d}: no other cell of {house} can hold it.",
                f"{house} has just one home for {a}, {seat}.",
                f"hidden single in {house}. {opened(cell)} is the {d}.",
                f"try to seat the {d} in {house}. Only {seat} will have it.",
                f"{cell} gets {house}'s {d}. There's nowhere else for it.",
                f"every cell in {house} refuses the {d} except one: {seat}.",
                f"{house} has one cell left for {a}. It's {seat}. Write it in.",
                f"we haven't got {a} in {house} yet. {opened(cell)}, then; it's the only one that can.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        assert m.put is not None
        t = _Tongue(m)
        cell, d, a = t.cell(m.put.cell), t.d(m.put.digit), t.a(m.put.digit)
        kind = KINDS[m.house.kind]
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{cell} is the last gap in its {kind}, so it's {d}.",
                    f"put {a} in {cell}. That fills its {kind}.",
                    f"{d} in {cell}, and that {kind}'s full.",
                )
            )
        house, seat = t.where(), t.inside([m.put.cell], m.house)
        return opened(
            m.pick(
                f"{house} has one gap, {seat}. It's the {d}.",
                f"eight down in {house}, one to go: {d} in {cell}.",
                f"{house} is missing just the {d}. Put it in {seat}.",
                f"finish {house}. {opened(cell)} is {d}.",
                f"the last empty cell in {house} is {seat}. That's {d}.",
                f"{cell} is {d}, and {house} is done.",
                f"write {d} in {cell}; that fills {house}.",
                f"what's {house} short of? {opened(a)}. It goes in {seat}.",
                f"only {seat if m.house.kind == 'b' else cell} is still open in {house}, so that's our {d}.",
                f"{house} is full apart from {seat}. In goes {a}.",
                f"close {house} with {a} in {seat}.",
            )
        )

    def locked(self, m: Matter) -> str:
        assert m.crossing is not None
        t = _Tongue(m)
        house, line, many = t.where(), t.house(m.crossing), t.many(m.digits[0])
        d, a = t.d(m.digits[0]), t.a(m.digits[0])
        kind = KINDS[m.crossing.kind]
        rest = f"the rest of that {kind}"
        if not m.says("crossing"):
            clause = m.pick(
                f"the {many} left in {house} share one {kind}",
                f"all of {house}'s {many} sit in one {kind}",
                f"look at {house}. Its {many} are all in the same {kind}",
                f"{house} keeps its {many} to a single {kind}",
            )
        elif m.says("name") and m.often(0.4):
            pointing = (
                f"{house}'s {many} point along {line}",
                f"there's a pointing {d} in {house}, and it points along {line}",
                f"look at the {many} in {house}. They're pointing down {line}"
                if m.crossing.kind == "c"
                else f"look at the {many} in {house}. They're pointing across {line}",
            )
            claiming = (
                f"{house} claims its {d} inside {line}",
                f"{house}'s {many} are claimed in {line}",
                f"look at {house}. It claims the {d} of {line}",
            )
            clause = m.pick(*(pointing if m.name == "pointing" else claiming))
        else:
            clause = m.pick(
                f"{house}'s {d} has to be in {line}",
                f"all of {house}'s {many} sit in {line}",
                f"{house} can't put its {d} outside {line}",
                f"look at {house}. Its {many} are all in {line}",
                f"where can {a} go in {house}? Only in {line}",
                f"every {d} left in {house} is also in {line}",
                f"there's no {d} in {house} except in {line}",
                f"{house} gets its {d} from {line}, wherever exactly that turns out to be",
                f"one of the {many} where {house} meets {line} is true, as {house} has no others",
            )
        return self.argue(t, clause, rest, m.digits, m.crossing if m.says("crossing") else None)

    def naked(self, m: Matter) -> str:
        t = _Tongue(m)
        cells, place, near = self.seats(t)
        digits, size, count = t.plain(m.digits), m.name.split()[1], NUMBERS[m.count]
        order = "one way or the other" if m.count == 2 else "in some order"
        every = "both" if m.count == 2 else "all"
        if m.says("name"):
            clause = m.pick(
                f"{place}{cells} are a naked {size} of {digits}",
                f"{place}there's a naked {size} in {cells}: {digits}",
                f"{place}{digits} make a naked {size} in {cells}",
                f"look at {cells}. That's a naked {size}, {digits}"
                if not place
                else f"{place}{cells} make a naked {size}, {digits}",
                f"{place}we've got a naked {size} on {digits}, in {cells}",
                f"{place}{cells} share {digits} and nothing more, which makes them a naked {size}",
                f"naked {size}: {digits}, {place}{cells}",
            )
        else:
            clause = m.pick(
                f"{place}{cells} hold only {digits}",
                f"{place}{digits} use up {cells}",
                f"{place}{cells} have nothing but {digits} between them",
                f"{place}there's only {digits} to go round in {cells}",
                f"{place}{cells} have to be {digits}, {order}",
                f"look at {cells}. All they've got is {digits}"
                if not place
                else f"{place}look at {cells}. All they've got is {digits}",
                f"{place}{cells} are {every} down to {digits}. {count.capitalize()} cells, {count} digits",
                f"{place}{cells} can't be anything but {digits}"
                + (". One's one of them, the other one's the other" if m.count == 2 and m.often(0.3) else ""),
            )
        return self.argue(
            t, clause, "the rest of the " + " and the ".join(KINDS[kind] for kind in m.plan.kinds), m.digits, near
        )

    def hidden(self, m: Matter) -> str:
        t = _Tongue(m)
        cells, place, near = self.seats(t)
        digits, size, count = t.plain(m.digits), m.name.split()[1], NUMBERS[m.count]
        if m.says("name"):
            clause = m.pick(
                f"{place}{digits} are a hidden {size} in {cells}",
                f"{place}there's a hidden {size} in {cells}: {digits}",
                f"{place}{cells} hide a {size}, {digits}",
                f"{place}{digits} hide in {cells}. Hidden {size}",
                f"{place}we've got a hidden {size} of {digits}, in {cells}",
                f"hidden {size}: {digits}, {place}{cells}",
            )
        else:
            clause = m.pick(
                f"{place}{digits} only fit in {cells}",
                f"{place}there are just {count} cells for {digits}: {cells}",
                f"{place}where can {digits} go? Only {cells}",
                f"{place}nothing but {cells} can take {t.either(m.digits)}",
                f"{place}{digits} have to share {cells}",
                f"{place}{cells} are the only {count} that'll take {digits}",
                f"{place}you can't put {t.either(m.digits)} anywhere except {cells}",
            )
        return self.argue(t, clause, "", m.digits, near)

    def seats(self, t: _Tongue) -> tuple[str, str, House | None]:
        """The cells of a pair, triple or quad; what stands before them of their house; and the house, if it is said."""
        m = t.m
        if not m.says("house"):
            return t.cells(m.cells), "", None
        return t.inside(m.cells, m.house, "the", "cell"), f"in {t.where()}, ", m.house

    def fish(self, m: Matter) -> str:
        t = _Tongue(m)
        base, cover, many = t.houses(m.houses), t.houses(m.cover), t.many(m.digits[0])
        name, d, cross = m.name.replace("x-wing", "X-wing"), t.d(m.digits[0]), f"{KINDS[m.cover[0].kind]}s"
        both = "both" if len(m.houses) == 2 else "all"
        rest = f"the rest of those {NUMBERS[len(m.cover)]} {cross}"
        if m.plan.corners:
            corners, line = t.cells(_corners(m)), KINDS[m.houses[0].kind]
            clause = m.pick(
                f"there's an X-wing of {many} by {line}s. Its corners are {corners}",
                f"{corners} are the four corners of an X-wing on {d}, {line} by {line}",
                f"take {corners}. That's an X-wing on {d}, one {line} and then the other",
            )
        elif not m.says("name"):
            clause = m.pick(
                f"{base} {both} keep their {many} in {cover}",
                f"in {base}, {d} only fits in {cover}",
                f"look at {base}. Their {many} are all in {cover}",
                f"the {many} of {base} use up {cover}",
                f"{base} have no {d} outside {cover}",
                f"where do {base} put their {many}? Only in {cover}",
                f"{cover} have to hand their {many} to {base}, which have nowhere else for them",
            )
        elif not m.says("cover"):
            clause = m.pick(
                f"{base} make {an(name)} on {d}",
                f"there's {an(name)} of {many} in {base}",
                f"look at the {many} in {base}. That's {an(name)}",
            )
        else:
            clause = m.pick(
                f"there's {an(name)} of {many} in {base}, across {cover}",
                f"{base} make {an(name)} on {d} with {cover}",
                f"look at the {many} in {base}. They're all in {cover}, and that's {an(name)}",
                f"{name} on {d}: {base} against {cover}",
                f"the {many} of {base} line up in {cover}. That's {an(name)}",
                f"we've got {an(name)}. {opened(base)} only have {many} in {cover}",
                f"{base} and {cover} cross in {an(name)} of {many}, which {base} can't leave",
            )
        return self.argue(t, clause, rest, m.digits, None)

    def finned(self, m: Matter) -> str:
        t = _Tongue(m)
        base, cover, many, d = t.houses(m.houses), t.houses(m.cover), t.many(m.digits[0]), t.d(m.digits[0])
        name = m.name.replace("x-wing", "X-wing")
        fish, fins, cross = name.removeprefix("finned "), t.cells(m.fins), f"{KINDS[m.cover[0].kind]}s"
        one = len(m.fins) == 1
        fin, are = ("fin", "is") if one else ("fins", "are")
        clause = m.pick(
            f"there's a {name} of {many} in {base}, across {cover}, with {fins} for {'a ' if one else ''}{fin}",
            f"{base} make a {name} on {d} with {cover}. The {fin} {are} {fins}",
            f"look at the {many} in {base}. They'd be {an(fish)} in {cover} if it weren't for the {fin}, {fins}",
            f"{name} on {d}: {base} against {cover}, and the {fin} {are} {fins}",
            f"{base} keep their {many} in {cover}, except for {fins}. That's a {name}, and {'that one is' if one else 'those are'} the {fin}",
            f"either {base} make {an(fish)} of {many} with {cover}, or the {d} is in {'the fin' if one else 'a fin'}, {fins}",
            f"we've got a {name}. It's {d}, in {base}, over {cover}. {opened(fins)} {are} the {fin}",
        )
        rest = m.pick(
            f"anything {'the fin sees' if one else 'all the fins see'} in those {cross}",
            f"any cell of those {cross} that sees {'the fin' if one else 'all the fins'}",
        )
        return self.argue(t, clause, rest, m.digits, None)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        t = _Tongue(m)
        pivot, first, second = t.path([m.pivot, *m.cells]) if m.often(0.4) else map(t.cell, (m.pivot, *m.cells))
        wings = t.cells(m.cells)
        one, other, both = map(t.d, m.plan.shared)
        a = t.a(m.plan.shared[2])
        if m.says("name"):
            clause = m.pick(
                f"there's an XY-wing. Pivot, {t.cell(m.pivot)}; wings, {wings}",
                f"{t.cell(m.pivot)} is the pivot of an XY-wing, and its wings are {wings}",
                f"look at {t.cell(m.pivot)}. It's a pivot, and {wings} are its wings. XY-wing on {both}",
                f"{wings} are the wings of an XY-wing that turns on {t.cell(m.pivot)}",
                f"XY-wing: {t.cell(m.pivot)} in the middle, {wings} at the tips. One of the tips is {a}",
                f"we've got an XY-wing: {t.cell(m.pivot)} with {wings}. Whatever the pivot is, one of the wings is {both}",
            )
        else:
            clause = m.pick(
                f"if {pivot} is {one}, {first} is {both}. If it's {other}, {second} is {both}",
                f"take {pivot}. Say it's {one}: {first} is {both}. Say it's {other}: {second} is {both} instead",
                f"{pivot} is {one} or {other}. With {one}, {first} is {a}. With {other}, {second} is {a}",
                f"whether {pivot} is {one} or {other}, there's {a} in {first} or else in {second}",
                f"start at {pivot}. Is it {one}? Then {first} is {both}. Is it {other}? Then {second} is",
                f"{pivot} can't be both {one} and {other}: as {one} it makes {first} {a}, as {other} it makes {second} {a}",
            )
        wings_seen = m.pick("any cell that sees both wings", "anything that both wings see")
        return self.argue(t, clause, wings_seen, [m.plan.shared[2]], None)

    def xy_chain(self, m: Matter) -> str:
        t = _Tongue(m)
        cells, digits = t.path(m.cells), [*map(t.d, m.digits)]
        end, a = digits[0], t.a(m.digits[0])
        pairs = [f"{cell} is {low} or {high}" for cell, low, high in zip(cells, digits, digits[1:], strict=False)]
        turns = [f"{cell} is {digit}" for cell, digit in zip(cells[1:], digits[2:], strict=False)]
        if m.says("name"):
            clause = m.pick(
                f"here's an XY-chain on {end}. {opened('; '.join(pairs))}",
                f"follow the XY-chain. If {cells[0]} isn't {end}, it's {digits[1]}; then {', then '.join(turns)}",
                f"XY-chain: {'; '.join(pairs)}. So one end or the other is {a}",
                f"there's an XY-chain from {cells[0]}. Not {end} there means {digits[1]}, so {', so '.join(turns)}",
                f"an XY-chain starts with {end} in {pairs[0].replace(' is ', ', which is ')}. {opened('. '.join(map(opened, pairs[1:])))}",
                f"we've got an XY-chain here. {'. '.join(map(opened, pairs))}",
            )
        else:
            clause = m.pick(
                f"if {cells[0]} isn't {end}, it's {digits[1]}. Then {listed(turns)}. Either way one of the two ends is {a}",
                f"start at {cells[0]}. Suppose it's not {end}. It's {digits[1]}, then, and {', so '.join(turns)}",
                f"{cells[0]} is {end}, or it's {digits[1]}. If it's {digits[1]}, {', and so '.join(turns)}",
                f"say {cells[0]} isn't {a}. That makes it {digits[1]}. {'. '.join(f'So {turn}' for turn in turns)}",
                f"without {end}, {cells[0]} is {digits[1]}; {'; '.join(turns)}. So it's {end} at one end or at the other one",
                f"if it's not {end} in {cells[0]}, it's {digits[1]}, which means {', which means '.join(turns)}",
            )
        return self.argue(t, clause, m.pick("any cell that sees both ends", "anything that sees both ends"), m.digits[:1], None)

    def x_chain(self, m: Matter) -> str:
        t = _Tongue(m)
        cells, d, a = t.path(m.cells), t.d(m.digits[0]), t.a(m.digits[0])
        many, kinds = t.many(m.digits[0]), [KINDS[way] for way in m.plan.ways]
        pairs = [*zip(cells[::2], cells[1::2], kinds, strict=True)]
        if m.says("name"):
            clause = m.pick(
                f"there's an X-chain on {d}: {'; '.join(cells)}",
                f"follow the {many} along an X-chain. {'. '.join(map(opened, cells))}",
                f"X-chain of {many}. Start at {cells[0]}, then {', then '.join(cells[1:])}",
                f"{cells[0]} starts an X-chain of {many}. It goes on to {', to '.join(cells[1:-1])}, and it ends at {cells[-1]}",
                f"we've got an X-chain on {d}. If it's not in {cells[0]}, it's in {cells[1]}"
                + "".join(f", so not in {off} but in {on}" for off, on in zip(cells[2::2], cells[3::2], strict=True)),
                f"look at the {many}. X-chain: {'; '.join(f'{one} or {other}' for one, other, _ in pairs)}",
            )
        else:
            strong = [f"the {d} of one {kind} is in {one} or {other}" for one, other, kind in pairs]
            clause = m.pick(
                f"{'; '.join(strong)}. So it's {d} at one end or the other",
                f"say {cells[0]} isn't {a}. Then {cells[1]} is, for the {kinds[0]}"
                + "".join(f". So {off} isn't, and {on} is, for the {way}" for off, on, way in pairs[1:]),
                f"if {cells[0]} isn't {d}, {cells[1]} is"
                + "".join(f"; then {off} isn't, so {on} is" for off, on, _ in pairs[1:]),
                f"start at {cells[0]}. It's {d}, or {cells[1]} is"
                + "".join(f". In that case {off} isn't {d}, so {on} is" for off, on, _ in pairs[1:]),
                f"in their {kinds[0]}, {cells[0]} or {cells[1]} is {d}"
                + "".join(f"; in theirs, the {way}, {off} or {on} is" for off, on, way in pairs[1:])
                + f". One of the two ends is {a}",
                f"without the {d} in {cells[0]}, its {kinds[0]} puts it in {cells[1]}"
                + "".join(f". That bars it from {off}, and the {way} puts it in {on}" for off, on, way in pairs[1:]),
            )
        return self.argue(t, clause, m.pick("any cell that sees both ends", "anything that sees both ends"), m.digits[:1], None)

    def chain(self, m: Matter) -> str:
        t = _Tongue(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        start, *turns = self.turns(t)
        d = t.d(digit)
        if m.often(0.5):
            clause = m.pick("suppose ", "say ", "let's say ", "imagine ") + start
            clause += m.pick(". Then ", ". So ") + m.pick(". Then ", ". So ", ", so ", ", and ").join(turns)
        else:
            clause = f"if {start}, " + m.pick(", so ", ", then ", "; then ", ", and so ", ". So ").join(turns)
        if (first, digit) == (last, end) and supposed != holds:
            clause += m.pick(
                ". That's a contradiction", ". That can't be", ", which is absurd", ", and we've tripped over ourselves"
            )
            if m.plan.natural:
                isnt = "isn't" if supposed else "is"
                return opened(clause) + m.pick(
                    f". So {t.cell(first)} {isnt} {d}.",
                    f". So the cell we began with {isnt} {t.a(digit)}.",
                    f". {'Strike' if supposed else 'Write'} the {d} {'from' if supposed else 'in'} {t.cell(first)}.",
                )
        return self.argue(t, clause, m.pick("any cell that sees both ends", "anything that sees both ends"), [digit], None)

    def turns(self, t: _Tongue) -> list[str]:
        """The links one by one: ``it`` is the cell of the link before, and its digit may go without saying."""
        said: list[str] = []
        names = t.path([cell for cell, _, _ in t.m.links], t.m.often(0.5))
        before: tuple[int, int] | None = None
        for name, (cell, holds, digit) in zip(names, t.m.links, strict=True):
            who = "it" if before and before[0] == cell else name
            if who == "it" and holds:
                said.append(f"it's {t.d(digit)}")
                before = cell, digit
                continue
            verb = "is" if holds else t.m.pick("isn't", "can't be" if said else "isn't")
            clipped = before is not None and before[1] == digit and before[0] != cell and verb != "can't be" and t.m.often(0.3)
            said.append(f"{who} {verb}" if clipped else f"{who} {verb} {t.d(digit)}")
            before = cell, digit
        return said

    def facts(self, m: Matter) -> str:
        t = _Tongue(m)
        said = [t.cell(what) if isinstance(what, int) else self.cited(t, *what) for what in m.cited]
        words = listed(said) if not any("," in what for what in said) else "; ".join(said)
        one = len(said) == 1
        if m.often(0.2):
            return opened(f"{self.effects(t, 'be')}. You'll see it from {words}.")
        tail = self.effects(t, m.pick("do", "be"))
        return opened(
            m.pick(
                f"look at {words}. {'There' if one else 'Together'} we get this: {tail}.",
                f"stare at {words}. {opened(tail)}." if one else f"put {words} side by side. {opened(tail)}.",
                f"we need {'just this' if one else 'these'}: {words}. Then {tail}.",
                f"count the ways with {words}. Every time, it's the same: {tail}.",
                f"start from {words}. It follows: {tail}.",
                f"what can we get from {words}? {opened(tail)}.",
                f"all it takes is {words}. {opened(tail)}.",
            )
        )

    def cited(self, t: _Tongue, digit: int, house: House) -> str:
        return t.m.pick(f"{t.house(house)}'s {t.many(digit)}", f"the {t.d(digit)} of {t.house(house)}")

    def bare(self, m: Matter) -> str:
        t = _Tongue(m)
        head = m.pick("", "", "next, ", "also, ", "now ", "while we're here, ", "take my word for it: ", "quick one: ")
        return opened(head + self.effects(t, m.pick("do", "be"))) + "."

    # Reason and effects.

    def argue(self, t: _Tongue, clause: str, rest: str, digits: Sequence[int], near: House | None) -> str:
        """The pattern and its effects. ``rest``: whence its digits go if that is only hinted at; ``near``: the house just named."""
        m = t.m
        simple = not any(mark in clause for mark in (". ", ":", "?", ";"))
        if simple and not m.plan.natural and len(m.effects) < 3 and m.often(0.25):
            tail = self.effects(t, m.pick("do", "be"))
            glue = m.pick(", because {}.", ", since {}.", ". Here's why: {}.", ". Why? {}.", ". After all, {}.")
            return opened(tail) + glue.format(opened(clause) if glue.startswith(". Why?") else clause)
        mood: Mood = "do" if m.often(0.5) else "be"
        again = () if m.cover or m.links or m.pivot is not None else digits
        tail = self.hint(t, mood, rest, digits) if m.plan.natural else self.effects(t, mood, again, near)
        shapes = [f"{clause}. {opened(tail)}.", f"{clause}. So {tail}.", f"{clause}. Result: {tail}."]
        if "?" not in clause and "so " not in clause:
            shapes += [f"{clause}, so {tail}.", f"{clause}, so {tail}.", f"{clause}; {tail}."]
        if mood == "be":
            shapes += [f"{clause}. That means {tail}.", f"{clause}. You know what that does: {tail}."]
        if simple and not clause.startswith(("naked", "hidden", "if ", "either ")):
            shapes.append(f"since {clause}, {tail}.")
        return opened(m.pick(*shapes))

    def hint(self, t: _Tongue, mood: Mood, rest: str, digits: Sequence[int]) -> str:
        """Every removal of the pattern at once."""
        m = t.m
        if m.name.startswith("hidden"):
            those = "both of them" if m.count == 2 else f"all {NUMBERS[m.count]} of them"
            if mood == "do":
                return m.pick(
                    f"strike everything else from {those}", f"clear the other digits out of those {NUMBERS[m.count]} cells"
                )
            return m.pick(
                f"nothing else fits in {those.replace('both', 'either').replace('all', 'any')}",
                f"{those} lose everything else",
                "their other candidates are gone",
            )
        what = m.pick(t.the(digits), "those digits" if len(digits) > 1 else "it" if m.crossing else t.the(digits))
        if mood == "do":
            return m.pick(f"strike {what} from {rest}", f"cross {what} out of {rest}", f"take {what} out of {rest}")
        what = t.the(digits)
        is_, comes = ("is", "comes") if len(digits) == 1 else ("are", "come")
        return m.pick(
            f"{what} {is_} gone from {rest}", f"{what} {comes} out of {rest}", f"there's no {t.plain(digits, 'or')} in {rest}"
        )

    def effects(self, t: _Tongue, mood: str, again: Sequence[int] = (), near: House | None = None) -> str:
        """Every effect. ``again``: digits just named; ``near``: the house just named."""
        said = []
        for at, effect in enumerate(t.m.effects):
            said.append(self.effect(t, mood, effect, () if at else again, None if at else near))
        if len(said) == 1:
            return said[0]
        if len(said) == 2:
            return t.m.pick(" and ", "; ", ", and ").join(said)
        return t.m.pick(
            "; ".join(said), said[0] + ". " + ". ".join(map(opened, said[1:])), ", ".join(said[:-1]) + ", and " + said[-1]
        )

    def effect(self, t: _Tongue, mood: str, effect: Put | Strike | Clear, again: Sequence[int], near: House | None) -> str:
        if isinstance(effect, Put):
            return self.put(t, mood, effect)
        same = len(again) < 3 and set(again) == {*effect.digits} and t.m.often(0.3)
        what = ("it" if len(again) == 1 else "both of them") if same else t.the(effect.digits)
        if isinstance(effect, Clear):
            return self.clear(t, mood, effect, what, near)
        return self.strike(t, mood, effect, what, near)

    def put(self, t: _Tongue, mood: str, put: Put) -> str:
        cell, d, a = t.cell(put.cell), t.d(put.digit), t.a(put.digit)
        if mood == "do":
            return t.m.pick(f"put {a} in {cell}", f"write {d} in {cell}", f"fill {cell} with {a}")
        return t.m.pick(f"{cell} is {a}", f"{a} goes in {cell}", f"{cell} has to be {d}", f"{cell} gets the {d}")

    def clear(self, t: _Tongue, mood: str, clear: Clear, what: str, near: House | None) -> str:
        house = f"that {KINDS[clear.house.kind]}" if near == clear.house and t.m.often(0.4) else t.house(clear.house)
        digits = clear.digits
        if mood == "do":
            return t.m.pick(
                f"strike {what} from the rest of {house}",
                f"cross out {what} everywhere else in {house}",
                f"take {what} out of the rest of {house}",
            )
        either, several = t.either(digits), len(digits) > 1
        return t.m.pick(
            f"no other cell of {house} can be {either}",
            f"the rest of {house} loses {t.the(digits)}",
            f"{t.the(digits)} {'are' if several else 'is'} gone from the rest of {house}",
            f"nothing else in {house} can be {either}",
        )

    def strike(self, t: _Tongue, mood: str, strike: Strike, what: str, near: House | None) -> str:
        m, several = t.m, len(strike.cells) > 1
        cells = t.inside(strike.cells, near, "the") if near and m.often(0.4) else t.cells(strike.cells)
        if mood == "do":
            return m.pick(
                f"strike {what} from {cells}",
                f"cross {what} out of {cells}",
                f"cross out {what} in {cells}",
                f"take {what} out of {cells}",
                f"drop {what} from {cells}",
            )
        either, the, s = t.either(strike.digits), t.the(strike.digits), "" if several else "s"
        is_, comes = ("is", "comes") if len(strike.digits) == 1 else ("are", "come")
        both = " both" if len(strike.cells) == 2 and m.often(0.4) else ""
        left = self.left(t, strike)
        return m.pick(
            f"{cells} can't be {either}",
            f"{cells}{both} lose{s} {the}{left}",
            f"{the} {comes} out of {cells}{left}",
            f"{the} {is_} gone from {cells}",
            f"there's no {t.plain(strike.digits, 'or')} in {cells}",
            f"{cells} {'can' if several else 'isn'}'t {'take ' if several else ''}{either}",
            f"we can forget {the} in {cells}",
            f"{either} won't fit in {cells}",
        )

    def left(self, t: _Tongue, strike: Strike) -> str:
        """At times, what a cell is left with; never a single digit, which would be one claim more."""
        if len(t.m.effects) > 1 or len(strike.cells) > 1 or not t.m.often(0.4):
            return ""
        candidates = {*t.m.board.digits[strike.cells[0]]}
        left = sorted(candidates - {*strike.digits})
        return f", which leaves only {t.plain(left)}" if {*strike.digits} <= candidates and len(left) > 1 else ""

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Evening, all. Lamp's lit, pews are counted. Let's go.",
                    "Hello from the Lamp Room. Rows count down from the top, columns from the left, boxes the way you read. Ready?",
                    "Right, here's tonight's grid. It's a good one. Pencils up.",
                    "Welcome back. I've got a puzzle, a flask and an hour till high water.",
                )
            ),
            opens=True,
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.13:
            yield Piece(
                rng.choice(
                    (
                        "That's two in a row.",
                        "Nice and quick.",
                        "Don't stop now.",
                        "First things first.",
                        "Let's have a second look.",
                        "Third time lucky.",
                        "Keep up at the back.",
                        "Okay, what's next?",
                        "I'd missed that the first time round.",
                        "Sip of tea. Right.",
                        "The fog's at the ninth buoy already.",
                        "You're doing fine.",
                        "Told you it'd open up.",
                        "Seventh wave's always the big one. Moving on.",
                    )
                ),
                opens=rng.random() < 0.3,
            )

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.4

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        t = _Tongue(m)
        return opened(m.pick(f"so that's the {t.d(m.put.digit)} seated.", f"{t.cell(m.put.cell)}, {t.d(m.put.digit)}. Got it."))

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "And that's the lot. Good night.",
                    "Every pew's taken. Good night, keepers.",
                    "Done! Same lamp, same time next week.",
                )
            ),
            opens=True,
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        if rng.random() < 0.6:
            cut = Captioned(
                True, rng.choice((32, 38, 42)), rng.choice((1, 2, 2)), rng.choice((0.2, 0.6)), 2.9, "", rng.random() < 0.4
            )
            return "vtt", captions(pieces, cut, rng)

        def heads() -> Iterator[str]:
            clock = rng.randint(0, 5)
            while True:
                yield f"[{clock // 60:02}:{clock % 60:02}] "
                clock += rng.randint(6, 45)

        head = rng.choice(("", f"# The Lamp Room, grid {walk.seed}", "# Evening count"))
        return "narration", prose(pieces, rng.choice((None, 80)), heads(), head)


def _row(cell: int) -> int:
    return cell // 9 + 1


def _column(cell: int) -> int:
    return cell % 9 + 1


def _in(cell: int, line: House) -> bool:
    return (_row(cell) if line.kind == "r" else _column(cell)) == line.number


def _corners(m: Matter) -> list[int]:
    lines = {*m.houses, *m.cover}
    return [cell for cell in range(81) if {House("r", _row(cell)), House("c", _column(cell))} <= lines]
