"""For development: an old parson. Prose in which cells and houses are counted off, and no numeral is ever written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS, listed, opened
from .layout import Laid, Piece, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

PET_STYLES: tuple[tuple[int, ...], ...] = ((0, 0, 1, 3), (2, 2, 1, 4), (0, 5, 3, 2), (1, 1, 0, 4), (0, 2, 6, 7))
"""Ways of naming a cell that one narration keeps coming back to."""

PLAIN_STYLES = (0, 0, 0, 1, 2, 2, 2, 3, 6)
"""Those for where many cells are named in a row."""


class Parson(Narrator):
    """Writes to the keepers from the parsonage, in whole sentences."""

    name = "parson"
    leaves: ClassVar = {
        "single house": 0.05,
        "its": 0.2,
        "naked house": 0.4,
        "hidden house": 0.08,
        "cover": 0.12,
        "crossing": 0.12,
        "name": 0.5,
        "effects": 0.6,
        "back": 0.5,
        "corners": 0.25,
        "recap": 0.04,
    }

    # Names of cells, houses and digits.

    def style(self, m: Matter) -> int:
        """A way of naming a cell: more often than not a pet one of this narration."""
        pets = PET_STYLES[m.manner % len(PET_STYLES)]
        styles: list[int] = [*pets, *range(8)]
        return m.rng.choice(styles)

    def cell(self, m: Matter, cell: int, style: int | None = None) -> str:
        row, column = self.line(m, "r", cell // 9 + 1), self.line(m, "c", cell % 9 + 1)
        across, down = ORDINALS[cell % 9 + 1], ORDINALS[cell // 9 + 1]
        return (
            f"the {across} cell of {row}",
            f"the cell in {row} and {column.removeprefix('the ')}",
            f"the {down} cell of {column}",
            f"the cell where {column} meets {row}",
            f"the {across} cell in {row}",
            f"the {down} cell down {column}",
            f"the cell at the crossing of {row} and {column}",
            f"the {across} cell along {row}",
        )[self.style(m) if style is None else style]

    def line(self, m: Matter, kind: str, number: int) -> str:
        """A house by its number, the outermost ones now and then by where they lie."""
        chance = m.rng.random()
        outer = {("r", 1): "top", ("r", 9): "bottom" if chance < 0.1 else "last", ("c", 9): "last", ("b", 9): "last"}
        usual = ORDINALS[number]
        return f"the {outer.get((kind, number), usual) if chance < 0.2 else usual} {KINDS[kind]}"

    def house(self, m: Matter, house: House) -> str:
        return self.line(m, house.kind, house.number)

    def houses(self, m: Matter, houses: Sequence[House]) -> str:
        """``the second and fifth rows`` or ``the second row and the fifth``."""
        kind, order = KINDS[houses[0].kind], [ORDINALS[house.number] for house in houses]
        if m.often(0.75):
            return f"the {listed(order)} {kind}s"
        return listed([f"the {order[0]} {kind}", *(f"the {number}" for number in order[1:])])

    def where(self, m: Matter) -> str:
        if m.plan.back:
            return f"{m.pick('the same', 'that same', 'this very')} {KINDS[m.house.kind]}"
        return self.house(m, m.house)

    def here(self, m: Matter, cell: int) -> str:
        """A cell of the house just spoken of, counted within it if that is a row or a column."""
        within = {"r": cell % 9 + 1, "c": cell // 9 + 1}.get(m.house.kind)
        full, short = self.cell(m, cell), m.often(0.85)
        lies = within is not None and m.house.number == (cell // 9 if m.house.kind == "r" else cell % 9) + 1
        return f"the {ORDINALS[within]} cell" if within is not None and lies and short else full

    def cells(self, m: Matter, cells: Sequence[int], last: str = "and") -> str:
        """Cells of one line are counted off together; of several lines, line by line."""
        if len(cells) == 1:
            return self.cell(m, cells[0])
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        by_row = len(rows) < len(columns) or (len(rows) == len(columns) and m.manner % 2 == 0)
        kind, lines = ("r", rows) if by_row else ("c", columns)
        groups = []
        for line in sorted(lines):
            places = sorted(cell % 9 if by_row else cell // 9 for cell in cells if (cell // 9 if by_row else cell % 9) == line)
            noun = "cells" if len(places) > 1 and last == "and" else "cell"
            groups.append(f"the {listed([ORDINALS[at + 1] for at in places], last)} {noun} of {self.line(m, kind, line + 1)}")
        if len(groups) < 3 and len(groups) == len(cells):
            return listed(groups, last)
        return listed(groups, last, comma=True) if len(groups) != 2 else f"{groups[0]}, {last} {groups[1]}"

    def within(self, m: Matter, place: str, last: str = "and") -> str:
        """The cells of a pattern; where ``place`` tells the line they are in, they are only counted off."""
        full = self.cells(m, m.cells, last)
        at = {"r": (0, 1), "c": (1, 0)}.get(m.house.kind)
        if not place or at is None or {divmod(cell, 9)[at[0]] + 1 for cell in m.cells} != {m.house.number}:
            return full
        order = [ORDINALS[divmod(cell, 9)[at[1]] + 1] for cell in sorted(m.cells)]
        return f"the {listed(order, last)} cell{'s' if last == 'and' else ''}"

    def some(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([NUMBERS[digit] for digit in digits], last)

    def each(self, digits: Sequence[int], last: str = "or") -> str:
        return listed([a(digit) for digit in digits], last)

    def many(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([PLURALS[digit] for digit in digits], last)

    # Cells that are filled in.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, word, one = self.cell(m, put.cell), f"the {NUMBERS[put.digit]}", a(put.digit)
        return opened(
            m.pick(
                f"{cell} can be nothing but {one}.",
                f"only {one} remains to {cell}.",
                f"consider {cell}. Its neighbours have taken everything from it save {one}, and so {one} it must be.",
                f"we write {one} in {cell}, which has no other candidate.",
                f"all the digits have been barred from {cell}, {word} excepted. This cell, then, is settled.",
                f"whatever else one tries in {cell}, some neighbour forbids it; this cell is {one}.",
                f"what may stand in {cell}? Nothing except {one}.",
                f"{cell} has come down to a single candidate, and that is {one}.",
                f"a naked single greets us in {cell}: it is {one}.",
                f"there is a solitary digit left for {cell}, namely {word}.",
                f"{cell} has neighbours of every kind except {one}, and so the matter is settled.",
                f"all that was ever possible in {cell} has fallen away, and {one} is what stays.",
                f"one may now put {one} in {cell}, for it will take nothing else.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, word, one, many = self.cell(m, put.cell), NUMBERS[put.digit], a(put.digit), PLURALS[put.digit]
        if not m.says("house"):
            return opened(
                m.pick(
                    f"a hidden single puts {one} in {cell}.",
                    f"{cell} is {one}, by a hidden single.",
                    f"there is a hidden single to be had in {cell}, and it is {one}.",
                )
            )
        if not m.says("its"):
            return self.its_single(m, cell, put.digit)
        where, here = self.where(m), self.here(m, put.cell)
        return opened(
            m.pick(
                f"in {where} the {word} can go only in {here}.",
                f"{where} wants {one}, and {here} alone will take it.",
                f"{cell} is {one}, for that digit fits no other cell of {where}.",
                f"where is the {word} of {where} to go? Only {here} will have it.",
                f"{where} has one place, and no more, for its {word}, and that is {here}.",
                f"we look for the {word} of {where}, and find that it must be in {here}.",
                f"a hidden single in {where} gives {one} to {here}.",
                f"{many} have been driven from every cell of {where} save {here}, which must therefore be {one}.",
                f"put {one} in {here}, since {where} has nowhere else for it.",
                f"of all the cells of {where}, {here} is the only one that may yet be {one}, and so it is.",
                f"the {word} in {where} is no longer in doubt: it belongs to {here}.",
                f"try {one} anywhere else in {where} and you will be refused; it goes in {here}.",
                f"{where} has still to find its {word}. {opened(here)} is the one cell left for it.",
            )
        )

    def its_single(self, m: Matter, cell: str, digit: int) -> str:
        word, one, kind = NUMBERS[digit], a(digit), KINDS[m.house.kind]
        return opened(
            m.pick(
                f"{cell} is the only one of its {kind} that can be {one}.",
                f"{cell} must be {one}, because its {kind} has no other room for the {word}.",
                f"look at {cell}: nowhere else in its {kind} can the {word} be placed.",
                f"no other cell in its {kind} will accept {one}, and so {cell} does.",
                f"{one} goes in {cell}, there being no other place for it in that {kind}.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, word, one = self.cell(m, put.cell), NUMBERS[put.digit], a(put.digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return opened(
                m.pick(
                    f"{cell} is the last to be filled in its {kind}, and it is {one}.",
                    f"its {kind} being otherwise full, {cell} is {one}.",
                    f"put {one} in {cell}; everything else in its {kind} is written already.",
                )
            )
        where, here = self.where(m), self.here(m, put.cell)
        return opened(
            m.pick(
                f"{where} lacks nothing now but {one}, which we write in {here}.",
                f"one empty cell remains in {where}, and it is {here}. It takes the {word}.",
                f"with {one} in {here}, {where} is complete.",
                f"{where} is full except for {here}, and the digit not yet used is the {word}.",
                f"{cell} closes {where}: the {word} was all that it lacked.",
                f"eight of the cells of {where} are filled. The one left over, {here}, must be {one}.",
                f"only {here} is still empty in {where}, so that it has to be {one}.",
                f"which digit has {where} not had? The {word}, and it goes in {here}.",
                f"finish {where} by writing {one} in {here}.",
                f"{cell} is {one}, being the last gap in {where}.",
                f"there is nothing left to do in {where} but to put {one} in {here}.",
            )
        )

    # Patterns that take candidates away.

    def locked(self, m: Matter) -> str:
        digit, where = m.digits[0], self.where(m)
        word, one, many = NUMBERS[digit], a(digit), PLURALS[digit]
        assert m.crossing is not None
        kind, line = KINDS[m.crossing.kind], self.house(m, m.crossing)
        if not m.says("crossing"):
            said = m.pick(
                f"all the places for {one} in {where} lie in one and the same {kind}",
                f"the {many} that remain in {where} share a {kind}",
                f"{where} keeps its {many} in a single {kind}",
            )
        elif m.says("name"):
            pointing = (
                f"the {many} in {where} point along {line}",
                f"{where} has a pointing set of {many} which lies along {line}",
                f"we have pointing {many} in {where}, and they look along {line}",
            )
            claiming = (
                f"{where} claims its {word} from within {line}",
                f"{where} lays claim to the {word} of {line}",
                f"we have a case of claiming, for {where} takes its {word} from {line}",
            )
            said = m.pick(*(pointing if m.name == "pointing" else claiming))
        else:
            said = m.pick(
                f"wherever the {word} of {where} may be, it is in {line}",
                f"in {where} every cell that can be {one} belongs to {line}",
                f"{where} has no room for {one} outside {line}",
                f"the {word} of {where} cannot escape {line}",
                f"{where} and {line} have cells in common, and {where} must place its {word} in one of these",
                f"{many} are found in {where} only where it crosses {line}",
                f"the {many} of {where} stand in {line}, all of them",
            )
        rest = f"the other cells of {m.pick(line, f'that {kind}') if m.says('crossing') else f'that {kind}'}"
        return self.conclude(m, said, rest)

    def naked(self, m: Matter) -> str:
        place = f" in {self.where(m)}" if m.says("house") else ""
        cells, digits = self.within(m, place), self.some(m.digits)
        size, count = m.name.split()[1], NUMBERS[m.count]
        all_of = "both of them" if m.count == 2 else f"all {count} of them"
        if m.says("name"):
            said = m.pick(
                f"{cells}{place} are a naked {size} of {digits}",
                f"there is a naked {size} of {digits}{place}, made by {cells}",
                f"{cells} form a naked {size}{place}, the digits being {digits}",
                f"a naked {size}{place}, namely {digits}, is to be seen in {cells}",
                f"we find a naked {size} of {self.many(m.digits)}{place}, in {cells}",
                f"the digits {digits} make a naked {size} of {cells}{place}",
            )
        else:
            said = m.pick(
                f"{cells}{place} can be nothing but {self.some(m.digits, 'or')}",
                f"{cells}{place} have no candidates beyond {digits}",
                f"{digits} are used up by {cells}{place}",
                f"{place.strip() + ', ' if place else ''}{cells} must divide {digits} among themselves",
                f"{count} digits, {digits}, are all that {cells}{place} can hold",
                f"{cells}{place} are held down to {digits}",
                f"{cells}{place} have the digits {digits} between them and no others",
            )
            if m.count == 2 and m.often(0.3):
                one, other = m.digits
                said += f", so that one of them is {a(one)} and the other one {a(other)}"
        kinds = " and of that ".join(KINDS[kind] for kind in m.plan.kinds)
        rest = m.pick(f"the other cells of that {kinds}", f"the remaining cells of that {kinds}", f"the cells that see {all_of}")
        return self.conclude(m, said, rest)

    def hidden(self, m: Matter) -> str:
        place = f" in {self.where(m)}" if m.says("house") else ""
        cells, digits = self.within(m, place), self.some(m.digits)
        size, count = m.name.split()[1], NUMBERS[m.count]
        if m.says("name"):
            said = m.pick(
                f"{cells}{place} conceal a hidden {size} of {digits}",
                f"there is a hidden {size} of {digits}{place}, and it lies in {cells}",
                f"{digits} are a hidden {size}{place}, to be found in {cells}",
                f"a hidden {size}{place} unites {digits} in {cells}",
                f"a hidden {size} of {self.many(m.digits)}{place} comes to light in {cells}",
                f"{cells}{place} hold the hidden {size} {digits}",
            )
        else:
            ask = self.within(m, place, "or")
            said = m.pick(
                f"{digits}{place} have no home except {cells}",
                f"the {self.many(m.digits)}{place} can stand only in {cells}",
                f"{count} digits, {digits}, have just {count} cells{place} to go to, which are {cells}",
                f"nowhere{place} but in {ask} is there room for {self.each(m.digits)}",
                f"no cell{place} apart from {cells} will take {self.each(m.digits)}",
                f"{cells}{place} are needed for {digits}, which can go nowhere else there",
                f"{place.strip() + ', ' if place else ''}{digits} all crowd into {cells}",
            )
        return self.conclude(m, said, "")

    def fish(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m, m.houses), self.houses(m, m.cover)
        word, one, many = NUMBERS[digit], a(digit), PLURALS[digit]
        cross, lines, shown = f"{KINDS[m.cover[0].kind]}s", f"{KINDS[m.houses[0].kind]}s", m.name.replace("x-", "X-")
        article, count = "an" if shown[0] == "X" else "a", NUMBERS[m.count]
        if m.plan.corners:
            corners = self.cells(m, [cell for cell in range(81) if _crossed(cell, m)])
            said = m.pick(
                f"there is an X-wing of {many} by {lines}, and its corners are {corners}",
                f"{corners} are the four corners of an X-wing on the {word}, taken by {lines}",
            )
        elif not m.says("name"):
            said = m.pick(
                f"in {base} we find {many} only in {cover}",
                f"{base} must all place their {word} in {cover}" if m.count > 2 else f"{base} must both place their {word} in {cover}",
                f"the {count} {many} of {base} fall in {cover}, one to each",
                f"none of {base} can have its {word} outside {cover}" if m.count > 2 else f"neither of {base} can have its {word} outside {cover}",
                f"{base} between them need the {many} of {cover}",
                f"whichever way {base} are filled, their {many} will take up {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(
                f"the {many} of {base} make {article} {shown}",
                f"we have {article} {shown} on the {word} in {base}",
                f"{base} hold {article} {shown} of {many}",
            )
        else:
            said = m.pick(
                f"{base} hold {article} {shown} of {many}, standing in {cover}",
                f"there is {article} {shown} on the {word}, from {base} into {cover}",
                f"the {many} of {base} form {article} {shown} with {cover}",
                f"{article} {shown} of {many} has {base} for its base and {cover} for its cover",
                f"{base} have {one} in {cover} alone, and that is {article} {shown}",
                f"{article} {shown} binds the {many} of {base} to {cover}",
            )
        named = m.says("cover") and not m.plan.corners and m.often(0.5)
        return self.conclude(m, said, f"the other cells of {cover if named else f'those {cross}'}")

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m, m.houses), self.houses(m, m.cover)
        word, many = NUMBERS[digit], PLURALS[digit]
        shown = m.name.replace("x-", "X-")
        bare, fins = shown.removeprefix("finned "), self.cells(m, m.fins)
        article = "an" if bare[0] == "X" else "a"
        fin, is_, stand = ("fin", "is", "stands") if len(m.fins) == 1 else ("fins", "are", "stand")
        said = m.pick(
            f"there is a {shown} of {many} in {base}, covered by {cover}, and the {fin} {is_} {fins}",
            f"the {many} of {base} would form {article} {bare} in {cover}, were it not for the {fin}, {fins}",
            f"{base} hold a {shown} on the {word} in {cover}, with {fins} as {fin}",
            f"{base} have their {many} in {cover} only, the {fin} apart, which {is_} {fins}; this is a {shown}",
            f"a {shown} on the {word} goes from {base} into {cover}, and its {fin} {stand} in {fins}",
            f"either the {bare} of {many} in {base} and {cover} is true, or the {word} is in the {fin}, {self.cells(m, m.fins, 'or')}",
            f"{fins} {is_} all that spoils {article} {bare} on the {word} from {base} to {cover}, and serve{'s' if len(m.fins) == 1 else ''} as its {fin}",
        )
        sees = "the fin" if len(m.fins) == 1 else "all the fins"
        return self.conclude(m, said, f"the other cells of {m.pick(cover, f'those {KINDS[m.cover[0].kind]}s')} that see {sees}")

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        style = m.rng.choice(PLAIN_STYLES)
        pivot, wings = self.cell(m, m.pivot, style), self.cells(m, m.cells)
        first, second = (self.cell(m, cell, style) for cell in m.cells)
        one, other, both = m.plan.shared
        if m.says("name"):
            said = m.pick(
                f"an XY-wing has its pivot in {pivot} and its wings in {wings}",
                f"{pivot} is the pivot of an XY-wing whose wings are {wings}",
                f"{wings} are the wings of an XY-wing which turns upon {pivot}",
                f"there is an XY-wing, with {pivot} as pivot, and {wings} as wings",
                f"{pivot}, as pivot, makes an XY-wing on the {NUMBERS[both]} with {wings}",
                f"from its pivot, {pivot}, an XY-wing spreads to {wings}",
            )
        else:
            said = m.pick(
                f"when {pivot} is {a(one)}, {first} is {a(both)}, and when it is {a(other)}, {second} is",
                f"{pivot} must be {a(one)} or {a(other)}; the former makes {first} {a(both)}, the latter does the same for {second}",
                f"whether {pivot} is {a(one)} or {a(other)}, we get {a(both)} in {first} or in {second}",
                f"{pivot} takes the {NUMBERS[one]} from {first} or else the {NUMBERS[other]} from {second}, and so one of these two is {a(both)}",
                f"{first} and {second} cannot both escape being {a(both)}, seeing that {pivot} is {a(one)} or {a(other)}",
                f"{a(one)} in {pivot} gives {a(both)} to {first}, and {a(other)} gives it to {second}",
            )
        rest = m.pick("the cells that see both wings", "the cells that see both of them")
        return self.conclude(m, said, rest if m.says("name") else "the cells that see both of these", both)

    def xy_chain(self, m: Matter) -> str:
        end, style = m.digits[0], m.rng.choice(PLAIN_STYLES)
        names = self.names(m, m.cells, style)
        first, last = self.cell(m, m.cells[0], style), self.cell(m, m.cells[-1], style)
        pairs = [self.some(pair) for pair in zip(m.digits, m.digits[1:], strict=False)]
        told = listed([f"{cell} ({pair})" for cell, pair in zip(names, pairs, strict=True)])
        turns = [f"{cell} is {a(digit)}" for cell, digit in zip(names[1:], m.digits[2:], strict=True)]
        if not m.says("name"):
            head = m.pick(
                f"suppose {first} were not {a(end)}. Then it would be {a(m.digits[1])}",
                f"if {first} is not {a(end)} it is {a(m.digits[1])}",
                f"either {first} is {a(end)}, or it is {a(m.digits[1])}; and in that case",
            )
            head = f"{head} {turns[0]}" if head.endswith("case") else f"{head}, so {turns[0]}"
            steps = m.pick("; then ", ", and so ", ", whereupon ", "; hence ").join([head, *turns[1:]])
            said = f"{steps}. {m.pick('So one or the other of', 'Either way one of')} {first} and {last} is {a(end)}"
            return self.conclude(m, said, m.pick("the cells that see both of them", "the cells that see both ends"), end, whole=True)
        walked = ", ".join(f"by {NUMBERS[digit]} to {cell}" for cell, digit in zip(names[1:], m.digits[1:], strict=False))
        said = m.pick(
            f"an XY-chain is formed by {told}, and its ends share the {NUMBERS[end]}",
            f"there is an XY-chain on the {NUMBERS[end]} from {first} to {last}, which goes through {told}",
            f"an XY-chain on the {NUMBERS[end]} sets out from {names[0]}, goes {walked}, and ends there upon {a(m.digits[-1])}",
            f"{told} make an XY-chain, so that the first or the last of them is {a(end)}",
            f"walking from {names[0]} {walked}, where {a(m.digits[-1])} is left, we complete an XY-chain on the {NUMBERS[end]}",
            f"the cells {told} are linked in an XY-chain, with {a(end)} at either end",
        )
        return self.conclude(m, said, m.pick("the cells that see both ends", "the cells seen from both ends"), end)

    def x_chain(self, m: Matter) -> str:
        digit, style = m.digits[0], m.rng.choice(PLAIN_STYLES)
        word, one, many = NUMBERS[digit], a(digit), PLURALS[digit]
        names = self.names(m, m.cells, style)
        first, last = self.cell(m, m.cells[0], style), self.cell(m, m.cells[-1], style)
        rest = m.pick("the cells that see both ends", "the cells seen from both ends")
        if not m.says("name"):
            pairs = [*zip(names[::2], names[1::2], m.plan.ways, strict=True)]
            shares = [
                m.pick(f"in the {KINDS[way]} they share, {x} or {y} is {one}", f"either {x} or {y} must be {one} in their {KINDS[way]}")
                for x, y, way in pairs
            ]
            glue = m.pick("; again, ", "; and ", ". Moreover, ", ". Likewise, ")
            said = f"{glue.join(shares)}. {m.pick('Thus', 'So')} {first} or {last} is {one}"
            if m.often(0.3):
                flips = [f"{cell} is {'' if at % 2 else 'not '}{one}" for at, cell in enumerate(names)]
                said = f"if {', then '.join(flips)}. So {m.pick('one of the two ends', 'one end or the other')} is {one}"
            return self.conclude(m, said, rest, whole=True)
        said = m.pick(
            f"an X-chain on the {word} runs through {listed(names)}",
            f"there is an X-chain of {many}: {', then '.join(names)}",
            f"the {many} of {listed(names)} are linked in an X-chain",
            f"an X-chain of {many} leads from {names[0]} by way of {listed(names[1:-1])} to {names[-1]}",
            f"{listed(names)} make a chain of {many}, and one of its ends must be {one}",
            f"we may follow the {many} in an X-chain from {names[0]} to {', thence to '.join(names[1:])}",
        )
        return self.conclude(m, said, rest)

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        style = m.rng.choice(PLAIN_STYLES)
        names = self.names(m, [cell for cell, *_ in m.links], style)
        begins = f"{names[0]} is {'' if supposed else 'not '}{a(digit)}"
        would = m.pick("is", "is", "must be")
        said = []
        for (before, *_), (cell, so, other), name in zip(m.links, m.links[1:], names[1:], strict=False):
            verb = would if so else "is not" if would == "is" else "cannot be"
            said.append(f"{'it' if cell == before else name} {verb} {a(other)}")
        glue = m.pick("; then ", ", so that ", ", and so ", "; hence ", ", which means that ", ". Then ")
        head = m.pick(
            f"suppose that {begins}. Then ", f"let us imagine that {begins}; then ", f"if {begins}, then ", f"should it be that {begins}, "
        )
        text = head + glue.join(said)
        start, final = self.cell(m, first, style), self.cell(m, last, style)
        if (first, digit) == (last, end) and holds != supposed:
            text += m.pick(", which is absurd", ", against our supposition", ". That cannot be", ". This overturns the supposition")
            if m.plan.natural:
                return opened(text) + m.pick(". So ", ". Therefore ", ". We conclude that ") + f"{start} is {'not ' if supposed else ''}{a(digit)}."
        elif digit == end and holds and not supposed and first != last:
            ends = f"{start} or {final} is {a(digit)}"
            text += m.pick(f". So {ends}", f". In either case {ends}", f". Thus {ends}")
        else:
            text += m.pick(
                f". At all events, {start} is {'not ' if supposed else ''}{a(digit)} or else {final} is {'' if holds else 'not '}{a(end)}",
                f". So either {start} is {'not ' if supposed else ''}{a(digit)} or {final} is {'' if holds else 'not '}{a(end)}",
            )
        return self.conclude(m, text, m.pick("the cells that see both of them", "the cells that see both ends"), digit, whole=True)

    def names(self, m: Matter, cells: Sequence[int], style: int) -> list[str]:
        """Cells one after another; a line that goes on is not named again every time."""
        said = [self.cell(m, cells[0], style)]
        for before, cell in pairwise(cells):
            full, same = self.cell(m, cell, style), m.often(0.5)
            if before == cell or not same:
                said.append(full)
            elif style in (0, 4, 7) and before // 9 == cell // 9:
                said.append(f"the {ORDINALS[cell % 9 + 1]} cell of the same row")
            elif style in (2, 5) and before % 9 == cell % 9:
                said.append(f"the {ORDINALS[cell // 9 + 1]} cell of the same column")
            else:
                said.append(full)
        return said

    def facts(self, m: Matter) -> str:
        style = self.style(m)
        words = listed(
            [
                f"the candidates of {self.cell(m, what, style)}" if isinstance(what, int) else f"the places for {a(what[0])} in {self.house(m, what[1])}"
                for what in m.cited
            ],
            comma=True,
        )
        eff = self.effects(m)
        one, let = len(m.cited) == 1, m.pick("look at", "weigh", "consider")
        return opened(
            m.pick(
                f"one need only {let} {words} to see that {eff}.",
                f"from {words} it follows that {eff}.",
                f"{let} {words}{'' if one else ' together'}. You will agree that {eff}.",
                f"{words} show that {eff}.",
                f"it is enough to {let} {words}: {eff}.",
                f"{eff}; to see this, {let} {words}.",
                f"{let} {words}, and then {self.commands(m)}.",
            )
        )

    def bare(self, m: Matter) -> str:
        eff, cmd = self.effects(m), self.commands(m)
        return opened(
            m.pick(
                f"{eff}.",
                f"{cmd}.",
                f"I shall only say that {eff}.",
                f"without a word of explanation, {eff}.",
                f"now we {cmd}.",
                f"you will find for yourselves that {eff}.",
                f"the next thing is that {eff}.",
            )
        )

    # What follows from a pattern.

    def conclude(self, m: Matter, said: str, where: str, digit: int | None = None, whole: bool = False) -> str:
        """The pattern and its effects, in either order. ``whole``: the pattern takes several sentences."""
        natural = m.plan.natural
        eff = self.hint(m, where, digit) if natural else self.effects(m)
        cmd = self.hinted_command(m, where, digit) if natural else self.commands(m)
        ways = [
            f"{said}, and so {eff}.",
            f"{said}. Therefore {eff}.",
            f"{said}. {opened(cmd)}.",
            f"{said}. It follows that {eff}.",
            f"{said}. For this reason we {cmd}.",
            f"{said}; hence {eff}.",
        ]
        if not whole:
            ways += [f"because {said}, {eff}.", f"observe that {said}. Consequently {eff}.", f"since {said}, we {cmd}."]
            if len(m.effects) == 1 and not natural:
                ways += [f"{eff}, because {said}.", f"{cmd}, for {said}.", f"why is it that {eff}? Because {said}."]
            elif not natural:
                ways += [f"{eff}. All this is so because {said}.", f"{said}, and much follows: {eff}."]
        if m.put and not natural:
            ways.append(f"{said}, which leaves only {a(m.put.digit)} for {self.cell(m, m.put.cell)}.")
        return opened(m.rng.choice(ways))

    def hint(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                f"those {NUMBERS[m.count]} cells can be nothing else",
                f"nothing else may stand in those {NUMBERS[m.count]} cells",
                "every other candidate of theirs is gone",
                f"those {NUMBERS[m.count]} cells lose all their other candidates",
            )
        digits = [digit] if digit else m.digits
        many, either = self.many(digits), self.each(digits)
        return m.pick(
            f"no other cell {where.removeprefix('the other cells ')} can be {either}" if where.startswith("the other") else f"{either} cannot stand in {where}",
            f"{where} can no longer have {either}",
            f"{where} lose their {many}",
            f"{many} are gone from {where}",
            f"{where} cannot be {either}",
            f"the {many} come out of {where}",
        )

    def hinted_command(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                f"strike every other candidate from those {NUMBERS[m.count]} cells",
                "cross out whatever else was marked in those cells",
                f"clear all else out of {'both' if m.count == 2 else f'all {NUMBERS[m.count]}'} of those cells",
            )
        many = self.many([digit] if digit else m.digits)
        return m.pick(f"strike the {many} from {where}", f"cross out {many} in {where}", f"remove {many} from {where}")

    def effects(self, m: Matter) -> str:
        """All the effects as clauses."""
        said = [self.effect(m, effect) for effect in m.effects]
        return said[0] if len(said) == 1 else "; ".join(said[:-1]) + m.pick("; and ", ", and also ", "; moreover ") + said[-1]

    def commands(self, m: Matter) -> str:
        """All the effects as things to do."""
        said = [self.command(m, effect) for effect in m.effects]
        return said[0] if len(said) == 1 else "; ".join(said[:-1]) + m.pick("; and ", "; then ", ", and also ") + said[-1]

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, one = self.cell(m, effect.cell), a(effect.digit)
            return m.pick(
                f"{cell} is {one}",
                f"{cell} must be {one}",
                f"{one} goes in {cell}",
                f"{cell} takes the {NUMBERS[effect.digit]}",
                f"nothing but {one} remains for {cell}",
                f"{cell} is left with {NUMBERS[effect.digit]} alone",
            )
        digits, several = effect.digits, len(effect.digits) > 1
        many, either = self.many(digits), self.each(digits)
        the = listed([f"the {NUMBERS[digit]}" for digit in digits])
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(
                f"no other cell of {house} can be {either}",
                f"the other cells of {house} lose their {many}",
                f"{many} are gone from the rest of {house}",
                f"elsewhere in {house} there is no place for {either}",
                f"the rest of {house} is closed to {many}",
            )
        cells, those = self.cells(m, effect.cells), len(effect.cells) > 1
        among = self.cells(m, effect.cells, "or")
        return m.pick(
            f"{cells} cannot be {either}",
            f"{cells} {'lose their ' + many if those else 'loses its ' + self.some(digits)}",
            f"{the} {'come' if several else 'comes'} out of {cells}",
            f"{the} {'are' if several else 'is'} gone from {cells}",
            f"we cannot have {either} in {among}",
            f"{cells} {'are' if those else 'is'} closed to {many}",
            f"{cells} must do without {the}",
            f"{cells} {'are' if those else 'is'} not {either}",
        )

    def command(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            return f"{m.pick('write', 'put', 'set down', 'enter')} {a(effect.digit)} in {self.cell(m, effect.cell)}"
        many, the = self.many(effect.digits), listed([f"the {NUMBERS[digit]}" for digit in effect.digits])
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(f"strike {many} from the rest of {house}", f"cross out {many} everywhere else in {house}", f"clear the rest of {house} of its {many}")
        cells = self.cells(m, effect.cells)
        return m.pick(
            f"strike {the} from {cells}",
            f"cross out {the} in {cells}",
            f"remove {the} from {cells}",
            f"take {the} out of {cells}",
            f"rule out {many} in {cells}",
        )

    # Talk.

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        cell, one = self.cell(m, m.put.cell), a(m.put.digit)
        return opened(m.pick(f"so much for {cell}, which is {one}.", f"{cell}, then, is {one}.", f"I repeat, {one} in {cell}."))

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        greeting = (
            "My dear keepers, the Lamp Room has sent me its puzzle again, and I have gone through it between the first bell and the second.",
            "Good friends of the Lamp Room, here is my account of this week's grid, written at the vestry table.",
            "To all who keep a light: the puzzle came up with Tuesday's boat, and I have not had a quiet hour since.",
            "You asked me, when we last met on the gallery, to set down how I reason. I do so gladly.",
        )
        yield Piece(rng.choice(greeting), opens=True)
        if rng.random() < 0.6:
            yield Piece("I count the rows from the top, the columns from the left, and the boxes as one reads a page.")

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.12:
            remark = (
                "I confess that I had to read this twice.",
                "The verger saw it before I did.",
                "Let us proceed in good order.",
                "Patience is the better part of arithmetic.",
                "Here I put down my pencil and listened to the wind for a while.",
                "Two cups of tea later, we go on.",
                "The third bell has rung, but the sermon can wait.",
                "A pretty thing, though I say so myself.",
                "You may wish to rest your eyes on the sea for a moment.",
                "It is remarkable how far one gets by counting.",
                "My sister thinks nothing of this sort of argument; I am fond of it.",
                "Nine keepers out of ten would have gone to bed by now.",
                "What comes next pleased me greatly.",
                "One must not be hasty here.",
            )
            yield Piece(rng.choice(remark), opens=rng.random() < 0.5)

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.3

    def closing(self, rng: Random) -> Iterator[Piece]:
        farewell = (
            "There I close, with good wishes to all who are on watch.",
            "And so to bed. May your lamps burn clear.",
            "That is the whole of it, and I am, as ever, your obedient friend on the hill.",
        )
        yield Piece(rng.choice(farewell), opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        def heads() -> Iterator[str]:
            while True:
                yield ""

        head = rng.choice(("", "# The Lamp Room: a letter from the parsonage", "# From the parsonage\n\n## To the Lamp Room"))
        return "narration", prose(pieces, rng.choice((None, 76, 92)), heads(), head)


def a(digit: int) -> str:
    """``a seven``, ``an eight``."""
    return f"{'an' if digit == 8 else 'a'} {NUMBERS[digit]}"


def _crossed(cell: int, m: Matter) -> bool:
    lines = {*m.houses, *m.cover}
    return House("r", cell // 9 + 1) in lines and House("c", cell % 9 + 1) in lines
