"""For development: a keeper who thinks aloud, captioned by hand: columns first, short sentences, questions to herself."""

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


class _Ear:
    """How the captioner spells one narration, and how one step names its cells."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        self.words = m.manner % 3 == 0
        self.comma = m.often(0.6)

    def no(self, number: int) -> str:
        return NUMBERS[number] if self.words else str(number)

    def a(self, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {self.no(digit)}"

    def the(self, digit: int) -> str:
        return f"the {self.no(digit)}"

    def s(self, digit: int) -> str:
        return PLURALS[digit] if self.words else f"{digit}s"

    def ns(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([self.no(digit) for digit in digits], last)

    def house(self, house: House) -> str:
        return f"{KINDS[house.kind]} {self.no(house.number)}"

    def where(self) -> str:
        return f"the same {KINDS[self.m.house.kind]}" if self.m.plan.back else self.house(self.m.house)

    def scene(self) -> str:
        """Where we are looking, as a sentence of its own."""
        if self.m.plan.back:
            kind = KINDS[self.m.house.kind]
            return self.m.pick(f"Same {kind} again.", f"Staying in the same {kind}.", f"The same {kind} still.")
        house = self.house(self.m.house)
        return opened(
            self.m.pick(
                f"now, {house}.",
                f"{house}.",
                f"okay, {house}.",
                f"let's try {house}.",
                f"what about {house}?",
                f"let me look at {house}.",
                f"hmm, {house}.",
            )
        )

    def houses(self, houses: Sequence[House], last: str = "and") -> str:
        kind = KINDS[houses[0].kind]
        return f"{kind}{'s' if len(houses) > 1 and last == 'and' else ''} {listed([self.no(h.number) for h in houses], last)}"

    def cell(self, cell: int) -> str:
        row, column = self.no(cell // 9 + 1), self.no(cell % 9 + 1)
        return f"column {column}, row {row}" if self.comma else f"column {column} row {row}"

    def spot(self, cell: int) -> str:
        """A cell in the middle of a sentence."""
        return f"column {self.no(cell % 9 + 1)} row {self.no(cell // 9 + 1)}"

    def cells(self, cells: Sequence[int]) -> str:
        if len(cells) == 1:
            return self.cell(cells[0])
        rows = {cell // 9 for cell in cells}
        columns = sorted({cell % 9 for cell in cells})
        if len(rows) == 1:
            those = listed([self.no(column + 1) for column in columns])
            return f"columns {those} in row {self.no(min(rows) + 1)}"
        groups = []
        for column in columns:
            own = [self.no(cell // 9 + 1) for cell in cells if cell % 9 == column]
            groups.append(f"column {self.no(column + 1)} row{'s' if len(own) > 1 else ''} {listed(own)}")
        if len(groups) == 1:
            return groups[0].replace(" rows", ", rows") if self.comma else groups[0]
        return listed(groups, comma=True) if any(" and " in group for group in groups) else listed(groups)

    def inner(self, cells: Sequence[int], house: House, last: str = "and") -> str:
        """Cells of a house that has just been named."""
        several = "s" if len(cells) > 1 and last == "and" else ""
        if house.kind == "c" and all(cell % 9 + 1 == house.number for cell in cells):
            return f"row{several} {listed([self.no(cell // 9 + 1) for cell in cells], last)}"
        if house.kind == "r" and all(cell // 9 + 1 == house.number for cell in cells):
            return f"column{several} {listed([self.no(cell % 9 + 1) for cell in cells], last)}"
        return self.cells(cells)


class Lantern(Narrator):
    """Asks herself a question, tries the answers, and says what is left."""

    name = "lantern"
    leaves: ClassVar = {
        "single house": 0.02,
        "its": 0.1,
        "naked house": 0.3,
        "hidden house": 0.03,
        "cover": 0.1,
        "crossing": 0.08,
        "name": 0.5,
        "effects": 0.5,
        "back": 0.4,
        "corners": 0.15,
    }

    # Singles.

    def naked_single(self, m: Matter) -> str:
        e, put = _Ear(m), m.put
        assert put is not None
        cell, spot, a, the, d = e.cell(put.cell), e.spot(put.cell), e.a(put.digit), e.the(put.digit), e.no(put.digit)
        ask = m.pick(
            f"What about {spot}?",
            f"Let me look at {spot}.",
            f"Now, {spot}. What can that be?",
            f"What goes in {spot}?",
            f"{opened(cell)}. What's left there?",
            f"Now for {spot}.",
        )
        answer = m.pick(
            f"Only {a}. Nothing else fits.",
            f"Just {the}. That's the last candidate.",
            f"It can't be anything but {a}.",
            f"Everything else has gone. Only {the} is left.",
            f"There's a single candidate, and it's {d}. So {spot} is {a}.",
            f"It's {a}. It has to be. There's no other candidate.",
            f"One candidate. {opened(the)}. So in it goes.",
        )
        seen = self._seen(m, e, put)
        way = m.rng.randrange(5)
        if way == 0 and seen:
            return f"{ask.replace(' What can that be?', '')} {seen} {m.pick(f'So it has to be {a}.', f'That leaves {the}.', f'So {spot} is {a}.')}"
        if way == 1:
            return m.pick(
                f"{opened(cell)} is {a}. What else could it be? Nothing.",
                f"{opened(a)} in {spot}. I've no other candidate there.",
                f"{opened(cell)} must be {a}. All its other candidates are gone.",
                f"Here's a naked single. {opened(cell)} is {a}.",
                f"{opened(cell)} has one candidate left. {opened(the)}. So I write {the} in.",
            )
        return f"{ask} {answer}{self.again(m, e)}"

    def _seen(self, m: Matter, e: _Ear, put: Put) -> str:
        """The digits that the cell sees, by column, row and box."""
        board, told, said = m.board, {put.digit}, []
        for kind in "crb":
            house = board.geometry.houses_of[put.cell][kind]
            cells = board.geometry.cells_of[house]
            here = {board.digits[cell][0] for cell in cells if cell in board.filled and cell != put.cell} - told
            told |= here
            if here:
                owned = e.ns(sorted(here))
                said.append(
                    f"{opened(e.house(house))} has {owned}{' already' if not said else ''}."
                    if kind != "b"
                    else f"The box has {owned}."
                )
        if len(told) < 9:
            said.append(m.pick("My pencil marks rule out the rest.", "The others I've crossed out before."))
        return " ".join(said)

    def hidden_single(self, m: Matter) -> str:
        e, put = _Ear(m), m.put
        assert put is not None
        cell, spot, a, the, d = e.cell(put.cell), e.spot(put.cell), e.a(put.digit), e.the(put.digit), e.no(put.digit)
        if not m.says("house"):
            return m.pick(
                f"Here's a hidden single. {opened(cell)} is {a}.",
                f"I see a hidden single. It's {a}, in {spot}.",
                f"Hidden single. {opened(the)}, in {spot}.",
            )
        kind = KINDS[m.house.kind]
        if not m.says("its"):
            return m.pick(
                f"What about {spot}? It's the only cell in its {kind} that can be {a}. So it's {a}.",
                f"{opened(cell)} is {a}. Nowhere else in its {kind} can take one.",
                f"Look at {spot}. No other cell in its {kind} can be {a}. So that's where {the} goes.",
                f"{opened(cell)}. Could {the} go anywhere else in that {kind}? No. So it's {a}.",
            )
        house, inner = e.where(), e.inner([put.cell], m.house)
        whole = inner.startswith("column") and " row" in inner
        scene = e.scene()
        ask = m.pick(
            f"Where can {the} go?",
            f"Where does {the} go?",
            f"I need {a} there. Where?",
            f"Where's {the}?",
            f"Who can take {the}?",
            f"{opened(the)} is missing. Where could it be?",
        )
        tried, joined = self._tried(m, e, put)
        must = m.pick(
            f"it has to be {inner}",
            f"it must be {inner}",
            f"{the} goes in {inner}",
            f"that leaves {inner}",
            f"it can only go in {inner}",
        )
        way = m.rng.randrange(10)
        if way < 4:
            out = f"{scene} {ask} {tried}{', so ' + must if joined else ' So ' + must}."
            if not whole and m.often(0.3):
                out += m.pick(f" {opened(cell)} is {a}.", f" So {spot} is {d}.", f" {opened(a)} in {spot}.")
            return out
        if way == 4:
            return f"{scene} {self._blocked(m, e, put)} So {the} has to be in {inner}.{self.again(m, e, 0.25)}"
        if way == 5:
            last = m.pick(f"Only {inner}.", f"Just {inner}, nowhere else.", f"{opened(inner)}, and that's the only place.")
            return f"{scene} {ask} {last}{self.again(m, e, 0.4)}"
        if way == 6:
            return m.pick(
                f"{opened(cell)} is {a}. Why? Because {house} has nowhere else for it.",
                f"I can put {a} in {spot}. It's the only place for {a} in {house}.",
                f"{opened(a)} goes in {spot}. Where else would {house} put it? Nowhere.",
                f"{opened(cell)} has to be {a}. No other cell in {house} can be.",
            )
        if way == 7:
            return f"Where does {the} go in {house}? {tried}{', so ' + must if joined else ' So ' + must}."
        if way == 8:
            return m.pick(
                f"{opened(house)} still needs {a}. {opened(inner)} can have it. Nothing else can. So {spot} is {a}.",
                f"{opened(house)} wants {a}. Only {inner} will do.",
                f"I'm looking for {the} in {house}. There's just one place. {opened(inner)}.",
                f"There's a hidden single in {house}. {opened(the)}. It goes in {inner}.",
            )
        return f"{scene} There's only one place left for {the}. {opened(inner)}.{self.again(m, e, 0.4)}"

    def _others(self, m: Matter, put: Put) -> list[int]:
        """The open cells of the house that cannot be the digit."""
        board = m.board
        return [c for c in board.gaps(m.house) if c != put.cell and not board.has(c, put.digit)]

    def _tried(self, m: Matter, e: _Ear, put: Put) -> tuple[str, bool]:
        """Places tried in vain. Does the sentence want going on?"""
        others = self._others(m, put)
        short = m.pick("Not {}", "It can't be {}", "Can't be {}")
        long = m.pick("Everywhere else is blocked.", "All the other places are out.", "I can't find a second place.")
        if not others or len(others) > (2 if m.house.kind == "b" else 4):
            return long, False
        names = [e.inner([c], m.house) if m.house.kind != "b" else e.spot(c) for c in others]
        if short.startswith("Not"):
            return ", ".join(f"{'Not' if at == 0 else 'not'} {name}" for at, name in enumerate(names)), True
        return short.format(listed(names, "or")) + ".", False

    def _blocked(self, m: Matter, e: _Ear, put: Put) -> str:
        """What keeps the digit out of the other places."""
        board, the = m.board, e.the(put.digit)
        plain = m.pick("Everything else is closed", "All the other cells are shut")
        marks = m.pick("I've crossed {} out in {}.", "{} is already crossed out in {}.")
        others = self._others(m, put)
        cross = {"c": "r", "r": "c"}.get(m.house.kind)
        if cross is None or not others:
            return f"{plain} to {the} there."
        lines, boxes, rest = [], [], []
        for c in others:
            line, box = board.geometry.houses_of[c][cross], board.geometry.houses_of[c]["b"]
            if board.placed(put.digit, line):
                lines.append(line)
            elif board.placed(put.digit, box):
                boxes += [box] if box not in boxes else []
            else:
                rest.append(c)
        said = []
        if lines:
            said.append(f"{opened(e.houses(lines))} {'have' if len(lines) > 1 else 'has'} {e.a(put.digit)} already.")
        for box in boxes:
            said.append(f"{opened(e.house(box))} has {'one, too' if said else e.a(put.digit)}.")
        if rest:
            said.append(opened(marks.format(the, e.inner(rest, m.house))))
        return " ".join(said)

    def again(self, m: Matter, e: _Ear, share: float = 0.15) -> str:
        """The conclusion once more."""
        put = m.put
        throw, way = m.often(share), m.rng.randrange(4)
        if put is None or not throw:
            return ""
        spot, a, d = e.spot(put.cell), e.a(put.digit), e.no(put.digit)
        return (
            f" So {spot} is {a}.",
            f" So that's {a} in {spot}.",
            f" {opened(e.cell(put.cell))}, {d}.",
            f" {opened(a)} in {spot}. Good.",
        )[way]

    def last_cell(self, m: Matter) -> str:
        e, put = _Ear(m), m.put
        assert put is not None
        cell, spot, a, the, d = e.cell(put.cell), e.spot(put.cell), e.a(put.digit), e.the(put.digit), e.no(put.digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return m.pick(
                f"{opened(cell)} is the last empty cell in its {kind}. So it's {a}.",
                f"What about {spot}? Its {kind} is full otherwise. It has to be {a}.",
                f"{opened(a)} in {spot}. That fills its {kind}.",
            )
        house, inner = e.where(), e.inner([put.cell], m.house)
        scene = e.scene()
        return m.pick(
            f"{scene} One cell to go. {opened(inner)}. What's missing? {opened(the)}.",
            f"{scene} What's missing here? Just {the}. And the only gap is {inner}.",
            f"{scene} It's full except for {inner}. So that's {a}.{self.again(m, e, 0.2)}",
            f"{opened(house)} has one gap left, {inner}. It needs {a}. There.",
            f"{opened(cell)} is {a}. That completes {house}.",
            f"Only {the} is missing from {house}. So {spot} is {a}.",
            f"{opened(house)} is nearly done. One gap, one digit. {opened(inner)} is {a}.",
            f"I can finish {house} now. {opened(a)} in {inner}.",
            f"{scene} All filled but one. Which? {opened(inner)}. And which digit? {opened(the)}, so {spot} is {d}.",
        )

    # Patterns.

    def locked(self, m: Matter) -> str:
        e, digit = _Ear(m), m.digits[0]
        assert m.crossing is not None
        house, line, kind = e.where(), e.house(m.crossing), KINDS[m.crossing.kind]
        a, the, s = e.a(digit), e.the(digit), e.s(digit)
        scene = e.scene()
        ask = m.pick(f"Where can {the} go?", f"Where are the {s}?", f"What about the {s}?", f"Where could {the} be?")
        if scene.endswith("?") and ask.startswith("What about"):
            ask = f"Where are the {s}?"
        if not m.says("crossing"):
            said = m.pick(
                f"{scene} {ask} They're all in one {kind}."
                if "are" in ask or "about" in ask
                else f"{scene} {ask} Only in one {kind}.",
                f"All the {s} in {house} are in the same {kind}.",
                f"I look at the {s} in {house}. They share a {kind}, every one of them.",
            )
            return self.so(m, e, said, m.pick(f"the rest of that {kind}", f"the other cells of that {kind}"), digit)
        plural = "are" in ask or "about" in ask
        if m.says("name") and m.often(0.5):
            if m.name == "pointing":
                said = m.pick(
                    f"{scene} The {s} there point along {line}.",
                    f"There are pointing {s} in {house}. They're all in {line}.",
                    f"{scene} {ask} Only in {line}. So they're pointing {s}."
                    if plural
                    else f"{scene} {ask} Only in {line}. That's a pointing {e.no(digit)}.",
                )
            else:
                said = m.pick(
                    f"{scene} It claims {the} of {line}.",
                    f"{scene} {ask} Only in {line}. So {house} claims {the} there.",
                    f"This is a claiming move. {opened(house)} has its {s} only in {line}.",
                )
        else:
            said = m.pick(
                f"{scene} {ask} {'They are all' if plural else 'It has to be somewhere'} in {line}.",
                f"{scene} {ask} Only in {line}.",
                f"{scene} {ask} {opened(line)}, and nowhere else.",
                f"Where does {the} go in {house}? I don't know which cell. But it's in {line}.",
                f"{opened(house)} needs {a}. And every place for it is in {line}.",
                f"I look at the {s} in {house}. They're all in {line}.",
                f"All the {s} in {house} are in {line}.",
                f"{scene} Is there {a} outside {line}? No. So {the} is somewhere in {line}.",
            )
        return self.so(m, e, said, m.pick(f"the rest of {line}", f"the rest of that {kind}", f"the rest of {line}"), digit)

    def naked(self, m: Matter) -> str:
        e = _Ear(m)
        held = m.says("house")
        scene = f"{e.scene()} " if held else m.pick("", "", "Hmm. ", "Now look here. ", "What have I got here? ")
        cells = e.inner(m.cells, m.house) if held else e.cells(m.cells)
        digits, either = e.ns(m.digits), e.ns(m.digits, "or")
        size = m.name.split()[1]
        two = len(m.cells) == 2
        both = "both" if two else "all"
        if not m.says("name"):
            said = m.pick(
                f"{opened(cells)} can only be {either}.",
                f"What can {cells} be? Just {either}.",
                f"{opened(cells)}. What's left for them? Only {digits}.",
                f"{opened(cells)} have nothing but {digits} between them. So they use up {digits}.",
                f"{opened(cells)} have only {digits} left. {'Two' if two else opened(NUMBERS[len(m.cells)])} cells, "
                f"{NUMBERS[len(m.digits)]} digits.",
                f"I see only {digits} in {cells}. I don't know which is where. But they take them all.",
            )
        else:
            said = m.pick(
                f"{opened(cells)} can only be {either}. That's a naked {size}.",
                f"There's a naked {size}. {opened(digits)}, in {cells}.",
                f"{opened(cells)} are a naked {size} of {digits}.",
                f"What can {cells} be? {opened(either)}. So I have a naked {size}.",
                f"I see a naked {size} in {cells}. The digits are {digits}.",
            )
        kinds = [KINDS[kind] for kind in m.plan.kinds]
        rest = "the rest of the " + " and the ".join(kinds) if kinds else f"the cells that see {both} of them"
        if not held and said.startswith("What"):
            scene = ""
        return self.so(m, e, scene + said, m.pick(rest, rest, f"the cells that see {both} of them"))

    def hidden(self, m: Matter) -> str:
        e = _Ear(m)
        held = m.says("house")
        scene = f"{e.scene()} " if held else m.pick("", "Hmm. ", "Look at this. ")
        cells = e.inner(m.cells, m.house) if held else e.cells(m.cells)
        digits, either = e.ns(m.digits), e.ns(m.digits, "or")
        size = m.name.split()[1]
        if not m.says("name"):
            said = m.pick(
                f"Where can {digits} go? Only in {cells}.",
                f"The digits {digits} only fit in {cells}.",
                f"Which cells can take {digits}? Just {cells}. No others.",
                f"Only {cells} can be {either}.",
                f"I need places for {digits}. I have {cells}, and nothing else.",
                f"What about {digits}? They all have to go in {cells}. So those cells are full up.",
            )
        else:
            said = m.pick(
                f"Where can {digits} go? Only in {cells}. That's a hidden {size}.",
                f"There's a hidden {size}. {opened(digits)}, in {cells}.",
                f"I see a hidden {size} of {digits}. It's in {cells}.",
                f"The digits {digits} make a hidden {size} in {cells}.",
                f"{opened(cells)} hide a {size}. It's {digits}.",
            )
        return self.so(m, e, scene + said, "")

    def fish(self, m: Matter) -> str:
        e, digit = _Ear(m), m.digits[0]
        base, cover = e.houses(m.houses), e.houses(m.cover)
        kind, cross = KINDS[m.houses[0].kind], KINDS[m.cover[0].kind]
        the, s = e.the(digit), e.s(digit)
        shown = m.name.replace("x-wing", "X-wing")
        fish = f"{'an' if shown.startswith('X') else 'a'} {shown}"
        if m.plan.corners:
            corners = [cell for column in range(9) for cell in range(column, 81, 9) if _crosses(cell, m)]
            told = e.cells(corners)
            said = m.pick(
                f"There's {fish} of {s} in the {kind}s. The corners are {told}.",
                f"Look at the {s} in the {kind}s. Four of them make {fish}. They're in {told}.",
            )
            return self.so(m, e, said, f"the rest of both {cross}s", digit)
        each = " ".join(f"In {e.house(house)}, {e.houses(m.cover, 'or')}." for house in m.houses)
        look = m.pick(f"Let me follow the {s}.", f"Now, the {s}.", f"What do the {s} do?", f"Let's look at the {s}.")
        if not m.says("name"):
            said = m.pick(
                f"{look} In {base}, where can they go? Only in {cover}.",
                f"{look} {opened(base)} have them only in {cover}.",
                f"Where can {the} go in {base}? {opened(cover)}. Nowhere else.",
                f"{look} {opened(base)} each need one. And all the places are in {cover}. So {cover} are taken.",
            )
        elif not m.says("cover"):
            said = m.pick(
                f"{look} In {base} they make {fish}.",
                f"There's {fish} of {s} in {base}.",
                f"Do the {s} in {base} line up? They do. It's {fish}.",
            )
        else:
            said = m.pick(
                f"{look} In {base}, where can they go? Only in {cover}. That's {fish}.",
                f"There's {fish} of {s}. It's in {base}, and they meet {cover}.",
                f"{look} {opened(base)} have them only in {cover}. So it's {fish}.",
                f"Where can {the} go? {each} That's {fish}.",
                f"Could this be {fish} of {s}? {opened(base)} have them in {cover} and nowhere else. Yes, it is.",
                f"{look} In {base} they're all in {cover}. {opened(fish)}, then.",
            )
        rest = f"the rest of {cover}" if m.says("cover") and m.often(0.6) else f"the rest of those {cross}s"
        return self.so(m, e, said, rest, digit)

    def finned(self, m: Matter) -> str:
        e, digit = _Ear(m), m.digits[0]
        base, cover, fins = e.houses(m.houses), e.houses(m.cover), e.cells(m.fins)
        cross = KINDS[m.cover[0].kind]
        s = e.s(digit)
        several = len(m.fins) > 1
        fin, is_ = ("fins", "are") if several else ("fin", "is")
        plain = m.name.removeprefix("finned ").replace("x-wing", "X-wing")
        fish = f"{'an' if plain.startswith('X') else 'a'} {plain}"
        look = m.pick(f"Let me follow the {s}.", f"Now, the {s}.", f"Let's look at the {s}.", f"The {s} again.")
        said = m.pick(
            f"{look} {opened(base)} have them in {cover}. Well, nearly. There's {'more' if several else 'one more'}, in {fins}. "
            f"So it's a finned {plain}, and the {fin} {is_} {fins}.",
            f"There's a finned {plain} of {s}. It's in {base}, and they meet {cover}. The {fin} {is_} {fins}.",
            f"{look} In {base} they're almost {fish} in {cover}. What spoils it? The {fin} in {fins}.",
            f"Is this {fish} of {s}? {opened(base)} have them only in {cover}, except for {fins}. So it has {'' if several else 'a '}{fin}. "
            f"A finned {plain}.",
            f"{look} {opened(base)}, {cover}. That would be {fish}, but there {is_} {'' if several else 'a '}{fin}, {fins}.",
        )
        hint = m.pick(
            f"the cells in {cover} that see {'all the fins' if several else 'the fin'}",
            f"any cell in those {cross}s that sees {'every fin' if several else 'the fin'} too",
        )
        return self.so(m, e, said, hint, digit)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        e = _Ear(m)
        pivot, first, second = e.spot(m.pivot), e.spot(m.cells[0]), e.spot(m.cells[1])
        one, other, both = (e.a(digit) for digit in m.plan.shared)
        ds, last = e.ns(m.plan.shared[:2], "or"), m.plan.shared[2]
        if m.says("name"):
            said = m.pick(
                f"I think there's an XY-wing here. The pivot is {pivot}. And the wings? {opened(first)} and {second}.",
                f"Look at {pivot}. It's the pivot of an XY-wing. The wings are {first} and {second}.",
                f"Here's an XY-wing. Pivot in {pivot}. Wings in {first} and {second}. "
                f"If the pivot is {one}, {first} is {both}. If the pivot is {other}, {second} is {both}.",
                f"An XY-wing, with {pivot} as the pivot. {opened(first)} is one wing. {opened(second)} is the other.",
            )
            where = m.pick("the cells that see both wings", "any cell that sees both wings")
        else:
            said = m.pick(
                f"Look at {pivot}. It's {ds}. What if it's {one}? Then {first} is {both}. And if it's {other}? Then {second} is "
                f"{both}. So there's {both} in {first} or {second}.",
                f"Let me try {pivot} both ways. With {one} there, {first} is {both}. With {other} there, {second} is {both}.",
                f"{opened(pivot)} can be {ds}. If it's {one}, {first} has to be {both}. If it's {other}, {second} has to be {both}. "
                f"Either way, one of those two is {both}.",
                f"Say {pivot} is {one}. Then {first} is {both}. Now say {pivot} is {other}. Then {second} is {both}. "
                f"There's no third choice.",
            )
            where = m.pick(f"the cells that see both {first} and {second}", f"any cell that sees {first} and {second}")
        return self.so(m, e, said, where, last, after=True)

    def xy_chain(self, m: Matter) -> str:
        e = _Ear(m)
        cells = [e.spot(cell) for cell in m.cells]
        first, last, end, back = cells[0], cells[-1], e.a(m.digits[0]), e.a(m.digits[-1])
        start = m.pick(
            "Let me try a chain.", "Let me follow this along.", "What happens if I follow these cells?", "Now a chain."
        )
        if m.says("name"):
            start = m.pick("There's an XY-chain here.", "Let me try an XY-chain.", "I see an XY-chain.")
        way = m.rng.randrange(4)
        if way < 2:
            said = m.pick(
                f"{start} Suppose {first} isn't {end}.",
                f"{start} What if {first} isn't {end}?",
                f"{start} Say {first} is not {end}.",
            )
            said += f" Then it's {e.a(m.digits[1])}."
            for cell, digit in zip(cells[1:], m.digits[2:], strict=True):
                said += m.pick(" So", " Then", " And then", " That means") + f" {cell} is {e.a(digit)}."
            said += m.pick(f" So {first} or {last} is {end}.", f" So one of the two ends is {end}.", "")
        elif way == 2:
            said = start
            for cell, one, other in zip(cells, m.digits, m.digits[1:], strict=False):
                said += f" {opened(cell)} is {e.a(one)} or {e.a(other)}."
            said += m.pick(f" So one end or the other is {end}.", f" If {first} isn't {end}, {last} is.")
        else:
            said = f"{start} I'll start from {last}. If that's not {back}, it's {e.a(m.digits[-2])}."
            for cell, digit in zip(cells[-2::-1], m.digits[-3::-1], strict=True):
                said += m.pick(" So", " Then", " And then") + f" {cell} is {e.a(digit)}."
            said += m.pick("", f" Either way, there's {end} at one end.")
        return self.so(
            m, e, said, m.pick("the cells that see both ends", "any cell that sees both ends"), m.digits[0], after=True
        )

    def x_chain(self, m: Matter) -> str:
        e, digit = _Ear(m), m.digits[0]
        a, the, s = e.a(digit), e.the(digit), e.s(digit)
        cells = [e.spot(cell) for cell in m.cells]
        first, last = cells[0], cells[-1]
        named = m.says("name")
        start = m.pick(f"Let me follow the {s}.", f"Now, the {s} again.", f"What do the {s} do here?")
        if named:
            start = m.pick(f"There's an X-chain of {s}.", f"Let me try an X-chain on the {s}.", f"An X-chain of {s}, I think.")
        way = m.rng.randrange(4)
        if way == 3 and named:
            said = f"{start} It goes {', then '.join(cells)}."
        elif way < 2:
            said = start + m.pick(f" Suppose {first} isn't {a}.", f" What if {first} isn't {a}?")
            for at, (one, other, kind) in enumerate(zip(cells[::2], cells[1::2], m.plan.ways, strict=True)):
                if at:
                    said += f" Then {one} isn't."
                said += m.pick(
                    f" Then {other} is {a}. It's the only other place in the {KINDS[kind]}.",
                    f" So {other} is {a}. The {KINDS[kind]} has no other place.",
                    f" Then {other} has to be {a}.",
                )
            said += m.pick(f" So {first} or {last} is {a}.", f" So one of the ends is {a}.", "")
        else:
            said = f"{start} Is {the} in {first}? If not, it's in {cells[1]}."
            for one, other in zip(cells[2::2], cells[3::2], strict=True):
                said += m.pick(f" Then it's not in {one}. So it's in {other}.", f" Then {one} isn't {a}, and {other} is.")
            said += m.pick(f" So {first} or {last} is {a}.", f" Either way, there's {a} at one end.")
        return self.so(m, e, said, m.pick("the cells that see both ends", "any cell that sees both ends"), digit, after=True)

    def chain(self, m: Matter) -> str:
        e = _Ear(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        absurd = (first, digit) == (last, end) and holds != supposed
        start, a = e.spot(first), e.a(digit)
        isnt = m.pick("isn't", "is not")
        opposite = f"{start} {isnt if supposed else 'is'} {a}"
        said = m.pick(
            f"What if {start} {'is' if supposed else isnt} {a}?",
            f"Suppose {start} {'is' if supposed else isnt} {a}.",
            f"Let me try something. Say {start} {'is' if supposed else isnt} {a}.",
            f"Now, could {start} be {a}? Suppose it {'is' if supposed else isnt}."
            if supposed
            else f"Suppose {start} {isnt} {a}.",
        )
        then_said = False
        for (before, _, _), (cell, is_, other) in pairwise(m.links):
            then = m.pick("Then", "So", "And then", "That means", "Then", "So then")
            if not then_said and then in ("So", "And then", "So then"):
                then = "Then"
            then_said = True
            name = m.pick("it", "that cell", "it") if cell == before else e.spot(cell)
            verb = m.pick("is", "has to be", "is") if is_ else m.pick("isn't", "can't be", "is not")
            said += f" {then} {name} {verb} {e.a(other)}."
        if absurd:
            said += m.pick(
                " But that's a contradiction.", " That can't be.", " And that's impossible.", " No, that doesn't work."
            )
            if m.plan.natural:
                return said + m.pick(
                    f" So {opposite}.", f" So {opposite} after all.", f" That means {opposite}.", f" Good. {opened(opposite)}."
                )
        elif m.often(0.5):
            final = f"{e.spot(last)} {'is' if holds else isnt} {e.a(end)}"
            said += m.pick(f" So either {opposite}, or {final}.", f" One or the other, then. {opened(opposite)}, or {final}.")
        return self.so(
            m, e, said, m.pick("the cells that see both ends", "any cell that sees both of those"), digit, after=True
        )

    def facts(self, m: Matter) -> str:
        e = _Ear(m)
        said = []
        for what in m.cited:
            if isinstance(what, int):
                said.append(f"the candidates in {e.spot(what)}")
            else:
                said.append(f"the places for {e.the(what[0])} in {e.house(what[1])}")
        several = len(said) > 1
        words = listed(said, comma=True)
        tail = self.conclusion(m, e)
        if len(m.effects) > 2:
            return f"Let me look at {words}. {tail}"
        return m.pick(
            f"Let me look at {words}. What follows? {tail}",
            f"I only need {words}. {tail}",
            f"Look at {words}. {m.pick('Try them all.', 'Whichever way that goes, I get the same thing.')} {tail}",
            f"{tail} Why? Because of {words}.",
            f"Take {words}. {'Put those together.' if several else 'Go through them.'} {tail}",
        )

    def bare(self, m: Matter) -> str:
        e = _Ear(m)
        tail = self.conclusion(m, e)
        return m.pick(
            tail,
            f"{tail} Take my word for it.",
            f"{tail} I'll leave you to find out why.",
            f"I'll just tell you this one. {tail}",
        )

    # Effects.

    def so(self, m: Matter, e: _Ear, said: str, where: str, digit: int | None = None, after: bool = False) -> str:
        order = m.rng.randrange(8)
        why = m.pick("Why?", "How do I know?", "Why's that?")
        if m.plan.natural:
            return f"{said} {self.hinted(m, e, where, digit)}"
        tail = self.conclusion(m, e) + self.once_more(m, e)
        if order == 0 and not after and len(m.effects) < 3:
            return f"{tail} {why} {said}"
        lead = m.pick(
            "So ", "So ", "So ", "", "That means ", "Which means ", "And so ", "Therefore, ", "What does that give me? "
        )
        if lead.endswith(("? ",)) or not lead:
            return f"{said} {lead}{tail}"
        return f"{said} {lead}{tail[:1].lower() if not tail.startswith('I ') else 'I'}{tail[1:]}"

    def once_more(self, m: Matter, e: _Ear) -> str:
        """What one short effect says, again."""
        (effect, *others), throw, way = m.effects, m.often(0.2), m.rng.randrange(2)
        if others or not throw:
            return ""
        if isinstance(effect, Put):
            return (
                f" {opened(e.a(effect.digit))} in {e.spot(effect.cell)}.",
                f" Yes, {e.spot(effect.cell)} is {e.a(effect.digit)}.",
            )[way]
        if isinstance(effect, Strike) and len(effect.cells) == len(effect.digits) == 1:
            spot = e.spot(effect.cells[0])
            return (f" No {e.no(effect.digits[0])} in {spot}, then.", f" That's {e.the(effect.digits[0])} gone from {spot}.")[
                way
            ]
        return ""

    def conclusion(self, m: Matter, e: _Ear) -> str:
        """The effects as sentences."""
        said = [self.effect(m, e, effect) for effect in m.effects]
        if len(said) == 2 and m.often(0.5):
            return opened(f"{said[0]}, and {said[1]}.")
        also = m.pick("And ", "Also, ", "")
        out = f"{opened(said[0])}."
        for at, one in enumerate(said[1:], 1):
            last = at == len(said) - 1
            out += f" {opened(one)}." if not last or not also else f" {also}{one}."
        return out

    def hinted(self, m: Matter, e: _Ear, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            these = f"those {NUMBERS[len(m.cells)]} cells"
            return m.pick(
                f"So everything else goes from {these}.",
                f"So {these} can't be anything else.",
                f"So I can cross out all the other candidates in {these}.",
                f"Which means there's no room for anything else in {these}.",
            )
        digits = [digit] if digit else m.digits
        if len(digits) > 1:
            return m.pick(
                f"So those digits go from {where}.",
                f"So I can take {e.ns(digits)} out of {where}.",
                f"So there's no {e.ns(digits, 'or')} in {where}.",
                f"I can cross out {e.ns(digits)} in {where}.",
            )
        a, the, s, d = e.a(digits[0]), e.the(digits[0]), e.s(digits[0]), e.no(digits[0])
        return m.pick(
            f"So there's no {d} in {where}.",
            f"So {the} goes from {where}.",
            f"So I can take the {s} out of {where}.",
            f"I can cross out {the} in {where}.",
            f"So {where} can't be {a}." if where.startswith("any cell") is False else f"So there can't be {a} in {where}.",
            f"Which means there's no {d} in {where}.",
        )

    def effect(self, m: Matter, e: _Ear, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, spot, a, d = e.cell(effect.cell), e.spot(effect.cell), e.a(effect.digit), e.no(effect.digit)
            return m.pick(
                f"{spot} is {a}",
                f"{spot} has to be {a}",
                f"{a} goes in {cell}",
                f"I can put {a} in {cell}",
                f"{spot} must be {d}",
            )
        digits, either = e.ns(effect.digits), e.ns(effect.digits, "or")
        several = len(effect.digits) > 1
        a = either if several else e.a(effect.digits[0])
        the = digits if several else e.the(effect.digits[0])
        if isinstance(effect, Clear):
            house = e.house(effect.house)
            return m.pick(
                f"there's no {either} in the rest of {house}",
                f"{the} {'go' if several else 'goes'} from the rest of {house}",
                f"nothing else in {house} can be {a}",
                f"I can cross out {digits} in the rest of {house}",
                f"the other cells in {house} can't be {a}",
            )
        cells = e.cells(effect.cells)
        these = len(effect.cells) > 1
        mid = cells if these else e.spot(effect.cells[0])
        return m.pick(
            f"{mid} can't be {either if these else a}",
            f"there's no {either} in {cells}",
            f"I can take {digits} out of {cells}",
            f"{mid} {'lose' if these else 'loses'} {the}",
            f"{the} {'go' if several else 'goes'} from {cells}",
            f"I can cross out {digits} in {cells}",
            f"{mid} {'are' if these else 'is'} not {either if these else a}",
        )

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Good evening from the Lamp Room. I haven't looked at this one at all.",
                    "Hello, everybody. The kettle's on, the lamp's lit, and here's tonight's grid.",
                    "Evening. I'm going to think out loud, so you'll hear all my muddles.",
                    "Right. Pencil, rubber, tea. Let's have a look at this.",
                )
            )
        )
        if rng.random() < 0.5:
            yield Piece(
                rng.choice(
                    ("I always look down the columns first.", "I've pencilled in the candidates.", "Where shall I begin?")
                )
            )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.12:
            yield Piece(
                rng.choice(
                    (
                        "Let me think.",
                        "Oh, that's pretty.",
                        "Hmm. What next?",
                        "Good.",
                        "I had to stare at this for a while.",
                        "A ship's going by. Hello, ship.",
                        "Am I missing something?",
                        "Let me have a sip of tea.",
                        "We're getting somewhere.",
                        "Sorry, that was the gulls.",
                        "Lovely.",
                    )
                )
            )

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "And that's the whole grid. Well, well.",
                    "Done. My tea's gone cold.",
                    "There. Every cell is filled. Thank you for keeping me company.",
                )
            )
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        vtt = rng.random() < 0.5
        voice = rng.choice(("", "", "<v Keeper>")) if vtt else ""
        cut = Captioned(vtt, rng.choice((34, 38, 42)), 2, rng.choice((0.4, 0.7)), 2.6, voice, rng.random() < 0.3)
        return ("vtt" if vtt else "srt"), captions(pieces, cut, rng)


def _crosses(cell: int, m: Matter) -> bool:
    houses = m.board.geometry.houses_of[cell].values()
    return any(house in m.houses for house in houses) and any(house in m.cover for house in houses)
