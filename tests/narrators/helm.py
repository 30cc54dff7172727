"""For development: a lively presenter: columns first, short sentences, questions, and the conclusion often in a sentence of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, PLURALS, listed, opened
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

BOXES = (
    "the top left box",
    "the top middle box",
    "the top right box",
    "the middle left box",
    "the centre box",
    "the middle right box",
    "the bottom left box",
    "the bottom middle box",
    "the bottom right box",
)


def sentences(*said: str) -> str:
    """Each with a capital and a stop, unless it has one."""
    return " ".join(opened(one) + ("" if one[-1] in ".?!" else ".") for one in said if one)


class _Say:
    """How this step says its digits, cells and lines."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        self.words = m.manner % 3 == 0
        self.titled = m.manner % 5 == 1
        self.pause = m.often(0.7)
        self.joined = m.often(0.75)

    def n(self, digit: int) -> str:
        return NUMBERS[digit] if self.words and digit > 1 else str(digit)

    def a(self, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {NUMBERS[digit] if self.words else digit}"

    def the(self, digit: int) -> str:
        return f"the {NUMBERS[digit] if self.words else digit}"

    def s(self, digit: int) -> str:
        return PLURALS[digit] if self.words else f"{digit}s"

    def ns(self, digits: Sequence[int], last: str = "and") -> str:
        if self.words and len(digits) > 1:
            return listed([NUMBERS[digit] for digit in digits], last)
        return listed([self.n(digit) for digit in digits], last)

    def an(self, digits: Sequence[int], last: str = "or") -> str:
        """``a 3``, or ``3 or 4``."""
        return self.a(digits[0]) if len(digits) == 1 else self.ns(digits, last)

    def house(self, house: House) -> str:
        if house.kind == "b" and self.titled:
            return BOXES[house.number - 1]
        return f"{KINDS[house.kind]} {house.number}"

    def where(self) -> str:
        return f"the same {KINDS[self.m.house.kind]}" if self.m.plan.back else self.house(self.m.house)

    def houses(self, houses: Sequence[House], last: str = "and") -> str:
        many = len(houses) > 1 and last == "and"
        return f"{KINDS[houses[0].kind]}{'s' if many else ''} {listed([str(house.number) for house in houses], last)}"

    def cell(self, cell: int) -> str:
        return f"column {cell % 9 + 1}{',' if self.pause else ''} row {cell // 9 + 1}"

    def spot(self, cell: int) -> str:
        """Where a comma would get in the way."""
        return f"column {cell % 9 + 1} row {cell // 9 + 1}"

    def cells(self, cells: Sequence[int], last: str = "and") -> str:
        if len(cells) == 1:
            return self.cell(cells[0])
        columns, rows = [cell % 9 + 1 for cell in cells], [cell // 9 + 1 for cell in cells]
        if self.joined and len({*columns}) == 1:
            those = listed([str(row) for row in rows], last)
            return f"column {columns[0]}, row{'s' if last == 'and' else ''} {those}"
        if self.joined and len({*rows}) == 1:
            those = listed([str(column) for column in columns], last)
            return f"column{'s' if last == 'and' else ''} {those} of row {rows[0]}"
        if self.joined and len({*columns}) < len(cells) and last == "and":
            groups: dict[int, list[str]] = {}
            for column, row in zip(columns, rows, strict=True):
                groups.setdefault(column, []).append(str(row))
            said = [f"column {column} row{'s' if len(those) > 1 else ''} {listed(those)}" for column, those in groups.items()]
            return f"{', '.join(said[:-1])}, and {said[-1]}"
        if len(cells) == 2 and self.pause:
            return f"{self.cell(cells[0])}, {last} {self.cell(cells[1])}"
        return listed([self.spot(cell) for cell in cells], last)

    def inner(self, cells: Sequence[int], house: House, last: str = "and") -> str:
        """Cells of a house that has just been named."""
        many = "s" if len(cells) > 1 and last == "and" else ""
        if house.kind == "c" and all(cell % 9 + 1 == house.number for cell in cells):
            return f"row{many} {listed([str(cell // 9 + 1) for cell in cells], last)}"
        if house.kind == "r" and all(cell // 9 + 1 == house.number for cell in cells):
            return f"column{many} {listed([str(cell % 9 + 1) for cell in cells], last)}"
        return self.cells(cells, last)

    def places(self, house: House, digit: int) -> str:
        """Where the digit can be in a line of a fish, fins aside."""
        kind = "r" if house.kind == "c" else "c"
        numbers = [cover.number for cover in self.m.cover]
        found = []
        for cell in self.m.board.places(digit, house):
            number = cell // 9 + 1 if kind == "r" else cell % 9 + 1
            if cell not in self.m.fins and number in numbers:
                found.append(number)
        return f"{KINDS[kind]} {listed([str(number) for number in found or numbers], 'or')}"


class Helm(Narrator):
    """On air from the Lamp Room, always down the column before along the row."""

    name = "helm"
    leaves: ClassVar = {
        "single house": 0.05,
        "its": 0.1,
        "naked house": 0.3,
        "hidden house": 0.05,
        "cover": 0.08,
        "crossing": 0.08,
        "name": 0.35,
        "effects": 0.55,
        "back": 0.35,
        "corners": 0.2,
        "recap": 0.04,
    }

    def naked_single(self, m: Matter) -> str:
        v, put = _Say(m), m.put
        assert put is not None
        cell, n, a = v.cell(put.cell), v.n(put.digit), v.a(put.digit)
        column, row = put.cell % 9 + 1, put.cell // 9 + 1
        return m.pick(
            sentences(f"what can go in {cell}?", f"only {a}", m.pick("", "so in it goes", "lovely")),
            sentences(f"{cell} has one candidate left", f"it's {a}"),
            sentences(f"look at {cell}", f"everything but {n} has gone", f"so that's {a}"),
            sentences("naked single!", f"{cell} is {a}"),
            sentences(f"go to column {column}", f"now down to row {row}", f"that cell can only be {a}"),
            sentences(f"{cell} has to be {a}", m.pick("nothing else fits there", "there's no other candidate in there")),
            sentences(f"how many digits fit in {cell}?", "just one", f"that's {n}"),
            sentences(f"{cell} can't be anything but {a}"),
            sentences(f"one candidate in {cell}, and that's {n}", m.pick("", "write it in", "done")),
        )

    def hidden_single(self, m: Matter) -> str:
        v, put = _Say(m), m.put
        assert put is not None
        cell, n, a, the = v.cell(put.cell), v.n(put.digit), v.a(put.digit), v.the(put.digit)
        if not m.says("house"):
            return m.pick(
                sentences("hidden single!", f"{cell} is {a}"),
                sentences("have you spotted the hidden single?", f"it's {a}, in {cell}"),
                sentences(f"there's a hidden single in {cell}", f"that's {a}"),
                sentences(f"{cell} is a hidden single", f"in goes {n}"),
            )
        kind = KINDS[m.house.kind]
        if not m.says("its"):
            return m.pick(
                sentences(f"look at {cell}", f"no other cell in its {kind} can be {a}", f"so it's {n}"),
                sentences(f"{cell} is {a}", "why?", f"because {n} has no other place in its {kind}"),
                sentences(f"{cell} is the only cell in its {kind} that can take {a}", f"so {n} it is"),
                sentences(f"put {a} in {cell}", f"{n} won't go anywhere else in that cell's {kind}"),
            )
        house, inner = v.where(), v.inner([put.cell], m.house)
        options = [
            sentences(f"where does {the} go in {house}?", f"only in {inner}"),
            sentences(f"{house} still needs {a}", f"there's one place for it, {inner}"),
            sentences(f"in {house}, just one cell can be {a}", f"it's {cell}"),
            sentences(f"{cell} is {a}", f"nothing else in {house} can be"),
            sentences(f"now {house}", f"{the} can only go in {inner}", m.pick("", "so in it goes", "there we are")),
            sentences(f"see {house}?", f"{the} has nowhere to go but {inner}"),
            sentences(f"hidden single in {house}", f"it's {a}, in {inner}"),
            sentences(f"which cell of {house} gets {the}?", f"it has to be {inner}"),
            sentences(f"{the} in {house} has only {inner} to go to", f"so {cell} is {a}"),
        ]
        if m.house.kind != "b":
            other = "row" if m.house.kind == "c" else "column"
            options += [
                sentences(f"which {other} has {the} of {house}?", f"{inner}, and no other {other} can"),
                sentences(f"in {house}, only {inner} can be {a}", f"that gives us {n} in {cell}"),
            ]
        return m.pick(*options)

    def last_cell(self, m: Matter) -> str:
        v, put = _Say(m), m.put
        assert put is not None
        cell, n, a = v.cell(put.cell), v.n(put.digit), v.a(put.digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return m.pick(
                sentences(f"{cell} is the last empty cell in its {kind}", f"that's {a}"),
                sentences(f"what finishes the {kind} of {cell}?", f"{a}, right there in {cell}"),
                sentences(f"{a} in {cell}", f"that fills its {kind}"),
                sentences(f"only {cell} is left in its {kind}", f"so it's {a}"),
            )
        house, inner = v.where(), v.inner([put.cell], m.house)
        return m.pick(
            sentences(f"{house} has one gap left", f"it's {inner}, and it needs {a}"),
            sentences(f"what's missing from {house}?", f"just {a}", f"put it in {inner}"),
            sentences(f"one cell to go in {house}", f"{inner} is {a}"),
            sentences(f"{a} in {cell}", f"that's {house} finished"),
            sentences(f"{cell} is {a}", f"it's the last cell in {house}"),
            sentences(f"{house} is nearly full", f"only {inner} is empty", f"only {n} is missing"),
            sentences(f"let's finish {house}", f"{inner} has to be {a}"),
            sentences(f"eight down in {house}", f"the ninth is {a}, in {inner}"),
        )

    def locked(self, m: Matter) -> str:
        v, digit = _Say(m), m.digits[0]
        assert m.crossing is not None
        house, line, kind = v.where(), v.house(m.crossing), KINDS[m.crossing.kind]
        n, a, the, s = v.n(digit), v.a(digit), v.the(digit), v.s(digit)
        if not m.says("crossing"):
            said = m.pick(
                sentences(f"look at the {s} in {house}", f"they're all in one {kind}"),
                sentences(f"in {house}, every place for {a} is in the same {kind}"),
                sentences(f"where can {the} go in {house}?", f"only in one {kind}"),
                sentences(f"all the {s} in {house} share one {kind}"),
            )
            return self.end(m, v, said, f"the rest of that {kind}", digit, solo=True)
        if m.says("name") and m.often(0.5):
            if m.name == "pointing":
                said = m.pick(
                    sentences(f"pointing {s}!", f"in {house} they're all in {line}"),
                    sentences(f"the {s} in {house} are pointing {'down' if m.crossing.kind == 'c' else 'along'} {line}"),
                    sentences(f"where's {the} in {house}?", f"somewhere in {line}", "that's pointing"),
                )
            else:
                said = m.pick(
                    sentences("this one's claiming", f"{house} has all its {s} in {line}"),
                    sentences(f"{house} claims {the} of {line}", f"there's nowhere else in {house} for {a}"),
                    sentences(f"where does {house} keep its {s}?", f"all in {line}", "that's claiming"),
                )
        else:
            said = m.pick(
                sentences(f"where can {the} go in {house}?", f"only in {line}"),
                sentences(f"look at the {s} in {house}", f"they're all in {line}", m.pick("", "see?", "every last one")),
                sentences(f"{house} needs {a}", f"wherever that goes, it's in {line}"),
                sentences(f"in {house} there's no {n} outside {line}"),
                sentences(f"all the {s} of {house} are in {line}", f"so that's where {house} gets its {n}"),
                sentences(f"{house} first", f"{the} has to be in {line} there"),
                sentences(f"can {house} have {a} outside {line}?", "no, it can't"),
            )
        return self.end(m, v, said, m.pick(f"the rest of {line}", f"the rest of that {kind}"), digit, solo=True)

    def naked(self, m: Matter) -> str:
        v = _Say(m)
        held = m.says("house")
        cells = v.inner(m.cells, m.house) if held else v.cells(m.cells)
        lead = f"in {v.where()}, " if held else ""
        digits, either = v.ns(m.digits), v.ns(m.digits, "or")
        size, count = m.name.split()[1], NUMBERS[len(m.cells)]
        both = "both" if len(m.cells) == 2 else "all"
        each = "either" if len(m.cells) == 2 else "any"
        if not m.says("name"):
            said = m.pick(
                sentences(f"{lead}{cells} have just {digits} between them", f"{count} cells, {count} digits"),
                sentences(f"{lead}what's left in {cells}?", f"only {digits}", f"so those {count} digits live there"),
                sentences(f"look at {cells}{' in ' + v.where() if held else ''}", f"they can't be anything but {either}"),
                sentences(f"{lead}{cells} can only be {either}", f"they use those {count} digits up"),
                sentences(f"{lead}there's nothing but {digits} in {cells}"),
            )
        else:
            said = m.pick(
                sentences(f"{lead}{cells} have just {digits} between them", f"that's a naked {size}"),
                sentences(f"there's a naked {size}{' in ' + v.where() if held else ''}", f"it's {digits}, in {cells}"),
                sentences(f"{lead}what's left in {cells}?", f"only {digits}", f"a naked {size}!"),
                sentences(f"naked {size}!", f"{lead}{cells} hold {digits} and nothing else"),
                sentences(f"can you see the naked {size}{' in ' + v.where() if held else ''}?", f"{digits}, in {cells}"),
                sentences(
                    f"{lead}{cells} are a naked {size} of {digits}", m.pick("", f"no other digit fits in {each} of them")
                ),
            )
        kinds = [KINDS[kind] for kind in m.plan.kinds]
        rest = "the rest of " + " and ".join(f"the {kind}" for kind in kinds) if kinds else ""
        sees = f"any cell that sees {both} {count} of them" if both == "all" else "any cell that sees both of them"
        return self.end(m, v, said, m.pick(rest, rest, sees) if rest else sees)

    def hidden(self, m: Matter) -> str:
        v = _Say(m)
        held = m.says("house")
        cells = v.inner(m.cells, m.house) if held else v.cells(m.cells)
        lead = f"in {v.where()}, " if held else ""
        inside = f" in {v.where()}" if held else ""
        digits, either = v.ns(m.digits), v.ns(m.digits, "or")
        size, count = m.name.split()[1], NUMBERS[len(m.cells)]
        if not m.says("name"):
            said = m.pick(
                sentences(f"where can {digits} go{inside}?", f"only in {cells}", f"{count} digits, {count} cells"),
                sentences(f"{lead}the digits {digits} only fit in {cells}"),
                sentences(f"{lead}only {cells} can take {either}", f"so those {count} digits fill those {count} cells"),
                sentences(f"look for {digits}{inside}", f"they're in {cells} and nowhere else"),
                sentences(f"{lead}no cell but {cells} can be {either}")
                if m.often(0.3)
                else sentences(f"{lead}the digits {digits} have to share {cells}", "they've no other places"),
            )
        else:
            said = m.pick(
                sentences(f"where can {digits} go{inside}?", f"only in {cells}", f"that's a hidden {size}"),
                sentences(f"there's a hidden {size}{inside}", f"it's {digits}, in {cells}"),
                sentences(f"hidden {size}!", f"{lead}the digits {digits} only fit in {cells}"),
                sentences(f"{lead}{cells} hide a {size}", f"it's {digits}")
                if m.often(0.3)
                else sentences(f"{lead}the digits {digits} make a hidden {size}", f"they only go in {cells}"),
                sentences(f"have you found the hidden {size}{inside}?", f"{digits}, in {cells}"),
                sentences(f"{lead}{cells} are a hidden {size} of {digits}"),
            )
        return self.end(m, v, said, "")

    def fish(self, m: Matter) -> str:
        v, digit = _Say(m), m.digits[0]
        base, cover, one_of = v.houses(m.houses), v.houses(m.cover), v.houses(m.cover, "or")
        kind, cross = KINDS[m.houses[0].kind], KINDS[m.cover[0].kind]
        n, a, the, s = v.n(digit), v.a(digit), v.the(digit), v.s(digit)
        shown = m.name.replace("x-wing", "X-wing")
        fish, count = f"{'an' if shown[0] == 'X' else 'a'} {shown}", NUMBERS[m.count]
        if m.plan.corners:
            corners = sorted(
                (cell for house in m.houses for cell in m.board.geometry.cells_of[house] if _crosses(cell, m.cover, m)),
                key=lambda cell: (cell % 9, cell),
            )
            told = listed([v.spot(cell) for cell in corners])
            said = m.pick(
                sentences(f"the {s} make an X-wing in the {kind}s", f"its corners are {told}"),
                sentences(f"X-wing on {n}, in the {kind}s", "four corners", told),
            )
            return self.end(m, v, said, f"the rest of those two {cross}s", digit)
        named = m.says("name")
        shout = m.pick(f"that's {fish}", f"{shown}!", f"and that's {fish}", f"so we've got {fish}") if named else ""
        if not m.says("cover"):
            said = m.pick(
                sentences(f"there's {fish} on {n}", f"it's in {base}"),
                sentences(f"look at the {s} in {base}", f"they make {fish}"),
                sentences(f"{base} have {fish} of {s}"),
            )
        elif m.often(0.65 if m.count > 2 else 0.4):
            lines = []
            way = m.rng.randrange(4)
            for at, house in enumerate(m.houses):
                name, places = v.house(house), v.places(house, digit)
                first, final = at == 0, at == len(m.houses) - 1
                if way == 0:
                    lines += [f"where can {the} go in {name}?" if first else f"{'and in' if final else 'in'} {name}?", places]
                elif way == 1:
                    lines.append(
                        f"in {name}, {the} is in {places}" if first else f"{'and in' if final else 'in'} {name}, {places}"
                    )
                elif way == 2:
                    lines.append(f"{'and ' if final else ''}{name} has its {n} in {places}")
                else:
                    lines.append(f"{'and ' if final and not first else ''}{the} of {name} can be in {places}")
            total = m.pick(
                f"{count} {kind}s, and just {cover} between them",
                f"so {base} only ever use {cover}",
                f"that's {cover}, and no other {cross}",
                f"so it's all in {cover}",
            )
            lines = [m.pick("", f"let's hunt for {s}", f"we're after {s} here"), *lines, total, shout]
            said = sentences(*lines)
        else:
            said = m.pick(
                sentences(f"{base} have their {s} only in {cover}", shout),
                sentences(f"look at the {s} in {base}", f"they're all in {cover}", shout),
                sentences(f"where do {base} keep their {s}?", f"only in {cover}", shout),
                sentences(f"in {base}, there's no {n} outside {cover}", shout),
                sentences(f"{base} each need {a}", f"they can only get it in {one_of}", shout),
            )
        rest = f"the rest of {cover}" if m.says("cover") and m.often(0.5) else f"the rest of those {count} {cross}s"
        return self.end(m, v, said, rest, digit, solo=True)

    def finned(self, m: Matter) -> str:
        v, digit = _Say(m), m.digits[0]
        base, cover, fins = v.houses(m.houses), v.houses(m.cover), v.cells(m.fins)
        n, the, s = v.n(digit), v.the(digit), v.s(digit)
        several = len(m.fins) > 1
        plain = m.name.replace("x-wing", "X-wing").removeprefix("finned ")
        fish = f"{'an' if plain[0] == 'X' else 'a'} {plain}"
        if m.often(0.4):
            lines = []
            for at, house in enumerate(m.houses):
                name, places = v.house(house), v.places(house, digit)
                lines.append(
                    f"{'and in' if at == len(m.houses) - 1 else 'in'} {name}, {the + ' is in ' if not at else ''}{places}"
                )
            said = sentences(
                m.pick(f"leave {fins} aside for a moment", f"forget about {fins} for now"),
                *lines,
                f"all in {cover}",
                m.pick(
                    f"that's {fish} on {n}, and what we left out is the fin"
                    if not several
                    else f"that's {fish} on {n}, and what we left out are the fins",
                    f"so it's a finned {plain} on {n}",
                ),
            )
        else:
            said = m.pick(
                sentences(
                    f"the {s} in {base} are nearly {fish}",
                    f"they'd all be in {cover}, but for {fins}",
                    f"{'those are' if several else 'that is'} the fin{'s' if several else ''}",
                ),
                sentences(
                    f"there's a finned {plain} on {n} in {base}",
                    f"it's covered by {cover}",
                    f"the fin{'s are' if several else ' is'} {fins}",
                ),
                sentences(
                    f"finned {plain}!",
                    f"{base} have their {s} in {cover}, except for {'fins' if several else 'a fin'} at {fins}",
                ),
                sentences(
                    f"are the {s} in {base} all in {cover}?",
                    "not quite",
                    f"there{' are fins' if several else chr(39) + 's a fin'} at {fins}",
                    f"so it's a finned {plain}",
                ),
                sentences(
                    f"look for {s} in {base}",
                    f"you'll find them in {cover}, plus {fins}",
                    f"that makes a finned {plain}, with {fins} for {'fins' if several else 'the fin'}",
                ),
            )
        hint = m.pick(
            f"any cell of {cover} that sees {'all the fins' if len(m.fins) > 2 else 'both fins' if several else 'the fin'}",
            f"those cells of {cover} that {'every fin sees' if several else 'the fin sees'}",
        )
        return self.end(m, v, said, hint, digit)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        v = _Say(m)
        pivot, (first, second) = v.cell(m.pivot), map(v.cell, m.cells)
        one, other, both = map(v.a, m.plan.shared)
        n = v.n(m.plan.shared[2])
        wings = v.cells(m.cells)
        if not m.says("name"):
            said = m.pick(
                sentences(
                    f"{pivot} is {one} or {other}",
                    f"if it's {one}, then {first} is {both}",
                    f"if it's {other}, then {second} is {both}",
                ),
                sentences(
                    f"what's in {pivot}?",
                    f"say it's {one}. Then {first} is {both}",
                    f"say it's {other}. Then {second} is {both}",
                ),
                sentences(
                    f"try {one} in {pivot}. That makes {first} {both}",
                    f"now try {other} in {pivot}. That makes {second} {both}",
                    m.pick("", "there's no third choice"),
                ),
                sentences(
                    f"could {wings} both do without {n}?",
                    f"then {first} would be {one}, and {second} would be {other}",
                    f"and {pivot} would have nothing left",
                    f"so one of those two is {both}",
                ),
            )
            those = f"{v.spot(m.cells[0])} and {v.spot(m.cells[1])}"
            where = m.pick(f"any cell that sees both {those}", f"any cell that {those} both see")
        else:
            said = m.pick(
                sentences("XY-wing!", f"the pivot is {pivot}", f"the wings are {wings}"),
                sentences("here's an XY-wing", f"it hinges on {pivot}, the pivot", f"its wings are {wings}"),
                sentences(
                    "see the XY-wing?",
                    f"{pivot} is the pivot",
                    f"one wing is {first}, and the other is {second}",
                    f"one of the wings is {both}",
                ),
                sentences(
                    f"{pivot} is {one} or {other}",
                    f"with {one} there, {first} is {both}",
                    f"with {other} there, {second} is {both}",
                    f"so we've got an XY-wing, with {v.spot(m.pivot)} for its pivot",
                ),
            )
            where = m.pick("any cell that sees both wings", "any cell that both wings see")
        return self.end(m, v, said, where, m.plan.shared[2], after=True)

    def becomes(self, m: Matter, v: _Say, cell: str, n: str, a: str, final: bool, first: bool = False) -> str:
        """A link by which a cell is filled. ``first``: straight after what is supposed."""
        if first:
            return m.pick(
                f"then {cell} is {a}", f"then {cell} has to be {a}", f"that makes {cell} {a}", f"that puts {a} in {cell}"
            )
        return m.pick(
            f"then {cell} is {a}",
            f"that makes {cell} {a}",
            f"so {cell} is {a}",
            f"that puts {a} in {cell}",
            f"{'and so' if final else 'so then'} {cell} has to be {a}",
            f"{'and that means' if final else 'which means'} {cell} is {a}",
        )

    def loses(self, m: Matter, v: _Say, cell: str, n: str, a: str, final: bool, first: bool = False) -> str:
        """A link by which a digit leaves a cell."""
        if first:
            return m.pick(f"then {cell} isn't {a}", f"then {cell} can't be {a}", f"that stops {cell} from being {a}")
        return m.pick(
            f"then {cell} isn't {a}",
            f"so {cell} can't be {a}",
            f"that means {cell} isn't {a}",
            f"that stops {cell} from being {a}",
            f"{'and so' if final else 'so then'} {cell} isn't {a}",
        )

    def xy_chain(self, m: Matter) -> str:
        v = _Say(m)
        cells, digits = [v.cell(cell) for cell in m.cells], [v.a(digit) for digit in m.digits]
        first, last, end, n = cells[0], cells[-1], digits[0], v.n(m.digits[0])
        ends = v.cells([m.cells[0], m.cells[-1]], "or")
        named = m.says("name")
        way = m.rng.randrange(4)
        name = m.pick("that's an XY-chain", "there's our XY-chain", f"an XY-chain on {n}") if named else ""
        whole = m.pick(f"so {ends} is {end}", f"so either {ends} is {end}", f"one end or the other is {end}")
        if way in (0, 1):
            lines = [m.pick(f"what if {first} isn't {end}?", f"suppose {first} isn't {end}", f"say {first} is not {end}")]
            lines.append(m.pick(f"then it's {digits[1]}", f"then it has to be {digits[1]}", f"that makes it {digits[1]}"))
            for at, (cell, digit) in enumerate(zip(cells[1:], digits[2:], strict=True)):
                lines.append(self.becomes(m, v, cell, "", digit, at == len(cells) - 2))
            said = sentences(*lines, whole, name)
        elif way == 2:
            lines = [
                m.pick(
                    "here's an XY-chain" if named else "here's a chain",
                    f"follow {'an XY-chain' if named else 'a chain'} with me",
                )
            ]
            pairs = zip(cells, m.digits, m.digits[1:], strict=False)
            for at, (cell, one, other) in enumerate(pairs):
                lines.append(
                    f"{'start at ' if not at else ''}{cell}{', which' if not at else ''} is {v.n(one)} or {v.n(other)}"
                )
            said = sentences(*lines, m.pick(f"if the first isn't {end}, the last one is", f"one of the two ends is {end}"))
        else:
            lines = [
                m.pick("let's take this from the far end", "start at the far end with me"),
                f"if {last} isn't {digits[-1]}, it's {digits[-2]}",
            ]
            back = [*zip(cells[-2::-1], digits[-3::-1], strict=True)]
            for at, (cell, digit) in enumerate(back):
                lines.append(self.becomes(m, v, cell, "", digit, at == len(back) - 1))
            said = sentences(*lines, whole, name)
        return self.end(
            m, v, said, m.pick("any cell that sees both ends", "any cell that both ends see"), m.digits[0], after=True
        )

    def x_chain(self, m: Matter) -> str:
        v, digit = _Say(m), m.digits[0]
        n, a, the, s = v.n(digit), v.a(digit), v.the(digit), v.s(digit)
        cells = [v.cell(cell) for cell in m.cells]
        first, last = cells[0], cells[-1]
        ends = v.cells([m.cells[0], m.cells[-1]], "or")
        named = m.says("name")
        name = m.pick("that's an X-chain", f"an X-chain on {n}", "there's our X-chain") if named else ""
        whole = m.pick(f"so {ends} is {a}", f"so either {ends} is {a}", f"one end or the other is {a}")
        way = m.rng.randrange(5)
        if way == 0:
            lines = []
            for at, kind in enumerate(m.plan.ways):
                pair = m.cells[2 * at : 2 * at + 2]
                house = m.board.geometry.houses_of[pair[0]][kind]
                these = v.inner(pair, house, "or")
                lines.append(
                    m.pick(
                        f"in {v.house(house)}, {the} is in {these}",
                        f"{v.house(house)} has two places for {the}. {opened(v.inner([pair[0]], house))}. And {v.inner([pair[1]], house)}",
                        f"where's {the} in {v.house(house)}? It's {these}",
                    )
                )
                if at + 1 < len(m.plan.ways):
                    lines.append(
                        m.pick(
                            "",
                            f"now, {v.spot(pair[1])} and {v.spot(m.cells[2 * at + 2])} see each other, so they can't both be {a}",
                        )
                    )
            said = sentences(*lines, whole, name)
        elif way == 3 and named:
            said = m.pick(
                sentences(
                    f"X-chain on {n}!",
                    f"it starts at {first}",
                    *[f"then {cell}" for cell in cells[1:-1]],
                    f"and it ends at {last}",
                ),
                sentences(
                    f"the {s} make an X-chain",
                    f"it runs from {first} to {cells[1]}",
                    *[f"then to {cell}" for cell in cells[2:]],
                ),
            )
        elif way == 4 and len(cells) == 4:
            middle = v.cells(m.cells[1:3])
            said = sentences(
                f"could {first} and {last} both not be {a}?",
                f"then {middle} would both be {a}",
                m.pick("but those two see each other", "and those two see each other, so no"),
                name,
            )
        else:
            lines = [m.pick(f"suppose {first} isn't {a}", f"what if {first} isn't {a}?", f"say there's no {n} in {first}")]
            lines.append(self.becomes(m, v, cells[1], n, a, False, True))
            for at in range(2, len(cells), 2):
                lines.append(self.loses(m, v, cells[at], n, a, False))
                lines.append(self.becomes(m, v, cells[at + 1], n, a, at + 2 == len(cells)))
            said = sentences(*lines, whole, name)
        return self.end(m, v, said, m.pick("any cell that sees both ends", "any cell that both ends see"), digit, after=True)

    def chain(self, m: Matter) -> str:
        v = _Say(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        absurd = (first, digit) == (last, end) and holds != supposed
        start, a, n = v.cell(first), v.a(digit), v.n(digit)
        if supposed:
            lines = [
                m.pick(f"what if {start} is {a}?", f"suppose {start} is {a}", f"try {a} in {start}", f"say {start} is {a}")
            ]
        else:
            lines = [m.pick(f"what if {start} isn't {a}?", f"suppose {start} isn't {a}", f"say there's no {n} in {start}")]
        for at, ((before, _, _), (cell, is_, other)) in enumerate(pairwise(m.links), 2):
            name = "it" if cell == before else v.cell(cell)
            if cell == before and is_:
                lines.append(m.pick(f"then it's {v.a(other)}", f"then it has to be {v.a(other)}"))
            else:
                told = self.becomes if is_ else self.loses
                lines.append(told(m, v, name, v.n(other), v.a(other), at == len(m.links), at == 2))
        opposite = f"{start} is{chr(110) + chr(39) + 't' if supposed else ''} {a}"
        if absurd:
            lines.append(
                m.pick(
                    "but we said it was" if supposed else "but we said it wasn't",
                    "that can't be right",
                    "and that's a contradiction",
                    "which is the opposite of what we started with",
                )
            )
            if m.plan.natural:
                return sentences(
                    *lines,
                    m.pick(f"so {opposite}", f"that leaves us no choice. {opened(opposite)}", f"which proves that {opposite}"),
                )
        elif m.often(0.6):
            final = f"{v.cell(last)} is{'' if holds else chr(110) + chr(39) + 't'} {v.a(end)}"
            lines.append(m.pick(f"so either {opposite}, or {final}", f"one or the other, then. Either {opposite} or {final}"))
        said = sentences(*lines)
        return self.end(m, v, said, m.pick("any cell that sees both ends", "any cell that both ends see"), digit, after=True)

    def facts(self, m: Matter) -> str:
        v = _Say(m)
        style = m.rng.randrange(2)
        said = []
        for what in m.cited:
            if isinstance(what, int):
                said.append((f"what's left in {v.spot(what)}", f"the candidates of {v.spot(what)}")[style])
            else:
                digit, house = what
                said.append(
                    (f"where {v.house(house)} can put its {v.n(digit)}", f"the places for {v.n(digit)} in {v.house(house)}")[
                        style
                    ]
                )
        words = listed(said, comma=True)
        tail = self.plain(m, v)
        return m.pick(
            sentences(f"think about {words}", *tail),
            sentences("what do we need here?", f"just {words}", *tail),
            sentences(*tail, f"all you need for that is {words}"),
            sentences(f"work through {words}", "it always comes out the same", *tail),
            sentences(*tail, "how do we know?", f"look at {words}"),
            sentences(f"start from {words}", "whatever you try there, it ends the same way", *tail),
        )

    def bare(self, m: Matter) -> str:
        tail = self.plain(m, _Say(m))
        return m.pick(
            sentences(*tail),
            sentences(*tail, "I'll let you work out why"),
            sentences("take my word for this one", *tail),
            sentences(*tail, "can you see the reason?"),
            sentences("I'll skip the reason here", *tail),
        )

    def recap(self, m: Matter) -> str:
        v, put = _Say(m), m.put
        assert put is not None
        return m.pick(
            f"So, {v.cell(put.cell)}, {v.n(put.digit)}.",
            f"That's {v.n(put.digit)} in {v.cell(put.cell)}.",
            f"Got that? {opened(v.cell(put.cell))} is {v.n(put.digit)}.",
        )

    def end(
        self, m: Matter, v: _Say, said: str, where: str, digit: int | None = None, after: bool = False, solo: bool = False
    ) -> str:
        """The reason and what comes of it. ``after``: the conclusion must come last; ``solo``: no other digit was spoken of."""
        closing = [part for part in said.lower().replace("?", ".").replace("!", ".").split(".") if part][-1]
        solo = solo and not any(name in closing for name in ("wing", "fish", "pointing", "claiming", "chain", "corner"))
        if m.plan.natural:
            return f"{said} {sentences(self.hinted(m, v, where, digit, solo))}"
        if not after and m.often(0.2) and not said.startswith(("Can you", "Have you", "See ")):
            why = m.pick("why?", "how come?", "here's why.", "and the reason?")
            return f"{sentences(*self.plain(m, v))} {opened(why)} {said}"
        first, *others = m.effects
        lines = [self.concluded(m, v, first, digit if solo else None)]
        for at, effect in enumerate(others):
            told = self.effect(m, v, effect)
            lines.append(f"and {told}" if at == len(others) - 1 and m.often(0.5) else told)
        return f"{said} {sentences(*lines)}"

    def hinted(self, m: Matter, v: _Say, where: str, digit: int | None, solo: bool) -> str:
        if m.name.startswith("hidden"):
            these = f"those {NUMBERS[len(m.cells)]} cells"
            return m.pick(
                f"so everything else comes out of {these}",
                f"anything else in {these}? Out it goes",
                f"so {these} can't be anything else",
                f"no other digit can stay in {these}",
                f"that means {these} lose all their other candidates",
            )
        digits = [digit] if digit else m.digits
        if len(digits) > 1:
            those = v.ns(digits)
            return m.pick(
                f"so {those} come out of {where}",
                f"so that's {those} gone from {where}",
                f"no {v.ns(digits, 'or')} in {where}, then",
                f"take {those} out of {where}",
                f"we can clear {those} from {where}",
            )
        n, a, the, s = v.n(digits[0]), v.a(digits[0]), v.the(digits[0]), v.s(digits[0])
        return m.pick(
            f"so that's gone from {where}" if solo else f"so {the} is gone from {where}",
            f"so {n} comes out of {where}",
            f"no {n} in {where}, then",
            f"that means there's no {n} in {where}",
            f"we can clear the {s} from {where}",
            f"is there {a} in {where}? Out it goes",
            f"take {n} out of {where}",
        )

    def plain(self, m: Matter, v: _Say) -> list[str]:
        return [self.effect(m, v, effect) for effect in m.effects]

    def concluded(self, m: Matter, v: _Say, effect: Put | Strike | Clear, digit: int | None) -> str:
        """The first of the effects, after the reason."""
        if isinstance(effect, Strike) and effect.digits == (digit,):
            cells = v.cells(effect.cells)
            if m.often(0.5):
                return m.pick(
                    f"so that's gone from {cells}",
                    f"so {v.n(digit)} is gone from {cells}",
                    f"so no {v.n(digit)} in {cells}, then",
                )
        if isinstance(effect, Strike) and m.often(0.3):
            cells = v.cells(effect.cells)
            digits = v.the(effect.digits[0]) if len(effect.digits) == 1 else v.ns(effect.digits)
            return f"so that's {digits} gone from {cells}"
        told = self.effect(m, v, effect)
        if told.startswith(("take", "clear", "put", "out", "rub")):
            return m.pick(told, f"so {told}") if not told.startswith("out") else told
        return m.pick(f"so {told}", f"that means {told}", told, f"and that means {told}", f"so what do we get? {opened(told)}")

    def effect(self, m: Matter, v: _Say, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, n, a = v.cell(effect.cell), v.n(effect.digit), v.a(effect.digit)
            return m.pick(
                f"{cell} is {a}", f"{cell} has to be {a}", f"put {a} in {cell}", f"{n} goes in {cell}", f"{cell} must be {n}"
            )
        digits, either = v.ns(effect.digits), v.an(effect.digits)
        several = len(effect.digits) > 1
        no = v.ns(effect.digits, "or")
        the = digits if several else v.the(effect.digits[0])
        if isinstance(effect, Clear):
            house = v.house(effect.house)
            return m.pick(
                f"nothing else in {house} can be {either}",
                f"{the} come{'' if several else 's'} out of the rest of {house}",
                f"there's no {no} in the rest of {house}",
                f"the rest of {house} can't be {either}",
                f"take {digits} out of the rest of {house}",
            )
        cells = v.cells(effect.cells)
        return m.pick(
            f"{cells} can't be {either}",
            f"{cells} can't be {either}",
            f"there's no {no} in {v.cells(effect.cells, 'or')}",
            f"{the} {'come' if several else 'comes'} out of {cells}",
            f"take {digits} out of {cells}",
            f"rub out {the} in {cells}",
            f"we can cross {digits} off in {cells}",
            f"{cells} {'are' if len(effect.cells) > 1 else 'is'} not {either}",
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Hello, hello! Welcome back to the Lamp Room. Are your pencils sharp? Here we go.",
                    "Good evening, keepers! Tonight's puzzle is a beauty. Shall we?",
                    "Welcome aboard. I've got the grid here. I've got the lamp lit. Let's solve it!",
                    "You're with the Lamp Room. I'll say the column first and then the row. All right?",
                )
            ),
            opens=True,
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.12:
            yield Piece(
                rng.choice(
                    (
                        "Still with me?",
                        "How good is that?",
                        "Lovely.",
                        "What's next?",
                        "Right then.",
                        "I had to stare at the next one for ages.",
                        "Isn't that neat?",
                        "Keep going, keepers.",
                        "Who saw that coming?",
                        "Let's keep the light turning.",
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
                    "And that's it! Wasn't that fun? Good night from the Lamp Room.",
                    "We've done what we came for. Same lamp, same time tomorrow?",
                    "That's where I'll leave you. Thanks for keeping watch with me!",
                )
            ),
            opens=True,
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        cut = Captioned(
            True,
            width=rng.choice((32, 38, 44)),
            rows=rng.choice((1, 2, 2)),
            breath=0.5,
            rate=3.2,
            voice=rng.choice(("", "", "<v Keeper>")),
            numbered=rng.random() < 0.3,
        )
        return "vtt", captions(pieces, cut, rng)


def _crosses(cell: int, cover: Sequence[House], m: Matter) -> bool:
    return any(house in cover for house in m.board.geometry.houses_of[cell].values())
