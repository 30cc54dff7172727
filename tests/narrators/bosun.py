"""For development: a bosun whose captions tell a whole step in one or two long sentences, the column before the row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, PLURALS, an, listed, opened
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator


class _Voice:
    """How one step names things. Places are always numerals; digits are spelled by some tellings."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        self.spelled = m.manner % 6 == 0
        self.way = m.rng.randrange(4)

    def n(self, digit: int) -> str:
        return NUMBERS[digit] if self.spelled else str(digit)

    def a(self, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {self.n(digit)}"

    def the(self, digit: int) -> str:
        return f"the {self.n(digit)}"

    def s(self, digit: int) -> str:
        return PLURALS[digit] if self.spelled else f"{digit}s"

    def plain(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([self.n(digit) for digit in digits], last)

    def these(self, digits: Sequence[int]) -> str:
        return listed([self.the(digit) for digit in digits])

    def either(self, digits: Sequence[int]) -> str:
        return listed([self.a(digit) for digit in digits], "or")

    def house(self, house: House) -> str:
        return f"{KINDS[house.kind]} {house.number}"

    def where(self) -> str:
        return f"the same {KINDS[self.m.house.kind]}" if self.m.plan.back else self.house(self.m.house)

    def houses(self, houses: Sequence[House]) -> str:
        return f"{KINDS[houses[0].kind]}s {listed([str(house.number) for house in houses])}"

    def cell(self, cell: int) -> str:
        if self.way == 3:
            return f"column {cell % 9 + 1} in row {cell // 9 + 1}"
        return f"column {cell % 9 + 1}, row {cell // 9 + 1}"

    def cells(self, cells: Sequence[int], last: str = "and") -> str:
        if len(cells) == 1:
            return self.cell(cells[0])
        if len({cell % 9 for cell in cells}) == 1 and self.way < 2 and last == "and":
            return f"column {cells[0] % 9 + 1}, rows {listed([str(cell // 9 + 1) for cell in cells])}"
        return listed(_groups(cells, last), last)

    def inner(self, cells: Sequence[int]) -> str:
        """Cells of the house just named, by the other number alone where that is plain."""
        house = self.m.house
        if not self.m.plan.back:
            if house.kind == "c" and all(cell % 9 + 1 == house.number for cell in cells):
                return f"row{'s' if len(cells) > 1 else ''} {listed([str(cell // 9 + 1) for cell in cells])}"
            if house.kind == "r" and all(cell // 9 + 1 == house.number for cell in cells):
                return f"column{'s' if len(cells) > 1 else ''} {listed([str(cell % 9 + 1) for cell in cells])}"
        return self.cells(cells)


def _groups(cells: Sequence[int], last: str) -> list[str]:
    """Cells by rows or by columns, whichever takes fewer words."""
    rows: dict[int, list[int]] = {}
    columns: dict[int, list[int]] = {}
    for cell in sorted(cells):
        rows.setdefault(cell // 9 + 1, []).append(cell % 9 + 1)
        columns.setdefault(cell % 9 + 1, []).append(cell // 9 + 1)
    if len(columns) < len(rows):
        lines, each, other = columns, "row", "column"
    else:
        lines, each, other = rows, "column", "row"
    said = []
    for line, numbers in sorted(lines.items()):
        if len(numbers) == 1:
            column, row = (line, numbers[0]) if other == "column" else (numbers[0], line)
            said.append(f"column {column} in row {row}")
        else:
            said.append(f"{each}{'s' if last == 'and' else ''} {listed(map(str, numbers), last)} in {other} {line}")
    return said


class Bosun(Narrator):
    """Long of breath: gives the reason and what comes of it in one go."""

    name = "bosun"
    leaves: ClassVar = {
        "its": 0.08,
        "single house": 0.04,
        "naked house": 0.3,
        "cover": 0.08,
        "crossing": 0.08,
        "name": 0.4,
        "effects": 0.5,
        "back": 0.15,
    }

    # Singles.

    def naked_single(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        cell, n, a, the = v.cell(put.cell), v.n(put.digit), v.a(put.digit), v.the(put.digit)
        return opened(
            m.pick(
                f"since every other digit has been ruled out in {cell}, we can write {a} there.",
                f"{cell} has nothing left but {the}, so that's what we write in.",
                f"{cell} must be {a}, because there's no other candidate left in that cell.",
                f"because {n} is the only candidate that {cell} still has, {a} goes in there.",
                f"if we look at {cell}, we find just one candidate, which is {the}, so in it goes.",
                f"{a} goes in {cell}, because eight of the nine digits are impossible there and only {the} remains.",
                f"{cell} is a naked single, which means that it takes the only candidate it has: {n}.",
                f"as {cell} can't be anything except {a}, we fill it in.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        cell, n, a, the = v.cell(put.cell), v.n(put.digit), v.a(put.digit), v.the(put.digit)
        if not m.says("house"):
            return opened(
                m.pick(
                    f"there's a hidden single in {cell}, so we write {a} there.",
                    f"{cell} is {a}, because that's a hidden single.",
                    f"with a hidden single to be had in {cell}, we can fill in {a} there.",
                )
            )
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return opened(
                m.pick(
                    f"{cell} must be {a}, because no other cell in its {kind} can take that digit.",
                    f"since {cell} is the only cell of its {kind} with room for {a}, that's where we put {the}.",
                    f"as every other cell in its {kind} is barred to {the}, {cell} has to be {n}.",
                )
            )
        house, inner = v.where(), v.inner([put.cell])
        return opened(
            m.pick(
                f"since {house} has only one place left for {a}, which is {inner}, we write {the} in there.",
                f"{cell} is {a}, because nowhere else in {house} can have that digit.",
                f"because every other cell in {house} is closed to {the}, it has to go in {inner}.",
                f"if we ask where {house} can have its {n}, we find that only {inner} will do, so {the} goes there.",
                f"{house} still needs {a}, and since {inner} is the only cell there that can take it, that's settled.",
                f"put {a} in {cell}, because {the} has nowhere else to go in {house}.",
                f"as a hidden single in {house}, {the} goes in {inner}.",
                f"in {house} there's a hidden single, because {the} fits only in {inner}.",
                f"when we go through {house} cell by cell, {inner} turns out to be the only place for {the}, so we fill it in.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        cell, n, a, the = v.cell(put.cell), v.n(put.digit), v.a(put.digit), v.the(put.digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return opened(
                m.pick(
                    f"since {cell} is the only empty cell left in its {kind}, it must be {a}.",
                    f"{cell} is {a}, because the rest of its {kind} is already full.",
                    f"with all the other cells of its {kind} filled, {cell} gets the missing digit, which is {n}.",
                )
            )
        house, inner = v.where(), v.inner([put.cell])
        return opened(
            m.pick(
                f"since {house} is full except for {inner}, the missing {n} goes in there.",
                f"{cell} is {a}, because it's the last empty cell in {house}.",
                f"{house} has one gap left, which is {inner}, and one digit missing, which is {the}, so in it goes.",
                f"because the only digit missing from {house} is {the} and the only gap is {inner}, we can fill that in.",
                f"put {a} in {cell}, which completes {house}.",
                f"as eight digits already stand in {house}, the last cell, {inner}, must be {a}.",
                f"with only {inner} still empty in {house}, we finish off with {a}.",
            )
        )

    # Patterns in houses.

    def locked(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        assert m.crossing is not None
        house, line, kind = v.where(), v.house(m.crossing), KINDS[m.crossing.kind]
        n, a, the, s = v.n(digit), v.a(digit), v.the(digit), v.s(digit)
        if not m.says("crossing"):
            reason, head = m.pick(
                f"all the {s} in {house} are in the same {kind}|with all the {s} of {house} in the same {kind}",
                f"{house} has its {s} in a single {kind}|as the {s} in {house} sit in a single {kind}",
            ).split("|")
            return self.so(m, v, reason, head, f"the rest of that {kind}", digit)
        if m.says("name") and m.often(0.5):
            reason, head = (
                m.pick(
                    f"the {s} in {house} point along {line}|with a pointing set of {s} in {house} along {line}",
                    f"{house} has pointing {s} that all lie in {line}|as the pointing {s} of {house} are all in {line}",
                )
                if m.name == "pointing"
                else m.pick(
                    f"{house} claims {the} of {line}|with {the} of {line} claimed by {house}",
                    f"{house} has its {s} only in {line}, a case of claiming,|by claiming, as {house} has its {s} only in {line}",
                )
            ).split("|")
            reason = reason.rstrip(",")
        else:
            reason, head = m.pick(
                f"all the {s} in {house} are in {line}|with the {s} of {house} confined to {line}",
                f"{house} can have its {n} only in {line}|wherever {the} goes in {house}, which will always be in {line}",
                f"{the} of {house} has to be somewhere in {line}|as there's no place for {a} in {house} outside {line}",
                f"every candidate {n} in {house} lies in {line}|with every {n} in {house} lying in {line}",
                f"there's no room for {a} in {house} except in {line}|seeing that {house} has its {s} only in {line}",
            ).split("|")
        return self.so(m, v, reason, head, f"the rest of {line}", digit)

    def naked(self, m: Matter) -> str:
        v = _Voice(m)
        size = m.name.split()[1]
        held = m.says("house")
        cells = v.cells(m.cells)
        lead = f"in {v.where()} " if held else ""
        inner = v.inner(m.cells) if held else cells
        digits = v.plain(m.digits)
        count = NUMBERS[len(m.cells)]
        if m.says("name"):
            reason, head = m.pick(
                f"{lead}{inner} form a naked {size} of {digits}|with a naked {size} of {digits} {lead}in {inner}",
                f"{lead}{inner} are a naked {size}, having only {digits} to choose from"
                f"|as {f'{v.where()} has' if held else f'there{chr(39)}s'} a naked {size} of {digits} in {inner}",
                f"{lead}there's a naked {size} in {inner}, with {digits} as the digits"
                f"|as {lead}{inner} hold nothing but {digits}, which makes a naked {size}",
            ).split("|")
        else:
            reason, head = m.pick(
                f"{lead}{inner} have only {digits} between them|with nothing but {digits} left {lead}in {inner}",
                f"{lead}{inner} can't be anything but {v.plain(m.digits, 'or')}"
                f"|as {lead}{inner} will use up {digits} in one order or another",
                f"{lead}{inner} have to share {digits} among themselves|with {digits} being all that {lead}{inner} have left",
                f"{lead}the only candidates in {inner} are {digits}|as {lead}the {count} digits {digits} are all that's left in {inner}",
            ).split("|")
        kinds = " and the ".join(KINDS[kind] for kind in m.plan.kinds)
        both = "both" if len(m.cells) == 2 else f"all {count}"
        return self.so(m, v, reason, head, m.pick(f"the rest of the {kinds}", f"any cell that sees {both} of these"))

    def hidden(self, m: Matter) -> str:
        v = _Voice(m)
        size, house, count = m.name.split()[1], v.where(), NUMBERS[len(m.cells)]
        inner, digits, the = v.inner(m.cells), v.plain(m.digits), v.these(m.digits)
        if m.says("name"):
            reason, head = m.pick(
                f"in {house} there's a hidden {size} of {digits} in {inner}|with a hidden {size} of {digits} in {house} in {inner}",
                f"in {house} {inner} form a hidden {size}, the digits being {digits}"
                f"|as {house} has a hidden {size} of {digits}, which takes up {inner}",
                f"in {house} the digits {digits} are a hidden {size} in {inner}"
                f"|as the hidden {size} of {digits} in {house} needs {inner}",
            ).split("|")
        else:
            reason, head = m.pick(
                f"{house} can have {the} only in {inner}|with {the} in {house} confined to {inner}",
                f"in {house} the {count} digits {digits} fit only in {inner}|as {the} of {house} have to share {inner}",
                f"in {house} no cells other than {inner} can take {digits}|as there's no place in {house} for {digits} outside {inner}",
                f"{the} in {house} all have to go in {inner}|seeing that only {inner} in {house} can take {the}",
            ).split("|")
        return self.so(m, v, reason, head, "")

    # Fish.

    def fish(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        base, cover, cross = v.houses(m.houses), v.houses(m.cover), f"{KINDS[m.cover[0].kind]}s"
        n, s, the, shown = v.n(digit), v.s(digit), v.the(digit), m.name.replace("x-wing", "X-wing")
        fish = an(shown)
        if not m.says("name"):
            reason, head = m.pick(
                f"{base} have their {s} only in {cover}|with the {s} of {base} confined to {cover}",
                f"the {s} in {base} are all in {cover}|as {base} can't have {v.a(digit)} outside {cover}",
                f"whichever way {the} goes in {base}, it's in {cover}|seeing that {base} must take their {s} from {cover}",
            ).split("|")
            if reason.startswith("whichever"):
                reason = f"there's no {n} in {base} outside {cover}"
        elif not m.says("cover"):
            reason, head = m.pick(
                f"the {s} in {base} form {fish}|with {fish} of {s} in {base}",
                f"there's {fish} of {s} in {base}|as {base} make {fish} with their {s}",
            ).split("|")
        else:
            reason, head = m.pick(
                f"the {s} in {base} are all in {cover}, which makes {fish}|with {fish} of {s} in {base}, covered by {cover}",
                f"{base} have their {s} only in {cover}, and that's {fish}|as the {s} of {base} form {fish} in {cover}",
                f"there's {fish} on {n} in {base}, with all its {s} in {cover}"
                f"|by the {shown} of {s} that {base} form in {cover}",
            ).split("|")
        rest = f"the rest of {cover}" if m.says("cover") and m.often(0.5) else f"the rest of those {cross}"
        return self.so(m, v, reason, head, rest, digit)

    def finned(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        base, cover, fins = v.houses(m.houses), v.houses(m.cover), v.cells(m.fins)
        s, many = v.s(digit), len(m.fins) > 1
        fin, is_, sees = ("fins", "are", "see") if many else ("fin", "is", "sees")
        shown = m.name.removeprefix("finned ").replace("x-wing", "X-wing")
        fish = an(shown)
        reason, head = m.pick(
            f"the {s} in {base} are all in {cover} except for the {fin} in {fins}, which makes a finned {shown}"
            f"|with a finned {shown} of {s} in {base}, covered by {cover}, and the {fin} in {fins}",
            f"there's a finned {shown} of {s} in {base}, where {cover} cover everything but the {fin} in {fins}"
            f"|as {base} would form {fish} of {s} in {cover} if it weren't for the {fin} in {fins}, and that's a finned {shown}",
            f"{base} have their {s} in {cover}, apart from {fins}, and that's a finned {shown}"
            f"|as the finned {shown} of {s} in {base} and {cover} has its {fin} in {fins}",
            f"the {s} of {base} form a finned {shown} in {cover}, and the {fin} {is_} {fins}"
            f"|since either the {fin} in {fins} {'hold' if many else 'holds'} {v.a(digit)}, or {base} have "
            f"{fish} of {s} in {cover}, which is to say a finned {shown}",
        ).split("|")
        hint = m.pick(
            f"those cells of {cover} that see {'all the fins' if many else 'the fin'}",
            f"the part of {cover} that the {fin} {sees}" if not many else f"the part of {cover} that all the fins see",
        )
        return self.so(m, v, reason, head, hint, digit)

    # Wings and chains.

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        v = _Voice(m)
        pivot, (first, second) = v.cell(m.pivot), map(v.cell, m.cells)
        turn, other, both = m.plan.shared
        one, two, out = v.a(turn), v.a(other), v.a(both)
        if m.says("name"):
            reason, head = m.pick(
                f"{pivot} is the pivot of an XY-wing whose wings are {first} and {second}"
                f"|with {pivot} as the pivot and {first} and {second} as the wings of an XY-wing",
                f"there's an XY-wing with its pivot in {pivot} and its wings in {first} and {second}"
                f"|by the XY-wing that has {pivot} for its pivot and {first} and {second} for its wings",
                f"the pivot in {pivot} and the wings in {first} and {second} make an XY-wing, so that one of the wings is {out}"
                f"|as one of the two wings, {first} and {second}, has to be {out} in this XY-wing, whose pivot is {pivot}",
            ).split("|")
            return self.so(m, v, reason, head, "any cell that sees both wings", both)
        reason, head = m.pick(
            f"{first} is {out} if {pivot} is {one}, and {second} is {out} if {pivot} is {two}"
            f"|as {one} in {pivot} makes {first} {out}, and {two} there makes {second} {out}",
            f"{pivot} has to be {one} or {two}, where {one} makes {first} {out} and {two} makes {second} {out}"
            f"|as {pivot} is {one}, in which case {first} is {out}, or {two}, in which case {second} is {out}",
            f"one of {first} and {second} has to be {out}, whether {pivot} is {one} or {two}"
            f"|with {one} in {pivot} giving {first} {out}, and {two} in {pivot} giving {second} {out}",
        ).split("|")
        where = m.pick(f"any cell that sees both {first} and {second}", f"any cell that both {first} and {second} see")
        return self.so(m, v, reason, head, where, both)

    def xy_chain(self, m: Matter) -> str:
        v = _Voice(m)
        cells, digits = [*m.cells], [*m.digits]
        if m.often(0.3):
            cells, digits = cells[::-1], digits[::-1]
        names = [v.cell(cell) for cell in cells]
        end, first, last = v.a(digits[0]), names[0], names[-1]
        either = m.pick(f"one of {first} and {last} is {end} whatever happens", f"either {first} or {last} is {end}")
        called = m.says("name")
        if m.often(0.25):
            said = ", and ".join(
                f"{name} is {v.a(one)} or {v.a(two)}" for name, one, two in zip(names, digits, digits[1:], strict=False)
            )
            kind = "an XY-chain" if called else "a chain"
            said = f"as {said}, we have {kind}, which shows that {either}"
            return self.long(m, v, said, "any cell that sees both ends", digits[0])
        links = [f"{name} is {v.a(digit)}" for name, digit in zip(names[1:], digits[2:], strict=True)]
        start = f"if {first} isn't {end}, then it's {v.a(digits[1])}"
        lead = m.pick("by this XY-chain, ", "this is an XY-chain, because ", "following the XY-chain, ") if called else ""
        return self.long(
            m, v, f"{lead}{start}{self.linked(m, links)}, so that {either}", "any cell that sees both ends", digits[0]
        )

    def x_chain(self, m: Matter) -> str:
        v, digit = _Voice(m), m.digits[0]
        names = [v.cell(cell) for cell in m.cells]
        a, s, first, last = v.a(digit), v.s(digit), names[0], names[-1]
        called = m.says("name")
        told, why = [], m.often(0.5)
        for at, (cell, kind) in enumerate(zip(m.cells[::2], m.plan.ways, strict=True)):
            one, other = names[2 * at], names[2 * at + 1]
            house = v.house(m.board.geometry.houses_of[cell][kind])
            because = (
                f", {m.pick(f'being the only other place for {a} in', f'as the only other place for {a} in')} {house}"
                if why
                else ""
            )
            told.append(f"{one} isn't {a}")
            told.append(f"{other} is{because}" if at == 0 else f"{other} is {a}{because}")
        either = m.pick(f"one of {first} and {last} is {a} whatever happens", f"either {first} or {last} has to be {a}")
        lead = m.pick(f"by the X-chain on {v.n(digit)}, ", f"there's an X-chain of {s}, because ") if called else ""
        said = f"{lead}if {told[0]}, then {told[1]}{self.linked(m, told[2:])}, so that {either}"
        return self.long(m, v, said, "any cell that sees both ends", digit)

    def chain(self, m: Matter) -> str:
        v = _Voice(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        absurd = (first, digit) == (last, end) and holds != supposed
        start = v.cell(first)
        told = [f"{start} {'is' if supposed else 'isn' + chr(39) + 't'} {v.a(digit)}"]
        for (before, _, _), (cell, is_, other) in pairwise(m.links):
            name = "it" if cell == before else v.cell(cell)
            told.append(
                f"{name} {m.pick('is', 'has to be') if is_ else m.pick('isn' + chr(39) + 't', 'can' + chr(39) + 't be')} {v.a(other)}"
            )
        said = f"{m.pick('if', 'if', 'supposing that')} {told[0]}, then {told[1]}{self.linked(m, told[2:])}"
        if absurd:
            said += m.pick(", which is a contradiction", ", which goes against what we started from", ", and that can't be")
            if m.plan.natural:
                opposite = f"{start} {'isn' + chr(39) + 't' if supposed else 'must be'} {v.a(digit)}"
                return opened(said + m.pick(f", so {opposite}.", f", which shows that {opposite}."))
            return self.long(m, v, said, "", digit)
        if first == last:
            either = f"{start} is {v.a(digit)} or {v.a(end)}"
        elif digit == end:
            either = f"one of {start} and {v.cell(last)} is {v.a(digit)} whatever happens"
        else:
            either = f"either {start} is {v.a(digit)} or {v.cell(last)} is {v.a(end)}"
        if m.often(0.6):
            said += f", so that {either}"
        where = f"any cell that sees both {start} and {v.cell(last)}"
        return self.long(m, v, said, where, digit)

    def linked(self, m: Matter, links: Sequence[str]) -> str:
        """Link after link in one breath."""
        glue = m.pick(
            "which means|so", "so|and then", "which means|and so", "so|and with that", "which means|and therefore"
        ).split("|")
        return "".join(f", {glue[at % 2]} {link}" for at, link in enumerate(links))

    def long(self, m: Matter, v: _Voice, said: str, where: str, digit: int) -> str:
        """A whole chain and its effects."""
        if m.plan.natural:
            tail = self.hinted(m, v, where, digit)
            return opened(m.pick(f"{said}, and therefore {tail}.", f"{said}, which means that {tail}.", f"{said}, so {tail}."))
        tail = self.effects(m, v)
        options = [
            f"{said}, and therefore {tail}.",
            f"{said}, which means that {tail}.",
            f"{said}, so {tail}.",
            f"{said}. That's why {tail}.",
        ]
        if said.startswith(("if ", "supposing ")):
            options += [f"{tail}, because {said}."]
        items = self.items(m, v)
        if items:
            options += [f"{said}, and here's what goes: {items}.", f"{said}, which lets us strike the following: {items}."]
        return opened(m.pick(*options))

    # Others.

    def facts(self, m: Matter) -> str:
        v = _Voice(m)
        tail, we = self.effects(m, v), self.effects(m, v, True)
        cells = [what for what in m.cited if isinstance(what, int)]
        several = len(m.cited) > 1
        looked, taken = [f"the candidates of {v.cells(cells)}"] if cells else [], []
        for what in m.cited:
            if isinstance(what, int):
                taken.append(f"whatever goes in {v.cell(what)}")
            else:
                number, house = what
                looked.append(f"the places for {v.a(number)} in {v.house(house)}")
                taken.append(f"wherever {v.house(house)} has its {v.n(number)}")
        look, take = listed(looked), listed(taken)
        options = [
            f"from {look}{' taken together' if several else ''} it follows that {tail}.",
            f"we need nothing more than {look} to see that {tail}.",
            f"{tail}, because that's what {look} {'add up to' if several else 'tell us'}.",
        ]
        items = self.items(m, v)
        if m.put is None:
            options += [f"{take}, {we}.", f"if we go through {look}, we find that in every case {tail}."]
        if items:
            options += [f"because of {look}, here's what we can strike: {items}."]
        return opened(m.pick(*options))

    def bare(self, m: Matter) -> str:
        v = _Voice(m)
        tail = self.effects(m, v)
        return opened(
            m.pick(
                f"{tail}.",
                f"{tail}, and I'll leave it to you to find out why.",
                f"I'll tell you without giving the reason that {tail}.",
                f"you may take my word for it that {tail}.",
                f"{tail}, though I'll keep the reason to myself.",
            )
        )

    # What comes of it.

    def so(self, m: Matter, v: _Voice, reason: str, head: str, where: str, digit: int | None = None) -> str:
        """``reason``: a clause; ``head``: the same as an opening of the sentence; ``where``: what is cleared, if only hinted at."""
        if m.plan.natural:
            tail = we = self.hinted(m, v, where, digit)
        else:
            tail, we = self.effects(m, v), self.effects(m, v, True)
        options = [
            f"because {reason}, {we}.",
            f"since {reason}, {we}.",
            f"{head}, {we}.",
            f"{head}, {we}.",
            f"{reason}, so {tail}.",
            f"{reason}, which means that {tail}.",
        ]
        if not m.plan.natural:
            options += [f"{tail}, because {reason}.", f"{tail}, because {reason}.", f"the reason why {tail} is that {reason}."]
            items = self.items(m, v)
            if items:
                options += [
                    f"{head}, here's what goes: {items}.",
                    f"since {reason}, we can strike the following: {items}.",
                    f"{reason}, and that gets rid of these: {items}.",
                    f"{reason}, so out go these: {items}.",
                ]
        return opened(m.pick(*options))

    def hinted(self, m: Matter, v: _Voice, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            these = f"those {NUMBERS[len(m.cells)]} cells"
            return m.pick(
                f"everything else can be struck from {these}",
                f"{these} can't be anything else",
                f"no other digit can stay in {these}",
                f"{these} lose all their other candidates",
            )
        digits = [digit] if digit else m.digits
        return m.pick(
            f"{v.these(digits)} can be struck from {where}",
            f"there's no {v.plain(digits, 'or')} in {where}" if 1 not in digits else f"{v.these(digits)} can't stay in {where}",
            f"{where} can't have {v.either(digits)}",
            f"we can take {v.these(digits)} out of {where}",
        )

    def effects(self, m: Matter, v: _Voice, we: bool = False) -> str:
        """``we``: it does not begin with a cell, as another cell may have been named just before."""
        way = m.rng.randrange(2 if we else 0, 5)
        if way == 3 and v.spelled and any(1 in effect.digits for effect in m.effects if not isinstance(effect, Put)):
            way = 4  # "no one" would be taken for nobody
        said = [self.effect(v, effect, way, at) for at, effect in enumerate(m.effects)]
        return said[0] if len(said) == 1 else f"{', '.join(said[:-1])}, and {said[-1]}"

    def effect(self, v: _Voice, effect: Put | Strike | Clear, way: int, at: int) -> str:
        """``way``: all effects of a step are put alike. ``at``: after the first one some words need not be said again."""
        if isinstance(effect, Put):
            cell, a = v.cell(effect.cell), v.a(effect.digit)
            return (
                f"{cell} is {a}",
                f"{cell} has to be {a}",
                f"{a} goes in {cell}",
                f"we can write {a} in {cell}",
                f"we can put {a} in {cell}",
            )[way]
        last = "or" if way == 3 else "and"
        where = f"the rest of {v.house(effect.house)}" if isinstance(effect, Clear) else v.cells(effect.cells, last)
        few = isinstance(effect, Clear) or len(effect.cells) == 1
        the, either, none = v.these(effect.digits), v.either(effect.digits), v.plain(effect.digits, "or")
        return (
            f"{where} can't be {either}",
            f"{where} {'loses' if few else 'lose'} {the}",
            f"{'we can take ' if not at else ''}{the} out of {where}",
            f"{'there' + chr(39) + 's ' if not at else ''}no {none} in {where}",
            f"{'we can strike ' if not at else ''}{the} from {where}",
        )[way]

    def items(self, m: Matter, v: _Voice) -> str:
        """What goes, as a list for after a colon; empty where a cell is filled in."""
        said = []
        for effect in m.effects:
            if isinstance(effect, Put):
                return ""
            where = f"the rest of {v.house(effect.house)}" if isinstance(effect, Clear) else v.cells(effect.cells)
            said.append(f"{v.these(effect.digits)} from {where}")
        return said[0] if len(said) == 1 else f"{', '.join(said[:-1])}, and {said[-1]}"

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "All hands to the Lamp Room table, here's tonight's grid, and I warn you that I don't stop for breath.",
                    "Good evening from the Lamp Room, where the kettle is on and the puzzle is waiting.",
                    "Right, lads, we'll work this one through from stem to stern.",
                )
            ),
            opens=True,
        )
        if rng.random() < 0.5:
            yield Piece(rng.choice(("I name the column first and then the row.", "Get your pencils, because we're off.")))

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.07:
            yield Piece(
                rng.choice(
                    (
                        "Steady as she goes.",
                        "I was rather proud of that one.",
                        "The tide turned while I was looking for the next one.",
                        "That's shipshape so far.",
                        "Now it gets harder.",
                        "Take a breath if you need one.",
                    )
                )
            )

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(("And with that the grid is full, so good night to you all.", "That's all of it, and about time too."))
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        cut = Captioned(False, rng.choice((38, 42)), 2, rng.choice((0.2, 0.5)), 2.6)
        return "srt", captions(pieces, cut, rng)
