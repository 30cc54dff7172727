"""For development: a teacher, who says each thing twice and why it is so. Prose, "row 4, column 7", digits often as words."""

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


class Teacher(Narrator):
    """Explains, and explains again."""

    name = "teacher"
    leaves: ClassVar = {
        "its": 0.1,
        "naked house": 0.2,
        "cover": 0.0,
        "name": 0.45,
        "effects": 0.6,
        "back": 0.3,
        "recap": 0.08,
    }

    # Naming.

    def cell(self, cell: int) -> str:
        return f"row {cell // 9 + 1}, column {cell % 9 + 1}"

    def the_cell(self, m: Matter, cell: int) -> str:
        row, column = cell // 9 + 1, cell % 9 + 1
        return m.pick(
            f"the cell at row {row}, column {column}",
            f"row {row}, column {column}",
            f"the cell in row {row} and column {column}",
        )

    def cells(self, m: Matter, cells: Sequence[int]) -> str:
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        if len(cells) > 1 and len(rows) == 1:
            words = m.often(0.1)
            numbers = listed([NUMBERS[cell % 9 + 1] if words else str(cell % 9 + 1) for cell in cells])
            return m.pick(f"row {min(rows) + 1}, columns {numbers}", f"the cells of row {min(rows) + 1} in columns {numbers}")
        if len(cells) > 1 and len(columns) == 1:
            numbers = listed([str(cell // 9 + 1) for cell in cells])
            return m.pick(
                f"column {min(columns) + 1}, rows {numbers}", f"the cells of column {min(columns) + 1} in rows {numbers}"
            )
        if len(cells) == 1:
            return self.the_cell(m, cells[0])
        return "the cells " + listed([f"row {cell // 9 + 1} column {cell % 9 + 1}" for cell in cells])

    def house(self, m: Matter, house: House) -> str:
        kind = KINDS[house.kind]
        return f"the {ORDINALS[house.number]} {kind}" if m.often(0.25) else f"{kind} {house.number}"

    def where(self, m: Matter) -> str:
        if m.plan.back:
            return f"that same {KINDS[m.house.kind]}"
        return self.house(m, m.house)

    def houses(self, houses: Sequence[House]) -> str:
        return f"{KINDS[houses[0].kind]}s {listed([str(house.number) for house in houses])}"

    def digit(self, m: Matter, digit: int) -> str:
        return NUMBERS[digit] if m.often(0.3) else str(digit)

    def a(self, m: Matter, digit: int) -> str:
        return an(self.digit(m, digit)) if digit != 1 else m.pick("a one", "a 1")

    def many(self, m: Matter, digit: int) -> str:
        return PLURALS[digit] if m.often(0.4) else f"{digit}s"

    def digits(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([*map(str, digits)], last)

    def say(self, *sentences: str) -> str:
        return " ".join(opened(sentence) for sentence in sentences if sentence)

    # Steps.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, a = self.the_cell(m, put.cell), self.a(m, put.digit)
        first = m.pick(
            f"take {cell}. Its row, its column and its box between them already rule out every digit but one.",
            f"let us look at {cell} and ask which candidates it has left. There is just one.",
            f"consider {cell}. All the other candidates have gone from it.",
            f"{cell} has a single candidate remaining.",
            f"go through the digits for {cell}, one after the other. Only one of them survives.",
        )
        second = m.pick(
            f"So this cell must be {a}.",
            f"That one is {a}, and so the cell is {a}.",
            f"It can only be {a}.",
            f"Since it has to be something, it is {a}.",
            f"What is left is {a}, so we write {a} there.",
        )
        return self.say(first, second)

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, a, d = self.the_cell(m, put.cell), self.a(m, put.digit), self.digit(m, put.digit)
        kind = KINDS[m.house.kind]
        house = self.where(m) if m.says("its") else f"its {kind}"
        if not m.says("its"):
            return self.say(
                f"look at {cell}.",
                m.pick(
                    f"In its {kind}, no other cell can be {a}. So {a} it is.",
                    f"It is the only cell in its {kind} where {a} can go, and the {kind} needs one.",
                ),
            )
        return self.say(
            *m.rng.choice(
                (
                    (
                        f"every {kind} must contain {a} somewhere, and so must {house}.",
                        f"The only cell there that can still take it is {self.cell(put.cell)}.",
                        m.pick(f"So that cell is {a}.", f"Therefore {a} goes into it.", ""),
                    ),
                    (
                        f"where in {house} can we put the {d}?",
                        f"If you check each empty cell of that {kind}, you will find that only {cell} works.",
                    ),
                    (
                        f"in {house}, {a} is possible in one cell only, namely {cell}.",
                        m.pick(f"So it must be {a}.", "It must go there."),
                    ),
                    (f"{cell} must be {a}.", f"Why? Because nowhere else in {house} is there room for one."),
                    (f"{cell} has to be the {d} of {house}, because all its other cells see {a} already.",),
                    (
                        f"{house} is still missing {a}.",
                        f"It fits nowhere else than in {cell}, so that is where we write it.",
                    ),
                )
            )
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, a = self.the_cell(m, put.cell), self.a(m, put.digit)
        kind = KINDS[m.house.kind]
        house = self.where(m) if m.says("its") else f"its {kind}"
        if not m.says("its"):
            return self.say(
                f"{cell} is now the only empty cell in its {kind}.",
                f"The digit that the {kind} lacks is {a}, so it goes there.",
            )
        return self.say(
            *m.rng.choice(
                (
                    (f"count the digits in {house}: eight are there.", f"Only one is missing, {a}, and it goes into {cell}."),
                    (
                        f"{house} has just one empty cell left, {cell}.",
                        f"It must hold the digit we have not used yet, which is {a}.",
                    ),
                    (f"the only gap in {house} is {cell}.", f"Since {a} is what the {kind} lacks, {a} goes there."),
                    (f"{house} is complete except for {cell}, so we fill in {a}.",),
                )
            )
        )

    def locked(self, m: Matter) -> str:
        digit, house = m.digits[0], self.where(m)
        assert m.crossing is not None
        line, kind, own = self.house(m, m.crossing), KINDS[m.crossing.kind], KINDS[m.house.kind]
        many, a = self.many(m, digit), self.a(m, digit)
        if m.says("name") and m.often(0.6):
            if m.name == "pointing":
                name = m.pick(
                    f"the {many} in {house} point along {line}.", f"here is a pointing group: the {many} of {house} in {line}."
                )
            else:
                name = m.pick(
                    f"{house} claims its {digit} within {line}.",
                    f"here the {own} does the claiming: {house} claims the {digit} inside {line}.",
                )
            why = m.pick(f"Wherever the {own} has its {digit}, it is in that {kind}.", "")
        else:
            name = m.pick(
                f"{house} must have {a} somewhere, and all its possible places for it lie in {line}.",
                f"in {house}, the {many} are only possible in {line}.",
                f"look at where {a} can go in {house}. All the candidates lie in {line}.",
                f"outside {line}, no cell of {house} can be {a}.",
                f"all cells of {house} that can still be {a} are in {line}.",
            )
            why = m.pick(
                f"Whichever of them turns out to be right, the {digit} of {line} is then inside {house}."
                if not m.plan.back
                else f"Whichever of them turns out to be right, the {digit} is in that {kind}.",
                "We do not know yet which of them it is, but we do not need to know.",
                "",
            )
        if m.plan.natural:
            return self.say(
                name,
                why,
                m.pick(
                    f"So no other cell in {line} can be {a}.",
                    f"So the rest of that {kind} cannot have {a}.",
                    f"So we may remove the {digit} from the rest of {line}.",
                    f"Therefore the other cells of {line} lose their {digit}s.",
                ),
            )
        return self.say(name, why, self.therefore(m))

    def naked(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), self.digits(m.digits), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        these = f"these {count} cells"
        place = f" in {house}" if m.says("house") else ""
        if m.says("name"):
            first = m.pick(
                f"we have a naked {size} of {digits}{place}: {cells}.",
                f"{cells}{place} form a naked {size} with the digits {digits}.",
            )
        else:
            first = m.pick(
                f"look at {cells}{place}. They have no candidates other than {digits}.",
                f"{cells}{place} can only be {digits}.",
            )
        second = m.pick(
            f"{count} cells and {count} digits: {these} will use up all of {digits} between them.",
            f"We cannot say yet which is which, but {digits} must be in {these}.",
            f"If one of them is {m.digits[0]}, then the other one is {m.digits[1]}, and the other way round."
            if m.count == 2
            else f"One of them is {m.digits[0]}, and the others share the rest.",
            f"So {these} are {digits} in some order.",
            "",
        )
        if m.plan.natural:
            kinds = " and the ".join(KINDS[kind] for kind in m.plan.kinds)
            both = "both" if m.count == 2 else f"all {count}"
            third = m.pick(
                f"So {self.digits(m.digits, 'or')} cannot be anywhere else in the {kinds}.",
                f"Those digits go from every other cell that sees {both} of them.",
                f"Therefore they are removed from the rest of the {kinds}.",
            )
            return self.say(first, second, third)
        return self.say(first, second, self.therefore(m))

    def hidden(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), self.digits(m.digits), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        if m.says("name"):
            first = m.pick(
                f"there is a hidden {size} in {house}: {digits} can go only into {cells}.",
                f"in {house}, {digits} form a hidden {size} at {cells}.",
            )
        else:
            first = m.pick(
                f"ask where {digits} can go in {house}. For each of them the only places are among {cells}.",
                f"in {house}, {digits} are possible only in {cells}.",
                f"no cell of {house} other than {cells} has {self.digits(m.digits, 'or')} among its candidates.",
                f"{house} needs {digits}, and all {count} of them have to go into {cells}."
                if m.count > 2
                else f"{house} needs {digits}, and both of them have to go into {cells}.",
            )
        second = m.pick(
            f"{opened(count)} digits for {count} cells, so they fill them completely.",
            "There is no room for anything else in them.",
            "",
        )
        if m.plan.natural:
            third = m.pick(
                f"So every other candidate can be removed from those {count} cells.",
                f"Therefore whatever else was pencilled into these {count} cells is wrong.",
                "So we cross out all the others there.",
            )
            return self.say(first, second, third)
        return self.say(first, second, self.therefore(m))

    def fish(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        many = self.many(m, digit)
        line, cross = KINDS[m.houses[0].kind], KINDS[m.cover[0].kind]
        shown = m.name.replace("x-wing", "X-wing")
        count = NUMBERS[m.count]
        if m.says("name"):
            first = m.pick(
                f"this is {an(shown)} on the {many}. In {base} they can only be in {cover}.",
                f"in {base} the {many} are confined to {cover}, which makes {an(shown)}.",
                f"the {many} of {base} form {an(shown)}, because all of them lie in {cover}.",
            )
        else:
            first = m.pick(
                f"in {base} the {many} can only be in {cover}.",
                f"look at the {many} in {base}. All of them are in {cover}.",
                f"where do {base} have room for their {many}? Only in {cover}.",
            )
        second = m.pick(
            f"Each of these {count} {line}s needs its own {digit}, and each takes a different {cross}, so those {count} {cross}s are used up.",
            f"{opened(count)} {line}s and {count} {cross}s: the {many} of those {cross}s must all be inside those {line}s.",
            "",
        )
        if m.plan.natural:
            third = m.pick(
                f"So there can be no {digit} anywhere else in those {cross}s.",
                f"Therefore the rest of {cover} loses its {digit}s.",
                f"So we remove the {digit} from all other cells of {cover}.",
            )
            return self.say(first, second, third)
        return self.say(first, second, self.therefore(m))

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        many, shown = self.many(m, digit), m.name.removeprefix("finned ").replace("x-wing", "X-wing")
        fins, one = self.cells(m, m.fins), len(m.fins) == 1
        fin = "the fin" if one else "the fins"
        first = m.pick(
            f"the {many} of {base} would form {an(shown)} with {cover}, were it not for {fins}. Such {'a cell is' if one else 'cells are'} called {'a fin' if one else 'fins'}.",
            f"here is a finned {shown} on the {many}: {base} with {cover}, and {'a fin' if one else 'fins'} at {fins}.",
            f"in {base}, all the {many} lie in {cover}, except {'one' if one else 'a few'}: {fins}. That is a finned {shown}.",
        )
        second = m.pick(
            f"Either {fin} hold{'s' if one else ''} {an(str(digit))}, or the {shown} is real.",
            f"If {'the fin is not' if one else 'no fin is'} {an(str(digit))}, we have the {shown}; and if {'it' if one else 'one'} is, it rules out whatever it sees.",
            "",
        )
        if m.plan.natural:
            third = m.pick(
                f"In both cases the {digit} goes from the cells of {cover} that see {fin}.",
                f"So either way, a cell in {cover} which also sees {fin} cannot be {an(str(digit))}.",
            )
            return self.say(first, second, third)
        return self.say(first, second, self.therefore(m))

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        pivot = self.cell(m.pivot)
        first, second = map(self.cell, m.cells)
        one, other, both = m.plan.shared
        head = ""
        if m.says("name"):
            head = m.pick(
                f"this is an XY-wing. The pivot is {pivot}, and the two wings are {first} and {second}.",
                f"here we meet an XY-wing with its hinge at {pivot}; its wings are {first} and {second}.",
            )
            cases = m.pick(
                f"If the pivot is {one}, then the first wing must be {both}, and if it is {other}, the second one must be {both}.",
                f"The pivot is {one} or {other}, and whichever it is, one of the wings becomes {both}.",
                "",
            )
        else:
            cases = m.pick(
                f"{pivot} is either {one} or {other}. If it is {one}, then {first} has to be {both}. And if it is {other}, then {second} has to be {both}.",
                f"let us try both digits of {pivot}. Suppose it is {one}: then {first} is {both}. Suppose instead it is {other}: then {second} is {both}.",
            )
        either = m.pick(
            f"So either way one of the two is {self.a(m, both)}.",
            f"In both cases we get {self.a(m, both)} in one of them.",
            "" if head else "Either way.",
        )
        if m.plan.natural:
            third = m.pick(
                f"So any cell that sees both of them cannot be {both}.",
                f"Hence {both} goes from every cell that sees both.",
            )
            return self.say(head, cases, either, third)
        return self.say(head, cases, either, self.therefore(m))

    def xy_chain(self, m: Matter) -> str:
        end = m.digits[0]
        names = [*map(self.cell, m.cells)]
        head = m.pick("Here is an XY-chain.", "We follow an XY-chain.") if m.says("name") else ""
        steps = [f"if {names[0]} is not {end}, then it is {m.digits[1]}."]
        for at, (name, digit) in enumerate(zip(names[1:], m.digits[2:], strict=True)):
            before = m.digits[at + 1]
            steps.append(
                m.pick(
                    f"If that is {before}, then {name} must be {digit}.",
                    f"But then {name} cannot be {before}, so it is {digit}.",
                    f"This makes {name} {self.a(m, digit)}.",
                    f"Then {name} is {digit}.",
                )
            )
        tail = m.pick(
            f"So either {names[0]} is {end} or {names[-1]} is.",
            f"So one end of the chain or the other is {self.a(m, end)}: {names[0]} or {names[-1]}.",
        )
        return self.ends(m, self.say(head, *steps, tail), end)

    def x_chain(self, m: Matter) -> str:
        digit = m.digits[0]
        names = [*map(self.cell, m.cells)]
        head = f"Let us follow an X-chain on the {self.many(m, digit)}." if m.says("name") else ""
        pairs = [*zip(names[::2], names[1::2], m.plan.ways, strict=True)]
        steps = []
        for at, (a, b, way) in enumerate(pairs):
            kind = KINDS[way]
            if at == 0:
                steps.append(f"if {a} is not {digit}, then {b} must be, for those are the only two places in their {kind}.")
            else:
                steps.append(
                    m.pick(
                        f"Then {a} is not {digit}, and so {b} is, being the only other place in that {kind}.",
                        f"That means {a} cannot be {digit}, which leaves only {b} for it in their {kind}.",
                    )
                )
        tail = f"So at least one of {names[0]} and {names[-1]} is {an(str(digit))}."
        return self.ends(m, self.say(head, *steps, tail), digit)

    def ends(self, m: Matter, said: str, digit: int) -> str:
        if m.plan.natural:
            return self.say(
                said,
                m.pick(
                    f"Any cell that sees both ends cannot be {self.a(m, digit)}.",
                    f"So the {digit} goes from all cells that see both of these.",
                ),
            )
        return self.say(said, self.therefore(m))

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        name = self.cell(first)
        said = [
            m.pick(
                f"suppose {name} {'were' if supposed else 'were not'} {digit}.",
                f"let us assume that {name} is{'' if supposed else ' not'} {digit}.",
                f"what if {name} is{'' if supposed else ' not'} {digit}?",
            )
        ]
        before = (first, supposed, digit)
        for at, (cell, holds, other) in enumerate(others):
            it = m.pick("it", "this cell", "that same cell") if cell == before[0] else self.cell(cell)
            must = m.pick("must be", "has to be", "is") if holds else m.pick("cannot be", "is not")
            if at and m.often(0.35):
                word = "is" if before[1] else "is not"
                again = m.pick("it", "that") if before[0] == cell or m.often(0.5) else self.cell(before[0])
                name = self.cell(cell) if cell != before[0] else "it"
                said.append(f"If {again} {word} {before[2]}, then {name} {must} {other}.")
            else:
                said.append(
                    m.pick(f"Then {it} {must} {other}.", f"So {it} {must} {other}.", f"It follows that {it} {must} {other}.")
                )
            before = (cell, holds, other)
        cell, holds, other = m.links[-1]
        if cell == first and other == digit and holds != supposed:
            said.append(
                m.pick("But that contradicts what we assumed.", "That is a contradiction.", "So the assumption defeats itself.")
            )
            if m.plan.natural:
                said.append(f"Therefore {self.cell(first)} is{' not' if supposed else ''} {digit}.")
                return self.say(*said)
            return self.say(*said, self.therefore(m))
        if m.plan.natural or (other == digit and holds and not supposed and m.often(0.6)):
            said.append(f"So one of {self.cell(first)} and {self.cell(cell)} is {digit} either way.")
            return self.ends(m, self.say(*said), digit)
        return self.say(*said, self.therefore(m))

    def facts(self, m: Matter) -> str:
        cells = [self.cell(what) for what in m.cited if isinstance(what, int)]
        places = [f"the places for {what[0]} in {self.house(m, what[1])}" for what in m.cited if not isinstance(what, int)]
        said = [*(f"the candidates of {cell}" for cell in cells), *places]
        first = m.pick(
            f"let us look at {listed(said)}.", f"this one follows from {listed(said)}.", f"all we need here is {listed(said)}."
        )
        second = m.pick(
            "Try every possibility there, and you will see it.", "Whichever way these fall, the result is the same.", ""
        )
        return self.say(first, second, self.therefore(m))

    def bare(self, m: Matter) -> str:
        return self.say(
            m.pick("I shall give you this one without a reason.", "This step is left to you as homework.", ""), self.effects(m)
        )

    # Effects.

    def therefore(self, m: Matter) -> str:
        return m.pick("So ", "Therefore ", "Hence ", "And so ", "From this we see that ", "") + self.effects(m)

    def effects(self, m: Matter) -> str:
        said = [self.effect(m, effect) for effect in m.effects]
        text = f"{said[0]}."
        for one in said[1:]:
            text += m.pick(" Likewise ", " Also, ", " In the same way, ", " And ") + f"{one}."
        return text

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, a = self.the_cell(m, effect.cell), self.a(m, effect.digit)
            return m.pick(f"{cell} must be {a}", f"{cell} is {a}", f"we can write {a} into {cell}")
        digits = self.digits(effect.digits)
        either = self.digits(effect.digits, "or")
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(
                f"no other cell of {house} can be {either}",
                f"we can remove {digits} from the rest of {house}",
                f"the other cells in {house} cannot be {either}",
            )
        cells = self.cells(m, effect.cells)
        return m.pick(
            f"{cells} cannot be {either}",
            f"we can remove {digits} from {cells}",
            f"we may cross out {digits} in {cells}",
            f"{digits} can be eliminated from {cells}",
            f"there can be no {either} in {cells}",
            f"{digits} must go from {cells}",
            f"{digits} {'is' if len(effect.digits) == 1 else 'are'} impossible in {cells}",
        )

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Good morning, class. Today we solve a puzzle from the Lamp Room together, slowly, and I shall explain every step.",
                    "Dear apprentices, have your pencils ready. We go through this grid step by step; if something is unclear, read it twice.",
                )
            ),
            opens=True,
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.12:
            yield Piece(
                rng.choice(
                    (
                        "Is everybody still with me?",
                        "Take a moment to check this on your own grid before you read on.",
                        "This is worth remembering.",
                        "A keeper never guesses, and neither do we.",
                        "Let us go on.",
                        "Notice how each step makes the next one easier.",
                        "You may want to read that again.",
                        "There are nine digits, and a keeper respects every one of them.",
                        "Two pairs of eyes see more than one.",
                        "The second keeper once spent a whole night on what comes now.",
                    )
                ),
                opens=rng.random() < 0.5,
            )

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.7

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        cell, a = self.cell(m.put.cell), self.a(m, m.put.digit)
        return m.pick(
            f"Once more: {cell} is {a}.",
            f"So now we have {a} in {cell}.",
            f"To repeat, {cell} holds {a}.",
            f"Please write it down: {a} at {cell}.",
        )

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                ("And so the grid is complete. Well done, all of you.", "That is all for today. Wipe the slates, please.")
            ),
            opens=True,
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        def heads() -> Iterator[str]:
            clock = 0
            while True:
                yield f"{clock // 3600:02}:{clock // 60 % 60:02}:{clock % 60:02} " if marked else ""
                clock += rng.randint(20, 90)

        marked = rng.random() < 0.25
        return "narration", prose(pieces, rng.choice((None, 80)), heads())
