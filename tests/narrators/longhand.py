"""For development: a keeper with a fountain pen, who counts out every cell and house in ordinals."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS, listed, opened
from .layout import Laid, Piece, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

BANDS = ("top", "middle", "bottom")
SIDES = ("left", "middle", "right")


class _Pen:
    """The pen for one step: whether it writes digits as words, and how it counts out cells."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        self.words = m.often(0.5)
        self.way = m.rng.randrange(9)
        self.steady = m.often(0.6)
        self.box_way = m.rng.randrange(4)
        self.edges = m.often(0.12)
        self.joined = m.often(0.7)

    def n(self, digit: int) -> str:
        # A bare "one" is read as a pronoun, so that this pen writes it as a numeral.
        return NUMBERS[digit] if self.words and digit > 1 else str(digit)

    def a(self, digit: int) -> str:
        word = NUMBERS[digit] if self.words else str(digit)
        return f"{'an' if digit == 8 else 'a'} {word}"

    def the(self, digit: int) -> str:
        return f"the {NUMBERS[digit] if self.words else digit}"

    def s(self, digit: int) -> str:
        return PLURALS[digit] if self.words else f"{digit}s"

    def ns(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([self.n(digit) for digit in digits], last)

    def line(self, house: House) -> str:
        if self.edges and house.kind == "r" and house.number in (1, 9):
            return "the top row" if house.number == 1 else "the bottom row"
        return f"the {ORDINALS[house.number]} {KINDS[house.kind]}"

    def house(self, house: House) -> str:
        if house.kind != "b":
            return self.line(house)
        band, side = divmod(house.number - 1, 3)
        if self.box_way == 0:
            return f"the {ORDINALS[house.number]} box"
        if self.box_way == 1:
            where = ("at the left", "in the middle", "at the right")[side]
            return f"the box {where} of the {BANDS[band]} band"
        if self.box_way == 2:
            return f"the {('left-hand', 'middle', 'right-hand')[side]} box of the {BANDS[band]} band"
        return "the central box" if (band, side) == (1, 1) else f"the {BANDS[band]} {SIDES[side]} box"

    def where(self) -> str:
        return f"the same {KINDS[self.m.house.kind]}" if self.m.plan.back else self.house(self.m.house)

    def houses(self, houses: Sequence[House]) -> str:
        if len(houses) == 1 or not self.joined:
            return listed([self.house(house) for house in houses])
        return f"the {listed([ORDINALS[house.number] for house in houses])} {KINDS[houses[0].kind]}s"

    def cell(self, cell: int) -> str:
        way = self.way if self.steady else self.m.rng.randrange(9)
        row, column = cell // 9 + 1, cell % 9 + 1
        r, c = ORDINALS[row], ORDINALS[column]
        in_row, in_column = self.line(House("r", row)), self.line(House("c", column))
        if way == 8:
            box = House("b", (row - 1) // 3 * 3 + (column - 1) // 3 + 1)
            up, side = BANDS[(row - 1) % 3], SIDES[(column - 1) % 3]
            spot = "middle" if up == side == "middle" else f"{up} {side}"
            return f"the {spot} cell of {self.house(box)}"
        return (
            f"the {c} cell of {in_row}",
            f"the {r} cell of {in_column}",
            f"the cell where {in_row} meets {in_column}",
            f"the {r} cell down {in_column}",
            f"the {c} cell along {in_row}",
            f"the cell in {in_row} and {in_column}",
            f"the {r} row's {c} cell",
            f"the {c} cell in {in_row}",
        )[way]

    def cells(self, cells: Sequence[int], last: str = "and", joined: bool | None = None) -> str:
        """Cells of one line together, if this step joins them."""
        rows, columns = sorted({cell // 9 for cell in cells}), sorted({cell % 9 for cell in cells})
        apart = [self.cell(cell) for cell in cells]
        noun = "cell" if last == "or" else "cells"
        if len(cells) > 1 and (self.joined if joined is None else joined):
            if len(rows) == 1:
                numbers = listed([ORDINALS[cell % 9 + 1] for cell in cells], last)
                return f"the {numbers} {noun} of {self.line(House('r', rows[0] + 1))}"
            if len(columns) == 1:
                numbers = listed([ORDINALS[cell // 9 + 1] for cell in cells], last)
                return f"the {numbers} {noun} of {self.line(House('c', columns[0] + 1))}"
        return listed(apart, last)

    def inside(self, cells: Sequence[int], house: House) -> str:
        """Cells of a house that has just been named."""
        apart = self.cells(cells)
        at = {"r": 1, "c": 0}.get(house.kind)
        if at is None:
            return apart.replace(f" of {self.house(house)}", "")
        if any(divmod(cell, 9)[1 - at] + 1 != house.number for cell in cells):
            return apart
        numbers = listed([ORDINALS[divmod(cell, 9)[at] + 1] for cell in cells])
        return f"the {numbers} cells" if len(cells) > 1 else f"its {numbers} cell"


class Longhand(Narrator):
    """Writes the Lamp Room's letters page."""

    name = "longhand"
    leaves: ClassVar = {
        "single house": 0.04,
        "its": 0.12,
        "naked house": 0.4,
        "hidden house": 0.06,
        "cover": 0.12,
        "crossing": 0.12,
        "name": 0.35,
        "effects": 0.6,
        "back": 0.3,
        "corners": 0.2,
    }

    def naked_single(self, m: Matter) -> str:
        p, put = _Pen(m), m.put
        assert put is not None
        cell, n, a = p.cell(put.cell), p.n(put.digit), p.a(put.digit)
        return opened(
            m.pick(
                f"{cell} can only be {n}.",
                f"look at {cell}: every digit but {n} has been ruled out there, so {n} it is.",
                f"in {cell} nothing is left but {a}.",
                f"try what you like in {cell}, only {n} will go in. Write it down.",
                f"{a} must go in {cell}, since all its other candidates are gone.",
                f"that leaves {cell} with a single candidate, {n}.",
                f"what can {cell} be? Only {n}.",
                f"a naked single: {cell} is {n}.",
                f"put {a} in {cell}; it has no other candidate left.",
                f"{cell} has come down to {a}, and we may ink it in.",
                f"by now {cell} has lost every candidate except {n}. So {a} it gets.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        p, put = _Pen(m), m.put
        assert put is not None
        cell, n, a, the = p.cell(put.cell), p.n(put.digit), p.a(put.digit), p.the(put.digit)
        if not m.says("house"):
            return opened(
                m.pick(
                    f"hidden single: {cell} is {n}.",
                    f"{a} goes in {cell}, a hidden single.",
                    f"{cell} is {a}, by a hidden single.",
                    f"a hidden single puts {a} in {cell}.",
                )
            )
        kind = KINDS[m.house.kind]
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{cell} is the only cell in its {kind} that can take {a}.",
                    f"{n} has no other place in the {kind} of {cell}, so it goes there.",
                    f"{a} goes in {cell}, for nothing else in its {kind} will have it.",
                    f"no other cell in its {kind} can be {n}, and so {cell} must be.",
                )
            )
        house, within = p.where(), p.inside([put.cell], m.house)
        return opened(
            m.pick(
                f"in {house} the only place left for {a} is {within}.",
                f"{house} still wants {a}, and only {within} can take it.",
                f"{cell} is the one cell of {house} that can hold {a}.",
                f"where can {house} put its {n}? Only in {within}.",
                f"{cell} is {n}, because no other cell of {house} can take it.",
                f"every other cell of {house} is closed to {n}, so {the} goes in {within}.",
                f"hidden single in {house}: {n} goes in {within}.",
                f"write {a} in {cell}, since {house} offers it no other place.",
                f"{the} of {house} belongs in {within}.",
                f"go along {house} looking for a home for {a}, and you will find just one: {within}."
                if m.house.kind != "b"
                else f"go round {house} looking for a home for {a}, and you will find just one: {within}.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        p, put = _Pen(m), m.put
        assert put is not None
        cell, n, a = p.cell(put.cell), p.n(put.digit), p.a(put.digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return opened(
                m.pick(
                    f"{cell} is the last gap in its {kind}, so it is {n}.",
                    f"the rest of its {kind} is full, which makes {cell} {a}.",
                    f"{a} goes in {cell} and completes its {kind}.",
                    f"all of its {kind} is filled except {cell}. The digit missing is {n}.",
                )
            )
        house, within = p.where(), p.inside([put.cell], m.house)
        return opened(
            m.pick(
                f"{cell} is the only empty cell left in {house}, and the digit missing is {n}.",
                f"{house} is complete but for {within}, which must be {n}.",
                f"only {a} is missing from {house}; it goes in {within}.",
                f"{house} has a single gap, {within}. Fill it with {a}.",
                f"put {a} in {cell} and {house} is full.",
                f"eight digits stand in {house} already, so {within} takes the ninth of them, {n}.",
                f"{cell} finishes {house} with {a}.",
                f"one cell of {house} is still open. It is {cell}, and it is {n}.",
            )
        )

    def locked(self, m: Matter) -> str:
        p, digit = _Pen(m), m.digits[0]
        assert m.crossing is not None
        house, line, kind = p.where(), p.house(m.crossing), KINDS[m.crossing.kind]
        n, a, the, s = p.n(digit), p.a(digit), p.the(digit), p.s(digit)
        if not m.says("crossing"):
            said = m.pick(
                f"all the {s} of {house} lie in one {kind}",
                f"{house} keeps every candidate for {n} within a single {kind}",
                f"in {house} the cells that can be {n} share one {kind}",
                f"{the} of {house} can only go in one {kind}",
            )
            return self.so(m, p, said, f"the rest of that {kind}", digit)
        if m.says("name") and m.often(0.4):
            if m.name == "pointing":
                said = m.pick(
                    f"the {s} of {house} point along {line}",
                    f"there are pointing {s} in {house}, all of them in {line}",
                    f"{house} has its {s} pointing along {line}",
                )
            else:
                said = m.pick(
                    f"{house} claims its {n} within {line}",
                    f"{house} claims {the} of {line}",
                    f"there is a claiming here: {house} has its {s} only in {line}",
                )
        else:
            said = m.pick(
                f"all the {s} of {house} lie in {line}",
                f"in {house} {a} can only go in the cells it shares with {line}",
                f"{house} has to put its {n} inside {line}",
                f"the candidates for {n} in {house} never leave {line}",
                f"wherever {the} of {house} goes, it goes in {line}",
                f"{house} finds room for {a} only where it crosses {line}",
                f"the cells of {house} that may be {n} are all in {line}",
            )
        return self.so(m, p, said, m.pick(f"the rest of {line}", f"the rest of that {kind}"), digit)

    def naked(self, m: Matter) -> str:
        p = _Pen(m)
        held = m.says("house")
        lead = f"in {p.where()} " if held else ""
        cells = p.inside(m.cells, m.house) if held else p.cells(m.cells)
        digits, either = p.ns(m.digits), p.ns(m.digits, "or")
        size = m.name.split()[1]
        many = "both" if len(m.cells) == 2 else "all"
        if not m.says("name"):
            said = m.pick(
                f"{lead}{cells} have nothing but {digits} to choose from",
                f"{lead}{cells} can {many} hold only {either}",
                f"{lead}{cells} use up {digits} between them",
                f"{lead}{cells} are left with {digits} and nothing else",
                f"{lead}{digits} are spoken for by {cells}, which have no other candidates",
            )
        else:
            said = m.pick(
                f"{lead}{cells} form a naked {size} of {digits}",
                f"{lead}there is a naked {size} of {digits} in {cells}",
                f"{lead}{cells} make {digits} a naked {size}",
                f"a naked {size} of {digits} sits in {cells}" + (f", in {p.where()}" if held else ""),
                f"{lead}{cells} are a naked {size}, with only {digits} between them",
            )
        kinds = [KINDS[kind] for kind in m.plan.kinds]
        rest = "the rest of the " + " and of the ".join(kinds)
        return self.so(m, p, said, m.pick(rest, rest, f"every cell that sees {many} of them"))

    def hidden(self, m: Matter) -> str:
        p = _Pen(m)
        held = m.says("house")
        lead = f"in {p.where()} " if held else ""
        cells = p.inside(m.cells, m.house) if held else p.cells(m.cells)
        digits = p.ns(m.digits)
        size = m.name.split()[1]
        if not m.says("name"):
            said = m.pick(
                f"{lead}only {cells} can take {digits}",
                f"{lead}{digits} have no places but {cells}",
                f"{lead}the only homes for {digits} are {cells}",
                f"{lead}{digits} can go nowhere except in {cells}",
                f"{lead}{cells} have to find room for {digits}, which fit nowhere else",
            )
        else:
            said = m.pick(
                f"{lead}{digits} make a hidden {size} in {cells}",
                f"{lead}there is a hidden {size} of {digits} in {cells}",
                f"{lead}{cells} conceal a hidden {size}, {digits}",
                f"{lead}{cells} form a hidden {size}: only they can be {p.ns(m.digits, 'or')}",
            )
        return self.so(m, p, said, "")

    def fish(self, m: Matter) -> str:
        p, digit = _Pen(m), m.digits[0]
        base, cover = p.houses(m.houses), p.houses(m.cover)
        kind, cross = KINDS[m.houses[0].kind], f"{KINDS[m.cover[0].kind]}s"
        n, a, s = p.n(digit), p.a(digit), p.s(digit)
        shown = _fish(m.name)
        one = f"{'an' if shown.startswith('X') else 'a'} {shown}"
        if m.plan.corners:
            corners = [cell for cell in range(81) if _crosses(cell, m)]
            said = m.pick(
                f"{one} of {s} in the {kind}s has its corners at {p.cells(corners, joined=False)}",
                f"{p.cells(corners, joined=False)} are the corners of {one} of {s} in the {kind}s",
            )
            return self.so(m, p, said, f"the rest of both {cross}", digit)
        all_of = "both" if len(m.houses) == 2 else "all"
        if not m.says("name"):
            said = m.pick(
                f"in {base} the {s} can stand only in {cover}",
                f"{base} {all_of} keep their {s} to {cover}",
                f"every candidate for {n} in {base} lies in {cover}",
                f"{base} have no {n} outside {cover}",
                f"{base} between them need {cover} for their {s}",
            )
        elif not m.says("cover"):
            said = m.pick(
                f"the {s} of {base} make {one}",
                f"there is {one} of {s} in {base}",
                f"{base} hold {one} of {s}",
                f"{one} on {n} has its home in {base}",
            )
        else:
            said = m.pick(
                f"the {s} of {base} form {one} with {cover}",
                f"there is {one} of {s}: in {base} they lie only in {cover}",
                f"{one} on {n} stretches over {base}, with {cover} across",
                f"{base}, together with {cover}, make {one} of {s}, based in the {kind}s",
                f"in {base} {a} can only be in {cover}, which is {one}",
            )
        rest = f"the rest of {cover}" if m.says("cover") and m.often(0.5) else f"the rest of those {cross}"
        return self.so(m, p, said, rest, digit)

    def finned(self, m: Matter) -> str:
        p, digit = _Pen(m), m.digits[0]
        base, cover, fins = p.houses(m.houses), p.houses(m.cover), p.cells(m.fins)
        n, s = p.n(digit), p.s(digit)
        shown = _fish(m.name)
        plain = shown.removeprefix("finned ")
        one = f"{'an' if plain.startswith('X') else 'a'} {plain}"
        several = len(m.fins) > 1
        fin = "fins" if several else "fin"
        said = m.pick(
            f"but for the {fin} in {fins}, the {s} of {base} would form {one} with {cover}",
            f"{base}, together with {cover}, hold a finned {plain} of {s}, based in the "
            f"{KINDS[m.houses[0].kind]}s, with {'its fins' if several else 'its fin'} in {fins}",
            f"there is a finned {plain} on {n}: in {base} the {s} lie in {cover}, except for the {fin} in {fins}",
            f"a finned {plain} of {s} lies in {base} across {cover}, and {fins} {'are' if several else 'is'} the {fin}",
            f"either {'one of ' if several else ''}{fins} is {n}, or else the {s} of {base} are {one} in {cover}. "
            f"That is a finned {plain}",
        )
        hint = m.pick(
            f"the cells of {cover} that see the {fin}",
            f"whatever cells of those {KINDS[m.cover[0].kind]}s see {'every fin' if several else 'the fin'}",
        )
        return self.so(m, p, said, hint, digit)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        p = _Pen(m)
        pivot, (first, second) = p.cell(m.pivot), map(p.cell, m.cells)
        one, other, both = m.plan.shared
        if not m.says("name"):
            said = m.pick(
                f"if {pivot} is {p.n(one)}, then {first} is {p.n(both)}, and if it is {p.n(other)}, then {second} "
                f"is {p.n(both)}",
                f"{pivot} is either {p.n(one)} or {p.n(other)}. The first makes {first} {p.a(both)}, the second "
                f"makes {second} {p.a(both)}",
                f"take {pivot}. Should it be {p.n(one)}, {first} must be {p.n(both)}; should it be {p.n(other)}, "
                f"{second} must be",
                f"{pivot} can be {p.n(one)} or {p.n(other)}, {first} can be {p.n(one)} or {p.n(both)}, and "
                f"{second} can be {p.n(other)} or {p.n(both)}. One of the last two has to be {p.n(both)}",
            )
            if m.often(0.3) and m.plan.natural:
                said += f". Either way one of the two is {p.n(both)}"
            elif said.endswith("must be"):
                said += f" {p.n(both)}"
        else:
            said = m.pick(
                f"there is an XY-wing with its pivot in {pivot} and its wings in {first} and {second}",
                f"{pivot} is the pivot of an XY-wing whose wings are {first} and {second}",
                f"{first} and {second} are the two wings of an XY-wing that turns on {pivot}",
                f"an XY-wing on {p.n(both)}: {pivot}, with {p.n(one)} and {p.n(other)}, is the pivot, and {first} "
                f"and {second} are the wings",
            )
        return self.so(
            m,
            p,
            said,
            m.pick("any cell that sees both wings", "the cells that both wings see")
            if m.says("name")
            else "any cell that sees both of them",
            both,
        )

    def xy_chain(self, m: Matter) -> str:
        p = _Pen(m)
        end = p.n(m.digits[0])
        cells = [p.cell(cell) for cell in m.cells]
        digits = [p.n(digit) for digit in m.digits]
        first, last = cells[0], cells[-1]
        named = (
            "an XY-chain"
            if m.says("name")
            else m.pick("a chain of two-candidate cells", "a string of cells with two candidates each")
        )
        steps = [f"{cell} is {digit}" for cell, digit in zip(cells[1:], digits[2:], strict=True)]
        way = m.rng.randrange(5)
        if way == 0:
            glue = m.pick(", so ", ", then ", ", and so ")
            said = f"if {first} is not {end}, then it is {digits[1]}" + "".join(glue + step for step in steps)
            said += f". One end or the other is {end}"
            if m.says("name"):
                said = f"here is {named}. " + opened(said)
        elif way == 1:
            makes = [f"makes {cell} {p.a(digit)}" for cell, digit in zip(cells[1:], m.digits[2:], strict=True)]
            said = f"either {first} is {end}, or it is {digits[1]}, which " + ", which ".join(makes)
            said += ". This is " + named if m.says("name") else f". In both cases {first} or {last} is {end}"
        elif way == 2:
            pairs = [f"{cell} has {one} and {other}" for cell, one, other in zip(cells, digits, digits[1:], strict=False)]
            said = f"{named} runs as follows: {', '.join(pairs[:-1])}, and finally {pairs[-1]}"
            said += f". Whichever way it falls, {first} or {last} is {end}"
        elif way == 3:
            pairs = [f"{cell} ({one} and {other})" for cell, one, other in zip(cells, digits, digits[1:], strict=False)]
            said = f"{named} on {end} starts in {pairs[0]}, goes on through {listed(pairs[1:-1])} and ends in {pairs[-1]}"
        else:
            said = f"suppose {first} is not {end}. Then it must be {digits[1]}. "
            said += " ".join(
                f"{m.pick('That makes', 'This makes')} {cell} {p.a(digit)}."
                for cell, digit in zip(cells[1:], m.digits[2:], strict=True)
            )
            said += f" So one of the two ends{' of this XY-chain' if m.says('name') else ''} is {end}"
        return self.so(
            m,
            p,
            said,
            m.pick("any cell that sees both ends", "the cells that see the first cell and the last"),
            m.digits[0],
            after=True,
        )

    def x_chain(self, m: Matter) -> str:
        p, digit = _Pen(m), m.digits[0]
        n, s = p.n(digit), p.s(digit)
        cells = [p.cell(cell) for cell in m.cells]
        first, last = cells[0], cells[-1]
        pairs = [*zip(cells[::2], cells[1::2], m.plan.ways, strict=True)]
        houses = [p.house(m.board.geometry.houses_of[cell][way]) for cell, way in zip(m.cells[::2], m.plan.ways, strict=True)]
        way = m.rng.randrange(4)
        if m.says("name") and way == 3:
            said = m.pick(
                f"an X-chain of {s} leads from {first} through {listed(cells[1:-1])} to {last}",
                f"follow the X-chain on {n}: {', '.join(cells[:-1])}, and {last}",
                f"there is an X-chain of {s}, whose cells in order are {listed(cells)}",
            )
        elif way == 0:
            said = f"if {first} is not {n}"
            said += "".join(
                f", then {one} is{' not' if at % 2 else ''}" if at else f", then {one} is" for at, one in enumerate(cells[1:])
            )
            said += f". One of the two ends is {n}"
        elif way == 1:
            links = [
                f"in {house} {p.a(digit)} must go in {a} or in {b}" for (a, b, _), house in zip(pairs, houses, strict=True)
            ]
            glue = m.pick("; and ", ", and ", ". ")
            said = glue.join([links[0]] + [opened(link) if glue == ". " else link for link in links[1:]])
            said += f". It follows that {first} or {last} is {n}"
        elif way == 2:
            said = f"either {first} is {n}, or {cells[1]} is"
            for a, b in zip(cells[2::2], cells[3::2], strict=True):
                said += f", in which case {a} is not and {b} is"
            said += m.pick("", f". Whichever it is, one end or the other is {n}")
        else:
            links = [f"{a} and {b} are the only two places for {p.a(digit)} in their {KINDS[kind]}" for a, b, kind in pairs]
            said = (
                f"{links[0]}; {'; '.join('likewise ' + link for link in links[1:])}. Follow them from end to end, "
                f"and {first} or {last} must be {n}"
            )
        if m.says("name") and way != 3:
            said = m.pick(f"here is an X-chain on {n}. ", f"we have an X-chain of {s}. ") + opened(said)
        return self.so(
            m, p, said, m.pick("any cell that sees both ends", "the cells that see both ends of it"), digit, after=True
        )

    def chain(self, m: Matter) -> str:
        p = _Pen(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        absurd = (first, digit) == (last, end) and holds != supposed
        told, before = [], None
        for cell, is_, other in m.links:
            name = "it" if cell == before else p.cell(cell)
            told.append(f"{name} is{'' if is_ else ' not'} {p.n(other)}")
            before = cell
        start = p.cell(first)
        opposite = f"{start} is{' not' if supposed else ''} {p.n(digit)}"
        way = m.rng.randrange(5)
        if way == 0:
            glue = m.pick(", so ", ", then ", ", and so ")
            said = f"if {told[0]}, then {told[1]}" + "".join(glue + link for link in told[2:])
        elif way == 1:
            then = [m.pick("That means", "It follows that", "Then", "Hence") + f" {link}." for link in told[2:]]
            said = f"suppose {told[0]}. Then {told[1]}. {' '.join(then)}".removesuffix(".")
        elif way == 2:
            rest = ", then ".join(told[1:-1])
            turn = f"it is{'' if supposed else ' not'}"
            said = f"either {opposite}, or {turn}, and then {rest}, and at last {told[-1]}"
        elif way == 3:
            bare = [f"{p.a(other) if is_ else 'no ' + p.n(other)} in {p.cell(cell)}" for cell, is_, other in m.links]
            said = f"{m.pick('follow this chain', 'there is a chain here', 'the chain goes')}: {', then '.join(bare)}"
        else:
            said = f"begin with the thought that {told[0]}. From there {', '.join(told[1:-1])}, and in the end {told[-1]}"
        if absurd:
            said += m.pick(", which contradicts its beginning", ", and that is absurd", "", ". That cannot be")
            if m.plan.natural:
                return opened(said) + m.pick(f". So {opposite}.", f". Therefore {opposite}.", f". We conclude that {opposite}.")
        elif m.often(0.5):
            said += f". So {start} is {p.n(digit)} or {p.cell(last)} is {p.n(end)}"
        return self.so(
            m, p, said, m.pick("any cell that sees both ends", "the cells that see both of those"), digit, after=True
        )

    def facts(self, m: Matter) -> str:
        p = _Pen(m)
        style = m.rng.randrange(3)
        said = []
        for what in m.cited:
            if isinstance(what, int):
                cell = p.cell(what)
                said.append(
                    (f"the candidates of {cell}", f"what {cell} can still be", f"whatever {cell} turns out to be")[style]
                )
            else:
                digit, house = what
                name = p.house(house)
                place = f"the places left for {p.a(digit)} in {name}", f"where {p.a(digit)} can go in {name}"
                said.append((*place, f"wherever {p.the(digit)} goes in {name}")[style])
        words = listed(said, comma=True)
        tail = self.effects(m, p, False)
        if style == 2:
            return opened(
                m.pick(f"{words}, {tail}.", f"{words}, you will find that {tail}.", f"{words}, it comes out the same: {tail}.")
            )
        return opened(
            m.pick(
                f"look at {words}. From this alone {tail}.",
                f"consider {words}: {tail}.",
                f"{tail}. To see it, look at {words}.",
                f"go through {words}, and you will find that {tail}.",
                f"if you weigh {words}, it turns out that {tail}.",
            )
        )

    def bare(self, m: Matter) -> str:
        p = _Pen(m)
        tail = self.effects(m, p, True)
        return m.pick(
            opened(tail) + ".",
            f"Take it from me: {tail}.",
            opened(tail) + ". I leave the reason to you.",
            f"Without an argument this time, {tail}.",
            opened(tail) + m.pick(", as you may check for yourself.", ", I say, and say no more."),
        )

    def so(self, m: Matter, p: _Pen, said: str, where: str, digit: int | None = None, after: bool = False) -> str:
        """The pattern and its effects, in one order or the other. ``after``: the effects have to come last."""
        after = after or ". " in said or ": " in said or "; " in said
        bold = m.often(0.5)
        tail = self.hinted(m, p, where, digit) if m.plan.natural else self.effects(m, p, bold)
        order = m.rng.randrange(10)
        # What is only hinted at leans on the pattern, which must have been told by then.
        if m.plan.natural:
            order %= 7
        if after:
            order %= 5
        opener = said.split(" ", 1)[0]
        if order == 0 and opener in ("either", "if", "suppose", "follow", "begin"):
            order = 1
        if order in (5, 6) and (opener == "but" or m.fins):
            order = 3
        if m.plan.natural or bold:
            order = {2: 1, 4: 3}.get(order, order)
        return opened(
            (
                f"{said}, so {tail}.",
                f"{said}. So {tail}.",
                f"{said}. That means that {tail}.",
                f"{said}. {m.pick('Therefore', 'Hence', 'And so', 'As a result')} {tail}.",
                f"{said}. It follows that {tail}.",
                f"since {said}, {tail}.",
                f"because {said}, {tail}.",
                f"{tail}, because {said}.",
                f"{tail}. Why? Because {said}.",
                f"{tail}. The reason is that {said}.",
            )[order]
        )

    def hinted(self, m: Matter, p: _Pen, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            these = f"those {NUMBERS[len(m.cells)]} cells"
            return m.pick(
                f"everything else goes from {these}",
                f"{these} lose all their other candidates",
                f"nothing else can stay in {these}",
                f"all other candidates of {these} can be crossed out",
            )
        digits = [digit] if digit else m.digits
        no = "no " + where.split(" ", 1)[1] if where.startswith(("any ", "every ")) else ""
        if len(digits) > 1:
            those = m.pick("these digits", "those digits", p.ns(digits), p.ns(digits))
            return m.pick(
                f"{those} go from {where}",
                f"{those} can be crossed out in {where}",
                f"{no} can have any of them" if no else f"{where} cannot have {p.ns(digits, 'or')}",
                f"{where} loses {p.ns(digits)}",
            )
        the, s, n = p.the(digits[0]), p.s(digits[0]), p.n(digits[0])
        loses = "lose" if where.startswith(("the cells", "whatever")) else "loses"
        return m.pick(
            f"{n} goes from {where}",
            f"{where} {loses} {the}",
            f"the {s} can be crossed out in {where}",
            f"there can be no {n} in {where}",
            f"{no} can be {n}"
            if no
            else f"the others of {where.removeprefix('the rest of ')} lose it"
            if where.startswith("the rest")
            else f"{where} cannot be {n}",
        )

    def effects(self, m: Matter, p: _Pen, bold: bool) -> str:
        """``bold``: some of it may be an order to the reader."""
        said = [self.effect(m, p, effect, bold) for effect in m.effects]
        return m.pick(", and ", "; ").join(said) if len(said) < 3 else "; ".join(said[:-1]) + "; and " + said[-1]

    def effect(self, m: Matter, p: _Pen, effect: Put | Strike | Clear, bold: bool) -> str:
        if isinstance(effect, Put):
            cell, n, a = p.cell(effect.cell), p.n(effect.digit), p.a(effect.digit)
            return m.pick(f"{cell} is {n}", f"{cell} must be {n}", f"{a} goes in {cell}", f"{cell} has to be {a}")
        digits, either = p.ns(effect.digits), p.ns(effect.digits, "or")
        several = len(effect.digits) > 1
        the = digits if several else p.the(effect.digits[0])
        if isinstance(effect, Clear):
            house = p.house(effect.house)
            return m.pick(
                f"the other cells of {house} lose {digits}",
                f"no other cell of {house} can be {either}",
                f"{the} {'go' if several else 'goes'} from the rest of {house}",
                f"the rest of {house} cannot have {either}",
                f"cross out {digits} elsewhere in {house}" if bold else f"{digits} can be crossed out elsewhere in {house}",
            )
        these = len(effect.cells) > 1
        cells = p.cells(effect.cells)
        neither = f"{cells} {'are' if these else 'is'} not {either}"
        if len(effect.cells) == 2:
            neither = f"neither {listed([p.cell(cell) for cell in effect.cells], 'nor')} can be {either}"
        elif not these and len(effect.digits) == 2:
            neither = f"{cells} is neither {p.ns(effect.digits, 'nor')}"
        return m.pick(
            f"{cells} cannot be {either}",
            f"{cells} {'lose' if these else 'loses'} {digits}",
            f"{the} go{'' if several else 'es'} from {cells}",
            f"there can be no {either} in {p.cells(effect.cells, 'or')}",
            neither,
            f"cross {digits} out of {cells}" if bold else f"{digits} can be crossed out in {cells}",
            f"{cells} {'give' if these else 'gives'} up {digits}",
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Dear fellow keepers, the night was clear and the grid was not. Here is how I went about it.",
                    "Good evening from the Lamp Room. Pour yourself something warm; this will take a while.",
                    "My dear Marigold, you asked me to write out the whole of it, and so I do.",
                    "With the lamp trimmed and the log written up, I sat down to this week's grid.",
                )
            ),
            opens=True,
        )
        if rng.random() < 0.5:
            yield Piece(
                rng.choice(
                    (
                        "I count rows from the top and columns from the left.",
                        "Bring a soft pencil.",
                        "I did it in one sitting, between two watches.",
                    )
                )
            )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.08:
            yield Piece(
                rng.choice(
                    (
                        "I got up here to see to the lamp.",
                        "This took me longer than I care to admit.",
                        "You will have seen the next one coming.",
                        "Bear with me, for we are getting somewhere.",
                        "A gull has just looked in at the window.",
                        "The kettle is on, and the pencil wants sharpening.",
                        "It pleased me no end to find this.",
                    )
                ),
                opens=rng.random() < 0.4,
            )

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.3

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "And there it is, finished before the light went out.",
                    "That is the whole of it. Keep dry, and write soon.",
                    "With that the grid is full, and so is the teapot.",
                )
            ),
            opens=True,
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        def heads() -> Iterator[str]:
            while True:
                yield ""

        head = rng.choice(
            ("", f"# A letter to the Lamp Room, no. {walk.seed}", f"The Lamp Room, puzzle {walk.seed}, written out in full")
        )
        return "narration", prose(pieces, rng.choice((None, 76, 92)), heads(), head)


def _fish(name: str) -> str:
    return name.replace("x-wing", "X-wing")


def _crosses(cell: int, m: Matter) -> bool:
    houses = m.board.geometry.houses_of[cell].values()
    return any(house in m.houses for house in houses) and any(house in m.cover for house in houses)
