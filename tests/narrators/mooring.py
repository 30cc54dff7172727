"""For development: a keeper whose spoken walkthrough is captioned: short cells, column first, the conclusion often before its reason."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, listed, opened
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

BOXES = (
    "top left",
    "top middle",
    "top right",
    "middle left",
    "centre",
    "middle right",
    "bottom left",
    "bottom middle",
    "bottom right",
)


class _Voice:
    """How one step is said."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        # A whole narration calls the boxes by number or by place.
        self.placed = m.manner % 3 == 0

    def c(self, cell: int) -> str:
        return f"c{cell % 9 + 1}r{cell // 9 + 1}"

    def cs(self, cells: Sequence[int], last: str = "and") -> str:
        return listed([self.c(cell) for cell in cells], last)

    def none(self, cells: Sequence[int]) -> str:
        """The subject of a sentence that denies something of every cell."""
        if len(cells) == 1:
            return self.c(cells[0])
        if len(cells) == 2:
            return f"neither {self.c(cells[0])} nor {self.c(cells[1])}"
        return f"none of {self.cs(cells)}"

    def a(self, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {digit}"

    def ns(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([str(digit) for digit in digits], last)

    def house(self, house: House) -> str:
        if house.kind == "b" and self.placed:
            return f"the {BOXES[house.number - 1]} box"
        return f"{KINDS[house.kind]} {house.number}"

    def where(self) -> str:
        return f"the same {KINDS[self.m.house.kind]}" if self.m.plan.back else self.house(self.m.house)

    def houses(self, houses: Sequence[House], last: str = "and") -> str:
        kind = KINDS[houses[0].kind]
        plural = "s" if len(houses) > 1 and last == "and" else ""
        return f"{kind}{plural} {listed([str(house.number) for house in houses], last)}"


class Mooring(Narrator):
    """Ties up every step before the next one is let go."""

    name = "mooring"
    leaves: ClassVar = {
        "single house": 0.04,
        "its": 0.12,
        "naked house": 0.4,
        "hidden house": 0.08,
        "cover": 0.12,
        "crossing": 0.1,
        "name": 0.35,
        "effects": 0.4,
        "back": 0.3,
        "corners": 0.2,
        "recap": 0.05,
    }

    def naked_single(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        c, n, a = v.c(put.cell), put.digit, v.a(put.digit)
        if m.often(0.5):
            return opened(
                f"{m.pick(f'{c} is {n}', f'{a} goes in {c}', f'{c} has to be {n}', f'{c} is {a}')}. "
                + m.pick(
                    "Nothing else is left for that cell.",
                    "All the other digits are ruled out there.",
                    f"Apart from {n}, every digit is blocked there.",
                    "A naked single.",
                    "Only one candidate in there.",
                    f"There's no other candidate in {c}.",
                )
            )
        return opened(
            m.pick(
                f"look at {c}. There's only {a} left, so write that in.",
                f"{c} is down to one candidate. That's {a}.",
                f"what can go in {c}? Only {n}. So {c} is {n}.",
                f"{c} can't be anything but {n}, so {n} it is.",
                f"only {n} fits in {c}. In it goes.",
                f"naked single in {c}. That's {a}.",
                f"now {c}. Everything but {n} is gone. So {c} is {n}.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        c, n, a = v.c(put.cell), put.digit, v.a(put.digit)
        says = m.pick(f"{c} is {n}", f"{a} goes in {c}", f"{c} has to be {n}", f"put {a} in {c}", f"{c} is {a}")
        if not m.says("house"):
            return opened(
                m.pick(
                    f"{says}. That's a hidden single.",
                    f"hidden single in {c}. That's {a}.",
                    f"hidden single. {opened(says)}.",
                    f"there's a hidden single, {a}, in {c}.",
                )
            )
        kind = KINDS[m.house.kind]
        if not m.says("its"):
            return opened(
                m.pick(
                    f"{says}. No other cell in its {kind} can take {a}.",
                    f"{says}. The rest of its {kind} has no room for {a}.",
                    f"{c} is the only cell in its {kind} that can be {n}. So {c} is {n}.",
                    f"{says}. Its {kind} has nowhere else for {a}.",
                )
            )
        h = v.where()
        if m.often(0.5):
            return opened(
                f"{says}. "
                + opened(
                    m.pick(
                        f"{h} has nowhere else for {a}.",
                        f"there's no other place for {a} in {h}.",
                        f"no other cell in {h} can be {n}.",
                        f"that's the only spot for {a} in {h}.",
                        f"it's a hidden single in {h}.",
                        f"every other cell in {h} is closed to {n}.",
                        f"{h} needs {a}, and the other cells can't take one.",
                    )
                )
            )
        return opened(
            m.pick(
                f"where does the {n} go in {h}? Only in {c}.",
                f"{h} still needs {a}. {c} is the only cell that can take it.",
                f"in {h} the {n} fits in {c} and nowhere else. So {c} is {n}.",
                f"look for the {n} in {h}. There's just one place, {c}.",
                f"{h} has one cell left for {a}, and that's {c}.",
                f"try to place {a} in {h}. It only goes in {c}.",
                f"now the {n} in {h}. Only {c} is open to it, so {c} is {n}.",
                f"in {h} we have a hidden single, {n} in {c}.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        c, n, a = v.c(put.cell), put.digit, v.a(put.digit)
        says = m.pick(f"{c} is {n}", f"{a} goes in {c}", f"put {a} in {c}", f"{c} is {a}")
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return opened(
                m.pick(
                    f"{says}. That's the last cell in its {kind}.",
                    f"{says}. It was the only gap left in its {kind}."
                    if says.startswith(c)
                    else f"{c} is {n}. That was the only gap left in its {kind}.",
                    f"{c} is the last empty cell of its {kind}. So {c} is {n}.",
                    f"{says}, and its {kind} is full.",
                )
            )
        h = v.where()
        if m.often(0.5):
            return opened(
                f"{says}. "
                + opened(
                    m.pick(
                        f"that's the last cell in {h}.",
                        f"everything else in {h} is filled.",
                        f"that completes {h}.",
                        f"the {n} is all that's missing from {h}.",
                        f"{h} has no other gap.",
                        f"{h} had just the one empty cell.",
                    )
                )
            )
        return opened(
            m.pick(
                f"{h} has one empty cell, {c}. The digit missing is {n}.",
                f"{h} is nearly full. Only {c} is open, so that's {a}.",
                f"what's missing from {h}? {opened(a)}, and the gap is {c}.",
                f"one cell to go in {h}. {c} is {n}.",
                f"eight cells of {h} are filled. The ninth is {c}, and it's {a}.",
                f"finish off {h}. Put {a} in {c}.",
            )
        )

    def locked(self, m: Matter) -> str:
        v, n = _Voice(m), m.digits[0]
        assert m.crossing is not None
        h, line, kind = v.where(), v.house(m.crossing), KINDS[m.crossing.kind]
        a = v.a(n)
        if not m.says("crossing"):
            said = m.pick(
                f"the {n}s in {h} are all in one {kind}",
                f"in {h} every place for {a} is in the same {kind}",
                f"{h} has all its {n}s in a single {kind}",
                f"the places for {a} in {h} share a {kind}",
            )
            return self.so(
                m, v, said, [f"the {n} goes from the rest of that {kind}", f"the rest of that {kind} can't have {a}"]
            )
        if m.says("name") and m.often(0.4):
            if m.name == "pointing":
                said = m.pick(
                    f"the {n}s in {h} point along {line}",
                    f"{h} has pointing {n}s in {line}",
                    f"there are pointing {n}s in {h}, all of them in {line}",
                )
            else:
                said = m.pick(
                    f"{h} claims its {n} inside {line}",
                    f"this is claiming. The {n}s in {h} all sit in {line}",
                    f"{h} claims the {n} of {line}",
                )
        else:
            said = m.pick(
                f"the {n}s in {h} are all in {line}",
                f"in {h} you can only put {a} in {line}",
                f"{h} has no place for {a} outside {line}",
                f"in {h} every place for {a} is in {line}",
                f"{h} must have its {n} somewhere in {line}",
                f"wherever the {n} goes in {h}, it's in {line}",
            )
        hints = [
            f"the {n} goes from the rest of {line}",
            f"nothing else in {line} can be {n}",
            f"the rest of {line} loses {n}",
            f"there's no {n} anywhere else in {line}",
        ]
        return self.so(m, v, said, hints, early=True)

    def naked(self, m: Matter) -> str:
        v = _Voice(m)
        held = m.says("house")
        lead, late = (f"in {v.where()}, ", f" in {v.where()}") if held else ("", "")
        cells, digits, either = v.cs(m.cells), v.ns(m.digits), v.ns(m.digits, "or")
        size = m.name.split()[1]
        if not m.says("name"):
            said = m.pick(
                f"{lead}{cells} have only {digits} between them",
                f"{lead}{cells} can only be {either}",
                f"{lead}{cells} hold nothing but {digits}",
                f"{lead}{cells} will use up {digits}. They have no other candidates",
                f"look at {cells}{late}. Nothing but {digits} in those cells",
            )
        else:
            said = m.pick(
                f"{lead}{cells} are a naked {size}, {digits}",
                f"there's a naked {size} of {digits}{late}. The cells are {cells}",
                f"{cells} make a naked {size}{late}. The digits are {digits}",
                f"{lead}we have a naked {size} on {digits}, in {cells}",
                f"look at {cells}{late}. Only {digits} in there, so that's a naked {size}",
            )
        both = "both" if len(m.cells) == 2 else "all"
        seeing = f"{m.pick('any', 'every')} cell that sees {both} of them"
        hints = [f"the digits {digits} go from {seeing}", f"{seeing} loses {digits}"]
        if len(m.plan.kinds) == 1 and held:
            kind = KINDS[m.plan.kinds[0]]
            hints += [f"the digits {digits} go from the rest of the {kind}", f"no other cell in the {kind} can be {either}"]
        elif len(m.plan.kinds) == 2:
            one, other = (KINDS[kind] for kind in m.plan.kinds)
            hints += [f"the digits {digits} go from the rest of their {one} and the rest of their {other}"]
        return self.so(m, v, said, hints)

    def hidden(self, m: Matter) -> str:
        v = _Voice(m)
        held = m.says("house")
        lead, late = (f"in {v.where()}, ", f" in {v.where()}") if held else ("", "")
        cells, digits, either = v.cs(m.cells), v.ns(m.digits), v.ns(m.digits, "or")
        size = m.name.split()[1]
        if not m.says("name"):
            said = m.pick(
                f"{lead}the digits {digits} only fit in {cells}",
                f"{lead}only {cells} can be {either}",
                f"{lead}the digits {digits} have no places except {cells}",
                f"where can {digits} go{late}? Only in {cells}",
                f"{lead}{cells} are the only cells for {digits}",
            )
        else:
            said = m.pick(
                f"{lead}{cells} are a hidden {size}, {digits}",
                f"there's a hidden {size} of {digits}{late}. The cells are {cells}",
                f"{cells} make a hidden {size}{late}. The digits are {digits}",
                f"{lead}the digits {digits} only go in {cells}. That's a hidden {size}",
                f"{lead}we have a hidden {size} on {digits}, in {cells}",
            )
        these = f"those {NUMBERS[len(m.cells)]} cells"
        hints = [
            f"everything else goes from {these}",
            f"{these} lose all their other candidates",
            f"nothing else can stay in {these}",
            f"{these} can't be anything else",
        ]
        return self.so(m, v, said, hints)

    def fish(self, m: Matter) -> str:
        v, n = _Voice(m), m.digits[0]
        base, cover, one_of = v.houses(m.houses), v.houses(m.cover), v.houses(m.cover, "or")
        kind, cross = KINDS[m.houses[0].kind], KINDS[m.cover[0].kind]
        fish = _fish(m.name)
        early = False
        hints = [f"the {n} goes from the rest of those {cross}s", f"there's no other {n} in those {cross}s"]
        if m.plan.corners:
            corners = v.cs([cell for column in range(9) for cell in range(column, 81, 9) if _crosses(cell, m)])
            said = m.pick(
                f"there's {fish} of {n}s in the {kind}s. The corners are {corners}",
                f"{corners} are the corners of {fish} of {n}s, by the {kind}s",
                f"in the {kind}s the {n}s make {fish}, with corners {corners}",
            )
        elif not m.says("name"):
            each = [f"in {v.house(house)} the {n} is in {one_of}" for house in m.houses]
            said = m.pick(
                f"the {n}s in {base} are all in {cover}",
                f"{'. '.join(opened(one) for one in each)}",
                f"{base} have no {n}s outside {cover}",
                f"{base} need their {n}s, and they can only be in {cover}",
                f"{cover} take all the {n}s of {base}",
            )
        elif not m.says("cover"):
            said = m.pick(
                f"there's {fish} on {n} in {base}",
                f"the {n}s in {base} make {fish}",
                f"{base} have {fish} of {n}s",
            )
            hints = [
                f"the {n} goes from the rest of the {cross}s those {n}s are in",
                f"the {cross}s those {n}s are in have no other {n}",
            ]
        else:
            said = m.pick(
                f"the {n}s in {base} are all in {cover}. That's {fish}",
                f"there's {fish} on {n} in {base}. The {cross}s are {listed([str(house.number) for house in m.cover])}",
                f"{base} make {fish} of {n}s with {cover}",
                f"we have {fish} of {n}s. {opened(base)} have them only in {cover}",
                f"{base} have no {n}s outside {cover}, so they make {fish}",
                f"it's {fish}. In {base} the {n}s only go in {cover}",
            )
        if m.says("cover") and not m.plan.corners:
            hints += [f"the {n} goes from the rest of {cover}", f"{cover} have no other {n}s"]
        return self.so(m, v, said, hints, early=early)

    def finned(self, m: Matter) -> str:
        v, n = _Voice(m), m.digits[0]
        base, cover, fins = v.houses(m.houses), v.houses(m.cover), v.cs(m.fins)
        several = len(m.fins) > 1
        fin, is_ = ("fins", "are") if several else ("fin", "is")
        plain = m.name.removeprefix("finned ").replace("x-wing", "X-wing")
        fish = _fish(plain)
        but = v.none(m.fins)
        said = m.pick(
            f"there's a finned {plain} on {n}. {opened(base)} have their {n}s in {cover}, plus {v.cs(m.fins)}. "
            f"The {fin} {is_} {fins}",
            f"the {n}s in {base} are all in {cover}, except for {fins}. That's a finned {plain}",
            f"it's a finned {plain} of {n}s in {base}, with {cover}. The {fin} {is_} {fins}",
            f"{base} nearly have {fish} of {n}s in {cover}. The {fin} {is_} {fins}",
            f"if {but} {'is' if several else 'is not'} {n}, {base} have {fish} of {n}s in {cover}. "
            f"So {fins} {is_} the {fin} of a finned {plain}",
            f"finned {plain} on {n}. {opened(base)} against {cover}. The {fin} {is_} {fins}",
        )
        see = "all the fins" if len(m.fins) > 2 else "both fins" if several else "the fin"
        hints = [
            f"the {n} goes from the other cells of {cover} that see {see}",
            f"any other cell in {cover} that sees {see} loses {n}",
        ]
        return self.so(m, v, said, hints)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        v = _Voice(m)
        pivot, (first, second) = v.c(m.pivot), map(v.c, m.cells)
        one, other, both = m.plan.shared
        if not m.says("name"):
            said = m.pick(
                f"{pivot} is {one} or {other}. If {pivot} is {one}, {first} is {both}. If {pivot} is {other}, {second} is {both}",
                f"say {pivot} is {one}. Then {first} is {both}. Now say {pivot} is {other}. Then {second} is {both}",
                f"put {one} in {pivot}, and {first} is {both}. Put {other} in {pivot}, and {second} is {both}",
                f"{pivot} is {one} or {other}. {opened(v.a(one))} makes {first} {v.a(both)}. {opened(v.a(other))} makes {second} {v.a(both)}",
            )
            said += m.pick("", f". One of {first} and {second} is {both}, then")
            ends = f"both {first} and {second}"
        else:
            said = m.pick(
                f"there's an XY-wing. The pivot is {pivot}. The wings are {first} and {second}",
                f"{pivot} is the pivot of an XY-wing. {first} and {second} are its wings",
                f"XY-wing on {both}. Pivot {pivot}, wings {first} and {second}",
                f"here's an XY-wing. {pivot} is the pivot, {one} or {other}. {first} is one wing and {second} is the other",
                f"an XY-wing hangs on {pivot}, the pivot. Its wings are {first} and {second}. One of the wings is {both}",
            )
            ends = "both wings"
        hints = [f"the {both} goes from any cell that sees {ends}", f"any cell that sees {ends} can't be {both}"]
        return self.so(m, v, said, hints)

    def xy_chain(self, m: Matter) -> str:
        v = _Voice(m)
        first, last, n = v.c(m.cells[0]), v.c(m.cells[-1]), m.digits[0]
        told = [(m.cells[0], False, n), *((cell, True, digit) for cell, digit in zip(m.cells, m.digits[1:], strict=True))]
        said = self.walked(m, v, told)
        if m.says("name"):
            said = m.pick(
                f"here's an XY-chain. {opened(said)}",
                f"there's an XY-chain from {first} to {last}. {opened(said)}",
                f"{said}. That's an XY-chain",
                f"XY-chain on {n}. {opened(said)}",
            )
        said += m.pick(
            f". So {first} or {last} is {n}",
            f". One end or the other is {n}",
            f". That makes one of {first} and {last} {v.a(n)}",
            "",
        )
        ends = m.pick("both ends", f"both {first} and {last}")
        hints = [f"the {n} goes from any cell that sees {ends}", f"any cell that sees {ends} can't be {n}"]
        return self.so(m, v, said, hints, after=True, either=True)

    def x_chain(self, m: Matter) -> str:
        v, n = _Voice(m), m.digits[0]
        first, last = v.c(m.cells[0]), v.c(m.cells[-1])
        way = m.rng.randrange(4)
        if way == 0:
            links = []
            for at, kind in enumerate(m.plan.ways):
                one, other = m.cells[2 * at : 2 * at + 2]
                house = v.house(m.board.geometry.houses_of[one][kind])
                links.append(
                    opened(
                        m.pick(
                            f"in {house} the {n} is in {v.c(one)} or {v.c(other)}",
                            f"{house} has two places for {v.a(n)}, {v.c(one)} and {v.c(other)}",
                            f"the {n} in {house} is {v.c(one)} or {v.c(other)}",
                        )
                    )
                )
            said = ". ".join(links)
            for one, other in zip(m.cells[1:-1:2], m.cells[2:-1:2], strict=True):
                said += f". {opened(m.pick(f'{v.c(one)} and {v.c(other)} see each other', f'{v.c(one)} sees {v.c(other)}'))}"
        else:
            said = self.walked(m, v, [(cell, bool(at % 2), n) for at, cell in enumerate(m.cells)])
        if m.says("name"):
            said = m.pick(
                f"there's an X-chain on {n}. {opened(said)}",
                f"{said}. That's an X-chain",
                f"here's an X-chain of {n}s. {opened(said)}",
            )
        said += m.pick(
            f". So {first} or {last} is {n}",
            f". One end or the other is {n}",
            f". Either {first} is {n} or {last} is",
            "" if way else f". That leaves {first} or {last} for {v.a(n)}",
        )
        ends = m.pick("both ends", f"both {first} and {last}")
        hints = [f"the {n} goes from any cell that sees {ends}", f"any cell that sees {ends} can't be {n}"]
        return self.so(m, v, said, hints, after=True, either=True)

    def walked(self, m: Matter, v: _Voice, links: Sequence[tuple[int, bool, int]]) -> str:
        """Link by link, a sentence each."""

        def link(at: int) -> str:
            cell, holds, digit = links[at]
            isnt = m.pick("isn't", "is not", "can't be") if at else m.pick("isn't", "is not")
            return f"{v.c(cell)} {'is' if holds else isnt} {digit}"

        start = m.pick("say", "suppose", "imagine", "let's say", "what if")
        said = [f"{start} {link(0)}" + ("?" if start == "what if" else ".")]
        glue = m.pick("then", "so", "then", "mixed")
        for at in range(1, len(links)):
            if at == len(links) - 1 and len(links) > 3 and m.often(0.4):
                word = m.pick("and so", "finally", "which means")
                word = "and that means" if word == "which means" else word
            else:
                word = m.pick("then", "so", "that means", "now", "and then") if glue == "mixed" and at > 1 else glue
                word = "then" if word == "mixed" else word
            said.append(opened(f"{word} {link(at)}."))
        return " ".join(said).removesuffix(".")

    def chain(self, m: Matter) -> str:
        v = _Voice(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        said = self.walked(m, v, m.links)
        one, other = v.c(first), v.c(last)
        if m.often(0.25):
            said = m.pick("here's a chain", "time for a chain", "follow this chain") + f". {opened(said)}"
        hints: list[str] = []
        absurd = (first, digit) == (last, end) and holds != supposed
        if absurd:
            said += m.pick(
                ". That's a contradiction",
                f". But we started with {one} {'being' if supposed else 'not being'} {digit}",
                ". And that's the opposite of what we started with",
                ". That can't be",
                "",
            )
        else:
            away = f"{one} {'is not' if supposed else 'is'} {digit}"
            ends = f"{other} {'is' if holds else 'is not'} {end}"
            said += m.pick(f". So {away}, or {ends}", f". Either {away} or {ends}", "")
            if m.plan.natural:
                hints = [
                    f"the {digit} goes from any cell that sees both {one} and {other}",
                    f"any cell that sees both ends of the chain can't be {digit}",
                ]
        return self.so(m, v, said, hints, after=True, either=not absurd)

    def facts(self, m: Matter) -> str:
        v = _Voice(m)
        style = m.rng.randrange(2)
        said = []
        for what in m.cited:
            if isinstance(what, int):
                said.append((f"the candidates in {v.c(what)}", f"every candidate in {v.c(what)}")[style])
            else:
                digit, house = what
                said.append(
                    (f"the places for {v.a(digit)} in {v.house(house)}", f"every place for {v.a(digit)} in {v.house(house)}")[
                        style
                    ]
                )
        words = listed(said)
        early = not any(isinstance(effect, Clear) for effect in m.effects)
        tails = self.tails(m, v)
        if early and m.often(0.5):
            why = m.pick(
                f"just look at {words}",
                f"you can see why from {words}",
                f"to see why, check {words}",
                f"look at {words} to see it",
            )
            return _sentences(tails) + f" {opened(why)}."
        first = m.pick(f"look at {words}", f"check {words}", f"go through {words}", f"take {words}")
        return opened(first) + ". " + _sentences(tails, m.pick("so", "that means", "then", "in every case"))

    def bare(self, m: Matter) -> str:
        v = _Voice(m)
        said = _sentences(self.tails(m, v))
        return m.pick(
            said,
            f"{said} I'll leave the reason to you.",
            f"{said} Take my word for it.",
            _sentences(self.tails(m, v), "now"),
            f"{said} I'm skipping the reason.",
        )

    def recap(self, m: Matter) -> str:
        v, put = _Voice(m), m.put
        assert put is not None
        c, n, a = v.c(put.cell), put.digit, v.a(put.digit)
        return opened(m.pick(f"so {c} is {n}.", f"that's {v.a(n)} in {c}.", f"{a} in {c}, then.", f"again, {c} is {n}."))

    def so(
        self,
        m: Matter,
        v: _Voice,
        said: str,
        hints: Sequence[str] = (),
        early: bool = False,
        after: bool = False,
        either: bool = False,
    ) -> str:
        """The pattern and its effects. ``early``: a hint may come first; ``after``: nothing may; ``either``: two cases were told."""
        hinted = m.plan.natural and bool(hints) and not (after and m.often(0.5))
        tails = [m.pick(*hints)] if hinted else self.tails(m, v)
        vague = hinted or any(isinstance(effect, Clear) for effect in m.effects)
        if not after and (early or not vague) and m.often(0.55):
            why = "" if ". " in said or "? " in said else m.pick("", "", "that's because ", "why? ")
            if why == "why? ":
                said = opened(said)
            return f"{_sentences(tails)} {opened(why + said)}."
        leads = ["so", "so", "that means", "which means", "", "and that means"]
        if either:
            leads = ["either way,", "either way,", "so either way,", "both ways,"]
        return f"{opened(said)}. {_sentences(tails, m.pick(*leads))}"

    def tails(self, m: Matter, v: _Voice) -> list[str]:
        return [self.effect(m, v, effect) for effect in m.effects]

    def effect(self, m: Matter, v: _Voice, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            c, n, a = v.c(effect.cell), effect.digit, v.a(effect.digit)
            return m.pick(f"{c} is {n}", f"{c} has to be {n}", f"{a} goes in {c}", f"{c} must be {n}", f"{c} is {a}")
        digits, either = v.ns(effect.digits), v.ns(effect.digits, "or")
        several = len(effect.digits) > 1
        some = f"the digits {digits} go" if several else f"the {digits} goes"
        if isinstance(effect, Clear):
            h = v.house(effect.house)
            return m.pick(
                f"{some} from the rest of {h}",
                f"the rest of {h} loses {digits}",
                f"no other cell in {h} can be {either}",
                f"there's no {either} anywhere else in {h}",
            )
        cells = v.cs(effect.cells)
        these = len(effect.cells) > 1
        return m.pick(
            f"{cells} {'lose' if these else 'loses'} {digits}",
            f"{v.none(effect.cells)} can be {either}" if these else f"{cells} can't be {either}",
            f"{some} from {cells}",
            f"you can cross {digits} out of {cells}",
            f"there's no {either} in {v.cs(effect.cells, 'or')}",
            f"we can take {digits} out of {cells}",
            f"{cells} can't be {either}",
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Hello from the Lamp Room. Tea's made, the grid's up on the screen.",
                    "Evening, everyone. Another one from the keepers' page tonight.",
                    "All right, let's tie up alongside and have a look at this grid.",
                    "Welcome back to the Lamp Room. This is a grid from last night's watch.",
                )
            )
        )
        if rng.random() < 0.6:
            yield Piece(
                rng.choice(
                    (
                        "As ever, I say the column first and the row second.",
                        "Remember, c is the column and r is the row.",
                        "Pause me whenever you want to try it yourself.",
                        "I've filled in the candidates already.",
                    )
                )
            )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.13:
            yield Piece(
                rng.choice(
                    (
                        "Okay.",
                        "Good.",
                        "Lovely.",
                        "Right, what next?",
                        "Sip of tea.",
                        "That opens things up.",
                        "Let me scroll up a bit.",
                        "I needed a minute for this one.",
                        "Here's the bit I like.",
                        "Sorry, the foghorn.",
                        "Moving on.",
                        "Bear with me.",
                    )
                )
            )

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "And we're tied up. Thanks for watching.",
                    "That's the whole grid. See you on the next watch.",
                    "Done. Mind the step on your way out.",
                )
            )
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        cut = Captioned(False, width=rng.choice((32, 38, 42)), rows=rng.choice((1, 2, 2)), breath=rng.choice((0.3, 0.6)))
        return "srt", captions(pieces, cut, rng)


def _sentences(tails: Sequence[str], lead: str = "") -> str:
    """One sentence for one or two effects, and a sentence each for more."""
    head = f"{lead} " if lead else ""
    if len(tails) < 3:
        return opened(f"{head}{', and '.join(tails)}.")
    return opened(f"{head}{tails[0]}.") + " " + " ".join(opened(f"{tail}.") for tail in tails[1:-1]) + f" And {tails[-1]}."


def _fish(name: str) -> str:
    shown = name.replace("x-wing", "X-wing")
    return f"{'an' if shown.startswith('X') else 'a'} {shown}"


def _crosses(cell: int, m: Matter) -> bool:
    houses = m.board.geometry.houses_of[cell].values()
    return any(house in m.houses for house in houses) and any(house in m.cover for house in houses)


__all__ = ["Mooring"]
