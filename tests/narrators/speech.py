"""For development: raw speech recognition. No capitals, no stops, numbers as words or figures, words that only sound right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, PLURALS
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

HEARD: dict[str, tuple[str, ...]] = {
    "one": ("won", "1"),
    "two": ("to", "too", "2"),
    "three": ("tree", "free", "3"),
    "four": ("for", "4", "fore"),
    "five": ("5", "5"),
    "six": ("6", "sicks"),
    "seven": ("7", "7"),
    "eight": ("ate", "8"),
    "nine": ("9", "nein"),
    "cell": ("sell",),
    "cells": ("sells",),
    "row": ("roe",),
    "pair": ("pear",),
    "x-wing": ("ex wing", "x wing", "x-wing", "ex-wing"),
    "xy-wing": ("ex why wing", "x y wing", "why wing"),
    "xy-chain": ("ex why chain", "x y chain"),
    "x-chain": ("ex chain", "x chain"),
    "swordfish": ("sword fish", "sort fish", "swordfish"),
    "jellyfish": ("jelly fish", "jellyfish"),
    "quad": ("quad", "quod"),
    "finned": ("find", "thinned"),
    "fin": ("thin", "fin"),
    "their": ("there",),
    "pivot": ("pivot", "pivet"),
}
"""What the machine hears instead."""

ALWAYS = {"x-wing": 1.0, "xy-wing": 1.0, "xy-chain": 1.0, "x-chain": 1.0, "swordfish": 0.6, "jellyfish": 0.5}
"""How often it mishears these; other words far less."""


def heard(text: str, rng: Random, share: float) -> str:
    """The text as the machine writes it down; each word takes one throw, so that a slip changes its own word only."""
    words = []
    for word in text.lower().replace(",", " ").replace(".", " ").replace("?", " ").split():
        throw, which = rng.random(), rng.random()
        options = HEARD.get(word)
        if options and throw < ALWAYS.get(word, share):
            word = options[int(which * len(options))]
        words.append(word)
    return " ".join(words)


class Speech(Narrator):
    """Mumbles into the microphone; a machine writes it down."""

    name = "speech"
    leaves: ClassVar = {
        "its": 0.15,
        "naked house": 0.5,
        "hidden house": 0.0,
        "cover": 0.1,
        "name": 0.35,
        "effects": 0.7,
        "back": 0.4,
        "recap": 0.05,
    }

    def tell(self, matter: Matter) -> str:
        said = super().tell(matter)
        return heard(said, Random(matter.rng.random()), 0.12)

    # Naming.

    def cell(self, cell: int) -> str:
        return f"row {NUMBERS[cell // 9 + 1]} column {NUMBERS[cell % 9 + 1]}"

    def cells(self, m: Matter, cells: Sequence[int]) -> str:
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        joined, first = m.often(0.6), m.often(0.5)
        if len(cells) > 1 and len(rows) == 1 and joined:
            return f"row {NUMBERS[min(rows) + 1]} columns {self.run([cell % 9 + 1 for cell in cells])}"
        if len(cells) > 1 and len(columns) == 1 and joined:
            numbers = self.run([cell // 9 + 1 for cell in cells])
            column = f"column {NUMBERS[min(columns) + 1]}"
            return f"{column} rows {numbers}" if first else f"rows {numbers} in {column}"
        return " and ".join(map(self.cell, cells))

    def run(self, numbers: Sequence[int], last: str = "and") -> str:
        """Three four and seven."""
        words = [NUMBERS[number] for number in numbers]
        return words[0] if len(words) == 1 else f"{' '.join(words[:-1])} {last} {words[-1]}"

    def house(self, house: House) -> str:
        return f"{KINDS[house.kind]} {NUMBERS[house.number]}"

    def where(self, m: Matter) -> str:
        return m.pick("the same ", "that same ") + KINDS[m.house.kind] if m.plan.back else self.house(m.house)

    def houses(self, houses: Sequence[House]) -> str:
        return f"{KINDS[houses[0].kind]}s {self.run([house.number for house in houses])}"

    def a(self, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {NUMBERS[digit]}"

    def say(self, m: Matter, text: str) -> str:
        return (
            m.pick(
                "",
                "",
                "",
                "um ",
                "okay ",
                "so ",
                "uh ",
                "right so ",
                "and then ",
                "now ",
                "let's see ",
                "oh ",
                "okay so ",
                "alright ",
            )
            + text
        )

    # Steps.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, d, a = self.cell(put.cell), NUMBERS[put.digit], self.a(put.digit)
        return self.say(
            m,
            m.pick(
                f"{cell} can only be {a}",
                f"in {cell} the only thing left is {a}",
                f"{cell} has just one candidate left and that's {d}",
                f"look at {cell} it sees everything but {a} so this cell is {a}",
                f"{cell} has got to be {a} nothing else fits in that cell",
                f"there's a naked single in {cell} that's {a}",
                f"only {d} is possible in {cell}",
                f"{cell} what can that be only {a} so it's {a}",
            ),
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, d, a = self.cell(put.cell), NUMBERS[put.digit], self.a(put.digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return self.say(
                m,
                m.pick(
                    f"{cell} is the only cell in its {kind} that can be {a}",
                    f"the only {d} left in its {kind} is {cell} so that's {a}",
                ),
            )
        house = self.where(m)
        return self.say(
            m,
            m.pick(
                f"where's the {d} in {house} it has to be in {cell}",
                f"the only place for {a} in {house} is {cell}",
                f"{house} needs {a} and it can only go in {cell}",
                f"in {house} the {d} has to go in {cell}",
                f"{a} in {house} only works in {cell}",
                f"{cell} is {a} because it can't go anywhere else in {house}",
                f"there's only one spot for the {d} in {house} and it's {cell}",
                f"we put {a} in {cell} that's the only cell for it in {house}",
                f"the {d} in {house} is a hidden single in {cell}",
            ),
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, d, a = self.cell(put.cell), NUMBERS[put.digit], self.a(put.digit)
        if not m.says("its"):
            return self.say(m, f"{cell} is the last one in its {KINDS[m.house.kind]} so it's {a}")
        house = self.where(m)
        return self.say(
            m,
            m.pick(
                f"only one missing in {house} it's {a} and that goes in {cell}",
                f"{house} has one gap left which is {cell} so that's {a}",
                f"that finishes {house} with {a} in {cell}",
                f"the last cell in {house} is {cell} and the missing digit is {d}",
                f"{house} just needs {a} so {cell} is {d}",
                f"we can complete {house} now {cell} is {a}",
            ),
        )

    def locked(self, m: Matter) -> str:
        digit, house = m.digits[0], self.where(m)
        assert m.crossing is not None
        line, kind, many = self.house(m.crossing), KINDS[m.crossing.kind], PLURALS[digit]
        if m.says("name") and m.often(0.5):
            said = (
                f"the {many} in {house} are pointing along {line}"
                if m.name == "pointing"
                else f"{house} claims its {NUMBERS[digit]} in {line}"
            )
        else:
            said = m.pick(
                f"all the {many} in {house} are in {line}",
                f"in {house} the {NUMBERS[digit]} has to be in {line}",
                f"look at {house} the {many} are only in {line}",
                f"the {NUMBERS[digit]} in {house} must be somewhere in {line}",
                f"in {house} {self.a(digit)} can only go in {line}",
                f"where's the {NUMBERS[digit]} in {house} well it's somewhere in {line}",
                f"the {many} in {house} all line up in {line}",
            )
        return self.so(m, said, m.pick(f"the rest of {line}", f"the rest of that {kind}", f"the other cells in that {kind}"))

    def naked(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), self.run(m.digits), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        place = f" in {house}" if m.says("house") else ""
        if m.says("name"):
            said = m.pick(
                f"there's a naked {size}{place} {digits} in {cells}",
                f"{cells}{place} are a naked {size} of {digits}",
                f"we have a {digits} naked {size}{place} in {cells}",
            )
        else:
            these = "both of these cells are" if m.count == 2 else "these cells are all"
            said = m.pick(
                f"{cells}{place} are {digits} in some order",
                f"{cells}{place} can only be {digits} between them",
                f"look at {cells}{place} {these} {digits}" if m.count > 2 else f"look at {cells}{place} these two are {digits}",
            )
        both = "both of them" if m.count == 2 else f"all {count} of them"
        kinds = " and the ".join(KINDS[kind] for kind in m.plan.kinds)
        return self.so(m, said, m.pick(f"the rest of the {kinds}", f"anything that sees {both}"))

    def hidden(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), self.run(m.digits), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        if m.says("name"):
            said = m.pick(
                f"there's a hidden {size} in {house} {digits} in {cells}",
                f"in {house} we've got a hidden {size} of {digits} in {cells}",
            )
        else:
            said = m.pick(
                f"in {house} the {digits} can only go in {cells}",
                f"where do {digits} go in {house} they only go in {cells}",
                f"{digits} in {house} have to be in {cells}",
                f"{cells} are the only cells in {house} for {digits}",
            )
        return self.so(m, said, f"those {count} cells")

    def fish(self, m: Matter) -> str:
        many, base, cover = PLURALS[m.digits[0]], self.houses(m.houses), self.houses(m.cover)
        cross = f"{KINDS[m.cover[0].kind]}s"
        if not m.says("name"):
            said = m.pick(
                f"in {base} the {many} are all in {cover}",
                f"the {many} in {base} can only go in {cover}",
                f"look at {base} the {many} are only in {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(f"the {many} in {base} make a {m.name}", f"there's a {m.name} on {many} in {base}")
        else:
            said = m.pick(
                f"there's a {m.name} on {many} in {base} and {cover}",
                f"the {many} in {base} are in {cover} so that's a {m.name}",
                f"look at the {many} in {base} that's a {m.name} with {cover}",
            )
        where = (
            m.pick(f"the rest of {cover}", f"the rest of those {cross}") if m.says("cover") else f"the rest of those {cross}"
        )
        return self.so(m, said, where)

    def finned(self, m: Matter) -> str:
        many, base, cover = PLURALS[m.digits[0]], self.houses(m.houses), self.houses(m.cover)
        shown, fins, one = m.name.removeprefix("finned "), self.cells(m, m.fins), len(m.fins) == 1
        cross = f"{KINDS[m.cover[0].kind]}s"
        said = m.pick(
            f"there's a finned {shown} on {many} in {base} with {cover} and the {'fin is' if one else 'fins are'} {fins}",
            f"the {many} in {base} would be a {shown} in {cover} except for {fins}",
            f"in {base} the {many} are in {cover} apart from the {'fin' if one else 'fins'} in {fins} that's a finned {shown}",
        )
        return self.so(m, said, f"cells in those {cross} that see the {'fin' if one else 'fins'} too")

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        pivot = self.cell(m.pivot)
        first, second = map(self.cell, m.cells)
        one, other, both = (NUMBERS[digit] for digit in m.plan.shared)
        if m.says("name"):
            said = m.pick(
                f"there's an xy-wing with the pivot in {pivot} and wings in {first} and {second}",
                f"{pivot} is the pivot of an xy-wing and the wings are {first} and {second}",
                f"we've got an xy-wing here the hinge is {pivot} and then {first} and {second}",
            )
        else:
            said = m.pick(
                f"{pivot} is {one} or {other} if it's {one} then {first} is {both} and if it's {other} then {second} is {both} so either way one of them is {both}",
                f"if {pivot} is {one} then {first} is {both} and if it's {other} then {second} is {both}",
            )
        return self.so(m, said, m.pick("anything that sees both wings", "any cell that sees both of those"), m.plan.shared[2])

    def xy_chain(self, m: Matter) -> str:
        end = NUMBERS[m.digits[0]]
        names = [*map(self.cell, m.cells)]
        said = "this is an xy-chain " if m.says("name") else ""
        said += f"if {names[0]} is not {end} it's {NUMBERS[m.digits[1]]}"
        for name, digit in zip(names[1:], m.digits[2:], strict=True):
            said += m.pick(" then ", " so ", " which makes ", " and then ")
            said += f"{name} {NUMBERS[digit]}" if said.endswith("makes ") else f"{name} is {NUMBERS[digit]}"
        said += m.pick(
            f" so one of the two ends is {self.a(m.digits[0])} either way",
            f" so either {names[0]} or {names[-1]} is {self.a(m.digits[0])}",
        )
        return self.so(m, said, m.pick("anything that sees both ends", "any cell that sees both of them"), m.digits[0])

    def x_chain(self, m: Matter) -> str:
        digit = m.digits[0]
        names = [*map(self.cell, m.cells)]
        if m.says("name"):
            said = m.pick("there's an x-chain on ", "look at the x-chain of ") + f"{PLURALS[digit]} {' then '.join(names)}"
        else:
            said = ""
            for at, (a, b, way) in enumerate(zip(names[::2], names[1::2], m.plan.ways, strict=True)):
                if at == 0:
                    said = f"if {a} is not {self.a(digit)} then {b} is because that's the only other one in the {KINDS[way]}"
                else:
                    said += f" then {a} is not so {b} is {self.a(digit)} because that's the only other one in the {KINDS[way]}"
            said += f" so one of {names[0]} and {names[-1]} is {self.a(digit)}"
        return self.so(m, said, m.pick("anything that sees both ends", "any cell that sees both of them"), digit)

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        said = m.pick("suppose ", "if ", "let's say ") + f"{self.cell(first)} is{'' if supposed else ' not'} {self.a(digit)}"
        last = first
        for cell, holds, other in others:
            it = m.pick("it", "that cell") if cell == last else self.cell(cell)
            must = m.pick("is", "has to be") if holds else m.pick("is not", "can't be")
            said += f" {m.pick('then', 'so', 'so then', 'that means', 'and so')} {it} {must} {self.a(other)}"
            last = cell
        cell, holds, other = m.links[-1]
        if cell == first and other == digit and holds != supposed:
            said += m.pick(" which is a contradiction", " and that's impossible", " that doesn't work")
            if m.plan.natural:
                return self.say(
                    m,
                    said
                    + m.pick(" so ", " that means ")
                    + f"{self.cell(first)} is{' not' if supposed else ''} {self.a(digit)}",
                )
        return self.so(m, said, m.pick("anything that sees both ends", "any cell that sees both"), digit)

    def facts(self, m: Matter) -> str:
        said = [
            self.cell(what) if isinstance(what, int) else f"the {NUMBERS[what[0]]} in {self.house(what[1])}" for what in m.cited
        ]
        return self.so(m, m.pick("look at ", "just from ", "think about ") + " and ".join(said), "")

    def bare(self, m: Matter) -> str:
        return self.say(m, self.effects(m))

    # Effects.

    def so(self, m: Matter, said: str, where: str, digit: int | None = None) -> str:
        tail = self.hinted(m, where, digit) if m.plan.natural else self.effects(m)
        return self.say(m, f"{said} {m.pick('so', 'which means', 'that means', 'and so', 'therefore')} {tail}")

    def hinted(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                f"everything else goes from {where}",
                f"nothing else can go in {where}",
                f"we can take everything else out of {where}",
            )
        digits = [digit] if digit else m.digits or [m.links[0][2]]
        if len(digits) == 1:
            d = NUMBERS[digits[0]]
            return m.pick(
                f"we can take {d} out of {where}",
                f"{d} can't be in {where}",
                f"the {PLURALS[digits[0]]} go from {where}",
                f"we can remove {d} from {where}",
            )
        return m.pick(f"those go from {where}", f"we can take {self.run(digits)} out of {where}", f"they're gone from {where}")

    def effects(self, m: Matter) -> str:
        said = [self.effect(m, effect) for effect in m.effects]
        return m.pick(" and ", " and also ", " and then ").join(said)

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, a = self.cell(effect.cell), self.a(effect.digit)
            return m.pick(f"{cell} is {a}", f"{cell} has to be {a}", f"{a} goes in {cell}")
        digits, either = self.run(effect.digits), self.run(effect.digits, "or")
        if isinstance(effect, Clear):
            house = self.house(effect.house)
            return m.pick(
                f"we can take {digits} out of the rest of {house}",
                f"no other cell in {house} can be {either}",
                f"the rest of {house} can't be {either}",
            )
        cells = self.cells(m, effect.cells)
        return m.pick(
            f"{cells} can't be {either}",
            f"we can take {digits} out of {cells}",
            f"we can remove {digits} from {cells}",
            f"{digits} {'is' if len(effect.digits) == 1 else 'are'} gone from {cells}",
            f"there's no {either} in {cells}",
            f"i'm crossing out {digits} in {cells}",
            f"that gets rid of {digits} in {cells}",
        )

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "hi everyone welcome back to the lamp room um it's pretty foggy out there tonight so let's get going",
                    "okay is this on good so this is tonight's puzzle from the lamp room",
                )
            )
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.15:
            yield Piece(
                rng.choice(
                    (
                        "that's nice",
                        "um let me think",
                        "sorry that was the foghorn",
                        "okay what else have we got",
                        "i like that one",
                        "it took me a while to see this",
                        "hang on a second",
                        "where are we now",
                        "good good",
                        "i've been sitting here for two hours now",
                        "we've still got a lot to do",
                        "the lamp needs oil again i'll be right back",
                    )
                )
            )

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        a = self.a(m.put.digit)
        return m.pick(f"so that's {a}", f"there we go {a} in {self.cell(m.put.cell)}", f"okay {a} there")

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece("and that's it we're done thanks for listening good night")

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        vtt = rng.random() < 0.5
        cut = Captioned(vtt, rng.choice((36, 42)), rng.choice((1, 1, 2)), 0, 2.5, "", rng.random() < 0.3)
        return ("vtt" if vtt else "srt"), captions(pieces, cut, rng)
