"""For development: a chatty presenter of videos. Captions with punctuation, "row 4, column 7", pronouns all over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, an, listed, opened
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator


class Presenter(Narrator):
    """Talks to the camera while the pencil moves."""

    name = "presenter"
    leaves: ClassVar = {
        "single house": 0.03,
        "its": 0.25,
        "naked house": 0.6,
        "hidden house": 0.05,
        "cover": 0.1,
        "crossing": 0.1,
        "name": 0.4,
        "effects": 0.75,
        "back": 0.6,
        "corners": 0.15,
        "recap": 0.06,
    }

    # Naming.

    def cell(self, m: Matter, cell: int) -> str:
        row, column = divmod(cell, 9)
        return f"row {row + 1}{m.pick(',', '')} column {column + 1}"

    def cells(self, m: Matter, cells: Sequence[int]) -> str:
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        joined, first = m.often(0.6), m.often(0.5)
        if len(cells) > 1 and len(rows) == 1 and joined:
            numbers = listed([str(cell % 9 + 1) for cell in cells])
            return f"row {min(rows) + 1}, columns {numbers}" if first else f"columns {numbers} of row {min(rows) + 1}"
        if len(cells) > 1 and len(columns) == 1 and joined:
            numbers = listed([str(cell // 9 + 1) for cell in cells])
            return f"column {min(columns) + 1}, rows {numbers}" if first else f"rows {numbers} of column {min(columns) + 1}"
        named = [f"row {cell // 9 + 1} column {cell % 9 + 1}" for cell in cells]
        return listed(named, "and", True)

    def house(self, house: House) -> str:
        return f"{KINDS[house.kind]} {house.number}"

    def where(self, m: Matter) -> str:
        kind = KINDS[m.house.kind]
        return m.pick(f"the same {kind}", f"that same {kind}", f"this {kind} again") if m.plan.back else self.house(m.house)

    def houses(self, houses: Sequence[House]) -> str:
        return f"{KINDS[houses[0].kind]}s {listed([str(house.number) for house in houses])}"

    def fillers(self, m: Matter) -> str:
        return m.pick(
            "", "", "", "Okay, ", "Right, ", "Now, ", "So, ", "And look, ", "Ooh, ", "Well, ", "All right, ", "You know what, "
        )

    def say(self, m: Matter, *sentences: str) -> str:
        first, *others = [sentence for sentence in sentences if sentence]
        head = self.fillers(m)
        return " ".join([f"{head}{first}" if head else opened(first), *map(opened, others)])

    # Steps.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(m, put.cell), put.digit
        a = an(str(digit))
        return self.say(
            m,
            m.pick(
                f"let's have a look at {cell}. What can go in there? Only {a}, so that's {a}.",
                f"{cell} sees everything except {a}, so this cell has to be {a}.",
                f"there is just one option left in {cell}, and it's {a}.",
                f"what about {cell}? I've crossed out every other digit there. That cell is a {digit}, then."
                if digit != 8
                else f"what about {cell}? Nothing fits in there but an 8, so I'm writing in the 8.",
                f"{cell} has a naked single in it, it's {a}.",
                f"can you see what's left for {cell}? It can only be {a}. Let's write that in.",
                f"this one here, {cell}, is now forced to be {a}, because nothing else is left for it.",
                f"the pencil marks in {cell} are down to one. That's {a}.",
                f"I can finally fill in {cell}. It's {a}; there's no other digit it could be.",
            ),
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(m, put.cell), put.digit
        a = an(str(digit))
        if not m.says("house"):
            return self.say(m, m.pick(f"{cell} is a hidden single, it's {a}.", f"there's a hidden single here: {a} in {cell}."))
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return self.say(
                m,
                m.pick(
                    f"look at {cell}. In its {kind}, that's the only cell that can still be {a}, so it is {a}.",
                    f"{cell} is the only place left in its {kind} for {a}. So I'll pop that in.",
                    f"see {cell}? No other cell in that {kind} can be {a}, so it has to go there.",
                ),
            )
        house = self.where(m)
        return self.say(
            m,
            m.pick(
                f"where does the {digit} go in {house}? It can't go anywhere except {cell}, so there it is.",
                f"{house} still needs {a}, and if you look around, the only cell that will take it is {cell}.",
                f"let's ask where {a} can go in {house}. Just one place: {cell}.",
                f"in {house} there's only one spot left for the {digit}, and that's {cell}. Lovely.",
                f"{house}, where's your {digit}? It has to be in {cell}. Nowhere else works.",
                f"I'm going to put {a} in {cell}, because it's the only place for {a} in {house}.",
                f"{cell} must be {a}. Nothing else in {house} can be {a}.",
                f"the {digit}s are all blocked in {house} apart from {cell}. So this cell is {a}.",
                f"there's a hidden single in {house}: the {digit} can only go in {cell}.",
                f"we need {a} somewhere in {house}. All the other cells see one already, so it's in {cell}.",
            ),
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(m, put.cell), put.digit
        a = an(str(digit))
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return self.say(m, f"{cell} is the last empty cell in its {kind}, so it's got to be {a}.")
        house = self.where(m)
        return self.say(
            m,
            m.pick(
                f"{house} has only one gap left, at {cell}. The missing digit is {a}.",
                f"that leaves one empty cell in {house}, which is {cell}, and it's {a}.",
                f"we can finish {house} now. There's a single cell to go, {cell}, and we haven't had {a} yet.",
                f"just one to go in {house}! It's {a}, in {cell}.",
                f"{house} is nearly done, only the {digit} is missing, and that goes in {cell}.",
                f"count up {house}: everything's there except the {digit}. So {cell} is the {digit}.",
                f"{a} in {cell} completes {house}. Very satisfying.",
            ),
        )

    def locked(self, m: Matter) -> str:
        digit, house = m.digits[0], self.where(m)
        assert m.crossing is not None
        line, kind = self.house(m.crossing), KINDS[m.crossing.kind]
        own = KINDS[m.house.kind]
        if not m.says("crossing"):
            said = m.pick(
                f"look at the {digit}s in {house}. They're all in one {kind}",
                f"in {house}, every cell that can be {an(str(digit))} sits in a single {kind}",
            )
        elif m.says("name") and m.often(0.5):
            if m.name == "pointing":
                said = m.pick(
                    f"the {digit}s in {house} are pointing along {line}",
                    f"see how the {digit}s in {house} point along {line}",
                    f"these {digit}s in {house} are in {line}, all of them, so they're pointing",
                )
            else:
                said = f"{house} claims its {digit} inside {line}"
        else:
            said = m.pick(
                f"where can the {digit} be in {house}? Only in {line}",
                f"in {house}, the {digit} has to be somewhere in {line}",
                f"all the {digit}s in {house} are in {line}",
                f"notice that the {digit}s of this {own}, {house}, all live in {line}"
                if not m.plan.back
                else f"notice that the {digit}s of {house} all live in {line}",
                f"I don't know where the {digit} goes in {house}, but I do know it's in {line}",
                f"one of the cells in {house} that are also in {line} must be the {digit}",
                f"what about the {digit}s in {house}? They don't go anywhere but {line}",
                f"the {digit} for {house} is going to be in {line}, one way or another",
            )
        return self.so(m, said, f"the rest of {line}" if m.says("crossing") and m.often(0.5) else f"the rest of that {kind}")

    def naked(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), listed([*map(str, m.digits)]), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        kinds = [KINDS[kind] for kind in m.plan.kinds]
        these = "these two cells" if m.count == 2 else f"these {count} cells"
        both = "both of them" if m.count == 2 else f"all {count} of them"
        place = f" in {house}" if m.says("house") else ""
        rest = m.pick("the rest of the " + " and the ".join(kinds), f"every cell that sees {both}")
        if not m.says("name"):
            order = "some way round" if m.count == 2 else "in some order"
            said = m.pick(
                f"look at {cells}{place}. {opened(these)} are {digits}, {order}",
                f"{cells}{place} can only be {digits} between them",
                f"I've got {count} cells here, {cells}{place}, with nothing but {digits} in them",
                f"what's in {cells}{place}? Just {digits}",
                f"see {cells}{place}? I don't know which is which, but {these} are {digits}",
                f"{cells}{place}: one of them's the {m.digits[0]}, and the other one's the {m.digits[1]}"
                if m.count == 2
                else f"the digits {digits} live in {cells}{place}, and nothing else does",
            )
        else:
            said = m.pick(
                f"there's a naked {size} of {digits}{place}, in {cells}",
                f"{cells}{place} make a {size}, a naked {size} of {digits}",
                f"have you spotted the naked {size}? It's {digits}{place}, sitting in {cells}",
                f"{cells}{place}: that's a {digits} {size}",
            )
        return self.so(m, said, rest)

    def hidden(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), listed([*map(str, m.digits)]), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        these = "these two cells" if m.count == 2 else f"those {count} cells"
        place = f" in {house}" if m.says("house") else ""
        if not m.says("name"):
            said = m.pick(
                f"where can {digits} go{place}? Only in {cells}",
                f"{digits}{place} have to share {cells}",
                f"there are just {count} places for {digits}{place}, and those are {cells}",
                f"the digits {digits} can't go anywhere{place} except in {cells}",
                f"let's find homes for {digits}{place}. There's {cells}, and that's it",
                f"{cells} are the only cells{place} that can take {digits}",
            )
        else:
            said = m.pick(
                f"there's a hidden {size}{place}: {digits} only appear in {cells}",
                f"{cells} hide a {size} of {digits}{place}",
                f"it's well hidden, but{place} there's a hidden {size} of {digits} in {cells}",
                f"we have a hidden {size}{place}. The {digits} are stuck in {cells}",
            )
        return self.so(m, said, these)

    def fish(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        shown = {"x-wing": "X-wing"}.get(m.name, m.name)
        lines, cross = f"{KINDS[m.houses[0].kind]}s", f"{KINDS[m.cover[0].kind]}s"
        these = {2: "both", 3: "all three", 4: "all four"}[m.count]
        if m.plan.corners:
            rows = sorted(house.number for house in (*m.houses, *m.cover) if house.kind == "r")
            columns = sorted(house.number for house in (*m.houses, *m.cover) if house.kind == "c")
            corners = [(row - 1) * 9 + column - 1 for row in rows for column in columns]
            named = [f"row {cell // 9 + 1} column {cell % 9 + 1}" for cell in corners]
            said = f"there's an X-wing of {digit}s on the {lines}. The corners are {listed(named)}"
            return self.so(m, said, f"the rest of those two {cross}")
        if not m.says("name"):
            said = m.pick(
                f"look at the {digit}s in {base}. They're all in {cover}",
                f"in {base}, the {digit}s can only be in {cover}",
                f"if I look at where the {digit}s can go in {base}, it's always {cover}",
                f"{base} all have to put their {digit}s somewhere in {cover}"
                if m.count > 2
                else f"{base} both have to put their {digit}s somewhere in {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(f"there's {an(shown)} of {digit}s in {base}", f"the {digit}s in {base} make {an(shown)}")
        else:
            said = m.pick(
                f"the {digit}s in {base} are lined up in {cover}, so that's {an(shown)}",
                f"here comes {an(shown)}! It's on {digit}s, in {base}, and it takes in {cover}",
                f"do you see the {shown}? In {base} the {digit}s are only in {cover}",
                f"I love this: {an(shown)} of {digit}s. {opened(base)}, {cover}",
            )
        where = m.pick(f"the rest of {cover}", f"everywhere else in those {cross}", f"the rest of {these} {cross}")
        return self.so(m, said, where if m.says("cover") else f"everywhere else in those {cross}")

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        shown = m.name.removeprefix("finned ").replace("x-wing", "X-wing")
        fins, one = self.cells(m, m.fins), len(m.fins) == 1
        cross = f"{KINDS[m.cover[0].kind]}s"
        extra = "that extra cell" if one else "those extra cells"
        said = m.pick(
            f"the {digit}s in {base} would be {an(shown)} in {cover}, if it weren't for {fins}. So {extra} {'is a fin' if one else 'are fins'}",
            f"this is a finned {shown} on {digit}s. {opened(base)} against {cover}, and the fin{'' if one else 's'}: {fins}",
            f"we've got {an(shown)} of {digit}s in {base} with {cover}, but it has {'a fin' if one else 'fins'}, namely {fins}",
        )
        fin = "the fin" if one else "the fins"
        where = m.pick(f"anything in those {cross} that sees {fin} as well", f"the cells of {cover} that can see {fin}")
        return self.so(m, said, where)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        pivot = self.cell(m, m.pivot)
        first, second = (f"row {cell // 9 + 1} column {cell % 9 + 1}" for cell in m.cells)
        one, other, both = m.plan.shared
        if not m.says("name"):
            said = m.pick(
                f"let's look at {pivot}. If it's {an(str(one))}, then {first} is {an(str(both))}, and if it's {an(str(other))}, then {second} is {an(str(both))}. So one of those two is {an(str(both))} either way",
                f"{pivot} is either {one} or {other}. If that's {one}, this makes {first} {an(str(both))}. If it's {other}, {second} is the {both}",
            )
        else:
            said = m.pick(
                f"here's an XY-wing. The pivot is {pivot} and the wings are {first} and {second}",
                f"{pivot} is the hinge of an XY-wing, with {first} and {second} as the pincers",
                f"there's a lovely XY-wing with its pivot in {pivot}. Its wings, {first} and {second}, both have {an(str(both))} in them",
            )
        where = m.pick("any cell that sees both wings", "everything both of them can see", "cells that see both of those")
        return self.so(m, said, where, both)

    def xy_chain(self, m: Matter) -> str:
        end = m.digits[0]
        names = [f"row {cell // 9 + 1} column {cell % 9 + 1}" for cell in m.cells]
        links = [f"{name} is {an(str(digit))}" for name, digit in zip(names[1:], m.digits[2:], strict=True)]
        joins = ("then", "so", "and then", "that means", "so then", "which means")
        told = ", ".join(f"{m.pick(*joins)} {link}" for link in links)
        head = m.pick(
            f"suppose {names[0]} is not {an(str(end))}. Then it's {an(str(m.digits[1]))}",
            f"if {names[0]} isn't {an(str(end))}, it's {an(str(m.digits[1]))}",
        )
        if m.says("name"):
            head = m.pick("this one's an XY-chain. ", "let me show you an XY-chain. ") + opened(head)
        tail = m.pick(
            f"So either {names[0]} or {names[-1]} is {an(str(end))}",
            f"So one of the two ends is {an(str(end))} either way",
            f"In other words one of {names[0]} and {names[-1]} is {an(str(end))}",
        )
        return self.so(
            m, f"{head}, {told}. {tail}", m.pick("any cell that sees both ends", "everything that both of them see"), end
        )

    def x_chain(self, m: Matter) -> str:
        digit = m.digits[0]
        names = [f"row {cell // 9 + 1} column {cell % 9 + 1}" for cell in m.cells]
        pairs = [*zip(names[::2], names[1::2], m.plan.ways, strict=True)]
        if m.says("name"):
            head = m.pick(
                f"I've found an X-chain on the {digit}s. It goes from {names[0]} to {', then '.join(names[1:])}",
                f"follow the {digit}s with me, it's a chain: {', '.join(names)}",
            )
        else:
            said = [f"{a} or {b} is {an(str(digit))} because they're the only two in the {KINDS[way]}" for a, b, way in pairs]
            head = f"either {said[0]}. " + " ".join(f"Either {one}." for one in said[1:])
            head += m.pick(
                f" So if it isn't {names[0]}, it's {names[-1]}", f" So {names[0]} or {names[-1]} has to be the {digit}"
            )
        return self.so(m, head, m.pick("any cell that sees both ends", "anything that sees both of those"), digit)

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        name = f"row {first // 9 + 1} column {first % 9 + 1}"
        a = an(str(digit))
        is_not, were = (" is", "were") if supposed else (" isn't", "weren't")
        text = m.pick(
            f"let's say {name}{is_not} {a}.",
            f"what happens if {name}{is_not} {a}?",
            f"suppose {name} {were} {a}.",
        )
        last, said = first, []
        for cell, holds, other in others:
            it = m.pick("it", "that cell", "the same cell") if cell == last else f"row {cell // 9 + 1} column {cell % 9 + 1}"
            cannot = m.pick("is not", "can't be", "isn't")
            said.append(
                f"{m.pick('then', 'so', 'that means', 'so then', 'and so')} {it} {'is' if holds else cannot} {an(str(other))}"
            )
            last = cell
        half = len(said) // 2 if len(said) > 3 else len(said)
        text += " " + opened(", ".join(said[:half])) + "."
        if said[half:]:
            text += " " + opened(", ".join(said[half:])) + "."
        cell, holds, other = m.links[-1]
        if cell == first and other == digit and holds != supposed:
            text += m.pick(" That's a contradiction", " Well, that can't be right", " That breaks")
            if m.plan.natural:
                return self.say(m, f"{text}. So {name} {'is not' if supposed else 'is'} {a}.")
            return self.so(m, text, "")
        if other == digit and holds and not supposed and m.often(0.6):
            text += f" So either the first cell is {a} or the last one is"
            return self.so(m, text, "any cell that sees both ends", digit)
        return self.so(m, text.rstrip("."), m.pick("anything that sees both ends", "any cell that sees the two ends"), digit)

    def facts(self, m: Matter) -> str:
        said = [
            f"row {what // 9 + 1} column {what % 9 + 1}" if isinstance(what, int) else f"the {what[0]} in {self.house(what[1])}"
            for what in m.cited
        ]
        words = listed(said)
        text = m.pick(
            f"think about {words}",
            f"this is a bit sneaky, it comes from {words}",
            f"just from {words}, we get something",
            f"I was staring at {words} for a while, and it's enough",
            f"have a think about what {words} can be" if len(said) == 1 and isinstance(m.cited[0], int) else f"look at {words}",
        )
        return self.so(m, text, "")

    def bare(self, m: Matter) -> str:
        return self.say(m, m.pick("", "trust me on this one, ", "I'll just tell you this: ") + self.effects(m) + ".")

    # Effects.

    def so(self, m: Matter, said: str, where: str, digit: int | None = None) -> str:
        tail = self.hinted(m, where, digit) if m.plan.natural else self.effects(m)
        link = m.pick("so", "which means", "that means", "and so", "meaning")
        if said.endswith(("?", "!")):
            return self.say(m, f"{said} {opened(tail)}.")
        if m.often(0.5):
            return self.say(m, f"{said}.", f"{m.pick('So ', 'That means ', 'And that tells us ', '')}{tail}.")
        return self.say(m, f"{said}, {link} {tail}.")

    def hinted(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                f"I can clear everything else out of {where}",
                f"nothing else can go in {where}",
                f"all the other pencil marks in {where} disappear",
                f"whatever else was in {where} is gone",
            )
        if m.often(0.12):
            return m.pick(
                "I can take out everything I've highlighted here",
                "you know what goes now",
                "all the cells I've shaded lose it" if digit or len(m.digits) < 2 else "all the cells I've shaded lose them",
            )
        digits = [digit] if digit else m.digits or [m.links[0][2]]
        if len(digits) == 1:
            a = an(str(digits[0]))
            return m.pick(
                f"we can take the {digits[0]} out of {where}",
                f"I can remove {digits[0]} from {where}",
                f"no {digits[0]}s in {where}",
                f"{a} can't be in {where}",
                f"the {digits[0]}s go from {where}",
            )
        words = listed([*map(str, digits)])
        return m.pick(
            f"those digits go from {where}",
            f"we can take those out of {where}",
            f"we can cross {words} off in {where}",
            f"they're gone from {where}",
            f"{words} come out of {where}",
        )

    def effects(self, m: Matter) -> str:
        said = [self.effect(m, effect) for effect in m.effects]
        if len(said) == 1:
            return said[0]
        return m.pick(". Also ", ", and also ", ". And ").join(said[:2]) + "".join(f". {opened(one)}" for one in said[2:])

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, a = self.cell(m, effect.cell), an(str(effect.digit))
            return m.pick(f"{cell} is {a}", f"{cell} has to be {a}", f"we can put {a} in {cell}", f"{a} goes in {cell}")
        digits = listed([*map(str, effect.digits)])
        either = listed([*map(str, effect.digits)], "or")
        if isinstance(effect, Clear):
            house = self.house(effect.house)
            kind = KINDS[effect.house.kind]
            if m.houses == [effect.house] and m.says("house") and effect is m.effects[0] and m.often(0.4):
                house = f"that {kind}"
            return m.pick(
                f"we can remove {digits} from the rest of {house}",
                f"no other cell in {house} can be {either}",
                f"I can take {digits} out of the rest of {house}",
                f"nothing else in {house} can be {either}",
            )
        cells = self.cells(m, effect.cells)
        return m.pick(
            f"{cells} can't be {either}",
            f"we can take {digits} out of {cells}",
            f"I can cross {digits} off in {cells}",
            f"{cells} can't have {either} in {'it' if len(effect.cells) == 1 else 'them'}",
            f"{either} {'is' if len(effect.digits) == 1 else 'are'} not possible in {cells}".replace(" or ", " and "),
            f"goodbye {digits} from {cells}",
            f"there goes the {digits} in {cells}" if len(effect.digits) == 1 else f"there go {digits} in {cells}",
            f"I'm rubbing out {digits} in {cells}",
            f"we lose {digits} from {cells}",
        )

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Hello everyone, and welcome back to the Lamp Room! The kettle's on, the fog is thick, and I've got a puzzle for you.",
                    "Hi there, it's me again, up in the gallery, and tonight's puzzle looks a proper beast.",
                    "Good evening, keepers. Let's get straight into it, shall we?",
                )
            )
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.2:
            yield Piece(
                rng.choice(
                    (
                        "That was nice, wasn't it?",
                        "I'm really enjoying this one.",
                        "Let me just take a sip of tea.",
                        "What's next? Let me think.",
                        "If you got that, well done.",
                        "The foghorn's going again, sorry about that.",
                        "I always miss those.",
                        "Okay. Deep breath.",
                        "It took me ages to see the next one.",
                        "Brilliant.",
                        "That's two in a row!",
                        "I've had four cups of tea so far, in case you're counting.",
                        "I think we've only looked at one half of this grid up to now.",
                        "Pause the video here if you want to have a go yourself.",
                        "I'm just going to tidy up my pencil marks.",
                        "We're getting there, slowly.",
                        "Where was I?",
                    )
                )
            )

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        cell, a = self.cell(m, m.put.cell), an(str(m.put.digit))
        return m.pick(
            f"So that's {a}. Good.", f"There, {a} in {cell}.", f"So {cell} is {a} now.", f"And that's the {m.put.digit} done."
        )

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "And that's it, solved! Thanks for watching, and keep your lamps lit.",
                    "There we go. What a puzzle. See you next time in the Lamp Room. Bye bye!",
                )
            )
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        vtt = rng.random() < 0.5
        voice = "<v Wick>" if vtt and rng.random() < 0.4 else ""
        cut = Captioned(vtt, rng.choice((32, 38, 42)), rng.choice((1, 2)), rng.uniform(0, 0.6), 2.8, voice, rng.random() < 0.5)
        return ("vtt" if vtt else "srt"), captions(pieces, cut, rng)
